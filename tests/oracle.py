"""An independent oracle for the computed tables.

It shares no code with the program: it reads the settings with a few lines of its
own, keeps every length, force and torque as an exact fraction, and says for each
cell of each table what must be shown and which value must stand behind it.

Sources of the factors: 1 in = 25.4 mm and 1 lb = 0.45359237 kg (international
yard and pound agreement, 1959); standard gravity 9.80665 m/s2 (3rd CGPM, 1901).
"""
import csv
import math
import os
import re
from fractions import Fraction as F

INCH = F(254, 10000)
LBF = F("0.45359237") * F("9.80665")
KGF = F("9.80665")
UNITS = {
    "mm": ("length", F(1, 1000)), "cm": ("length", F(1, 100)), "m": ("length", F(1)),
    "um": ("length", F(1, 10**6)), "in": ("length", INCH), "ft": ("length", 12 * INCH),
    "N": ("force", F(1)), "mN": ("force", F(1, 1000)), "kN": ("force", F(1000)),
    "kgf": ("force", KGF), "gf": ("force", KGF / 1000), "lbf": ("force", LBF),
    "ozf": ("force", LBF / 16),
    "N.m": ("torque", F(1)), "N.cm": ("torque", F(1, 100)), "N.mm": ("torque", F(1, 1000)),
    "mN.m": ("torque", F(1, 1000)), "kgf.m": ("torque", KGF), "kgf.cm": ("torque", KGF / 100),
    "gf.cm": ("torque", KGF / 10**5), "lbf.in": ("torque", LBF * INCH),
    "lbf.ft": ("torque", LBF * 12 * INCH), "ozf.in": ("torque", LBF / 16 * INCH),
    "r/min": ("speed", F(1)), "rpm": ("speed", F(1)), "%": ("ratio", F(1)),
    "kg": ("mass", F(1)), "g": ("mass", F(1, 1000)), "lb": ("mass", F("0.45359237")),
    "degC": ("temperature", F(1)), "degF": ("temperature", F(1)), "oz": ("mass", F("0.45359237") / 16), "tpi": ("threads", F(1)), "deg": ("angle", F(1)),
}
METRIC = {"mm", "cm", "m", "um", "N", "mN", "kN", "kgf", "gf", "N.m", "N.cm", "N.mm", "mN.m",
          "kgf.m", "kgf.cm", "gf.cm"}
NBSP, MINUS = "\u00a0", "\u2212"


def shown_unit(unit):
    if unit == "rpm":
        return "r/min"
    if unit == "um":
        return "\u00b5m"
    if unit in ("degC", "degF"):
        return "\u00b0" + unit[-1]
    return unit.replace(".", "\u00b7")


class Quantity:
    def __init__(self, text):
        text = text.replace(NBSP, " ").strip()
        match = re.fullmatch(r"(-?\d*\.?\d+|\d+ \d+/\d+|\d+/\d+)\s*(\S+)", text)
        self.digits, self.unit = match.group(1), match.group(2).replace("\u00b7", ".")
        self.number = sum((F(part) for part in self.digits.split()), F(0))
        self.factor = UNITS[self.unit][1]
        self.base = self.number * self.factor

    def shown(self):
        if self.unit == "deg":
            return self.digits + "\u00b0"
        return self.digits.replace(" ", NBSP) + NBSP + shown_unit(self.unit)

    def inside(self, unit):
        return self.base / UNITS[unit][1]


# ---- settings: sections, "key: value" lines and {flow} rows; enough for ours

def flow(text):
    pairs = {}
    for part in re.findall(r'([a-z-]+):\s*("[^"]*"|[^,}]*)', text):
        pairs[part[0]] = part[1].strip().strip('"')
    return pairs


def read_settings(path, replacements=()):
    settings, section, bands = {}, None, []
    for line in open(path, encoding="utf-8"):
        line = re.sub(r"(^|\s)#.*", "", line.rstrip("\n"))
        if not line.strip():
            continue
        if match := re.fullmatch(r"([a-z-]+):\s*(\{.*\})?", line):
            section = match.group(1)
            for key, value in flow(match.group(2) or "").items():
                settings[f"{section}.{key}"] = value
        elif match := re.fullmatch(r"\s+- (\{.*\})", line):
            bands.append(flow(match.group(1)))
        elif match := re.fullmatch(r"\s+([a-z-]+):\s*(.*)", line):
            settings[f"{section}.{match.group(1)}"] = match.group(2).strip().strip('"')
    for number, band in enumerate(bands, 1):
        for key, value in band.items():
            settings[f"limits.bands.{number}.{key}"] = value
    for name in ("gauge-check.csv", "readings.csv"):
        log = os.path.join(os.path.dirname(path), name)
        if os.path.exists(log):
            with open(log, encoding="utf-8", newline="") as file:
                settings[name] = list(csv.DictReader(file))
    settings.update(dict(one.split("=", 1) for one in replacements))
    return settings


class Band:
    def __init__(self, settings, number):
        get = lambda key: settings[f"limits.bands.{number}.{key}"]
        self.start, self.end = Quantity(get("from")), Quantity(get("to"))
        self.low, self.high = Quantity(get("low")), Quantity(get("high"))

    def text(self):
        return f"{self.start.digits}\u2013{self.end.digits}{NBSP}r/min"


def local_gravity(latitude, height):
    """Somigliana's formula, WGS 84, and its free-air term to the second order."""
    a, f, gm, omega = 6378137.0, 1 / 298.257223563, 3.986004418e14, 7.292115e-5
    square = math.sin(math.radians(latitude)) ** 2
    ground = 9.7803253359 * (1 + 0.00193185265241 * square) / math.sqrt(1 - 0.00669437999013 * square)
    m = omega**2 * a**2 * (a * (1 - f)) / gm
    return ground * (1 - 2 / a * (1 + f + m - 2 * f * square) * height + 3 * height**2 / a**2)


class Line:
    """Least squares by the textbook sums."""

    def __init__(self, x, y):
        n = len(x)
        xm, ym = sum(x) / n, sum(y) / n
        self.sxx = sum((one - xm) ** 2 for one in x)
        self.slope = sum((a - xm) * (b - ym) for a, b in zip(x, y)) / self.sxx
        self.intercept = ym - self.slope * xm
        self.sd = math.sqrt(sum((b - self.at(a)) ** 2 for a, b in zip(x, y)) / (n - 2))
        self.n, self.xm, self.least, self.most = n, xm, min(x), max(x)

    def at(self, x):
        return self.intercept + self.slope * x

    def u(self, x):
        """Of the line's height and of the scatter about it."""
        return self.sd * math.sqrt(1 + 1 / self.n + (x - self.xm) ** 2 / self.sxx)

    def covers(self, pull):
        return self.least / 2 <= pull <= self.most * 1.25


class Shop:
    def __init__(self, settings):
        self.settings = settings
        quantity = lambda key: Quantity(settings[key]) if key in settings else None
        sizes = lambda key: sorted((Quantity(x) for x in settings.get(key, "").split(",") if x.strip()),
                                   key=lambda size: size.base)
        self.bands = []
        while f"limits.bands.{len(self.bands) + 1}.from" in settings:
            self.bands.append(Band(settings, len(self.bands) + 1))
        self.bands.sort(key=lambda band: (band.start.base, band.end.base))
        self.never = quantity("limits.never-exceed")
        self.slack = (quantity("limits.slack-drag").base
                      if settings["limits.basis"] == "increase" else F(0))
        self.arm = quantity("limits.maker-arm")
        self.top = quantity("lathe.top-speed")
        self.drum, self.cord = quantity("drum.diameter"), quantity("cord.diameter")
        self.step, self.capacity = quantity("gauge.step"), quantity("gauge.capacity")
        self.full_scale, self.reading = quantity("gauge.full-scale-error"), quantity("gauge.reading-error")
        self.checked = quantity("gauge.checked-error")
        self.drum_tolerance, self.cord_tolerance = quantity("drum.tolerance"), quantity("cord.tolerance")
        self.pull_count = int(settings.get("pulls.count", 5))
        self.scatter = quantity("pulls.scatter") or Quantity("2 %")
        self.skew = quantity("pulls.skew") or Quantity("5 deg")
        self.gravity = 9.80665
        if "site.latitude" in settings:
            height = float(quantity("site.height").base) if "site.height" in settings else 0.0
            self.gravity = local_gravity(float(quantity("site.latitude").base), height)
        self.weighings = [(Quantity(row["load"]), row["direction"], float(Quantity(row["reading"]).base))
                          for row in settings.get("gauge-check.csv", [])]
        self.check = Line([self.force(load) for load, _, _ in self.weighings],
                          [reading for _, _, reading in self.weighings]) if self.weighings else None
        self.sizes, self.arms = sizes("tables.drum-sizes"), sizes("tables.arms")

    def force(self, load):
        weight = UNITS[load.unit][0] == "mass"
        return float(load.base) * (self.gravity * (1 - 1.2 / 8000) if weight else 1)

    def own_band(self):
        holding = [b for b in self.bands if b.start.base <= self.top.base <= b.end.base]
        return min(holding, key=lambda b: (b.high.base, -b.low.base))

    def radius(self, drum):
        return (drum.base + self.cord.base) / 2


# ---- how numbers are shown

def digits(number, places):
    """A fraction that ends within so many places, written out."""
    scaled = number * 10**places
    assert scaled.denominator == 1
    text = str(abs(scaled.numerator)).rjust(places + 1, "0")
    text = text[:-places] + "." + text[-places:] if places else text
    return (MINUS if scaled < 0 else "") + text


def places_of(number):
    places = 0
    while (number * 10**places).denominator != 1:
        places += 1
    return places


def nearest(number, places):
    """Every text that rounding to nearest may give: two on an exact tie."""
    scaled = number * 10**places
    low = math.floor(scaled)
    rest = scaled - low
    slop = max(abs(scaled), 1) * F(1, 10**13)
    picks = {low} if rest < F(1, 2) - slop else {low + 1} if rest > F(1, 2) + slop else {low, low + 1}
    return {digits(F(pick, 10**places), places) for pick in picks}


def nearest_signed(number, places):
    """As nearest, for floating-point values: no sign before a zero, ties by noise."""
    texts = nearest(number * (1 + F(1, 10**9)), places) | nearest(number * (1 - F(1, 10**9)), places)
    return {text.lstrip(MINUS) if set(text) <= set(MINUS + "0.") else text for text in texts}


def power_of_lead(number):
    power = 0
    while abs(number) >= F(10) ** (power + 1):
        power += 1
    while abs(number) < F(10) ** power:
        power -= 1
    return power


def significant(number, count):
    power = power_of_lead(number)
    if round(abs(number) / F(10) ** (power - count + 1)) == 10**count:
        power += 1
    if power >= count:  # tens, hundreds: no false digits
        return {digits(F(text.replace(MINUS, "-")) * 10 ** (power - count + 1), 0)
                for text in nearest(number / 10 ** (power - count + 1), 0)}
    return nearest(number, count - 1 - power)


def in_steps(base, step, direction):
    """A pull as a whole number of gauge steps: direction +1 up, -1 down."""
    ratio = base / step.base
    return math.ceil(ratio) if direction > 0 else math.floor(ratio)


def steps_shown(count, step):
    return digits(count * step.number, places_of(step.number))


# ---- the tables: rows of cells; a cell is a text, or (value, {texts})

def pull(shop, drag, radius):
    return drag / radius


def window_cells(shop, band, radius, with_aim=False):
    low_pull, high_pull = ((limit.base + shop.slack) / radius for limit in (band.low, band.high))
    low, high = in_steps(low_pull, shop.step, 1), in_steps(high_pull, shop.step, -1)
    number = lambda base, counts: (base / shop.step.factor,
                                   {steps_shown(count, shop.step) for count in counts})
    if low > high:
        return ["none"] * (3 if with_aim else 2)
    cells = [number(low_pull, [low]), number(high_pull, [high])]
    if with_aim:
        middle = (low_pull + high_pull) / 2
        ratio = middle / shop.step.base
        counts = {math.floor(ratio), math.ceil(ratio)}
        best = min(abs(ratio - count) for count in counts)
        near = [c for c in counts if abs(ratio - c) - best < F(1, 10**9)]
        cells.insert(1, number(middle, [min(max(count, low), high) for count in near]))
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
            top = (shop.never.base + shop.slack) / radius
            row.append((top / shop.step.factor,
                        {steps_shown(in_steps(top, shop.step, -1), shop.step)}))
        for unit in () if card else (maker, other):
            row += [limit_cell(band.low, unit, 1), limit_cell(band.high, unit, -1)]
        rows.append(row)
    return rows


# ---- uncertainty: JCGM 100, worked out in floating point on our own

def t_factor(share, nu):
    """Two-sided factor of Student's t: the share within is a ratio of two integrals
    of cos^(nu-1), after the substitution t = sqrt(nu) tan(angle)."""
    def integral(top, steps=4000):
        width = top / steps
        inner = sum((4 if i % 2 else 2) * math.cos(i * width) ** (nu - 1) for i in range(1, steps))
        return (1 + inner + max(math.cos(top), 0.0) ** (nu - 1)) * width / 3
    whole, low, high = integral(math.pi / 2), 0.0, math.pi / 2
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if integral(middle) < share * whole else (low, middle)
    return math.sqrt(nu) * math.tan(low)


_factors = {}


def coverage(nu):
    """k for 95.45 %, truncating the degrees of freedom; 2 for very many."""
    whole = math.floor(min(nu, 1e15))
    if whole > 20000:
        z = 2.0  # first terms of the expansion about the normal distribution
        return z + (z**3 + z) / (4 * whole) + (5 * z**5 + 16 * z**3 + 3 * z) / (96 * whole**2)
    if whole not in _factors:
        _factors[whole] = t_factor(math.erf(math.sqrt(2)), whole)
    return _factors[whole]


def planned_doubts(shop, pull, drum, repeat=None, cord=None):
    """The doubts of the drag of a pull (N) on a drum; repeat: of the mean of pulls that
    were taken (N), else what is usual in the shop."""
    radius = float(drum.base + (cord or shop.cord).base) / 2
    pull = float(pull)
    weighed = 0.0
    if shop.check and shop.check.covers(pull):
        gauge, weighed = abs(shop.check.at(pull) - pull), shop.check.u(pull)
    elif shop.checked:
        gauge = float(shop.checked.base)
    else:
        gauge = (float(shop.full_scale.base) / 100 * float(shop.capacity.base) if shop.full_scale else 0)
        gauge += float(shop.reading.base) / 100 * pull if shop.reading else 0
    if repeat is None:
        repeat = float(shop.scatter.base) / 100 * pull / math.sqrt(shop.pull_count)
    repeat *= radius
    step = float(shop.step.base) / math.sqrt(12) * radius
    lost = 1 - math.cos(math.radians(float(shop.skew.base)))
    parts = [repeat, step, step, math.hypot(gauge / math.sqrt(3), weighed) * radius,
             pull / 2 * float(shop.drum_tolerance.base) / math.sqrt(3),
             pull / 2 * float(shop.cord_tolerance.base) / math.sqrt(3),
             pull * radius * lost / math.sqrt(3)]
    return parts, weighed * radius


def planned_uncertainty(shop, pull, drum=None):
    """U of that drag; on the fitted drum where none is named."""
    parts, weighed = planned_doubts(shop, pull, drum or shop.drum)
    return expanded(shop, parts, weighed, shop.pull_count)


def expanded(shop, parts, weighed, pulls):
    """U of doubts of which the first rests on so many pulls."""
    repeat = parts[0]
    square = sum(part**2 for part in parts)
    loose = repeat**4 / (pulls - 1)
    if weighed:  # the degrees of freedom of the gauge's part, and with it of the whole
        loose += weighed**4 / (shop.check.n - 2)
    nu = square**2 / loose if loose else math.inf
    return coverage(nu) * math.sqrt(square)


def two_digits_up(value):
    """All that rounding up to two digits may give, float noise allowed."""
    found = set()
    for number in (F(value) * (1 - F(1, 10**9)), F(value) * (1 + F(1, 10**9))):
        place = F(10) ** (power_of_lead(number) - 1)
        count = math.ceil(number / place)
        found.add((10 * place * 10, place * 10) if count == 100 else (count * place, place))
    return found


def sure_windows(shop):
    unit = shop.bands[0].high.unit
    rows = []
    for band in shop.bands:
        radius = shop.radius(shop.drum)
        plain = window_cells(shop, band, radius)
        limits = [(limit, limit.base + shop.slack) for limit in (band.low, band.high)]
        doubts = [two_digits_up(planned_uncertainty(shop, base / radius) / float(UNITS[limit.unit][1]))
                  for limit, base in limits]
        us = [min(doubt)[0] * UNITS[limit.unit][1] for doubt, (limit, _) in zip(doubts, limits)]
        guarded = [limits[0][1] + us[0], limits[1][1] - us[1]]
        steps = [in_steps(guarded[0] / radius, shop.step, 1), in_steps(guarded[1] / radius, shop.step, -1)]
        good = (["none", "none"] if steps[0] > steps[1] else
                [(drag / radius / shop.step.factor, {steps_shown(count, shop.step)})
                 for drag, count in zip(guarded, steps)])
        shown = []
        for u, (limit, _), doubt in zip(us, limits, doubts):
            number = u / UNITS[unit][1]
            texts = doubt if limit.unit == unit else two_digits_up(float(number))
            shown.append((number, {digits(value, places_of(place)) for value, place in texts}))
        rows.append([band.text(), plain[0]] + good + [plain[1]] + shown)
    return rows


def drum_choice(shop):
    band, rows = shop.own_band(), []
    unit = band.high.unit
    middle = (band.low.base + band.high.base) / 2 + shop.slack
    sizes = list(shop.sizes)
    if not any(size.base == shop.drum.base for size in sizes):
        sizes = sorted(sizes + [shop.drum], key=lambda size: size.base)
    for size in sizes:
        radius = shop.radius(size)
        pull = middle / radius
        parts, _ = planned_doubts(shop, pull, size)
        u = F(2 * math.sqrt(sum(part**2 for part in parts)))
        gauge = F(100 * math.sqrt(sum(part**2 for part in parts[1:4])) / float(middle))
        span = F(100 * math.sqrt(sum(part**2 for part in parts[4:6])) / float(middle))
        ratio = float((band.high.base - band.low.base) / 2 / u)
        most = max(band.high.base, shop.never.base if shop.never else F(0)) + shop.slack
        word = ("beyond the gauge" if most / radius > shop.capacity.base else
                "sure" if ratio >= 4 else "usable" if ratio >= 2 else
                "barely" if ratio >= 1 else "cannot decide")
        turn = 2 * F(math.pi) * radius / UNITS["mm" if shop.drum.unit in METRIC else "in"][1]
        rows.append([size.shown() + (", fitted" if size.base == shop.drum.base else ""),
                     (pull / shop.step.factor, significant(pull / shop.step.factor, 3)),
                     (u / UNITS[unit][1], {digits(value, places_of(place)) for value, place in
                                           two_digits_up(float(u / UNITS[unit][1]))}),
                     (gauge, {away(gauge, 2)}), (span, {away(span, 2)}),
                     (F(ratio), nearest(F(ratio), 1)), (turn, significant(turn, 3)), word])
    able = [row for row in rows if row[7] != "beyond the gauge"]
    if able:
        best = max(able, key=lambda row: float(row[5][0]))
        best[7] += ", best here"
    return rows


def gauge_check(shop):
    if not shop.check:
        return [["none"]]
    loads, rows = {}, []
    for load, direction, reading in shop.weighings:
        key = (UNITS[load.unit][0], load.base)
        loads.setdefault(key, (load, {"up": [], "down": []}))[1][direction].append(reading)
    factor = float(shop.step.factor)
    places = places_of(shop.step.number) + 1
    cell = lambda value, at: (F(value), nearest_signed(F(value), at))
    for load, series in loads.values():
        force = shop.force(load)
        both = series["up"] + series["down"]
        mean = sum(both) / len(both)
        spreads = [max(one) - min(one) for one in series.values() if len(one) > 1]
        share = lambda part: cell(100 * part / force, 2) if force else "none"
        turned = (sum(series["down"]) / len(series["down"]) - sum(series["up"]) / len(series["up"])
                  if series["up"] and series["down"] else None)
        rows.append([load.shown(), cell(force / factor, places), cell(mean / factor, places),
                     cell((mean - force) / factor, places), share(mean - force),
                     share(max(spreads)) if spreads else "none",
                     share(turned) if turned is not None else "none",
                     cell((mean - shop.check.at(force)) / factor, places)])
    return rows


def gauge_correction(shop):
    if not shop.check:
        return [["none"]]
    band, radius, rows = shop.own_band(), shop.radius(shop.drum), []
    low, high = band.low.base + shop.slack, band.high.base + shop.slack
    factor, places = float(shop.step.factor), places_of(shop.step.number) + 1
    for name, drag in (("low pull", low), ("aim", (low + high) / 2), ("high pull", high)):
        pull = float(drag / radius)
        error, u = (shop.check.at(pull) - pull) / factor, 2 * shop.check.u(pull) / factor
        rows.append([name, (drag / radius / shop.step.factor, nearest(drag / radius / shop.step.factor, places)),
                     (F(error), nearest_signed(F(error), places)),
                     (F(-error), nearest_signed(F(-error), places)),
                     (F(u), {away(F(u) * (1 + F(i, 10**10)), places) for i in (-1, 0, 1)}),
                     "yes" if shop.check.covers(pull) else "no"])
    return rows


STATES = {"clearly low": "\u25bc", "low or in doubt": "\u25bd", "good": "\u25cf",
          "high or in doubt": "\u25b3", "clearly high": "\u25b2",
          "none: this gauge and drum cannot decide": "\u25c7"}


def state_words(drag, low, high, u):
    if drag + u < low:
        return "clearly low"
    if drag - u > high:
        return "clearly high"
    doubts = (drag - u < low, drag + u > high)
    return {(True, True): "none: this gauge and drum cannot decide", (True, False): "low or in doubt",
            (False, True): "high or in doubt", (False, False): "good"}[doubts]


def read_series(row, shop):
    """The pulls of a row: numbers with a unit each, or one behind the last."""
    words = row["pulls"].split()
    unit = words[-1] if words[-1] in UNITS else ""
    return [Quantity(word if re.search("[a-z]", word, re.I) else f"{word} {unit}")
            for word in words if word not in UNITS]


def pull_log(shop):
    rows, band = [], shop.own_band()
    unit = band.high.unit
    for row in shop.settings.get("readings.csv", []):
        pulls = read_series(row, shop)
        drum = Quantity(row["drum"]) if row.get("drum") else shop.drum
        cord = Quantity(row["cord"]) if row.get("cord") else shop.cord
        mean = sum(pull.base for pull in pulls) / len(pulls)
        radius = (drum.base + cord.base) / 2
        sd = (math.sqrt(float(sum((pull.base - mean) ** 2 for pull in pulls)) / (len(pulls) - 1))
              if len(pulls) > 1 else None)
        repeat = (sd / math.sqrt(len(pulls)) if sd is not None else
                  float(shop.scatter.base) / 100 * float(mean))
        parts, weighed = planned_doubts(shop, mean, drum, repeat, cord)
        u = expanded(shop, parts, weighed, len(pulls) if sd is not None else shop.pull_count)
        shown = two_digits_up(u / float(UNITS[unit][1]))
        number, place = min(shown)
        drag = mean * radius
        word = state_words(drag, band.low.base + shop.slack, band.high.base + shop.slack,
                           number * UNITS[unit][1])
        lock = {"before": "before lock", "after": "locked"}.get(row.get("lock"), "")
        nut = ", ".join(filter(None, [Quantity(row["nut"]).shown() if row.get("nut") else "", lock]))
        spindle = row["warmth"] + (", " + Quantity(row["temperature"]).shown()
                                   if row.get("temperature") else "")
        spindle += ", other way" if row["direction"] == "other" else ""
        span = 100 * (max(p.base for p in pulls) - min(p.base for p in pulls)) / mean
        first = Quantity(row["breakaway"]).base / mean if row.get("breakaway") else None
        mean_shown = mean / shop.step.factor
        rows.append([row["date"], nut or "not said", spindle,
                     (mean_shown, nearest(mean_shown, places_of(shop.step.number) + 1)),
                     (span, nearest(span, 1)) if len(pulls) > 1 else "none",
                     (drag / UNITS[unit][1], nearest(drag / UNITS[unit][1], places_of(place))),
                     (F(u) / UNITS[unit][1], {digits(n, places_of(p)) for n, p in shown}, 1e-9),
                     f"{STATES[word]} {word}", (first, nearest(first, 2)) if first else "none"])
    return rows or [["none"]]


def nut_map(shop):
    """Places of the nut; the slope from the row above where both were taken alike."""
    rows, before = [], None
    judged = pull_log(shop)
    for row, cells in zip(shop.settings.get("readings.csv", []), judged):
        if not row.get("nut"):
            continue
        angle, drag = Quantity(row["nut"]), cells[5]
        alike = [row.get("drum") or shop.drum.shown(), row.get("lock"), row["direction"], row["warmth"]]
        if row.get("drum"):
            alike[0] = Quantity(row["drum"]).base
        else:
            alike[0] = shop.drum.base
        slope = "none"
        if before and before[0] == alike and before[1] != angle.base:
            value = (drag[0] - before[2]) / (angle.base - before[1])
            slope = (value, significant(value, 2) if value else {"0.0"})
        lock = {"before": "before lock", "after": "locked"}.get(row.get("lock"), "not said")
        rows.append([row["date"], angle.shown(), lock, drag, slope])
        before = (alike, angle.base, drag[0])
    return rows or [["none"] * 5]


def nut_travel(settings):
    pitch = (Quantity(settings["nut.pitch"]).base if "nut.pitch" in settings else
             INCH / Quantity(settings["nut.threads"]).number if "nut.threads" in settings else None)
    if pitch is None:
        return [["none"]]
    rows = []
    for turn in (1, 2, 3, 5, 10, 15, 30, 45, 90):
        travel = pitch * turn / 360
        row = [f"{turn}\u00b0"]
        if "nut.outside-diameter" in settings:
            outside = Quantity(settings["nut.outside-diameter"])
            rim = F(math.pi) * outside.base * turn / 360
            rim, places = (rim * 1000, 1) if outside.unit in METRIC else (rim / INCH, 3)
            row.append((rim, nearest(rim, places)))
        ways = [(travel * 10**6, nearest(travel * 10**6, 1)), (travel / INCH, nearest(travel / INCH, 4))]
        inches = "nut.threads" in settings or Quantity(settings["nut.pitch"]).unit not in METRIC
        rows.append(row + (ways[::-1] if inches else ways))
    return rows


def three_drums(shop):
    smaller = [s for s in shop.sizes if shop.cord.base < s.base < shop.drum.base][-1:]
    larger = [s for s in shop.sizes if s.base > shop.drum.base][:1]
    return smaller + [shop.drum] + larger


def state(drag, band, slack):
    if drag < band.low.base + slack:
        return "below \u2212"
    return "above +" if drag > band.high.base + slack else "inside ="


def reading_to_drag(shop, counts):
    """counts: the readings, in gauge steps, that the table chose to show."""
    band, drums = shop.own_band(), three_drums(shop)
    unit = band.high.unit
    factor = UNITS[unit][1]
    finest = shop.step.base * shop.radius(drums[0]) / factor
    places = min(max(math.ceil(-math.log10(finest)), 0), 6)
    rows = []
    for count in counts:
        row = [(count * shop.step.number, {steps_shown(count, shop.step)})]
        for drum in drums:
            drag = count * shop.step.base * shop.radius(drum)
            row += [(drag / factor, nearest(drag / factor, places)),
                    state(drag, band, shop.slack)]
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
                    + window_cells(shop, shop.own_band(), arm.base))
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


def away(number, places):
    count = math.ceil(abs(number) * 10**places - F(1, 10**9))
    return digits((-1 if number < 0 else 1) * F(count, 10**places), places) if count else digits(F(0), places)


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


def expected(shop, name, rows):
    """What a table must hold. rows: as found, to know which readings were shown."""
    if name == "trusted-values":
        return trusted_values(rows)
    if name == "reading-to-drag":
        counts = [round(F(row[0].text) / shop.step.number) for row in rows]
        return reading_to_drag(shop, counts)
    return {"pull-windows": lambda: pull_windows(shop), "sure-windows": lambda: sure_windows(shop),
            "drum-choice": lambda: drum_choice(shop), "nut-travel": lambda: nut_travel(shop.settings),
            "nut-map": lambda: nut_map(shop), "pull-log": lambda: pull_log(shop), "gauge-check": lambda: gauge_check(shop), "gauge-correction": lambda: gauge_correction(shop), "drum-windows": lambda: drum_windows(shop),
            "arm-equivalents": lambda: arm_equivalents(shop),
            "cord-errors": lambda: cord_errors(shop), "length-units": length_units,
            "torque-units": lambda: unit_matrix(["N.m", "N.cm", "kgf.cm", "lbf.in", "lbf.ft", "ozf.in"]),
            "force-units": lambda: unit_matrix(["N", "kgf", "gf", "lbf", "ozf"])}[name]()
