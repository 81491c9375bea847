"""The oracle's course of the nut through the log: where it stands unloaded, and where it was
turned back without. See oracle.py."""
import datetime

from oracle_shop import Quantity

QUARTER, REST, FAR = 90, 30, 30


def place_of(row):
    return Quantity(row["nut"]).base if row.get("nut") else None


def course(log):
    """Of each row: whether the nut is unloaded, and whether it was turned back to where it is."""
    found, tops, here = [], [], None  # tops: (job, angle) since it was last unloaded
    job, unloaded, back, day = 0, False, False, None
    for row in log:
        before, day = day, datetime.date.fromisoformat(row["date"])
        job += bool(before and (day - before).days >= REST)
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
