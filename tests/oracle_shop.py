"""The oracle's shop: settings read with a few lines of its own, every length, force and
torque an exact fraction.

Sources of the factors: 1 in = 25.4 mm and 1 lb = 0.45359237 kg (international
yard and pound agreement, 1959); standard gravity 9.80665 m/s2 (3rd CGPM, 1901).
"""
import csv
import math
import os
import re
from fractions import Fraction as F

from oracle_measure import Gauge

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
    "min": ("time", F(60)), "s": ("time", F(1)), "h": ("time", F(3600)),
    "mm2/s": ("viscosity", F(1)), "cSt": ("viscosity", F(1)),
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
        digits = self.digits.replace(" ", NBSP).replace("-", MINUS)
        return digits + ("\u00b0" if self.unit == "deg" else NBSP + shown_unit(self.unit))

    def inside(self, unit):
        return self.base / UNITS[unit][1]


# ---- settings: sections, "key: value" lines and {flow} rows; enough for ours

def flow(text):
    pairs = {}
    for part in re.findall(r'([a-z-]+):\s*("[^"]*"|[^,}]*)', text):
        pairs[part[0]] = part[1].strip().strip('"')
    return pairs


def read_settings(path, replacements=()):
    """With the logs beside it; as "filed" what is not replaced, and as "earlier" the settings that
    were in force before a day, oldest first."""
    settings = read_file(path)
    folder = os.path.dirname(path)
    for name in ("gauge-check.csv", "readings.csv"):
        log = os.path.join(folder, name)
        if os.path.exists(log):
            with open(log, encoding="utf-8", newline="") as file:
                settings[name] = list(csv.DictReader(file))
    log = settings.get("readings.csv", [])
    settings["steps"] = [row for row in log if row.get("step")]
    settings["readings.csv"] = [row for row in log if not row.get("step")]
    settings["filed"] = dict(settings)
    settings["earlier"] = [(name[len("settings-before-"):-len(".yaml")], read_file(os.path.join(folder, name)))
                           for name in sorted(os.listdir(folder)) if name.startswith("settings-before-")]
    settings.update(dict(one.split("=", 1) for one in replacements))
    return settings


def read_file(path):
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
        self.is_increase = bool(self.bands) and settings.get("limits.basis") == "increase"
        self.slack = quantity("limits.slack-drag").base if self.is_increase else F(0)
        self.arm = quantity("limits.maker-arm")
        self.top = quantity("lathe.top-speed")
        self.drum, self.cord = quantity("drum.diameter"), quantity("cord.diameter")
        self.step, self.capacity = quantity("gauge.step"), quantity("gauge.capacity")
        self.drum_tolerance, self.cord_tolerance = quantity("drum.tolerance"), quantity("cord.tolerance")
        self.pull_count = int(settings.get("pulls.count", 5))
        self.scatter = quantity("pulls.scatter") or Quantity("2 %")
        self.skew = quantity("pulls.skew") or Quantity("5 deg")
        self.gravity = 9.80665
        if "site.latitude" in settings:
            height = float(quantity("site.height").base) if "site.height" in settings else 0.0
            self.gravity = local_gravity(float(quantity("site.latitude").base), height)
        self.lost = 1 - math.cos(math.radians(float(self.skew.base)))
        number = lambda key, share=1: float(quantity(key).base) / share if key in settings else None
        self.gauge = Gauge(float(self.step.base), float(self.capacity.base),
                           number("gauge.full-scale-error", 100) or 0.0,
                           number("gauge.reading-error", 100) or 0.0, number("gauge.checked-error"),
                           number("gauge.zero-error"), number("gauge.orientation-error"),
                           "site.latitude" in settings)
        self.sizes, self.arms = sizes("tables.drum-sizes"), sizes("tables.arms")
        self.filed = Shop(settings["filed"]) if "filed" in settings else self
        self.earlier = [(day, Shop(one)) for day, one in settings.get("earlier", [])]

    def on(self, day):
        """Its settings in force on a day, as "2026-03-09"."""
        return next((shop for before, shop in self.earlier if day < before), self.filed)

    def force(self, load):
        weight = UNITS[load.unit][0] == "mass"
        return float(load.base) * (self.gravity * (1 - 1.2 / 8000) if weight else 1)

    def drag_unit(self):
        """Without limits: by what the gauge reads."""
        return (self.own_band().high.unit if self.bands else
                "N.m" if self.step.unit in METRIC else "lbf.in")

    def own_band(self):
        if not self.bands:
            return None
        holding = [b for b in self.bands if b.start.base <= self.top.base <= b.end.base]
        return min(holding, key=lambda b: (b.high.base, -b.low.base))

    def radius(self, drum):
        return (drum.base + self.cord.base) / 2
