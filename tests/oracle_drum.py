"""The oracle for drums: what each asks of gauge and cord, and one to make. See oracle.py."""
import math
from fractions import Fraction as F

from oracle_shop import INCH, METRIC, Quantity, UNITS
from oracle_shown import away, nearest, power_of_lead, significant
from oracle_sure import read_series


def breakaway_over_mean(shop):
    """The most that the log has; one and a half without any; a starting pull is one itself."""
    ratios = []
    if shop.settings.get("limits.torque") == "starting":
        return F(1)
    for row in shop.settings.get("readings.csv", []):
        if row.get("breakaway"):
            pulls = [pull.base for pull in read_series(row)]
            if row["says"]:
                ratios.append(Quantity(row["breakaway"]).base * len(pulls) / sum(pulls))
    return max(ratios, default=F(3, 2))


def most_pull(shop, size):
    """What the gauge must reach: the breakaway at the high limit, and never-exceed."""
    reading = lambda limit: F(shop.known.reading(limit.base, shop.radius(size)))
    pulls = [breakaway_over_mean(shop) * reading(shop.own_band().high)]
    return max(pulls + ([reading(shop.never)] if shop.never else []))


def room(most, capacity, strength):
    if most > capacity * (1 + F(1, 10**12)):
        return "beyond the gauge"
    if strength is None:
        return "cord not known"
    return "cord too weak" if 4 * most > strength else "enough"


def up(value):
    return (value, {away(value, max(2 - power_of_lead(value), 0))})


def drum_loads(shop):
    band, rows = shop.own_band(), []
    middle = (band.low.base + band.high.base) / 2
    strength = Quantity(shop.settings["cord.strength"]).base if "cord.strength" in shop.settings else None
    for size in [*shop.sizes, *([] if any(s.base == shop.drum.base for s in shop.sizes) else [shop.drum])]:
        radius = shop.radius(size)
        pull, most = F(shop.known.reading(middle, radius)), most_pull(shop, size)
        turn = 2 * F(math.pi) * radius / UNITS["mm" if shop.drum.unit in METRIC else "in"][1]
        share = lambda of: (100 * most / of, {away(100 * most / of, 0)})
        rows.append((size.base, [size.shown() + (", fitted" if size.base == shop.drum.base else ""),
                     (pull / shop.step.factor, significant(pull / shop.step.factor, 3)),
                     up(most / shop.step.factor),
                     share(shop.capacity.base), "not known" if strength is None else share(strength),
                     (turn, significant(turn, 3)), room(most, shop.capacity.base, strength)]))
    return [row for _, row in sorted(rows, key=lambda pair: pair[0])]


def drum_making(shop):
    settings = shop.settings
    cord = shop.cord.base
    wanted = Quantity(settings["drum.wanted-radius"]).base if "drum.wanted-radius" in settings else None
    turns = int(settings.get("drum.turns", 4))
    radius = wanted or shop.radius(shop.drum)
    three = F(3, 1000)
    peg, height, thick = max(three, 2 * cord), max(three, 3 * cord), max(three, cord + F(15, 10000))
    land = 2 * radius - cord
    wide = 2 * peg + (turns + 1) * cord * F(11, 10)
    lengths = [("R", "effective radius", radius, "wanted" if wanted else "fitted drum"),
               ("D", "land, outside", land, "2 R less the cord"),
               ("W", "land, width", wide, f"peg and {turns} turns"),
               ("F", "flange, outside", land + 2 * height, "D and 2 H"),
               ("H", "flange, height", height, "3 cords, 3 mm at least"),
               ("T", "flange, thickness", thick, "a cord and 1.5 mm, 3 mm at least"),
               ("S", "slope of 45\u00b0", height, "as H"),
               ("L", "whole width", wide + height + 2 * thick, "W, S and 2 T"),
               ("P", "peg, width", 2 * peg, "of plastic 2 G"),
               ("G", "peg, height", peg, "2 cords, 3 mm at least"),
               ("N", "notch, width", 4 * peg, "P and 2 G"),
               ("B", "bore", Quantity(settings["drum.bore"]).base if "drum.bore" in settings else None, "yours"),
               ("C", "cord of a turn", 2 * F(math.pi) * radius, "2 \u03c0 R")]
    return [[letter, name, (1000 * length, nearest(1000 * length, 2)), (length / INCH, nearest(length / INCH, 3)), how]
            if length is not None else [letter, name, "yours", "yours", "to fit the nose"]
            for letter, name, length, how in lengths]
