"""An independent oracle for the computed tables.

It shares no code with the program: it reads the settings with a few lines of its
own, keeps every length, force and torque as an exact fraction, and says for each
cell of each table what must be shown and which value must stand behind it.
"""
import itertools
import math
import re
from fractions import Fraction as F

import oracle_drum
import oracle_measure as measure
import oracle_nut
import oracle_oil
import oracle_record
import oracle_warm
import oracle_shop
from oracle_shop import INCH, METRIC, NBSP, Quantity, UNITS, flow, read_settings, shown_unit
from oracle_shown import (away, digits, in_steps, nearest, nearest_signed, places_of, power_of_lead,
                          significant, steps_shown)
from oracle_sure import judged_log, two_digits_up

class Shop(oracle_shop.Shop):
    """With its log judged, and what is known after it."""

    def __init__(self, settings):
        super().__init__(settings)
        self.log, self.known = judged_log(self)


# ---- the tables: rows of cells; a cell is a text, or (value, {texts})

def counts_of(shop, drag, radius, direction):
    """The whole steps of the reading of a limit, inward; of two within float noise either."""
    known = shop.known
    if (known.line.a, known.line.b, shop.lost) == (0, 1, 0) and not shop.is_increase:
        return {in_steps(drag / radius, shop.step, direction)}
    ratio = F(known.reading(drag, radius)) / shop.step.base
    rounded = math.ceil if direction > 0 else math.floor
    return {rounded(ratio * (1 + F(i, 10**10))) for i in (-1, 0, 1)}


def steps_cell(shop, reading, counts):
    return (F(reading) / shop.step.factor, {steps_shown(count, shop.step) for count in counts}, 1e-9)


def window_cells(shop, band, radius, with_aim=False):
    readings = [shop.known.reading(limit.base, radius) for limit in (band.low, band.high)]
    lows, highs = (counts_of(shop, limit.base, radius, way) for limit, way in ((band.low, 1), (band.high, -1)))
    low, high = min(lows), max(highs)
    if low > high:
        return ["none"] * (3 if with_aim else 2)
    cells = [steps_cell(shop, readings[0], lows), steps_cell(shop, readings[1], highs)]
    if with_aim:
        middle = F(shop.known.reading((band.low.base + band.high.base) / 2, radius))
        ratio = middle / shop.step.base
        counts = {math.floor(ratio), math.ceil(ratio)}
        best = min(abs(ratio - count) for count in counts)
        near = [c for c in counts if abs(ratio - c) - best < F(1, 10**9)]
        cells.insert(1, steps_cell(shop, middle, [min(max(count, low), high) for count in near]))
    return cells


def limit_cell(limit, unit, direction):
    value = limit.inside(unit)
    if limit.unit == unit:
        return (value, {limit.digits})
    if value == 0:
        return (value, {"0"})
    place = F(10) ** (power_of_lead(value) - 3)
    count = math.ceil(value / place) if direction > 0 else math.floor(value / place)
    return (value, {digits(count * place, places_of(place))})


def pull_windows(shop, card=False):
    maker = shop.bands[0].high.unit
    other = "lbf.in" if maker in METRIC else "N.m"
    rows = []
    for band in shop.bands:
        radius = shop.radius(shop.drum)
        row = [band.text()] + window_cells(shop, band, radius, with_aim=True)
        if shop.never:
            row.append(steps_cell(shop, shop.known.reading(shop.never.base, radius),
                                  counts_of(shop, shop.never.base, radius, -1)))
        for unit in () if card else (maker, other):
            row += [limit_cell(band.low, unit, 1), limit_cell(band.high, unit, -1)]
        rows.append(row)
    return rows


def sure_windows(shop):
    unit = shop.bands[0].high.unit
    rows = []
    for band in shop.bands:
        radius = shop.radius(shop.drum)
        plain = window_cells(shop, band, radius)
        good = shop.known.good_readings(band)
        counts = [[], []]
        if good:
            ratios = [F(reading) / shop.step.base for reading in good]
            counts = [{rounded(ratio * (1 + F(i, 10**7))) for i in (-1, 0, 1)}
                      for ratio, rounded in zip(ratios, (math.ceil, math.floor))]
        inner = ([(F(min(one)) * shop.step.number, {steps_shown(count, shop.step) for count in one},
                   float(max(one) - min(one)) / max(max(one), 1) + 1e-12) for one in counts]
                 if good and min(counts[0]) <= max(counts[1]) else ["none", "none"])
        shown = []
        for limit in (band.low, band.high):
            u = shop.known.judged_at(shop.known.reading(limit.base, radius)).drag.expanded()
            doubt = two_digits_up(u / float(UNITS[limit.unit][1]))
            number = min(doubt)[0] * UNITS[limit.unit][1] / UNITS[unit][1]
            texts = doubt if limit.unit == unit else two_digits_up(float(number))
            shown.append((number, {digits(value, places_of(place)) for value, place in texts}))
        rows.append([band.text(), plain[0]] + inner + [plain[1]] + shown)
    return rows


def drum_choice(shop):
    band, rows = shop.own_band(), []
    unit = band.high.unit
    middle = (band.low.base + band.high.base) / 2
    sizes = list(shop.sizes)
    if not any(size.base == shop.drum.base for size in sizes):
        sizes = sorted(sizes + [shop.drum], key=lambda size: size.base)
    for size in sizes:
        pull = shop.known.reading(middle, shop.radius(size))
        drag = shop.known.judged_at(pull, size).drag
        u = F(drag.expanded())
        share = lambda names: F(100 * math.sqrt(sum(drag.parts[name][0] ** 2 for name in names
                                                    if name in drag.parts)) / (float(middle) + (shop.known.slack_drag or 0)))
        pulls, span = share(("scatter", "between")), share(("drum", "cord"))
        gauge = share(("rounding", "zero", "line", "weights", "gravity", "drift", "hysteresis", "orientation"))
        ratio = float((band.high.base - band.low.base) / 2 / u)
        most = oracle_drum.most_pull(shop, size)
        word = ("beyond the gauge" if most > shop.capacity.base * (1 + F(1, 10**12)) else
                "sure" if ratio >= 4 else "usable" if ratio >= 2 else
                "barely" if ratio >= 1 else "cannot decide")
        shown = F(pull) / shop.step.factor
        rows.append([size.shown() + (", fitted" if size.base == shop.drum.base else ""),
                     (shown, significant(shown, 3)),
                     (u / UNITS[unit][1], {digits(value, places_of(place)) for value, place in
                                           two_digits_up(float(u / UNITS[unit][1]))}, 1e-9),
                     (pulls, {away(pulls, 2)}, 1e-9), (gauge, {away(gauge, 2)}, 1e-9),
                     (span, {away(span, 2)}, 1e-9), (F(ratio), nearest(F(ratio), 1), 1e-9), word])
    able = [row for row in rows if row[7] != "beyond the gauge"]
    ratios = [float(row[6][0]) for row in able]
    if len(able) == 1 or able and max(ratios) > 1.1 * min(ratios):
        best = max(able, key=lambda row: float(row[6][0]))
        best[7] += ", best here"
    return rows


def gauge_check(shop):
    check = shop.known.checks.force
    if not check:
        return [["none"]]
    rows = []
    factor = float(shop.step.factor)
    places = places_of(shop.step.number) + 1
    # small differences of large forces: what is shown must agree, the double less closely
    cell = lambda value, at: (F(value), nearest_signed(F(value), at), 1e-9)
    for force in check.loads:
        here = [row for row in check.rows if row.force == force]
        ups, downs = ([row.reading for row in here if row.down == down] for down in (False, True))
        mean = sum(ups + downs) / len(here)
        spreads = [max(one) - min(one) for one in (ups, downs) if len(one) > 1]
        share = lambda part: cell(100 * part / force, 2) if force else "none"
        turned = sum(downs) / len(downs) - sum(ups) / len(ups) if ups and downs else None
        rows.append([here[0].load.shown(), cell(force / factor, places), cell(mean / factor, places),
                     cell((mean - force) / factor, places), share(mean - force),
                     share(max(spreads)) if spreads else "none",
                     share(turned) if turned is not None else "none",
                     cell((mean - check.reading(force)) / factor, places)])
    return rows


def gauge_correction(shop):
    check = shop.known.checks.force
    if not check:
        return [["none"]]
    band, radius, rows = shop.own_band(), shop.radius(shop.drum), []
    factor, places = float(shop.step.factor), places_of(shop.step.number) + 1
    if band:
        where = [(name, shop.known.reading(drag, radius)) for name, drag in
                 (("low pull", band.low.base), ("aim", (band.low.base + band.high.base) / 2),
                  ("high pull", band.high.base))]
    else:
        where = [(name, float(share * shop.capacity.base)) for name, share in
                 (("a quarter of the capacity", F(1, 4)), ("half of it", F(1, 2)),
                  ("three quarters of it", F(3, 4)))]
    cell = lambda value: (F(value), nearest_signed(F(value), places), 1e-9)
    for name, reading in where:
        force = check.force(reading)
        u = measure.doubt_of_line(check, force, check.drift) / factor
        rows.append([name, cell(reading / factor), cell(force / factor), cell((reading - force) / factor),
                     (F(u), {away(F(u) * (1 + F(i, 10**10)), places) for i in (-1, 0, 1)}, 1e-9),
                     "yes" if check.reaches(force) else "no"])
    return rows


LOCKS = {"before": "before lock", "after": "locked", "unloaded": "unloaded"}
STATES = {"clearly low": "\u25bc", "low or in doubt": "\u25bd", "good": "\u25cf",
          "high or in doubt": "\u25b3", "clearly high": "\u25b2",
          "none: this gauge and drum cannot decide": "\u25c7",
          "none: these pulls cannot decide": "\u25c7", "none: the gauge saw nothing": "\u00d7",
          "rejected: find the cause, take all again": "\u00d7",
         **dict.fromkeys(("not judged: limits are for cold", "not judged: limits are for warm",
                          "not judged: other way round", "not judged: not locked",
                          "not judged: lock not said", "not judged: unloaded"), "\u2013"),
          "no limit on file: trend only": "\u2013",
          "backed off, not unloaded: no good setting": "\u00d7"}


def state_words(row, band):
    """By the numbers alone."""
    if not any(row.pulls):
        return "none: the gauge saw nothing"
    if row.rejected:
        return "rejected: find the cause, take all again"
    if not band:
        return "no limit on file: trend only"
    limits = float(band.low.base), float(band.high.base)
    state = row.judgement.state(*limits)
    if state in (measure.LOW, measure.HIGH):
        return "clearly " + state
    if state != measure.CANNOT:
        return state
    of = "these pulls" if row.judgement.is_for_pulls(*limits) else "this gauge and drum"
    return f"none: {of} cannot decide"


def not_judged(row, shop):
    """Why a row of the log has no state, or None: the limits are for one warmth, for the usual
    way round, for the locked nut."""
    wanted = shop.settings["limits.warmth"]
    if row["warmth"] != wanted:
        return "not judged: limits are for " + wanted
    if row["direction"] != "usual":
        return "not judged: other way round"
    return {"after": None, "before": "not judged: not locked", "unloaded": "not judged: unloaded"}.get(
        row.get("lock"), "not judged: lock not said")


def pull_log(shop):
    rows, unit = [], shop.drag_unit()
    for judged, (_, back) in zip(shop.log, oracle_nut.course(shop.settings.get("readings.csv", []))):
        row, pulls, band = judged.raw, judged.quantities, judged.shop.own_band()
        exact = sum(pull.base for pull in pulls) / len(pulls)
        radius = (judged.drum.base + judged.cord.base) / 2
        drag = F(judged.day.whole(exact, radius))
        u = judged.judgement.drag.expanded()
        shown = two_digits_up(u / float(UNITS[unit][1]))
        _, place = min(shown)
        word = state_words(judged, band)
        if band and not re.search("rejected|saw nothing", word):
            word = not_judged(row, judged.shop) or word
        if back and not re.search("clearly high|rejected|saw nothing", word):
            word = "backed off, not unloaded: no good setting"
        row["state"] = word
        lock = LOCKS.get(row.get("lock"), "")
        nut = ", ".join(filter(None, [Quantity(row["nut"]).shown() if row.get("nut") else "", lock]))
        spindle = row["warmth"] + (", " + Quantity(row["temperature"]).shown()
                                   if row.get("temperature") else "")
        spindle += ", other way" if row["direction"] == "other" else ""
        span = 100 * (max(p.base for p in pulls) - min(p.base for p in pulls)) / exact
        first = Quantity(row["breakaway"]).base / exact if row.get("breakaway") else None
        mean_shown = exact / shop.step.factor
        rows.append([row["date"], nut or "not said", spindle,
                     (mean_shown, nearest(mean_shown, places_of(shop.step.number) + 1)),
                     (span, nearest(span, 1)) if len(pulls) > 1 else "none",
                     (drag / UNITS[unit][1], nearest_signed(drag / UNITS[unit][1], places_of(place)), 1e-9),
                     (F(u) / UNITS[unit][1], {digits(n, places_of(p)) for n, p in shown}, 1e-9),
                     (first, nearest(first, 2)) if first else "none"]
                    + ([f"{STATES[word]} {word}"] if shop.bands else []))
    return rows or [["none"]]


def pull_log_shown(shop):
    """Of starting pulls there is no breakaway beside them."""
    starting = shop.settings.get("limits.torque") == "starting"
    return [cells[:7] + cells[8:] if starting else cells for cells in pull_log(shop)]


def nut_map(shop):
    """Places of the nut; the slope from the row above where both were taken alike; what
    the lock added since the last unlocked series of the same place."""
    rows, before, places = [], None, []
    log = shop.settings.get("readings.csv", [])
    for judged, cells, (slack, _) in zip(shop.log, pull_log(shop), oracle_nut.course(log)):
        row = judged.raw
        if row.get("lock") == "unloaded":  # wherever it stands then, it has been elsewhere
            places = []
        if not row.get("nut"):
            continue
        angle, drag = Quantity(row["nut"]), cells[5]
        alike = [judged.rig, row.get("lock"), row["direction"], row["warmth"]]
        slope = "none"
        if before and before[0] == alike and before[1] != angle.base and not (slack or before[3]) and row["says"]:
            value = (drag[0] - before[2]) / (angle.base - before[1])
            slope = (value, significant(value, 2) if value else {"0.0"})
        lock = LOCKS.get(row.get("lock"), "not said")
        spindle = row["warmth"] + (", other way" if row["direction"] == "other" else "")
        added, here = "none", (angle.base, alike[0], *alike[2:])
        if row.get("lock") == "after" and row["says"]:
            run = list(itertools.takewhile(lambda p: p[0][0] == angle.base and p[:2] != (here, "after"),
                                           reversed(places)))
            found = [p for p in run if p[:2] == (here, "before")]
            if found:
                value = drag[0] - found[0][2]
                added = (value, nearest(value, max(len(s.partition(".")[2]) for s in drag[1])))
        if row.get("lock") != "unloaded":
            places.append((here, row.get("lock") if row["says"] else "rejected", drag[0]))
        rows.append([row["date"], angle.shown(), lock, spindle, drag, slope, added])
        before = (alike, angle.base, drag[0], slack or not row["says"])
    return rows or [["none"] * 7]


def nut_places(shop):
    """Of each row of the log that says where the nut stood, or that it was unloaded: what makes
    rows alike (nothing, where the pulls say nothing of the drag), the angle, the drag as it is
    shown, whether it was unloaded."""
    log = shop.settings.get("readings.csv", [])
    return [([judged.rig, row.get("lock"), row["direction"], row["warmth"]] if row["says"] else object(),
             oracle_nut.place_of(row), cells[5][0], slack)
            for judged, row, cells, (slack, _) in zip(shop.log, log, pull_log(shop), oracle_nut.course(log))
            if row.get("nut") or row.get("lock") == "unloaded"]


def three_drums(shop):
    smaller = [s for s in shop.sizes if shop.cord.base < s.base < shop.drum.base][-1:]
    larger = [s for s in shop.sizes if s.base > shop.drum.base][:1]
    return smaller + [shop.drum] + larger


def state(drag, band):
    """One that reads as a limit lies on it."""
    if drag < band.low.base * (1 - F(1, 10**9)):
        return "below \u2212"
    return "above +" if drag > band.high.base * (1 + F(1, 10**9)) else "inside ="


def reading_to_drag(shop, found):
    """The readings are those that the table chose to show."""
    counts = [round(F(row[0].text) / shop.step.number) for row in found]
    band, drums = shop.own_band(), three_drums(shop)
    unit = shop.drag_unit()
    factor = UNITS[unit][1]
    finest = shop.step.base * shop.radius(drums[0]) / factor
    places = min(max(math.ceil(-math.log10(finest)), 0), 6)
    rows = []
    for count in counts:
        row = [(count * shop.step.number, {steps_shown(count, shop.step)})]
        for drum in drums:
            drag = F(shop.known.whole(count * shop.step.base, shop.radius(drum))
                     - (shop.known.slack_drag or 0))
            texts = nearest_signed(drag / factor, places)
            for more in range(1, 4):  # one that rounds onto a limit's other side has more digits
                values = [F(text.replace(oracle_shop.MINUS, "-")) * factor for text in texts]
                if not band or all(state(value, band) == state(drag, band) for value in values):
                    break
                texts = nearest_signed(drag / factor, places + more)
            row.append((drag / factor, texts, 1e-9))
            if band:
                row.append(state(drag, band))
        rows.append(row)
    return rows


def drum_windows(shop):
    sizes = list(shop.sizes)
    if not any(size.base == shop.drum.base for size in sizes):
        sizes = sorted(sizes + [shop.drum], key=lambda size: size.base)
    rows = []
    for size in sizes:
        fitted = size.base == shop.drum.base
        name = size.shown() + (", fitted" if fitted else "")
        windows = [window_cells(shop, band, shop.radius(size)) for band in shop.bands]
        if len(shop.bands) <= 3:
            rows.append([name] + sum(windows, []))
        else:
            rows += [[name, band.text()] + window for band, window in zip(shop.bands, windows)]
    return rows


COMMON_ARMS = ["25 mm", "1 in", "50 mm", "2 in", "75 mm", "3 in", "100 mm", "4 in", "150 mm",
               "6 in", "300 mm", "12 in"]


def arm_equivalents(shop):
    arms = [(arm, False) for arm in (shop.arms or [Quantity(text) for text in COMMON_ARMS])]
    if shop.arm:
        arms.insert(0, (shop.arm, True))
    rows = []
    for arm, maker in arms:
        factor = arm.base / shop.radius(shop.drum)
        rows.append([arm.shown() + (", the maker's" if maker else ""),
                     (factor, significant(factor, 4))]
                    + (window_cells(shop, shop.own_band(), arm.base) if shop.bands else []))
    return rows


def unit_matrix(symbols):
    rows = []
    for unit in symbols:
        row = [f"1{NBSP}{shown_unit(unit)}"]
        for other in symbols:
            value = UNITS[unit][1] / UNITS[other][1]
            row.append((value, {"1"} if unit == other else significant(value, 6)))
        rows.append(row)
    return rows


def length_units():
    rows = []
    for part in range(1, 65):
        inch = F(part, 64)
        name = f"{inch.numerator}/{inch.denominator}" if inch < 1 else "1"
        rows.append([name, (inch, {digits(inch, 6)}), (inch * F(254, 10), {digits(inch * F(254, 10), 6)})])
    return rows


def cord_errors(shop):
    drums, cord = three_drums(shop), shop.cord.base
    words = lambda add: ("higher than worked out" if add > 0 else
                         "lower than worked out" if add < 0 else "the same")
    rows = []
    kinds = [("cord's thickness left out", lambda D: (D + cord) / D - 1),
             ("cord wound over itself", lambda D: (D + 3 * cord) / (D + cord) - 1)]
    for angle in (5, 8, 10, 15, 20, 30):
        less = F(math.cos(math.radians(angle))) - 1
        kinds.append((f"pulled {angle}\u00b0 askew", lambda D, less=less: less))
    for name, add in kinds:
        adds = [100 * add(drum.base) for drum in drums]
        rows.append([name] + [(value, {away(value, 2)}) for value in adds] + [words(adds[-1])])
    return rows


def trusted_values(rows):
    """Ours must print as there, and lie within half of the source's last digit."""
    wanted = []
    for row in rows:
        there = row[2].text.replace(NBSP, " ").split(" ")[0]
        places = len(there.partition(".")[2])
        apart = F(abs(row[3].value - float(there))) * 10**places
        assert apart <= F(1, 2), f"{row[0].text}: {apart} last digits apart"
        wanted.append([row[0].text, row[1].text, row[2].text, (F(row[3].value), {there}),
                       (F(row[4].value), nearest(apart, 2))])
    return wanted


# by the names of the measurement: how it is called, and in what it is told
SOURCES = [("scatter", "scatter of the pulls", "N"), ("between", "drum and cord put on anew", "N"),
           ("rounding", "steps of the gauge", "N"), ("zero", "zero of the gauge", "N"),
           ("line", "line of the check", "N"), ("weights", "weights of the check", "%"),
           ("gravity", "gravity, the site not given", "%"), ("drift", "drift since the check", "%"),
           ("hysteresis", "hysteresis of the gauge", "N"), ("orientation", "orientation of the gauge", "N"),
           ("drum", "diameter of the drum", "m"), ("cord", "thickness of the cord", "m")]


def budget(shop):
    """Of the series that closed the last job in which the nut was set."""
    closed = oracle_record.jobs(shop, pull_log(shop))
    if not closed:
        return [["none"]]
    left = oracle_record.setting(closed)[0].left
    row = next(row for row in shop.log if row.raw is left.raw)
    drag, day, torque = row.judgement.drag, row.day, float(UNITS[shop.drag_unit()][1])
    rig = day.rig(row.drum, row.cord)
    noisy = lambda show, x, n: (x, show(F(x) * (1 + F(1, 10**9)), n) | show(F(x) * (1 - F(1, 10**9)), n), 1e-9)
    freedom = lambda nu: "endless" if nu == math.inf else noisy(nearest, nu, 1)
    units = {"N": shop.step.unit, "%": "%", "m": shop.drum.unit}
    for_one = {"N": rig.arm / day.line.b, "%": abs(drag.drag) / 100,
               "m": abs(drag.force) * (1 - rig.lost / 2) / 2}
    rows = []
    for source, name, kind in SOURCES:
        u, nu = drag.parts.get(source, (0, math.inf))
        if not u:
            continue
        factor = float(UNITS[units[kind]][1])
        rows.append(["what is stated of the gauge" if source == "line" and nu == math.inf else name,
                     noisy(significant, u / for_one[kind] / factor, 2), shown_unit(units[kind]),
                     "rectangular" if nu == math.inf else "Student", freedom(nu),
                     noisy(significant, for_one[kind] * factor / torque, 3),
                     noisy(significant, u / torque, 2), noisy(nearest, 100 * (u / drag.u) ** 2, 1)])
    none = ["none"] * 3
    rows.append(["all together", *none, freedom(drag.nu), "none", noisy(significant, drag.u / torque, 2),
                 (100, {"100.0"})])
    if drag.askew > 0:
        rows.append(["askew, added to U", *none, "none", "none", noisy(significant, drag.askew / torque, 2), "none"])
    rows.append(["U, 95 of 100", *none, "none", "none", noisy(significant, drag.expanded() / torque, 2), "none"])
    return rows


# What each computed table must hold; a table that chooses its readings is given the rows
# as found.
TABLES = {
    "pull-windows": lambda shop, rows: pull_windows(shop),
    "sure-windows": lambda shop, rows: sure_windows(shop),
    "reading-to-drag": reading_to_drag,
    "drum-windows": lambda shop, rows: drum_windows(shop),
    "drum-choice": lambda shop, rows: drum_choice(shop),
    "drum-loads": lambda shop, rows: oracle_drum.drum_loads(shop),
    "drum-making": lambda shop, rows: oracle_drum.drum_making(shop),
    "arm-equivalents": lambda shop, rows: arm_equivalents(shop),
    "cord-errors": lambda shop, rows: cord_errors(shop),
    "gauge-check": lambda shop, rows: gauge_check(shop),
    "gauge-correction": lambda shop, rows: gauge_correction(shop),
    "pull-log": lambda shop, rows: pull_log_shown(shop),
    "record": lambda shop, rows: oracle_record.record(shop, pull_log(shop)),
    "record-facts": lambda shop, rows: oracle_record.record_facts(shop, pull_log(shop), rows),
    "record-pulls": lambda shop, rows: oracle_record.pulls(shop, pull_log(shop)),
    "record-steps": lambda shop, rows: oracle_record.steps(shop, pull_log(shop)),
    "history": lambda shop, rows: oracle_record.history(shop, pull_log(shop)),
    "budget": lambda shop, rows: budget(shop),
    "lift-test": lambda shop, rows: oracle_record.lift_test(),
    "nut-map": lambda shop, rows: nut_map(shop),
    "nut-travel": lambda shop, rows: oracle_nut.nut_travel(shop.settings),
    "run-in": lambda shop, rows: oracle_warm.run_in(shop.settings),
    "temperatures": lambda shop, rows: oracle_warm.temperatures(shop.settings),
    "pull-speed": lambda shop, rows: oracle_warm.pull_speed(shop),
    "chuck-left-on": lambda shop, rows: oracle_warm.chuck_left_on(shop),
    "oil-warmth": lambda shop, rows: oracle_oil.oil_warmth(shop),
    "spindle-growth": lambda shop, rows: oracle_oil.spindle_growth(shop, nut_places(shop)),
    "drag-estimate": lambda shop, rows: oracle_oil.drag_estimate(shop),
    "torque-units": lambda shop, rows: unit_matrix(["N.m", "N.cm", "kgf.cm", "lbf.in", "lbf.ft", "ozf.in"]),
    "force-units": lambda shop, rows: unit_matrix(["N", "kgf", "gf", "lbf", "ozf"]),
    "length-units": lambda shop, rows: length_units(),
    "trusted-values": lambda shop, rows: trusted_values(rows),
}


NO_LIMIT = "no limit on file: trend only"
OF_LIMITS = {"pull-windows", "sure-windows", "drum-windows", "drum-choice", "drum-loads"}


def expected(shop, name, rows):
    if not shop.bands and name in OF_LIMITS:
        return [[NO_LIMIT]]
    return TABLES[name](shop, rows)
