"""The oracle's uncertainty: JCGM 100, worked out in floating point on our own."""
import math
from fractions import Fraction as F

from oracle_shown import power_of_lead


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


def repeat_of(shop, sd, count, mean):
    """What the pulls' scatter leaves of their mean, and how many pulls that rests on: few
    pulls never count as steadier than the shop plans, and then rest on its plan."""
    plan = float(shop.scatter.base) * mean / 100
    if sd is not None and count >= shop.pull_count:
        return sd / count**0.5, count
    if sd is None or sd <= plan:
        return plan / count**0.5, shop.pull_count
    return sd / count**0.5, count


def stated_error(shop, pull):
    if shop.checked:
        return float(shop.checked.base)
    return ((float(shop.full_scale.base) / 100 * float(shop.capacity.base) if shop.full_scale else 0) +
            (float(shop.reading.base) / 100 * pull if shop.reading else 0))


def doubts_of(shop, pull, drum, repeat=None, cord=None):
    """The doubts of the drag of a pull (N) on a drum, the part of the weights, and the known
    error that stays in the reading; repeat: of the mean of pulls that were taken (N), else
    what is usual in the shop. By each way to know the gauge that counts at that pull: the
    weights where they reach, what is stated where there are none, else both."""
    radius = float(drum.base + (cord or shop.cord).base) / 2
    pull = float(pull)
    if repeat is None:
        repeat = float(shop.scatter.base) / 100 * pull / math.sqrt(shop.pull_count)
    repeat *= radius
    step = float(shop.step.base) / math.sqrt(12) * radius
    lost = 1 - math.cos(math.radians(float(shop.skew.base)))
    ways = []
    if shop.check:  # an error that is known is not left to chance
        ways.append((0.0, shop.check.u(pull), shop.check.carried(pull)))
    if not (shop.check and shop.check.covers(pull)):
        ways.append((stated_error(shop, pull), 0.0, 0.0))
    return [([repeat, step, step, math.hypot(gauge / math.sqrt(3), weighed) * radius,
              pull / 2 * float(shop.drum_tolerance.base) / math.sqrt(3),
              pull / 2 * float(shop.cord_tolerance.base) / math.sqrt(3),
              pull * radius * lost / math.sqrt(3)], weighed * radius, bias * radius)
            for gauge, weighed, bias in ways]


def largest(shop, pull, drum, repeat=None, cord=None, seen=None):
    """U and its doubts, of the way that makes U the larger."""
    seen = seen or shop.pull_count
    return max(((expanded(shop, parts, weighed, seen) + bias, parts, bias)
                for parts, weighed, bias in doubts_of(shop, pull, drum, repeat, cord)),
               key=lambda way: way[0])


def evenly(shop, pull, drum):
    """The same with the factor 2."""
    return max(((2 * math.sqrt(sum(part**2 for part in parts)) + bias, parts, bias)
                for parts, _, bias in doubts_of(shop, pull, drum)), key=lambda way: way[0])


def planned_uncertainty(shop, pull, drum=None):
    """U of that drag; on the fitted drum where none is named."""
    return largest(shop, pull, drum or shop.drum)[0]


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
