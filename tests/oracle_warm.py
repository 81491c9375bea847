"""The oracle for running in and warming up: see oracle.py. Temperatures are exact
fractions of a degree Fahrenheit."""
import math
import re
from fractions import Fraction as F

from oracle_shop import INCH, METRIC, NBSP, Quantity
from oracle_shown import away, digits, nearest, places_of, significant


def fahrenheit(text):
    number = Quantity(text).number
    return number if text.strip().endswith("F") else number * 9 / 5 + 32


def rise(text):
    number = Quantity(text).number
    return number if text.strip().endswith("F") else number * 9 / 5


def celsius(number):
    return (number - 32) * 5 / 9


def whole(number, direction=-1):
    count = math.floor(number) if direction < 0 else math.ceil(number)
    return (number, {digits(F(count), 0)})


def stop_in(settings, room):
    return min(fahrenheit(settings.get("run-in.stop", "60 degC")),
               room + rise(settings.get("run-in.rise", "35 degC")))


def look_in(settings, room):
    return min(stop_in(settings, room), room + 36)


def own_room(settings):
    return fahrenheit(settings.get("run-in.room", "20 degC"))


def minutes(settings, key, otherwise):
    text = settings.get("run-in." + key, otherwise)
    number, unit = re.fullmatch(r"([\d.]+)\s*(\w+)", text).groups()
    return whole(F(number) * {"s": 1, "min": 60, "h": 3600}[unit] / 60, 1)


def run_in(settings):
    top = Quantity(settings["lathe.top-speed"])
    speeds = [Quantity(text) for text in settings.get("lathe.speeds", "").split(",") if text.strip()]
    stages = []  # first tenth, last tenth, speed, text
    for tenth in range(1, 11):
        most = top.base * tenth / 10
        able = [speed for speed in speeds if speed.base <= most]
        if speeds and not able:
            continue
        best = max(able, key=lambda speed: speed.base) if able else None
        speed = best.base if able else most
        text = best.digits if able else digits(most, places_of(top.base / 10))
        if able and stages and stages[-1][2] == speed:
            stages[-1][1] = tenth
        else:
            stages.append([tenth, tenth, speed, text])
    room = own_room(settings)
    stop, look = stop_in(settings, room), look_in(settings, room)
    rows = []
    for number, (first, last, speed, text) in enumerate(stages, 1):
        end = number == len(stages)
        share = 100 * speed / top.base
        rows.append([(F(number), {str(number)}), f"{first}" if first == last else f"{first} to {last}",
                     (speed, {text}), (share, nearest(share, 0)),
                     minutes(settings, "top-time", "20 min") if end else minutes(settings, "stage-time", "10 min"),
                     whole_celsius(look), whole(look), whole_celsius(stop), whole(stop), "\u25a1"])
    return rows


def whole_celsius(number):
    return whole(celsius(number))


def temperatures(settings):
    rows = []
    if settings.get("run-in.room", "20 degC").strip().endswith("F"):
        round_rooms = {F(warm) for warm in range(40, 96, 5)}
    else:
        round_rooms = {F(5 + step * F(5, 2)) * 9 / 5 + 32 for step in range(13)}
    for room in sorted(round_rooms | {own_room(settings)}):
        warm, stop, look = celsius(room), stop_in(settings, room), look_in(settings, room)
        row = [(warm, nearest(warm, 1)), (room, nearest(room, 1))]
        if stop <= room:
            rows.append(row + ["none"] * 6)
            continue
        rows.append(row + [whole_celsius(look), whole(look), whole_celsius(stop), whole(stop),
                           whole((stop - room) * 5 / 9), whole(stop - room)])
    return rows


def pull_speed(shop):
    turn = 2 * F(math.pi) * shop.radius(shop.drum)
    rows = []
    for seconds in (15, 12, 10, 8, 6, 5, 4, 3, 2, 1):
        speed, cord = F(60, seconds), turn / seconds
        ways = [(cord * 1000, significant(cord * 1000, 3)), (cord / INCH, significant(cord / INCH, 3))]
        rows.append([(F(seconds), {str(seconds)}), (speed, nearest(speed, 1))]
                    + (ways if shop.drum.unit in METRIC else ways[::-1]))
    return rows


BODIES = {"mm": [("spindle, 60 \u00d7 500", 60, 500), ("large gear, 200 \u00d7 25", 200, 25),
                 ("chuck, 125 \u00d7 55", 125, 55), ("chuck, 160 \u00d7 65", 160, 65),
                 ("chuck, 200 \u00d7 80", 200, 80), ("faceplate, 250 \u00d7 20", 250, 20)],
          "in": [("spindle, 2 1/2 \u00d7 20", 2.5, 20), ("large gear, 8 \u00d7 1", 8, 1),
                 ("chuck, 5 \u00d7 2 1/4", 5, 2.25), ("chuck, 6 \u00d7 2 1/2", 6, 2.5),
                 ("chuck, 8 \u00d7 3 1/4", 8, 3.25), ("faceplate, 10 \u00d7 3/4", 10, 0.75)]}


def chuck_left_on(shop):
    band = shop.own_band() if shop.bands else None
    span = band.high.base - band.low.base if band else 0
    unit = "mm" if shop.drum.unit in METRIC else "in"
    metre = F(1, 1000) if unit == "mm" else INCH
    rows = []
    for name, across, long in BODIES[unit]:
        radius, length = F(across) * metre / 2, F(long) * metre
        mass = 7850 * F(math.pi) * radius**2 * length
        inertia = mass * radius**2 / 2
        kind, size = name.split(", ")
        row = [f"{kind}, {size.replace(chr(32), NBSP)}{NBSP}{unit}",
               (mass, nearest(mass, 1)), (inertia, nearest(inertia, 3))]
        for turns in (F(12, 60), F(12, 600)):  # a second to come to so many turns a second
            drag = inertia * 2 * F(math.pi) * turns
            pull = drag / shop.radius(shop.drum) / shop.step.factor
            share = 100 * drag / span if span else None
            row += [(pull, {away(pull, places_of(shop.step.number) + 1)}),
                    (share, {away(share, 1)}) if span else "none"]
        rows.append(row)
    return rows
