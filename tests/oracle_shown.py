"""How the oracle shows numbers, as exact fractions."""
import math
from fractions import Fraction as F

from oracle_shop import MINUS


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
    """The text that rounding to nearest gives, a half away from zero, as a set of one."""
    count = math.floor(abs(number) * 10**places + F(1, 2))
    return {digits((-1 if number < 0 else 1) * F(count, 10**places), places)}


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


def away(number, places):
    count = math.ceil(abs(number) * 10**places - F(1, 10**9))
    return digits((-1 if number < 0 else 1) * F(count, 10**places), places) if count else digits(F(0), places)
