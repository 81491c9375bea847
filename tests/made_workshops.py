"""Workshops and their logs, drawn from a seed so that whatever a drag may be said to be comes up;
and plain cases, in which there is no doubt what is to be done."""
import datetime
import math
import os
import random
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import oracle

FORCES, TORQUES = ["N", "lbf", "kgf", "ozf"], ["N.m", "lbf.in", "ozf.in", "kgf.cm", "mN.m"]
MOST_TURN = 12  # degrees at once
MILD, HOT = ["18 degC", "20 degC", "66 degF"], ["38 degC", "100 degF"]
HEADS = "date,drum,cord,nut,lock,direction,warmth,temperature,breakaway,pulls"


class Row:
    """A series of pulls as a row of the log."""

    def __init__(self, drag, **how):
        self.drag, self.date, self.nut, self.lock = drag, None, None, "after"
        self.direction, self.warmth, self.drum = "usual", None, None
        self.temperature, self.breakaway, self.pulls = None, None, None
        self.spread, self.count, self.rest = 0.006, 5, 0
        for name, value in how.items():
            assert hasattr(self, name), name
            setattr(self, name, value)

    def is_calm(self):
        """Whether the mean alone says as much as the pulls."""
        return self.count >= 3 and self.spread <= 0.02 and any(float(pull) for pull in self.pulls)


def in_base(unit):
    """Newtons or newton-metres."""
    return float(oracle.UNITS[unit][1])


def number(value, places):
    return f"{value:.{places}f}"


def short(value, digits=6):
    """So many significant digits at most, and no power of ten, which the program does not read."""
    text = f"{value:.{digits}g}"
    return f"{float(text):.0f}" if "e+" in text else text


class Workshop:
    """What the settings and the log hold. Drags in the limits' unit."""

    def __init__(self, name, draw, plain=None):
        self.name, self.draw, self.act = name, draw, plain
        self.low, self.high, self.never, self.slack = 0.45, 0.70, 1.2, None
        self.limits, self.warmth, self.torque, self.bands = True, "cold", "running", 1
        self.drag_unit, self.unit, self.step, self.capacity = "N.m", "N", 0.05, 60
        self.drum, self.cord, self.error = 62.0, 0.8, "  reading-error: 0.3 %"
        self.scatter, self.rows = 2, []
        self.sessions = []  # of the gauge's check: its date, and the slope of reading against force

    # ---- sizes ----

    def whole(self, drag):
        """The whole drag where the limits may be an increase."""
        return drag + (self.slack or 0)

    def between(self, share):
        """A whole drag: 0 at the low limit, 1 at the high one."""
        return self.whole(self.low + share * (self.high - self.low))

    def pull_of(self, drag, drum=None):
        radius = ((drum or self.drum) + self.cord) / 2000
        return drag * in_base(self.drag_unit) / radius / in_base(self.unit)

    # ---- what the log says of the nut ----

    def turned_back(self, at):
        """Whether in this row the nut stands looser than it has stood since it was last unloaded.
        The log knows; pulls that are typed do not say it."""
        reached, back = None, False
        for row in self.rows[:at + 1]:
            if row.lock == "unloaded":
                reached, back = None, False
            elif row.nut is not None:
                back = back or (reached is not None and row.nut < reached)
                reached = row.nut if reached is None else max(reached, row.nut)
        return back

    def unsaid(self, at):
        """Whether the log knows of a row what pulls that are typed do not say: that the nut was
        turned back; or by their date that a new job begins, without the slack pulls of the last."""
        return self.turned_back(at) or self.slack is not None and self.rows[at].rest >= 30

    def suits(self, row):
        """Whether a series was taken as the limits ask, but for the lock."""
        return row.direction == "usual" and row.lock != "unloaded" and row.warmth == self.warmth

    def steering(self, silent=()):
        """The row by which the nut may be turned: the last that suits and is not one of the silent,
        where the nut has not been moved since; None where there is none."""
        place = next((row.nut for row in reversed(self.rows) if row.nut is not None), None)
        for at in range(len(self.rows) - 1, -1, -1):
            row = self.rows[at]
            if row.nut is not None and row.nut != place:
                return None
            if row.nut is not None and at not in silent and (self.suits(row) or not self.limits):
                return at
        return None

    # ---- as files ----

    def settings(self):
        lines = ["lathe:", f"  name: Workshop {self.name}", "  top-speed: 1000 r/min", "limits:"]
        if not self.limits:
            lines.append("  on-file: none")
        else:
            lines += ["  source: drawn from a seed", f"  torque: {self.torque}",
                      f"  basis: {'absolute' if self.slack is None else 'increase'}",
                      "  bearings: used", f"  warmth: {self.warmth}", "  bands:"]
            for i in range(self.bands):
                more = 1 + (self.bands - 1 - i) * 0.1
                lines.append(f"    - {{from: {i * 1000 // self.bands} r/min, to: "
                             f"{(i + 1) * 1000 // self.bands} r/min, low: {short(self.low * more, 4)} "
                             f"{self.drag_unit}, high: {short(self.high * more, 4)} {self.drag_unit}}}")
            if self.never:
                lines.append(f"  never-exceed: {short(self.never, 4)} {self.drag_unit}")
            if self.slack is not None:
                lines.append(f"  slack-drag: {short(self.slack, 4)} {self.drag_unit}")
        lines += ["drum:", f"  diameter: {self.drum:g} mm", "  tolerance: 0.02 mm", "cord:",
                  f"  diameter: {self.cord:g} mm", "  tolerance: 0.02 mm", "gauge:",
                  f"  capacity: {short(self.capacity)} {self.unit}", f"  step: {short(self.step)} {self.unit}",
                  self.error]
        lines += ["pulls:", f"  scatter: {self.scatter:g} %"]
        lines += ["nut:", "  pitch: 1.5 mm", "tables:", "  drum-sizes: 40 mm, 60 mm, 80 mm",
                  "paper:", "  booklet: a5", "  card: a5"]
        return "\n".join(lines) + "\n"

    def finish(self):
        """Dates and pulls, in the gauge's steps, where a row does not have them."""
        day = datetime.date(2026, 3, 2)
        places = max(0, len(f"{short(self.step)}".partition(".")[2]))
        for row in self.rows:
            day += datetime.timedelta(row.rest)
            row.date = day.isoformat()
            row.warmth = row.warmth or self.warmth
            if row.pulls is None:
                mean = self.pull_of(row.drag, row.drum)
                shares = [self.draw.uniform(-1, 1) for _ in range(row.count)]
                middle = sum(shares) / len(shares)
                reach = max(shares) - min(shares) or 1
                row.pulls = [max(0, round(mean * (1 + row.spread * (share - middle) / reach) / self.step))
                             * self.step for share in shares]
            most = math.floor(self.capacity / self.step + 1e-9) * self.step  # none is beyond the gauge
            row.pulls = [number(min(pull, most), places) for pull in row.pulls]
        return self

    def log(self):
        lines = [HEADS]
        for row in self.rows:
            lines.append(",".join([
                row.date, f"{row.drum:g} mm" if row.drum else "", "",
                f"{row.nut:g} deg" if row.nut is not None else "", row.lock, row.direction,
                row.warmth, row.temperature or "",
                f"{short(row.breakaway, 4)} {self.unit}" if row.breakaway else "",
                " ".join(row.pulls) + " " + self.unit]))
        return "\n".join(lines) + "\n"


    def check(self):
        """The gauge's checks: four loads each up and down, read in the gauge's steps."""
        lines = ["date,direction,load,reading"]
        most = 0.95 * self.capacity
        places = max(0, len(f"{short(self.step)}".partition(".")[2]))
        for date, slope in self.sessions:
            for direction, shares in (("up", (0.15, 0.4, 0.7, 1)), ("down", (0.7, 0.4, 0.15))):
                for share in shares:
                    load = float(f"{most * share / 1.1:.3g}")
                    reading = round(load * slope / self.step) * self.step
                    lines.append(f"{date},{direction},{short(load)} {self.unit},{number(reading, places)} {self.unit}")
        return "\n".join(lines) + "\n"


# ---- drawn ----

def draw_sizes(shop):
    draw = shop.draw
    shop.drag_unit = draw.choice(TORQUES)
    shop.unit = draw.choice(FORCES)
    high = 10 ** draw.uniform(-0.8, 0.5) / in_base(shop.drag_unit)
    low = high * draw.choice([draw.uniform(0.3, 0.85), draw.uniform(0.5, 0.7), 0.62, 0.95, 0.995])
    shop.high, shop.low = float(f"{high:.3g}"), float(f"{low:.3g}")
    shop.never = float(f"{high * draw.uniform(1.03, 1.8):.3g}") if draw.random() < 0.6 else None
    shop.drum = draw.choice([40.0, 62.0, 63.5, 80.0, 120.0])
    shop.cord = draw.choice([0.5, 0.8, 1.2])
    if draw.random() < 0.2:
        shop.slack = float(f"{high * draw.uniform(0.05, 1.4):.3g}")
    if shop.never and shop.slack is not None and draw.random() < 0.5:
        shop.never = float(f"{shop.never + high:.3g}")
    pull = shop.pull_of(shop.whole(shop.high))
    fine = draw.choice([600, 300, 300, 100, 20])
    magnitude = 10.0 ** -6
    while magnitude * 10 <= pull / fine:
        magnitude *= 10
    shop.step = float(f"{magnitude * draw.choice([1, 2, 5]):.1g}")
    shop.capacity = float(f"{pull * draw.choice([1.7, 2.5, 4, 4, 1.02, 0.9]):.2g}")
    shop.error = draw.choice([
        "  reading-error: 0.3 %", "  reading-error: 0.5 %", "  reading-error: 2 %",
        "  full-scale-error: 0.2 %", "  reading-error: 12 %",
        f"  full-scale-error: 1 %\n  checked-error: {shop.step:g} {shop.unit}"])
    shop.scatter = draw.choice([0.5, 2, 2, 3])


def draw_drag(shop):
    """A whole drag anywhere about the window, its edges and its middle among them."""
    draw = shop.draw
    share = draw.choice([-1.2, -0.3, -0.05, 0.0, 0.05, 0.2, 0.35, 0.5, 0.5, 0.5, 0.58, 0.75, 0.9, 0.96,
                         1.0, 1.03, 1.3, 2.5])
    drag = shop.between(share + draw.gauss(0, 0.02))
    if shop.never and draw.random() < 0.12:
        drag = shop.whole(shop.never) * draw.choice([0.97, 1.0, 1.02, 1.3])
    return max(drag, shop.whole(shop.low) * 0.05)


def draw_taking(shop, row):
    """How the pulls were taken."""
    draw = shop.draw
    row.count = draw.choice([1, 2, 3, 4, 5, 5, 5, 5, 6, 8, 12])
    row.spread = draw.choice([0.0, 0.004, 0.008, 0.012, 0.02, 0.05, 0.09])
    kind = draw.random()
    if kind < 0.04:
        row.spread, row.count = draw.uniform(0.11, 0.3), max(row.count, 2)
    elif kind < 0.06:
        row.pulls = [0.0] * row.count
    if draw.random() < 0.15:
        ratio = draw.uniform(0.9, 2.3)  # a starting pull is the breakaway itself
        row.breakaway = shop.pull_of(row.drag) * ratio if shop.torque == "running" else None
    if draw.random() < 0.3:
        row.temperature = draw.choice(MILD + HOT)
    if draw.random() < 0.03:
        row.drum = 50.0
    return row


def other(shop):
    return "warm" if shop.warmth == "cold" else "cold"


def climb(shop, lock, places, target):
    """Rows at places one further on than the other, the last at the drag that is wanted."""
    draw = shop.draw
    nut = draw.choice([0, 5, 12, 200])
    drags = [target * (1 - draw.choice([0.08, 0.2, 0.35, 0.0, -0.05]) * back)
             for back in range(places - 1, -1, -1)]
    rows = []
    for drag in drags:
        rows.append(Row(max(drag, target * 0.1), nut=nut, lock=lock))
        nut += draw.choice([1, 2, 3, 4, 4, MOST_TURN])
    return rows


def lock_pair(shop, nut, drag):
    """The same place before and after locking."""
    share = shop.draw.choice([0.05, 0.15, 0.3, -0.04])
    return [Row(drag, nut=nut, lock="before"), Row(drag * (1 + share), nut=nut, lock="after")]


def draw_log(shop):
    draw, rows = shop.draw, []
    if draw.random() < 0.45:
        rows += lock_pair(shop, 10, shop.between(draw.choice([0.3, 0.5])))
        rows.append(Row(shop.whole(shop.low) * 0.2, nut=-80, lock="unloaded"))
    if draw.random() < 0.15:
        rows.append(Row(draw_drag(shop), nut=30, rest=draw.choice([0, 40, 366])))  # then turned back
    lock = draw.choice(["before", "before", "after", "after", "after", ""])
    rows += climb(shop, lock, draw.choice([1, 1, 2, 2, 2, 3]), draw_drag(shop))
    kind = draw.random()
    last = rows[-1]
    if kind < 0.15:
        rows.append(Row(last.drag * draw.uniform(1, 1.2), nut=last.nut, lock="after"))
    elif kind < 0.22:
        rows.append(Row(last.drag, nut=last.nut, lock=last.lock, direction="other"))
    elif kind < 0.29:
        rows.append(Row(last.drag * 0.9, nut=last.nut, lock=last.lock, warmth=other(shop)))
    elif kind < 0.33:
        rows.append(Row(last.drag * 0.9, nut=last.nut + 5, lock=last.lock, warmth=other(shop)))
    elif kind < 0.37:
        rows.append(Row(shop.whole(shop.low) * 0.2, nut=last.nut - 90, lock="unloaded"))
    elif kind < 0.47:
        rows += [Row(draw_drag(shop), nut=last.nut, rest=366) for _ in range(draw.choice([1, 2]))]
    elif kind < 0.53:
        rows.append(Row(draw_drag(shop), nut=None, lock=draw.choice(["after", "after", "before"])))
    for row in rows:
        draw_taking(shop, row)
    return rows


def draw_sessions(seed):
    """Of some workshops; of some of them a second one agrees with the first, or does not."""
    draw = random.Random(-seed)
    if draw.random() < 0.6:
        return []
    slope = draw.choice([1, 1, 0.99, 1.01, draw.uniform(0.9, 1.1)])
    second = [("2026-03-01", slope * draw.choice([1, 1, 1.08, 0.93]))] if draw.random() < 0.5 else []
    return [("2026-02-01", slope), *second]


def drawn(seed):
    shop = Workshop(f"seed-{seed}", random.Random(seed))
    draw_sizes(shop)
    shop.limits = shop.draw.random() >= 0.06
    shop.warmth = shop.draw.choice(["cold", "cold", "warm"])
    shop.torque = shop.draw.choice(["running", "running", "running", "starting"])
    shop.bands = shop.draw.choice([1, 1, 3, 6])
    if shop.never:
        shop.never *= 1 + (shop.bands - 1) * 0.1  # those of slower bands are higher
    if not shop.limits:
        shop.slack, shop.warmth = None, "cold"
    shop.rows = draw_log(shop)
    shop.sessions = draw_sessions(seed)
    return shop.finish()


# ---- plain ----

def plain_cases():
    """Workshops in which the last of the log leaves no doubt what is to be done: each with that,
    in a word of the test's own. By what is said of them the words of the program are known."""
    cases = []

    def case(act, *rows, **settings):
        shop = Workshop(f"plain-{len(cases):02}-{act}", random.Random(len(cases)), act)
        for name, value in settings.items():
            assert hasattr(shop, name), name
            setattr(shop, name, value)
        shop.rows = list(rows)
        for row in shop.rows:
            row.spread = row.spread if row.spread != 0.006 else 0.0
        cases.append(shop.finish())

    pair = [Row(0.40, nut=10, lock="before"), Row(0.46, nut=10), Row(0.1, nut=-80, lock="unloaded")]
    negative = [Row(0.40, nut=10, lock="before"), Row(0.36, nut=10), Row(0.1, nut=-80, lock="unloaded")]
    for before in ([], pair, negative):
        def copied():
            return [Row(row.drag, nut=row.nut, lock=row.lock) for row in before]
        for lock in ("after", "before"):
            case("tighten", *copied(), Row(0.25, nut=4, lock=lock))
            case("tighten", *copied(), Row(0.22, nut=4, lock=lock), Row(0.25, nut=5, lock=lock))
            case("tighten", *copied(), Row(0.20, nut=4, lock=lock), Row(0.25, nut=8, lock=lock))
            case("unload", *copied(), Row(0.95, nut=4, lock=lock))
            case("unload", *copied(), Row(0.90, nut=4, lock=lock), Row(0.95, nut=5, lock=lock))
            case("unload", *copied(), Row(0.25, nut=30, lock=lock), Row(0.2, nut=4, lock=lock))
    # what the lock is known to add is too much
    case("unload", Row(0.40, nut=10, lock="before"), Row(0.60, nut=10), Row(0.1, nut=-80, lock="unloaded"),
         Row(0.60, nut=4, lock="before"))
    for lock in ("after", "before", ""):  # a long way in one step, and a short one
        case({"after": "tighten", "before": "lock", "": "say lock"}[lock],
             Row(0.20, nut=4, lock=lock), Row(0.32, nut=8, lock=lock))
        case({"after": "tighten", "before": "unload", "": "say lock"}[lock],  # the lock may add too much
             Row(0.30, nut=4, lock=lock), Row(0.44, nut=8, lock=lock))
    case("leave", Row(0.575, nut=8))
    case("leave", Row(0.50, nut=4), Row(0.575, nut=8))
    case("leave", Row(0.60, nut=8))
    case("leave", Row(0.55, nut=8))
    case("lock", Row(0.32, nut=8, lock="before"))  # low enough to learn what the lock adds
    case("lock", Row(0.25, nut=4, lock="before"), Row(0.32, nut=8, lock="before"))
    case("unload", Row(0.575, nut=8, lock="before"))
    for row in ([], [Row(0.45, nut=4, lock="before")]):
        case("lock", Row(0.50, nut=10, lock="before"), Row(0.52, nut=10),
             Row(0.1, nut=-80, lock="unloaded"), *row, Row(0.55, nut=8, lock="before"))
    for nut in ([], [Row(0.40, nut=4)]):
        case("surer, or tighten", *[Row(r.drag, nut=r.nut) for r in nut], Row(0.45, nut=8))
        case("surer, or unload", *[Row(r.drag, nut=r.nut) for r in nut], Row(0.70, nut=8))
        case("surer", *[Row(r.drag, nut=r.nut) for r in nut], Row(0.575, nut=8),
             error="  reading-error: 40 %", never=None)
        case("surer", *[Row(r.drag, nut=r.nut) for r in nut], Row(0.575, nut=8, count=1))
        case("take again", *[Row(r.drag, nut=r.nut) for r in nut], Row(0.575, nut=8, spread=0.4))
        case("take again", *[Row(r.drag, nut=r.nut) for r in nut], Row(0.575, nut=8, pulls=[0.0] * 5))
        case("take again", *[Row(r.drag, nut=r.nut) for r in nut], Row(1.1, nut=8, spread=0.4))
        case("compare", *[Row(r.drag, nut=r.nut) for r in nut], Row(0.575, nut=8), limits=False, slack=None)
    case("surer", Row(0.40, nut=4), Row(0.575, nut=8, spread=0.09, count=3), low=0.57, high=0.58,
         error="  reading-error: 0.3 %")
    case("warmth", Row(0.575, nut=8, warmth="warm"))
    case("warmth", Row(0.575, nut=8, warmth="cold"), warmth="warm")
    case("warmth", Row(0.95, nut=8, warmth="warm"))
    case("unload", Row(0.95, nut=8, warmth="cold"), warmth="warm")  # warming is running
    case("cap", Row(0.575, nut=8, temperature=HOT[0]))
    case("cap", Row(0.575, nut=8, warmth="warm", temperature=MILD[0]), warmth="warm")
    case("other way", Row(0.575, nut=8, direction="other"))
    case("other way", Row(0.95, nut=8, direction="other"))
    case("say lock", Row(0.575, nut=8, lock=""))
    case("begin again", Row(0.1, nut=-80, lock="unloaded"))
    case("seat", Row(0.35, nut=4), Row(0.35, nut=8))
    return cases
