"""The oracle for running in and warming up: see oracle.py. Temperatures are exact
fractions of a degree Fahrenheit."""
import math
import re
from fractions import Fraction as F

from oracle_shop import Quantity
from oracle_shown import digits, nearest, places_of


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
    stop = stop_in(settings, fahrenheit(settings.get("run-in.room", "20 degC")))
    rows = []
    for number, (first, last, speed, text) in enumerate(stages, 1):
        end = number == len(stages)
        share = 100 * speed / top.base
        rows.append([(F(number), {str(number)}), f"{first}" if first == last else f"{first} to {last}",
                     (speed, {text}), (share, nearest(share, 0)),
                     minutes(settings, "top-time", "20 min") if end else minutes(settings, "stage-time", "10 min"),
                     whole_celsius(stop), whole(stop), "\u25a1"])
    return rows


def whole_celsius(number):
    return whole(celsius(number))


def temperatures(settings):
    rows = []
    for step in range(13):
        warm = F(5) + step * F(5, 2)
        room = warm * 9 / 5 + 32
        stop = stop_in(settings, room)
        row = [(warm, {digits(warm, 1)}), (room, {digits(room, 1)})]
        if stop <= room:
            rows.append(row + ["none"] * 6)
            continue
        look = min(stop, room + 36)
        rows.append(row + [whole_celsius(look), whole(look), whole_celsius(stop), whole(stop),
                           whole((stop - room) * 5 / 9), whole(stop - room)])
    return rows

