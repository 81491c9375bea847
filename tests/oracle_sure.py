"""What is known in the oracle's shop: the checks of its gauge, what its log of pulls teaches row
by row, and how sure that makes each drag. The measurement itself is oracle_measure.py."""
import datetime
import math
from fractions import Fraction as F

import oracle_measure as measure
import oracle_nut
from oracle_shop import Quantity, UNITS
from oracle_shown import power_of_lead


def two_digits_up(value):
    """All that rounding up to two digits may give, float noise allowed."""
    found = set()
    for number in (F(value) * (1 - F(1, 10**9)), F(value) * (1 + F(1, 10**9))):
        place = F(10) ** (power_of_lead(number) - 1)
        count = math.ceil(number / place)
        found.add((10 * place * 10, place * 10) if count == 100 else (count * place, place))
    return found


def read_series(row):
    """The pulls of a row: numbers with a unit each, or one behind the last."""
    words = row["pulls"].split()
    unit = words[-1] if words[-1] in UNITS else ""
    return [Quantity(word if word[-1].isalpha() else f"{word} {unit}") for word in words if word not in UNITS]


def sessions_of(shop):
    """The weighings of one day by one person, oldest first."""
    groups = {}
    for row in shop.settings.get("gauge-check.csv", []):
        load = Quantity(row["load"])
        groups.setdefault((row["date"], row.get("by") or ""), []).append(measure.Weighing(
            shop.on(row["date"]).force(load), row["direction"] == "down", float(Quantity(row["reading"]).base),
            UNITS[load.unit][0] == "mass",
            float(Quantity(row["tolerance"]).base) / 100 if row.get("tolerance") else 0.005, load,
            row.get("masses"), row.get("certificate")))
    sessions = [(key[0], measure.Session(rows, float(shop.on(key[0]).step.base)))
                for key, rows in sorted(groups.items())]
    for (_, session), key in zip(sessions, sorted(groups)):
        session.day, session.by = key
    return sessions


class Slack:
    """Pulls with the nut slack, from which an increase counts: their mean and width, N, and the
    effective radius at which they were taken."""

    def __init__(self, mean, n, width, radius):
        self.mean, self.n, self.width, self.radius = mean, n, width, radius


class Day:
    """What is known on a day (None: after all that there is) before a series is taken."""

    def __init__(self, shop, sessions, scatter, between, slack=None):
        """shop: the settings in force; sessions: of the gauge up to that day. slack: of the same
        job, or None: what is typed stands for the usual pulls."""
        self.shop, self.gauge, self.scatter, self.between = shop, shop.gauge, scatter, between
        self.checks = measure.Checks(sessions)
        self.line = self.checks.lines()[0]
        radius = shop.radius(shop.drum)
        self.slack = self.slack_drag = None
        if shop.is_increase:
            typed = self.line.reading(self.force(shop.slack, radius))
            self.slack = slack or Slack(typed, shop.pull_count, self.usual_width(typed), radius)
            self.slack_drag = self.whole(self.slack.mean, self.slack.radius)

    def usual_width(self, mean):
        return 2 * math.sqrt(self.scatter.variance()) * mean

    def force(self, drag, radius):
        return float(drag) / float(radius) / (1 - self.shop.lost / 2)

    def reading(self, drag, radius):
        """What the gauge shows (N) of a drag, or of an increase with the slack drag."""
        return self.line.reading(self.force(float(drag) + (self.slack_drag or 0.0), radius))

    def slack_reading(self, radius):
        """Of the slack drag on another drum."""
        return (self.slack.mean if radius == self.slack.radius
                else self.line.reading(self.force(self.slack_drag, radius)))

    def whole(self, reading, radius):
        """The drag of a reading."""
        return self.line.force(float(reading)) * float(radius) * (1 - self.shop.lost / 2)

    def known(self, mean, n, width, scatter=None):
        return measure.Known(mean, n, width, scatter or self.scatter, self.between, self.gauge.step)

    def usual(self, mean):
        """The usual pulls with that mean (N), as wide as is known."""
        return self.known(mean, self.shop.pull_count, self.usual_width(mean))

    def rig(self, drum=None, cord=None):
        shop = self.shop
        sizes = (drum or shop.drum, cord or shop.cord, shop.drum_tolerance, shop.cord_tolerance)
        return measure.Rig(*(float(size.base) for size in sizes), math.radians(float(shop.skew.base)))

    def judged(self, known, drum=None, cord=None, steadily=False, scatter=None):
        """scatter: as it is known with these pulls; it counts for the slack ones too."""
        slack = None
        if self.slack:  # the same slack drag, on that drum
            radius = ((drum or self.shop.drum).base + (cord or self.shop.cord).base) / 2
            slack = self.known(self.slack_reading(radius), self.slack.n, self.slack.width, scatter)
        return measure.Judgement(known, self.rig(drum, cord), self.gauge, self.checks, slack, steadily)

    def judged_at(self, mean, drum=None):
        """Of the usual pulls."""
        return self.judged(self.usual(mean), drum)

    def good_readings(self, band):
        radius = self.shop.radius(self.shop.drum)
        low, high = float(band.low.base), float(band.high.base)
        return measure.good_readings(lambda mean: self.judged_at(mean).state(low, high) == measure.GOOD,
                                     self.reading(band.low.base, radius), self.reading(band.high.base, radius))


class Row:
    """A row of the log, judged by what is known before it and what its own pulls teach."""

    def __init__(self, raw, is_unloaded, shop, sessions):
        """shop, sessions: the settings in force, and those of the gauge, on its day."""
        self.raw, self.is_unloaded, self.shop, self.sessions = raw, is_unloaded, shop, sessions
        self.quantities = read_series(raw)
        self.date = datetime.date.fromisoformat(raw["date"])
        self.drum = Quantity(raw["drum"]) if raw.get("drum") else shop.drum
        self.cord = Quantity(raw["cord"]) if raw.get("cord") else shop.cord
        self.rig = (self.drum.base, self.cord.base)
        self.pulls = [float(pull.base) for pull in self.quantities]
        self.mean, self.width = measure.mean_of(self.pulls), max(self.pulls) - min(self.pulls)

    def judge(self, scatter, between, slack):
        step = float(self.shop.step.base)
        self.rejected = measure.is_rejected(self.pulls, scatter, step)
        self.says_drag = self.raw["says"] = any(self.pulls) and not self.rejected  # else it serves for nothing
        steadily = measure.trend(self.pulls, scatter, step) != 0
        self.day = Day(self.shop, self.sessions, scatter, between, slack)
        with_it = scatter.copy()
        with_it.learn(self.pulls, step)
        known = self.day.known(self.mean, len(self.pulls), self.width, with_it)
        self.judgement = self.day.judged(known, self.drum, self.cord, steadily, with_it)

    def alike(self, other):
        """Taken as another that came right before it, at the same place of the nut, said by both."""
        keys = ("date", "direction", "warmth", "lock")
        if any((self.raw.get(key) or "") != (other.raw.get(key) or "") for key in keys):
            return False
        nuts = [Quantity(one.raw["nut"]).base if one.raw.get("nut") else None for one in (self, other)]
        return self.rig == other.rig and None not in nuts and nuts[0] == nuts[1]


def slack_of(before, rig, then=None):
    """The slack pulls of the job that goes on after some rows, on that drum and cord; then: the
    row that follows them, if one does."""
    for row in reversed(before):
        if then and not oracle_nut.same_job(row.raw, then):
            return None
        then = row.raw
        if row.is_unloaded and row.says_drag:
            return Slack(row.mean, len(row.pulls), row.width, sum(rig) / 2) if row.rig == rig else None
    return None


def judged_log(shop):
    """All rows of the log, and what is known after them. Learned is from every scatter with which
    some settings begin: what they would have known, had they been in force from the first row on."""
    priors = {one.scatter.base for one in [shop, shop.filed] + [then for _, then in shop.earlier]}
    learned = {prior: (measure.Scatter(float(prior) / 100), measure.Between()) for prior in priors}
    rows, group, log = [], [], shop.settings.get("readings.csv", [])
    sessions = sessions_of(shop)
    for raw, (is_unloaded, _) in zip(log, oracle_nut.course(log)):
        then = shop.on(raw["date"])
        row = Row(raw, is_unloaded, then, [one for date, one in sessions if date <= raw["date"]])
        scatter, between = learned[then.scatter.base]
        row.judge(scatter.copy(), between.copy(), slack_of(rows, row.rig, raw))
        rows.append(row)
        if not row.says_drag:
            continue
        group = group if group and row.alike(group[-1]) else []
        for scatter, between in learned.values():
            between.learn(row.mean, [one.mean for one in group], scatter.of_mean(len(row.pulls)))
            scatter.learn(row.pulls, float(then.step.base))
        group.append(row)
    scatter, between = learned[shop.scatter.base]
    return rows, Day(shop, [one for _, one in sessions], scatter, between,
                     slack_of(rows, (shop.drum.base, shop.cord.base)))
