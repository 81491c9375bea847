"""The oracle's record of a setting: jobs of the log, certificate, history and lift
test. See oracle.py."""
import datetime
import math
from fractions import Fraction as F

from oracle_nut import same_job
from oracle_shop import NBSP, Quantity, shown_unit
from oracle_shown import digits, nearest, nearest_signed, places_of, significant
from oracle_sure import read_series, two_digits_up
from oracle_warm import fahrenheit


class Row:
    """A row of the log with its judged cells."""

    def __init__(self, raw, cells, shop):
        """shop: the settings in force on its day."""
        self.raw, self.cells, self.says = raw, cells, raw["says"]
        self.wanted = shop.settings.get("limits.warmth") == "warm"
        self.day = datetime.date.fromisoformat(raw["date"])
        self.nut = Quantity(raw["nut"]) if raw.get("nut") else None
        sizes = [Quantity(raw[key]).base if raw.get(key) else own.base
                 for key, own in (("drum", shop.drum), ("cord", shop.cord))]
        self.lock, self.usual = raw.get("lock") or "", raw["direction"] == "usual"
        self.warm, self.rig = raw["warmth"] == "warm", sizes

    def stays(self, other):
        """The nut was not moved, as far as the log says."""
        if (self.lock == "unloaded") != (other.lock == "unloaded"):
            return False
        return self.nut is None or other.nut is None or self.nut.base == other.nut.base

    def fits_its_cap(self, shop):
        """Warm caps are above the room, cold ones near it."""
        if not self.raw.get("temperature"):
            return True
        room, cap = (fahrenheit(text) for text in (shop.settings.get("run-in.room", "20 degC"), self.raw["temperature"]))
        above = (cap - room) * F(5, 9)
        return above > 2 if self.warm else abs(above) <= 15

    def said(self, key):
        return Quantity(self.raw[key]).shown() if self.raw.get(key) else "not said"

    def warmth(self):
        return self.raw["warmth"] + (", " + self.said("temperature") if self.raw.get("temperature") else "")


class Job:
    def __init__(self, rows):
        first = rows[0]
        self.found = first if first.lock not in ("before", "unloaded") and first.usual and first.says else None
        closing = [i for i, row in enumerate(rows) if row.says and (row.lock, row.usual, row.warm) == ("after", True, row.wanted)]
        self.left = rows[closing[-1]] if closing else None
        if not closing:
            return
        warm = self.left.warm
        begin = end = at = closing[-1]
        place = self.left  # the first row met, backward and then forward, that says where
        while begin and rows[begin - 1].stays(place):
            begin -= 1
            place = place if place.nut else rows[begin]
        while end + 1 < len(rows) and rows[end + 1].stays(place):
            end += 1
            place = place if place.nut else rows[end]
        here = [(i, row) for i, row in enumerate(rows) if begin <= i <= end and row.says and row.rig == self.left.rig]
        last = lambda wanted: ([row for i, row in here if wanted(i, row)] or [None])[-1]
        self.before = last(lambda i, row: i < at and (row.lock, row.usual, row.warm) == ("before", True, warm))
        self.other = last(lambda i, row: (row.lock, row.usual, row.warm) == (self.left.lock, False, warm))
        self.warmed = last(lambda i, row: (row.lock, row.usual, row.warm) == (self.left.lock, True, not warm))


def jobs(shop, judged):
    rows = [Row(raw, cells, shop.on(raw["date"])) for raw, cells in zip(shop.settings.get("readings.csv", []), judged)]
    groups = []
    for row in rows:
        if groups and same_job(groups[-1][-1].raw, row.raw):
            groups[-1].append(row)
        else:
            groups.append([row])
    found, place, was_set = [], None, False
    for group in groups:
        for row in group:  # unlocked, or elsewhere than the last that says where
            was_set |= row.lock in ("before", "unloaded") or bool(place and not row.stays(place))
            place = row if row.nut else place
        job, name = Job(group), group[0].raw.get("job")
        job.steps = [step for step in shop.settings["steps"] if name and step["job"] == name]
        if name and "closed" not in [step["step"] for step in job.steps]:
            job.left = None
        if job.left:
            job.was_set, was_set = was_set, False
            found.append(job)
    return found


def setting(closed):
    """The last job in which the nut was set, and the last check since or None; where the
    log knows of none, the last job."""
    at = max([i for i, job in enumerate(closed) if job.was_set], default=len(closed) - 1)
    return closed[at], closed[-1].left if at + 1 < len(closed) else None


def record(shop, judged):
    closed = jobs(shop, judged)
    if not closed:
        return [["none"]]
    (job, since), width = setting(closed), 8 if shop.bands else 7
    named = [("as found", job.found), ("before locking", job.before), ("other way round", job.other),
             ("cold" if job.left.warm else "warm", job.warmed), ("as left", job.left),
             ("checked since", since)]
    return [[name] + (["none"] * (width - 1) if row is None else
                      [row.raw["date"], row.said("nut"), row.warmth(), row.cells[3], row.cells[5],
                       row.cells[6]] + row.cells[8:])
            for name, row in named]


def year_later(day):
    """On the 28th where the year has no 29th of February."""
    try:
        return day.replace(year=day.year + 1)
    except ValueError:
        return day.replace(year=day.year + 1, day=28)


def pulls(shop, judged):
    """Every pull of the series that the record rests on, as it was read."""
    closed = jobs(shop, judged)
    if not closed:
        return [["none"]]
    job = setting(closed)[0]
    rig = lambda row: ", ".join(Quantity(row.raw[key]).shown() if row.raw.get(key) else own.shown()
                                for key, own in (("drum", shop.on(row.raw["date"]).drum),
                                                 ("cord", shop.on(row.raw["date"]).cord)))
    read = lambda row: read_series(row.raw)
    listed = lambda row: ", ".join(pull.digits if then and pull.unit == then.unit else pull.shown()
                                   for pull, then in zip(read(row), read(row)[1:] + [None]))
    note = lambda row: row.raw.get("note", "").lstrip(" ") if row.raw.get("job") else ""
    return [[name, row.raw["date"], listed(row), row.said("breakaway"), rig(row),
             row.raw.get("by") or "not said", note(row) or "none"]
            for name, row in (("as found", job.found), ("before locking", job.before), ("as left", job.left)) if row]


def steps(shop, judged):
    """What was done and shows in no pull."""
    closed = jobs(shop, judged)
    if not closed or not setting(closed)[0].steps:
        return [["none"]]
    rows = []
    for step in setting(closed)[0].steps:
        shown = lambda key: Quantity(step[key]).shown()
        words = [f"{shown('speed')} for {shown('minutes')}, cap {shown('temperature')}"] if step["step"] == "run-in" else []
        words += [f"room {shown('room')}"] if step.get("room") else []
        rows.append([step["date"], step["step"].replace("-", " "),
                     "; ".join(part for part in (", ".join(words), step.get("note")) if part) or "not said",
                     step.get("by") or "not said"])
    return rows


def chance_shown(shop, last, found):
    """In per cent, two digits up, no less than 0.01; found: the table's rows."""
    judgement, then = next((row.judgement, row.shop) for row in shop.log if row.raw is last.raw)
    low, high = (float(limit.base) for limit in (then.own_band().low, then.own_band().high))
    percent = 100 * judgement.outside(low, high)
    texts = ["0.01"] if percent < 0.01 else [digits(value, places_of(place))
                                              for value, place in sorted(two_digits_up(percent))]
    texts = [text + NBSP + "%" for text in texts]
    shown = [row[1].text for row in found if row[1].text in texts]
    return (shown + texts)[0]


def record_facts(shop, judged, found):
    """found: the table's rows; of two ways to round an exact tie it may take either."""
    closed = jobs(shop, judged)
    job, since = setting(closed) if closed else (None, None)
    today, name = shop, job and job.left.raw.get("job")
    shop = shop.on(job.left.raw["date"]) if job else shop
    settings = shop.settings
    named = [["job", name], ["record", "not stored yet"]] if name else []
    get = lambda key: settings.get(key) or "not said"
    behind = lambda key: f" ({settings[key]})" if settings.get(key) else ""
    sized = lambda thing: (f"{Quantity(settings[thing + '.diameter']).shown()} \u00b1 "
                           f"{Quantity(settings[thing + '.tolerance']).shown()}{behind(thing + '.name')}")
    rows = named + [["lathe", get("lathe.name")], ["workshop", get("lathe.workshop")], ["top speed", shop.top.shown()]]
    if shop.bands:
        band = shop.own_band()
        basis = {"absolute": "whole drag", "increase": "increase over the slack drag"}[settings["limits.basis"]]
        rows += [["limits from", settings["limits.source"]],
                 ["limits for", f"{settings['limits.torque']} drag, {basis}, "
                                f"{settings['limits.bearings']} bearings, {settings['limits.warmth']}"],
                 ["limits", f"{band.low.shown()} to {band.high.shown()} for {band.text()}"]]
        if settings["limits.basis"] == "increase":
            rows.append(["slack drag, on top", Quantity(settings["limits.slack-drag"]).shown()])
    else:
        rows.append(["limits", "no limit on file: trend only"])
    radii = [f"{text}{NBSP}{shown_unit(shop.drum.unit)}"
             for text in significant(shop.radius(shop.drum) / shop.drum.factor, 5)]
    shown = [row[1].text for row in found if row[1].text in radii]
    rows += [["drum", sized("drum")], ["cord", sized("cord")],
             ["effective radius", (shown + radii)[0]],
             ["gauge", f"{shop.capacity.shown()} in steps of {shop.step.shown()}{behind('gauge.name')}"]]
    day = next(row.day for row in today.log if row.raw is job.left.raw) if job else today.known
    check = day.checks.force
    rows.append(["gauge checked on", check.day if check else "never: there is no check"])
    if check:
        rows += [["gauge checked by", check.by or "_" * 16], ["known weights", check.name or "not said"],
                 ["their certificate", check.rows[0].certificate if check.is_certified else "none"]]
    if not job:
        return rows + [["closing check", "none yet"]]
    rows.append(["verdict", job.left.cells[8] if shop.bands else "\u2013 no limit on file: trend only"])
    if shop.bands and "backed off" not in job.left.cells[8]:
        rows.append(["chance that it lies outside", chance_shown(today, job.left, found)])
    last = since or job.left
    return rows + [["closing check", job.left.day.isoformat()], ["checked since", since.day.isoformat() if since else "no"],
                   ["next check not after", next_check(today, last)]]


def next_check(shop, last):
    """The day; or why the last check is not one to go by."""
    judgement, then = next((row.judgement, row.shop) for row in shop.log if row.raw is last.raw)
    high = then.bands and (last.raw["state"] == "clearly high"
                           or then.never and judgement.may_be_over(float(then.never.base)))
    if not high and not last.fits_its_cap(then):
        return "none: cap and warmth do not fit"
    if then.bands and (high or last.raw["state"] != "good"):
        return "none: not good"
    if then.bands and len(read_series(last.raw)) < 3:
        return "none: good by too few pulls"
    return year_later(last.day).isoformat()


def history(shop, judged):
    rows, before = [], None
    for job in jobs(shop, judged):
        row = job.left
        drag, u = row.cells[5], F(min(row.cells[6][1], key=F))
        change = ["none"] * 3
        if before:
            doubts = two_digits_up(math.hypot(float(before[1]), float(u)))
            doubt, place = min(doubts)
            less = drag[0] - before[0]
            words = "within its doubt" if abs(less) <= doubt else "clearly less" if less < 0 else "clearly more"
            change = [(less, nearest_signed(less, places_of(place))),
                      (doubt, {digits(n, places_of(p)) for n, p in doubts}, 1e-9),
                      words if row.stays(before[2]) else "nut moved: " + words]
        rows.append([row.raw["date"], row.said("nut"), row.said("temperature"), drag, row.cells[6]]
                    + change + row.cells[8:])
        before = (drag[0], u, row)
    return rows or [["none"]]


def lift_test():
    """Twice the first, give or take a whole division for twice it and a half for the second."""
    cell = lambda value: (value, {digits(value, 1)})
    return [[cell(F(first)), cell(2 * F(first) - F(3, 2)), cell(2 * F(first) + F(3, 2)), cell(F(first))]
            for first in (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30)]
