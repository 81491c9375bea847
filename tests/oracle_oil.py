"""The oracle for what warmth does to oil, bearings and drag: see oracle.py. In floating
point, from the formulas as textbooks write them."""
import math
from fractions import Fraction as F

import oracle_nut
from oracle_shop import Quantity, UNITS
from oracle_shown import nearest, nearest_signed, significant
from oracle_warm import celsius, fahrenheit

CLOSE = 1e-9
GRADES = {f"vg-{n}": n for n in (10, 15, 22, 32, 46, 68, 100, 150, 220)}

# ASTM D2270: up to which viscosity at 100 degrees; L = a y2 + b y + c, H = d y2 + e y + f
INDEX = [(3.8, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077),
         (4.4, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183),
         (5.0, 2.5, -7.2143, 13.812, 0.82143, 1.5679, 0.119),
         (6.4, 0.101, 16.635, -45.469, 0.04985, 9.1613, -18.557),
         (7.0, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656),
         (7.7, 0.01191, 21.475, -72.87, 0.79762, -0.7321, 14.61),
         (9.0, 0.41858, 16.1558, -56.04, 0.05794, 10.5156, -28.24),
         (12.0, 0.88779, 7.5527, -16.6, 0.26665, 6.7015, -10.81),
         (15.0, 0.7672, 10.7972, -38.18, 0.20073, 8.4658, -22.49),
         (18.0, 0.97305, 5.3135, -2.2, 0.28889, 5.9741, -4.93),
         (22.0, 0.97256, 5.25, -0.98, 0.24504, 7.416, -16.73)]


def hot_of_grade(warm):
    """Solved in each part by the formula for quadratics: the root that lies in its part."""
    least = 2.0
    for most, a, b, c, d, e, f in INDEX:
        q = [0.05 * p + 0.95 * r for p, r in ((a, d), (b, e), (c, f))]
        q[2] -= warm
        root = (-q[1] + math.sqrt(q[1] ** 2 - 4 * q[0] * q[2])) / (2 * q[0])
        if least - 0.01 <= root <= most + 0.01:
            return root
        least = most
    raise AssertionError(warm)


def oil(settings):
    """log log (v + 0.7) as a function of log T; None where the settings name no oil."""
    get = lambda key, otherwise=None: settings.get("oil." + key, otherwise)
    if get("first-viscosity"):
        points = [(float(celsius(fahrenheit(get(f"{which}-temperature", usual)))),
                   float(Quantity(get(f"{which}-viscosity")).number))
                  for which, usual in (("first", "40 degC"), ("second", "100 degC"))]
    elif get("grade", "not-known") != "not-known":
        warm = GRADES[get("grade")]
        points = [(40.0, float(warm)), (100.0, hot_of_grade(warm))]
    else:
        return None
    (x1, y1), (x2, y2) = [(math.log10(t + 273.15), math.log10(math.log10(v + 0.7))) for t, v in points]
    slope = (y2 - y1) / (x2 - x1)

    def viscosity(temperature):
        thick = 10 ** 10 ** (y1 + slope * (math.log10(temperature + 273.15) - x1)) - 0.7
        return thick if thick > 2 else None
    return viscosity


def about(value, digits=2):
    if value is None:
        return "none"
    value = F(value)
    return (value, significant(value * (1 - F(1, 10**9)), digits)
            | significant(value * (1 + F(1, 10**9)), digits) if value else {"0." + "0" * (digits - 1)}, CLOSE)


def pitch(settings):
    front = Quantity(settings["spindle.pitch-diameter"]).base if "spindle.pitch-diameter" in settings else None
    rear = settings.get("spindle.rear-pitch-diameter")
    return None if front is None else (float(front), float(Quantity(rear).base) if rear else float(front))


def churning(settings, thick, speed):
    if thick is None or pitch(settings) is None:
        return None
    flow = thick * speed
    size = sum((1000 * one) ** 3 for one in pitch(settings)) / 1000
    return 6 * size * (1e-7 * flow ** (2 / 3) if flow >= 2000 else 160e-7)


def drag_factor(shop):
    if shop.bands:
        return float(UNITS[shop.own_band().high.unit][1])
    return float(UNITS["N.m" if shop.step.unit in ("N", "mN", "kN", "kgf", "gf") else "lbf.in"][1])


def drag(shop, value, digits=2):
    return about(None if value is None else value / drag_factor(shop), digits)


def oil_warmth(shop):
    viscosity = oil(shop.settings)
    if not viscosity:
        return [["none"] * 5]
    rows = []
    for warm in range(5, 70, 5):
        thick, other = viscosity(warm), F(warm) * 9 / 5 + 32
        rows.append([(F(warm), {str(warm)}), (other, nearest(other, 0)), about(thick),
                     drag(shop, churning(shop.settings, thick, 12)),
                     drag(shop, churning(shop.settings, thick, float(shop.top.base)))])
    return rows


def nut_slope(judged):
    """judged: the rows of the log: what makes them alike, the angle, the drag, whether unloaded."""
    climb = []  # since the nut was last turned back or unloaded
    for one in judged:
        climb = [] if one[3] or climb and one[1] < climb[-1][1] else climb
        climb += [] if one[3] else [one]
    for at in range(len(climb) - 1, -1, -1):
        alike, angle, value, _ = climb[at]
        looser = [one for one in climb[:at] if one[0] == alike and one[1] < angle][-1:]
        for _, before, less, _ in looser:
            if value > less and angle - before <= oracle_nut.FAR:
                return float((value - less) / (angle - before))
    return None


def thread(settings):
    if "nut.pitch" in settings:
        return float(Quantity(settings["nut.pitch"]).base)
    return 0.0254 / float(Quantity(settings["nut.threads"]).number) if "nut.threads" in settings else None


def spindle_growth(shop, judged):
    settings = shop.settings
    if pitch(settings) is None or not {"spindle.span", "spindle.contact-angle"} <= set(settings):
        return [["none"] * 7]
    angle = math.radians(float(Quantity(settings["spindle.contact-angle"]).base))
    span, across = float(Quantity(settings["spindle.span"]).base), sum(pitch(settings)) / 2 / math.tan(angle)
    own = {"back-to-back": across - span, "face-to-face": across + span}.get(settings.get("spindle.arrangement"))
    slope, lead, rows = nut_slope(judged), thread(settings), []
    for rise in (1, 2, 3, 5, 10, 15, 20):
        grow = lambda way: (F(12e-6 * rise * way * 1e6), nearest_signed(F(12e-6 * rise * way * 1e6), 1), CLOSE)
        turn = 12e-6 * rise * own / (lead / 360) if own is not None and lead else None
        rows.append([(F(rise), {str(rise)}), (F(rise) * 9 / 5, nearest(F(rise) * 9 / 5, 1)),
                     grow(across), grow(across - span), grow(across + span), about(turn),
                     about(None if turn is None or slope is None else turn * slope)])
    return rows


def drag_estimate(shop):
    settings = shop.settings
    if pitch(settings) is None or "spindle.contact-angle" not in settings:
        return [["none"] * 7]
    angle = math.radians(float(Quantity(settings["spindle.contact-angle"]).base))
    viscosity = oil(settings)
    room = float(celsius(fahrenheit(settings.get("run-in.room", "20 degC"))))
    of_oil = churning(settings, viscosity(room) if viscosity else 1.0, 12)
    rows = []
    for preload in (50, 100, 200, 500, 1000, 2000, 5000):
        load = 0.0004 * 2 * 0.4 / math.tan(angle) * preload * sum(pitch(settings))
        both = None if of_oil is None else load + of_oil
        part = lambda times: drag(shop, None if both is None else both * times)
        force = None if both is None else both / float(shop.radius(shop.drum)) / float(shop.step.factor)
        rows.append([(F(preload), {str(preload)}), about(preload / float(UNITS["lbf"][1])), drag(shop, load),
                     drag(shop, of_oil), part(1 / 3), part(3), about(force)])
    return rows
