"""The oracle's nut: its course through the log, where it stands unloaded and where it was
turned back without; and how far it goes when it is turned. See oracle.py."""
import datetime
import math
from fractions import Fraction as F

from oracle_shop import INCH, METRIC, Quantity
from oracle_shown import nearest

QUARTER, REST, FAR = 90, 30, 30


def place_of(row):
    return Quantity(row["nut"]).base if row.get("nut") else None


def same_job(row, then):
    """Whether a row and the one behind it belong to one job: by its name, without names by days."""
    if row.get("job") or then.get("job"):
        return row.get("job") == then.get("job")
    days = datetime.date.fromisoformat(then["date"]) - datetime.date.fromisoformat(row["date"])
    return days.days < REST


def course(log):
    """Of each row: whether the nut is unloaded, and whether it was turned back to where it is."""
    found, tops, here = [], [], None  # tops: (job, angle) since it was last unloaded
    job, unloaded, back, before = 0, False, False, None
    for row in log:
        job += bool(before and not same_job(before, row))
        before = row
        angle = place_of(row)
        if row.get("lock") == "unloaded":
            tops, here, unloaded, back = [], None, True, False
        elif angle is not None:
            if angle != here:
                unloaded = any(one - angle >= QUARTER for _, one in tops)
                tops = [] if unloaded else tops
                back = any(one > angle for at, one in tops if at == job)
            here = angle
            tops.append((job, angle))
        found.append((unloaded, back))
    return found


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
        ways = [(travel * 10**6, nearest(travel * 10**6, 1)), (travel / INCH, nearest(travel / INCH, 5))]
        inches = "nut.threads" in settings or Quantity(settings["nut.pitch"]).unit not in METRIC
        rows.append(row + (ways[::-1] if inches else ways))
    return rows
