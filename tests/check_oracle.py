#!/usr/bin/env python3
"""Many made-up shops: every computed cell of site, CSV and PDF against the oracle.

Usage: check_oracle.py OUT [COUNT [SEED]]
Without COUNT it is SHOPS of the environment, or 40; 200 say whether enough was compared too.
Shops are drawn from a seed: metric and imperial, tiny and huge drums, gauges
coarse and fine, one speed band and six, none for want of limits, limits that fall on a gauge step exactly,
windows that close, increases over a slack drag, speeds on a band's edge, and settings that
were others before a day of the log.
"""
import collections
import concurrent.futures
import datetime
import os
import random
import re
import subprocess
import sys
import tempfile

here = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, here)
import check_agreement
import oracle
import oracle_measure

COUNT, SEED = int(os.environ.get("SHOPS", 40)), 20261125
ENOUGH, LEAST_CELLS = 200, 290000  # in so many shops so many cells: the count must not fall
IN_WORDS = {"record-facts", "record-pulls", "record-steps"}  # what was typed, as typed: no cell is a number


def decimal(random_, low, high, digits):
    """A number between low and high written with so many significant digits."""
    value = random_.uniform(low, high)
    text = f"{value:.{digits}g}"
    return format(float(text), "f").rstrip("0").rstrip(".") if "e" in text else text


def length(random_, low_mm, high_mm):
    """A length in any unit and spelling."""
    mm = random_.uniform(low_mm, high_mm)
    kind = random_.choice(["mm", "mm", "in", "fraction", "cm"])
    if kind == "fraction" and mm > 2:
        part = random_.choice([2, 4, 8, 16, 32, 64])
        count = max(1, round(mm / 25.4 * part))
        whole, rest = divmod(count, part)
        return " ".join(filter(None, [str(whole) if whole else "", f"{rest}/{part}" if rest else ""])) + " in"
    per = {"mm": 1, "in": 25.4, "cm": 10, "fraction": 1}[kind]
    return f"{decimal(random_, mm / per, mm / per, random_.choice([2, 3, 4, 5]))} {'mm' if kind == 'fraction' else kind}"


def bands(random_, unit, size):
    count = random_.choice([1, 1, 2, 3, 4, 6])
    edges = sorted(random_.sample(range(1, 60), count))
    rows, start = [], 0
    for edge in edges:
        low = decimal(random_, 0.1 * size, size, random_.choice([1, 2, 3]))
        high = decimal(random_, float(low) * 1.001, float(low) * 2, random_.choice([3, 4, 5]))
        if float(high) < float(low):
            high = low
        rows.append(f"    - {{from: {start * 50} r/min, to: {edge * 50} r/min, low: {low} {unit}, "
                    f"high: {high} {unit}, page: {random_.randint(1, 90)}}}")
        start = edge
    top = random_.choice([random_.randint(1, edges[-1] * 50), random_.choice(edges) * 50])
    return rows, top


def shop_text(random_):
    unit = random_.choice(["N.m", "N.m", "lbf.in", "ozf.in", "kgf.cm", "lbf.ft", "N.cm", "mN.m"])
    size = 10 ** random_.uniform(-1.5, 0.7) / float(oracle.UNITS[unit][1])
    rows, top = bands(random_, unit, size)
    drum = length(random_, *random_.choice([(8, 30), (30, 110), (30, 110), (110, 900)]))
    radius = float(oracle.Quantity(drum).base) / 2
    force = random_.choice(["N", "lbf", "kgf", "ozf", "gf"])
    factor = float(oracle.UNITS[force][1])
    pull = size * float(oracle.UNITS[unit][1]) / radius / factor
    step = decimal(random_, pull / 2000, pull / random_.choice([3, 20, 100, 400]),
                   random_.choice([1, 1, 2]))
    if float(step) * factor < 0.0002:
        step = decimal(random_, 0.0003 / factor, 0.0009 / factor, 1)
    capacity = decimal(random_, pull * 1.5, pull * 9, 2)
    basis = random_.choice(["absolute", "absolute", "increase"])
    # a whole number of the biggest high limit, in the maker's unit
    high = max(float(oracle.flow(row)["high"].split()[0]) for row in rows)
    lines = ["lathe:", "  name: Shop of the oracle", f"  top-speed: {top} r/min", "limits:",
             "  source: drawn from a seed", f"  torque: {'starting' if top % 4 == 0 else 'running'}", f"  basis: {basis}",
             "  bearings: new", "  warmth: warm", "  bands:"] + rows
    if random_.random() < 0.6:
        lines.append(f"  never-exceed: {decimal(random_, high * 1.1, high * 2, 4)} {unit}")
    if basis == "increase":
        lines.append(f"  slack-drag: {decimal(random_, 0.01 * size, 0.3 * size, 2)} {unit}")
    if random_.random() < 0.4:
        lines.append(f"  maker-arm: {length(random_, 20, 300)}")
    sizes = ", ".join(length(random_, 6, 200) for _ in range(random_.randint(1, 12)))
    lines += ["drum:", f"  diameter: {drum}", "  tolerance: 0.1 mm",
              *random_.choice([[], [f"  wanted-radius: {length(random_, 20, 300)}"],
                               [f"  turns: {random_.randint(1, 40)}", "  bore: 1/16 in"]]), "cord:",
              f"  diameter: {decimal(random_, 0.2, 3, 2)} mm",
              f"  tolerance: {random_.choice(['0 mm', '0.002 in', '0.1 mm'])}",
              *random_.choice([[], [], [f"  strength: {decimal(random_, pull, pull * 12, 2)} {force}"]]), "gauge:",
              f"  capacity: {capacity} {force}", f"  step: {step} {force}"]
    lines += random_.choice([["  full-scale-error: 0.5 %"], ["  reading-error: 1 %"],
                             ["  full-scale-error: 0.2 %", "  reading-error: 0.5 %"],
                             ["  full-scale-error: 1 %", f"  checked-error: {step} {force}"]])
    lines += random_.choice([[], [], [f"  zero-error: 0 {force}"],
                             [f"  zero-error: {step} {force}", f"  orientation-error: {step} {force}"]])
    if random_.random() < 0.5:
        lines += ["pulls:", f"  count: {random_.randint(2, 12)}",
                  f"  scatter: {random_.choice(['0 %', '0.5 %', '3 %'])}",
                  f"  skew: {random_.choice(['0 deg', '3 deg', '10 deg'])}"]
    lines += ["nut:"] + random_.choice([["  threads: 18 tpi"], ["  pitch: 1.5 mm"], ["  pitch: 2 mm", "  outside-diameter: 3 1/4 in"],
                                        ["  outside-diameter: 80 mm"]])
    if random_.random() < 0.3:
        lines += ["site:", f"  latitude: {random_.randint(-70, 70)} deg", f"  height: {random_.randint(0, 2500)} m"]
    if random_.random() < 0.7:
        lines.insert(3, speeds(random_, top))
    lines += warm_settings(random_) + spindle_settings(random_)
    lines += ["tables:",
              f"  drum-sizes: {sizes}"]
    if random_.random() < 0.5:
        lines.append(f"  arms: {', '.join(length(random_, 10, 400) for _ in range(5))}")
    booklet, card = random_.choice(['a5', 'half-letter']), random_.choice(['a6', 'a5', 'half-letter'])
    lines += ["paper:", f"  booklet: {booklet}", f"  card: {card}"]
    if card == "a6":  # long words in large type would be a fault on the smallest card
        lines.append("  reading-distance: 600 mm")
    return "\n".join(lines) + "\n"


def speeds(random_, top):
    """Speeds that a lathe has, often without its top speed."""
    some = [random_.randint(1, top) for _ in range(random_.randint(0, 14))]
    some.append(random_.choice([top, max(1, top // 3)]))
    return "  speeds: " + ", ".join(f"{one} r/min" for one in some)


def warm_settings(random_):
    """Temperatures of running in."""
    lines = ["run-in:"]
    lines += random_.choice([["  room: 17 degC"], ["  room: 71.5 degF"], ["  room: 0 degC"]])
    lines += random_.choice([[], ["  stop: 55 degC"], ["  stop: 131.9 degF"], ["  stop: 47.35 degC"]])
    lines += random_.choice([[], ["  rise: 30 degC"], ["  rise: 33.3 degF"], ["  rise: 8 1/2 degC"]])
    lines += random_.choice([[], ["  stage-time: 15 min"], ["  stage-time: 90 s", "  top-time: 1.5 h"]])
    return lines


def spindle_settings(random_):
    """Bearings and oil, for some shops whole, for some in part."""
    keys = [f"  arrangement: {random_.choice(['not-known', 'back-to-back', 'face-to-face'])}",
            f"  span: {length(random_, 60, 900)}", f"  pitch-diameter: {length(random_, 25, 200)}",
            f"  rear-pitch-diameter: {length(random_, 25, 200)}",
            f"  contact-angle: {decimal(random_, 8, 40, 3)} deg"]
    share = random_.choice([1, 1, 0.7])
    oil = random_.choice([[], [f"  grade: {random_.choice(['vg-10', 'vg-32', 'vg-68', 'vg-220', 'not-known'])}"],
                          ["  first-viscosity: 21.4 cSt", "  second-viscosity: 4.31 mm2/s"],
                          ["  first-viscosity: 4 mm2/s", "  first-temperature: 210 degF",
                           "  second-viscosity: 160 cSt", "  second-temperature: 0 degC"]])
    return (["spindle:"] + [key for key in keys if random_.random() < share]
            + (["oil:"] + oil if oil else []))


def typed_settings(text):
    return {line.split(":")[0].strip(): line.split(":")[1].strip() for line in text.split("\n")
            if line.startswith("  ") and ":" in line and "{" not in line}


def check_log(random_, text):
    """A log of known weights, for some shops; else None: sessions of one day and one person,
    complete and not, that agree with each other or do not; gauges that read much too little or
    too much."""
    if random_.random() < 0.5:
        return None
    settings = typed_settings(text)
    top = float(oracle.Quantity(settings["capacity"]).base)
    step = oracle.Quantity(settings["step"])
    date = datetime.date(2026, 3, 1)
    slope = random_.choice([1, random_.uniform(0.98, 1.02), random_.uniform(0.85, 1.15)])
    persons = random_.choice([[""], ["", "A. N. Other"], ["A. N. Other", "B. Else"]])
    rows = ["date,direction,load,reading,by,masses,tolerance,certificate"]
    for _ in range(random_.choice([1, 1, 2, 3, 5])):
        weights = f"{random_.choice(['', '', 'A', 'B'])},{random_.choice(['', '', '0.1 %', '2 %'])}," + (
            random_.choice(["", "", "", "K-1"]))
        turned = random_.choice([0, 0, 0.002, 0.02])  # what coming down reads more, of the capacity
        person, unit = random_.choice(persons), random_.choice(["N", "kg", "lb", None])
        for _ in range(random_.choice([2, 3, 3, 4, 6])):
            force = random_.uniform(0.05, 0.7) * top
            kind = unit or random_.choice(["N", "kg", "lb"])
            share = force / {"N": 1, "kg": 9.8, "lb": 4.44}[kind]
            load = f"{decimal(random_, share, share, 3)} {kind}"
            for direction in random_.choice([["up"], ["up", "down"], ["up", "down"], ["up", "up", "down"]]):
                shown = force * slope * random_.uniform(0.998, 1.002) + (turned * top if direction == "down" else 0)
                steps = round(shown / float(step.base))
                reading = oracle.digits(steps * step.number, oracle.places_of(step.number))
                rows.append(f"{date},{direction},{load},{reading} {step.unit},{person},{weights}")
        date += datetime.timedelta(random_.choice([0, 1, 200, 400]))
        slope *= random_.choice([1, 1, 1.004, 0.95])
    return "\n".join(rows) + "\n" if len(rows) > 3 else None


def pull_in_window(random_, text, unit):
    """A pull within the lathe's own band or just outside."""
    settings = typed_settings(text)
    base = lambda words: float(oracle.Quantity(words).base)
    rows = [oracle.flow(line) for line in text.split("\n") if "{from:" in line]
    top = base(settings["top-speed"])
    band = next(row for row in rows if base(row["to"]) >= top)
    low, high = base(band["low"]), base(band["high"])
    drag = random_.uniform(low - 0.3 * (high - low), high + 0.2 * (high - low))
    slack = base(settings["slack-drag"]) if "slack-drag" in settings else 0
    drum, cord = (base(re.search(name + r":\n  diameter: (.*)", text).group(1)) for name in ("drum", "cord"))
    return (drag + slack) / (drum + cord) * 2 / float(oracle.UNITS[unit][1])


def pull_log(random_, text):
    """A log of pulls about the windows of a shop, for some shops; else None: the nut moved in one
    sitting, series repeated at one place on cord and drum put on anew, pulls about the windows, or
    anything."""
    if random_.random() < 0.4:
        return None
    capacity = oracle.Quantity(typed_settings(text)["capacity"])
    rows = ["date,drum,nut,lock,direction,warmth,temperature,breakaway,pulls"]
    course = random_.choice(["sitting", "repeated", "any", "any", "window", "window"])
    date = datetime.date(random_.choice([2026, 2027]), random_.choice([2, 12]), 28)
    usual = random_.uniform(0.05, 0.6) * float(capacity.number)
    for day in range(1, random_.choice([2, 6, 12, 30])):
        date += datetime.timedelta(random_.choice({"sitting": [1], "repeated": [0, 0, 0, 40],
                                                   "window": [0, 0, 1, 29, 200],
                                                   "any": [0, 0, 1, 2, 29, 30, 366]}[course]))
        about = usual * random_.uniform(0.97, 1.03) if course == "repeated" else (
            pull_in_window(random_, text, capacity.unit) if course == "window" else
            random_.uniform(0.05, 0.7) * float(capacity.number))
        scatter, rise = random_.choice([0.001, 0.005, 0.01, 0.04]), random_.choice([0, 0, 0, 0.02])
        pulls = [decimal(random_, about * (1 - scatter + rise * k), about * (1 + scatter + rise * k), 4)
                 for k in range(random_.randint(1, 8))]
        if random_.random() < 0.1:
            pulls = pulls[:1] * 5
        unit = capacity.unit
        joined = (" ".join(pulls) + " " + unit if random_.random() < 0.5
                  else " ".join(pull + unit for pull in pulls))
        drum, nut, lock, way = {
            "sitting": ("", f"{day}.5 deg", "before", "usual"),
            "repeated": ("", random_.choice(["", "3 deg", "3 deg"]), "after", "usual"),
            "window": ("", random_.choice(["0 deg", f"{day} deg"]),
                       random_.choice(["before", "after", "after", "after", "unloaded"]), "usual"),
            "any": (random_.choice(["", "", "60 mm", "2 1/2 in"]),
                    random_.choice(["", "0 deg", "0 deg", f"{day}.5 deg", f"{-day} deg", "-95 deg"]),
                    random_.choice(["", "before", "after", "after", "after", "unloaded"]),
                    random_.choice(["usual", "usual", "usual", "other"]))}[course]
        warmth = random_.choice(["warm"] * 3 + ["cold"] * (course != "window"))  # limits: for warm
        cap = random_.choice(["", "21 degC", "70.5 degF"])
        breakaway = random_.choice(["", f"{decimal(random_, about * 1.1, about * 2, 3)} {unit}"])
        rows.append(",".join([date.isoformat(), drum, nut, lock, way, warmth, cap,
                              breakaway * ("torque: starting" not in text), joined]))
    return "\n".join(rows) + "\n"


PAGE = "# All tables\n\n" + "".join(f"```table {name}\n```\n\n" for name in oracle.TABLES)
CARD = "# Card\n\n```table pull-windows\nshow: card\n```\n\n---\n\nSteps.\n"


def without_limits(text):
    """The same shop, its manual lost."""
    start, end = text.index("limits:\n"), text.index("drum:\n")
    return text[:start] + "limits:\n  on-file: none\n" + text[end:]


def earlier_settings(random_, log):
    """Of a log of some rows now and then another shop altogether, up to one of its days."""
    days = [line.split(",")[0] for line in (log or "").split("\n")[1:-1]]
    if len(days) < 2 or random_.random() < 0.6:
        return []
    chosen = sorted(set(random_.choices(days, k=random_.choice([1, 1, 2]))))
    texts = [shop_text(random_) for _ in chosen]
    return [(f"settings-before-{day}.yaml", without_limits(text) if random_.random() < 0.15 else text)
            for day, text in zip(chosen, texts)]


def write_shop(folder, seed):
    """Writes the content of the shop drawn from a seed; returns its settings."""
    random_ = random.Random(seed)
    text = shop_text(random_)
    lost = random_.random() < 0.15
    logs = [("gauge-check.csv", check_log(random_, text)), ("readings.csv", pull_log(random_, text))]
    text = without_limits(text) if lost else text
    files = {"settings.yaml": text, "00-start.md": "# Book\n", "10-tables.md": PAGE, "card.md": CARD}
    for name, words in list(files.items()) + logs + earlier_settings(random_, dict(logs)["readings.csv"]):
        if words:
            with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
                file.write(words)
    return text


def try_shop(program, seed):
    """The cells that agree for the shop drawn from a seed, and those with a number; or
    what failed."""
    with tempfile.TemporaryDirectory() as folder:
        text = write_shop(folder, seed)
        out = os.path.join(folder, "out")
        made = subprocess.run([program, "book", "--content", folder, "--out", out, "--templates",
                               os.path.join(here, "..", "templates")], capture_output=True)
        if made.returncode:
            return None, f"seed {seed}: status {made.returncode}: {made.stderr.decode()}\n{text}"
        shop = oracle.Shop(oracle.read_settings(os.path.join(folder, "settings.yaml")))
        try:
            return check_agreement.check_all(out, shop), None
        except check_agreement.Failures as failure:
            return None, f"seed {seed}: {failure}\n{text}"


def tables_of_program(out):
    """The names of all tables that the program made."""
    return sorted(name.removesuffix(".csv") for name in os.listdir(os.path.join(out, "tables")))


def shortcomings(out, cells, numbers, count):
    """What the comparison left out, though nothing disagreed."""
    known = tables_of_program(out)
    missing = sorted(set(known) ^ set(oracle.TABLES))
    words = [f"the oracle and the program do not have the same tables: {missing}"] if missing else []
    words += [f"no table {name} in any shop" for name in known if not cells[name]]
    if count == ENOUGH:
        words += [f"{name} shows only {numbers[name]} numbers in {count} shops"
                  for name in known if name not in IN_WORDS and numbers[name] < count]
        words += [f"{name} shows {cells[name]} cells and {numbers[name]} numbers in {count} shops"
                  for name in IN_WORDS if numbers[name] or cells[name] < 20 * count]
        if sum(cells.values()) < LEAST_CELLS:
            words.append(f"only {sum(cells.values())} cells were compared")
    return words


def main():
    program = os.path.abspath(os.path.join(sys.argv[1], "bin", "spindlebook"))
    count = int(sys.argv[2]) if len(sys.argv) > 2 else COUNT
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else SEED
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        results = list(pool.map(lambda i: try_shop(program, seed + i), range(count)))
    failures = [failure for _, failure in results if failure]
    cells, numbers = (sum((found[i] for found, _ in results if found), collections.Counter())
                      for i in (0, 1))
    failures = failures or shortcomings(sys.argv[1], cells, numbers, count)
    failures += oracle_measure.shortcomings()
    for failure in failures[:5]:
        print(f"FAILED {failure}")
    print(f"{count} shops from seed {seed}: {sum(cells.values())} computed cells of {len(cells)} tables agree, "
          f"{sum(numbers.values())} of them numbers, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
