"""The oracle's measurement: what is known of a drag, and with what chance it lies beyond a
limit. Written from docs/mathematics.md ("How sure a drag is"), the GUM (JCGM 100) and JCGM 106.
Forces in N, drags in N.m, readings in N; shares where it says so. See oracle.py."""
import math

SHARE = math.erf(math.sqrt(2))  # 95.45 %, so that t comes down to 2
RISK, SURE = 0.025, 0.975
NOISE = 1e-9  # of doubles: a range of exactly two steps is not wider than two
LEAST_SCATTER = 0.001  # no prior says that pulls do not scatter
MANY = 1e9  # degrees of freedom from which a distribution is the normal one

# ---- distributions


def _log_beta(a, b):
    """Of Stirling's series where the first is so large that lgamma() would cancel."""
    if a < b:
        return _log_beta(b, a)
    if a < 1e4:
        return math.lgamma(a) + math.lgamma(b) - math.lgamma(a + b)
    rest = lambda z: 1 / (12 * z) - 1 / (360 * z**3) + 1 / (1260 * z**5)
    if b < 1e4:  # ln G(a) - ln G(a + b)
        return (math.lgamma(b) + b - b * math.log(a + b) - (a - 0.5) * math.log1p(b / a)
                + rest(a) - rest(a + b))
    return ((a - 0.5) * math.log(a / (a + b)) + (b - 0.5) * math.log(b / (a + b))
            + 0.5 * math.log(2 * math.pi / (a + b)) + rest(a) + rest(b) - rest(a + b))


def beta_share(x, y, a, b):
    """The regularised incomplete beta function of x = 1 - y: both are given, since the one
    that is small would lose its digits in the other. Its continued fraction, from the back."""
    if x <= 0:
        return 0.0
    if y <= 0:
        return 1.0
    if x > (a + 1) / (a + b + 2):
        return 1 - beta_share(y, x, b, a)
    front = math.exp(a * math.log(x) + b * math.log(y) - _log_beta(a, b)) / a
    value, terms = 1.0, 60 + int(8 * math.sqrt(max(a, b)))
    for m in range(terms, 0, -1):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m - 1) * (a + b + m - 1) * x / ((a + 2 * m - 2) * (a + 2 * m - 1))
        value = 1 + odd / (1 + even / value)
    return front / value


def student_above(t, nu):
    """The share of Student's distribution above t."""
    if nu >= MANY:
        return 0.5 * math.erfc(t / math.sqrt(2))
    square = t * t
    half = 0.5 * beta_share(nu / (nu + square), square / (nu + square), nu / 2, 0.5)
    return half if t >= 0 else 1 - half


def fisher_above(f, over, under):
    """The share of Fisher's distribution of so many degrees of freedom above f."""
    if under >= MANY:
        return 1 - gamma_share(over / 2, over * f / 2)
    whole = under + over * f
    return beta_share(under / whole, over * f / whole, under / 2, over / 2)


def gamma_share(a, x):
    """The regularised incomplete gamma function by its series."""
    term = total = 1 / a
    k = a
    while term > total * 1e-17:
        k += 1
        term *= x / k
        total += term
    return total * math.exp(-x + a * math.log(x) - math.lgamma(a)) if x > 0 else 0.0


def student_at(share_above, nu):
    """The t above which that share lies, less than a half."""
    low, high = 0.0, 1.0
    while student_above(high, nu) > share_above:
        high *= 2
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if student_above(middle, nu) > share_above else (low, middle)
    return (low + high) / 2


_factors = {}


def t_factor(nu):
    if nu not in _factors:
        _factors[nu] = 2.0 if nu >= MANY else student_at((1 - SHARE) / 2, nu)
    return _factors[nu]


# ---- the scatter of pulls, and what all pulls of a series share

MOST_NU = 80
CORRELATIONS = [0.95 * (i + 0.5) / 8 for i in range(8)]


def mean_of(values):
    return sum(values) / len(values)


def deviation(values):
    """The sample's standard deviation."""
    mean = mean_of(values)
    return math.sqrt(sum((x - mean) ** 2 for x in values) / (len(values) - 1))


class Scatter:
    def __init__(self, planned):
        """planned: standard deviation, share of the mean."""
        self.nu = 4.0
        self.sums = [4 * max(planned, LEAST_SCATTER) ** 2] * len(CORRELATIONS)
        self.logs = [2 * math.log(1 - r / 0.95) for r in CORRELATIONS]
        self.means = {}  # variances of means, by their number: worked out once

    def copy(self):
        other = Scatter(0)
        other.nu, other.sums, other.logs = self.nu, list(self.sums), list(self.logs)
        return other

    def learn(self, pulls, step):
        n, mean = len(pulls), mean_of(pulls)
        if n < 2 or mean <= 0:
            return
        self.means = {}
        d = [x / mean - 1 for x in pulls]
        squares, inner = sum(x * x for x in d), sum(x * x for x in d[1:-1])
        products = sum(a * b for a, b in zip(d, d[1:]))
        rounding = (n - 1) * (step / mean) ** 2 / 12
        for i, r in enumerate(CORRELATIONS):
            w = (n - (n - 2) * r) / (1 + r)
            q = ((squares + r * r * inner - 2 * r * products) / (1 - r * r)
                 - (r * (d[0] + d[-1]) / (1 + r)) ** 2 / w)
            self.sums[i] += max(q - rounding, 0)
            self.logs[i] -= 0.5 * ((n - 1) * math.log(1 - r * r) + math.log(w))
        self.nu += n - 1
        if self.nu > MOST_NU:
            fade = MOST_NU / self.nu
            self.nu *= fade
            self.sums = [x * fade for x in self.sums]
            self.logs = [x * fade for x in self.logs]

    def weights(self):
        logs = [e - self.nu / 2 * math.log(q) for e, q in zip(self.logs, self.sums)]
        top = max(logs)
        parts = [math.exp(x - top) for x in logs]
        return [part / sum(parts) for part in parts]

    def variance(self):
        """Of a pull, share of the mean squared."""
        return sum(p * q for p, q in zip(self.weights(), self.sums)) / self.nu

    def of_mean(self, n):
        """Variance of a mean of n, share squared."""
        if n not in self.means:
            self.means[n] = sum(p * q * (1 + 2 * sum((n - k) / n * r**k for k in range(1, n)))
                                for p, q, r in zip(self.weights(), self.sums, CORRELATIONS)) / self.nu / n
        return self.means[n]


class Between:
    def __init__(self):
        self.nu, self.sum = 3.0, 3 * 0.007**2

    def copy(self):
        other = Between()
        other.nu, other.sum = self.nu, self.sum
        return other

    def learn(self, mean, others, of_mean):
        """others: the means of the series alike; of_mean: variance of this one's, share."""
        if not others or mean <= 0:
            return
        factor = 1 + 1 / len(others)
        apart = mean / mean_of(others) - 1
        self.sum += max(apart**2 - of_mean * factor, 0) / factor
        self.nu += 1
        if self.nu > MOST_NU:
            self.sum *= MOST_NU / self.nu
            self.nu = MOST_NU

    def variance(self):
        return self.sum / self.nu


# ---- what is told of a series, by the scatter known before it

def is_wide(pulls, step):
    """More than two steps: less is the display's."""
    return max(pulls) - min(pulls) > 2 * step * (1 + NOISE)


def is_rejected(pulls, scatter, step):
    n, mean = len(pulls), mean_of(pulls)
    if n < 2 or mean <= 0 or not is_wide(pulls, step):
        return False
    allowed = scatter.variance() + (step / mean) ** 2 / 12
    return fisher_above((deviation(pulls) / mean) ** 2 / allowed, n - 1, scatter.nu) < 0.001


def trend(pulls, scatter, step):
    """1 where they rise steadily, -1 where they fall, else 0."""
    n, mean = len(pulls), mean_of(pulls)
    if n < 3 or mean <= 0:
        return 0
    order = [k - (n - 1) / 2 for k in range(n)]
    across = sum(x * x for x in order)
    slope = sum(x * y for x, y in zip(order, pulls)) / across
    rest = sum((y - mean - slope * x) ** 2 for x, y in zip(order, pulls))
    wider = math.sqrt(n * scatter.of_mean(n) / scatter.variance())
    error = math.sqrt(rest / (n - 2) / across) * wider + step / math.sqrt(12 * n)
    if abs(slope) * (n - 1) <= 2 * step * (1 + NOISE):
        return 0
    if 2 * student_above(abs(slope) / error, n - 2) >= 0.002:
        return 0
    return 1 if slope > 0 else -1


def outlier(pulls, step):
    """The place, from 0, of the pull that lies apart; or None."""
    n = len(pulls)
    if n < 4 or max(pulls) == min(pulls):
        return None
    mean, sd = mean_of(pulls), deviation(pulls)
    far = max(range(n), key=lambda k: abs(pulls[k] - mean))
    apart = abs(pulls[far] - mean)
    return far if apart > 2 * step * (1 + NOISE) and apart / sd > outlier_limit(n, 0.002) else None


def outlier_limit(n, risk):
    """Grubbs' for the one that is farthest either way."""
    t = student_at(risk / (2 * n), n - 2)
    return (n - 1) / math.sqrt(n) * math.sqrt(t * t / (n - 2 + t * t))


def may_be_stuck(pulls, scatter, step):
    return (len(pulls) >= 4 and max(pulls) == min(pulls)
            and math.sqrt(scatter.variance()) * pulls[0] > step)


# ---- the check of the gauge

class Weighing:
    def __init__(self, force, down, reading, is_mass=True, tolerance=0.005, load=None, name=None,
                 certificate=None):
        """force, reading: N; tolerance: of the weight, share; load: as it was typed; name: of
        the masses."""
        self.force, self.down, self.reading = force, down, reading
        self.is_mass, self.tolerance, self.load = is_mass, tolerance, load
        self.name, self.certificate = name, certificate


class Session:
    """The weighings of one day by one person, and their line."""

    def __init__(self, rows, step):
        self.rows = rows
        forces, readings = [row.force for row in rows], [row.reading for row in rows]
        self.k, self.mean = len(rows), mean_of(forces)
        self.least, self.most = min(forces), max(forces)
        self.across = sum((x - self.mean) ** 2 for x in forces)
        self.tolerance = max(row.tolerance for row in rows)
        self.has_mass = any(row.is_mass for row in rows)
        names = {row.name or None for row in rows}
        self.name = names.pop() if len(names) == 1 else None
        self.is_certified = all(row.certificate for row in rows)
        self.loads = sorted(set(forces))
        ways = {load: ([r.reading for r in rows if r.force == load and not r.down],
                       [r.reading for r in rows if r.force == load and r.down]) for load in self.loads}
        self.both = [(mean_of(up), mean_of(down)) for up, down in ways.values() if up and down]
        self.is_complete = len(self.loads) >= 3 and len(self.both) >= 2
        self.hysteresis = max((abs(down - up) for up, down in self.both), default=None)
        if len(self.loads) < 2:
            self.b = None
            return
        middle = mean_of(readings)
        self.b = sum((x - self.mean) * (y - middle) for x, y in zip(forces, readings)) / self.across
        self.a = middle - self.b * self.mean
        rest = sum((y - self.a - self.b * x) ** 2 for x, y in zip(forces, readings))
        self.nu = 4 + self.k - 2
        self.s = math.sqrt((4 * step**2 / 12 + rest) / self.nu)

    def force(self, reading):
        return (reading - self.a) / self.b

    def reading(self, force):
        return self.a + self.b * force

    def reaches(self, force):
        return self.least / 2 <= force <= 1.25 * self.most

    def u_line(self, force):
        return self.s / self.b * math.sqrt(1 / self.k + (force - self.mean) ** 2 / self.across)

    def u_line_of_increase(self, increase):
        return self.s / self.b * abs(increase) / math.sqrt(self.across)

    def half_hysteresis(self, stated):
        return stated if self.hysteresis is None else self.hysteresis / 2


class NoCheck:
    """A gauge that was never checked: it shows the force, as far as is stated."""
    a, b = 0.0, 1.0

    def force(self, reading):
        return reading

    def reading(self, force):
        return force


class Gauge:
    def __init__(self, step, capacity=0.0, full_scale=0.0, of_reading=0.0, checked=None, zero=None,
                 orientation=None, site_known=False):
        """Forces in N, shares as shares."""
        self.step, self.capacity, self.full_scale, self.of_reading = step, capacity, full_scale, of_reading
        self.checked, self.site_known = checked, site_known
        self.zero = step if zero is None else zero
        self.orientation = step / 2 if orientation is None else orientation

    def stated(self, force):
        if self.checked is not None:
            return self.checked
        return self.full_scale * self.capacity + self.of_reading * force


def combined(parts):
    """Of standard uncertainties with their degrees of freedom: u and nu."""
    square = sum(u * u for u, _ in parts)
    loose = sum(u * u / nu for u, nu in parts)
    return math.sqrt(square), square / loose if loose else math.inf


def doubt_of_line(session, force, drift=0.005):
    """U of a force by the line, to compare it with another's; what is stated has no part in it."""
    hysteresis = session.half_hysteresis(0)
    u, nu = combined([(session.u_line(force), session.nu),
                      (session.tolerance / math.sqrt(3) * force, math.inf),
                      (drift / math.sqrt(3) * force, math.inf),
                      (hysteresis / math.sqrt(3) / session.b, math.inf)])
    return t_factor(nu) * u


def agree(one, other):
    """one: the earlier, by which the reading is made."""
    for force in max(one.least, other.least), min(one.most, other.most):
        there = other.force(one.reading(force))
        if abs(there - force) > math.hypot(doubt_of_line(one, force),
                                           doubt_of_line(other, there)):
            return False
    return True


def by_other_weights(one, other):
    """Whether the weights of two sessions cannot be wrong together."""
    named = one.name and other.name and one.name != other.name
    return bool(named or one.is_certified or other.is_certified)


class Checks:
    """What is in force after some sessions in their order, what speaks against it, and whether
    it is confirmed."""

    def __init__(self, sessions):
        self.force = self.other = complete = None
        self.is_confirmed = False
        for session in sessions:
            if session.b is None or session.b <= 0:
                continue
            session.drift = drift_of(session, complete)
            takes_over = session.is_complete or complete is None
            agreed = self.force is not None and agree(self.force, session)
            says_so = agreed and (self.is_confirmed or by_other_weights(self.force, session))
            self.is_confirmed = says_so or (self.is_confirmed and not takes_over)
            if complete is not None:  # else there is nothing yet that another could speak against
                self.other = None if agreed else self.force if session.is_complete else session
            if takes_over:
                self.force = session
            if session.is_complete:
                complete = session

    def lines(self):
        """Each line that counts; first the one in force."""
        if self.force is None:
            return [NoCheck()]
        return [self.force] + ([self.other] if self.other else [])


def drift_of(session, before):
    """Share of the force by which it may have drifted since it was checked; before: the last
    complete session before it, or None."""
    if before is None:
        return 0.005
    there = before.force(session.reading(session.mean))
    return max(0.005, abs(there / session.mean - 1))


# ---- the budget

class Rig:
    """Drum and cord in m, with their tolerances; skew: the angle at most, rad."""

    def __init__(self, drum, cord, drum_tolerance, cord_tolerance, skew):
        self.across = drum + cord
        self.drum_tolerance, self.cord_tolerance = drum_tolerance, cord_tolerance
        self.lost = 1 - math.cos(skew)
        self.arm = self.across / 2 * (1 - self.lost / 2)


class Known:
    """A series as it counts: the mean reading, and what its scatter leaves of it."""

    def __init__(self, mean, n, width, scatter, between, step):
        """width: highest less lowest, N."""
        self.mean, self.n = mean, n
        self.scatter, self.scatter_nu = math.sqrt(scatter.of_mean(n)), scatter.nu
        self.between, self.between_nu = math.sqrt(between.variance()), between.nu
        in_one = width <= step * (1 + 1e-6)
        self.rounding = step / math.sqrt(12) / (1 if in_one else math.sqrt(n))


SHARED = ("scatter", "between", "weights", "gravity", "drift", "drum", "cord")


class Drag:
    """A series' drag by one line of the gauge, and what is known of it; slack: the series from
    which an increase counts, or None."""

    def __init__(self, known, rig, gauge, line, slack=None, confirmed=False):
        root3, exact = math.sqrt(3), math.inf
        whole = line.force(known.mean)
        force = whole - (line.force(slack.mean) if slack else 0.0)
        both = lambda of: math.hypot(of(known), of(slack)) if slack else of(known)
        stated = gauge.stated(whole)
        parts = {
            "scatter": (both(lambda one: one.scatter * one.mean) / line.b, known.scatter_nu),
            "between": (both(lambda one: one.between * one.mean) / line.b, known.between_nu),
            "rounding": (both(lambda one: one.rounding) / line.b, exact),
            "zero": (gauge.zero / root3 / line.b * (math.sqrt(2) if slack else 1), exact),
            "line": (stated / root3, exact),
            "drum": (force * rig.drum_tolerance / rig.across / root3, exact),
            "cord": (force * rig.cord_tolerance / rig.across / root3, exact),
        }
        if isinstance(line, Session):
            of_line = line.u_line_of_increase(force) if slack else line.u_line(whole)
            if line.reaches(whole) or of_line >= parts["line"][0]:
                parts["line"] = (of_line, line.nu)
            by_mass = line.has_mass and not gauge.site_known
            parts["weights"] = (line.tolerance / root3 * force, exact)
            parts["gravity"] = (0.0027 / root3 * force if by_mass else 0.0, exact)
            parts["drift"] = (line.drift / root3 * force, exact)
            parts["hysteresis"] = (line.half_hysteresis(stated) / root3 / line.b, exact)
            parts["orientation"] = (0.0 if slack else gauge.orientation / root3 / line.b, exact)
        self.parts = {name: (abs(u) * rig.arm, nu) for name, (u, nu) in parts.items()}
        self.drag, self.whole, self.force = force * rig.arm, whole * rig.arm, force
        self.askew = abs(force) * rig.across / 2 * rig.lost / 2
        self.u, self.nu = combined(list(self.parts.values()))
        shared = sum(self.parts[name][0] ** 2 for name in SHARED if name in self.parts)
        self.share = math.sqrt(shared) / self.whole if self.whole > 0 else 0.0
        self.correction = known.mean - whole
        self.is_far_off = not confirmed and abs(self.correction) > abs(known.mean) / 5

    def expanded(self):
        return t_factor(self.nu) * self.u + self.askew

    def u_at(self, limit):
        more = (self.whole + max(limit - self.drag, 0)) ** 2 - self.whole**2
        return math.sqrt(self.u**2 + self.share**2 * more)

    def _beyond(self, way, limit, askew):
        u = self.u_at(limit)
        return student_above((way - askew) / u, self.nu) if u > 0 else float(way < askew)

    def above(self, limit, least=False):
        return self._beyond(limit - self.drag, limit, -self.askew if least else self.askew)

    def below(self, limit, least=False):
        if limit <= 0:
            return 0.0
        return self._beyond(self.drag - limit, limit, -self.askew if least else self.askew)

    def is_within(self, low, high):
        """Good by the chances alone."""
        return self.below(low) + self.above(high) <= RISK

    def state(self, low, high, steadily=False, agreed=True):
        """steadily: its pulls rise or fall; agreed: no other check speaks against this one."""
        below, above = self.below(low), self.above(high)
        if self.below(low, least=True) >= SURE:
            return CANNOT if steadily else LOW
        if self.above(high, least=True) >= SURE:
            return HIGH
        if self.is_within(low, high):
            return CANNOT if steadily or self.is_far_off or not agreed else GOOD
        if below > RISK >= above:
            return CANNOT if steadily else PERHAPS_LOW
        if above > RISK >= below:
            return PERHAPS_HIGH
        return CANNOT


LOW, PERHAPS_LOW, GOOD, PERHAPS_HIGH, HIGH, CANNOT = (
    "low", "low or in doubt", "good", "high or in doubt", "high", "cannot decide")


def of_two(one, other):
    """The state where two checks do not agree."""
    said, lows = (one, other), (LOW, PERHAPS_LOW)
    if HIGH in said:
        return HIGH
    if one == other:
        return CANNOT if one == GOOD else one
    if one in lows and other in lows:
        return PERHAPS_LOW
    if PERHAPS_HIGH in said and not any(state in lows for state in said):
        return PERHAPS_HIGH
    return CANNOT


class Judgement:
    """A series by every line of the gauge that counts. Drags in N.m."""

    def __init__(self, known, rig, gauge, checks, slack=None, steadily=False):
        self.drags = [Drag(known, rig, gauge, line, slack, checks.is_confirmed) for line in checks.lines()]
        self.drag, self.steadily = self.drags[0], steadily

    def state(self, low, high):
        states = [drag.state(low, high, self.steadily, len(self.drags) == 1) for drag in self.drags]
        return of_two(*states) if len(states) == 2 else states[0]

    def is_for_pulls(self, low, high):
        """Of a state that cannot be decided: whether that is for the pulls."""
        parts = {name: u for name, (u, _) in self.drag.parts.items()}
        withheld = any(drag.is_within(low, high) for drag in self.drags)
        return self.steadily or not withheld and max(parts, key=parts.get) == "scatter"

    def below(self, low):
        return max(drag.below(low) for drag in self.drags)

    def above(self, high):
        return max(drag.above(high) for drag in self.drags)

    def outside(self, low, high):
        return min(self.below(low) + self.above(high), 1.0)

    def may_be_over(self, never):
        return self.above(never) > RISK


# ---- what the gauge will show

PLACES = 64  # between the readings at the limits, where the first good one is looked for


def good_readings(is_good, least, most):
    """The least and the greatest reading (N) that would be called good, or None; least, most:
    the readings at the limits. From the first good place each way to where it ends."""
    at = (least + (most - least) * i / PLACES for i in range(1, PLACES))
    place = next((reading for reading in at if is_good(reading)), None)

    def edge(bad, fine):
        for _ in range(60):
            middle = (bad + fine) / 2
            bad, fine = (bad, middle) if is_good(middle) else (middle, fine)
        return fine

    return None if place is None else (edge(least, place), edge(most, place))


# ---- values that others have published

def solved(matrix, right):
    """Elimination, for correlation matrices, that need no pivot: the solution and ln det."""
    rows = [list(row) + [x] for row, x in zip(matrix, right)]
    logs = 0.0
    for i, row in enumerate(rows):
        logs += math.log(row[i])
        for other in rows[i + 1:]:
            factor = other[i] / row[i]
            other[i:] = [y - factor * x for x, y in zip(row[i:], other[i:])]
    found = []
    for i in reversed(range(len(rows))):
        known = sum(a * x for a, x in zip(rows[i][i + 1:-1], found))
        found.insert(0, (rows[i][-1] - known) / rows[i][i])
    return found, logs


def by_matrix(pulls, r):
    """The sum of squares about the weighted mean of correlated pulls, share squared, and the
    logarithm of their likelihood's factor without it."""
    mean, n = mean_of(pulls), len(pulls)
    d = [x / mean - 1 for x in pulls]
    matrix = [[r ** abs(i - k) for k in range(n)] for i in range(n)]
    of_d, logs = solved(matrix, d)
    of_one = solved(matrix, [1.0] * n)[0]
    middle = sum(of_d) / sum(of_one)
    return (sum(a * b for a, b in zip(d, of_d)) - middle * sum(of_d),
            -0.5 * (logs + math.log(sum(of_one))))


def shortcomings():
    """What of the above does not come out as it is printed elsewhere, or worked out otherwise."""
    wrong = []

    def look(name, value, there, places):
        if abs(value - there) > 0.5000001 * 10.0**-places:
            wrong.append(f"{name}: {value!r}, not {there}")

    # GUM (JCGM 100:2008), table G.2, 95.45 %
    for nu, t in ((1, 13.97), (2, 4.53), (3, 3.31), (4, 2.87), (5, 2.65), (6, 2.52), (7, 2.43), (8, 2.37),
                  (9, 2.32), (10, 2.28), (12, 2.23), (15, 2.18), (20, 2.13), (30, 2.09), (40, 2.06), (50, 2.05)):
        look(f"t of {nu}", t_factor(nu), t, 2)
    look("t of very many", t_factor(math.inf), 2, 9)
    look("t of a million", t_factor(1e6), 2.0000025, 9)  # Fisher's expansion: 2 + 10 / 4 nu
    # NIST/SEMATECH e-Handbook 1.3.6.7.2 and 1.3.6.7.3: 99.9 % of t, 99 % of F
    for nu, t in ((2, 22.327), (5, 5.893), (10, 4.144), (100, 3.174)):
        look(f"t of 1 in 1,000 of {nu}", student_at(0.001, nu), t, 3)
    for over, under, f in ((1, 4, 21.198), (4, 4, 15.977), (5, 10, 5.636), (9, 80, 2.637)):
        if not fisher_above(f - 0.0005, over, under) > 0.01 > fisher_above(f + 0.0005, over, under):
            wrong.append(f"F of {over} and {under}: not {f}")
    # of two degrees of freedom the tail is a power, of endless ones an exponential
    look("F of 2 and 7", fisher_above(13.0, 2, 7) / (1 + 26 / 7) ** -3.5, 1, 12)
    look("F of 2 and endless", fisher_above(5.0, 2, math.inf) / math.exp(-5), 1, 9)
    look("t of 2", student_above(3.0, 2) / (0.5 - 1.5 / math.sqrt(11)), 1, 12)
    # ISO 5725-2, table of Grubbs' test for one outlying value, 1 %
    for n, most in ((3, 1.155), (5, 1.764), (10, 2.482), (20, 3.001)):
        look(f"Grubbs of {n}", outlier_limit(n, 0.01), most, 3)
    # JCGM 106: a conformance probability of a normal distribution
    look("conformance", 1 - student_above((-5.40 + 5.47) / 0.05, math.inf), 0.92, 2)
    # the scatter's sums by the matrix itself
    pulls = [18.1, 18.3, 18.25, 18.6, 18.55, 18.9, 18.2]
    for n in range(2, len(pulls) + 1):
        known = Scatter(0.02)
        begun = list(known.logs)
        known.learn(pulls[:n], 0)
        for i, r in enumerate(CORRELATIONS):
            square, logs = by_matrix(pulls[:n], r)
            look(f"squares of {n} at {r}", (known.sums[i] - 0.0016) / square, 1, 8)
            look(f"weight of {n} at {r}", known.logs[i] - begun[i], logs, 9)
    return wrong


if __name__ == "__main__":
    print("\n".join(shortcomings()) or "the oracle's distributions and sums are as published")
