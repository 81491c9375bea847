#!/usr/bin/env python3
"""Whoever is asked says the same: over workshops drawn from a seed, the finished site, the PDF
files, the terminal in columns and in lines, what `check` remarks and the bench page's engine name
the same state and the same thing to do for the same facts.

Usage: check_one_answer.py OUT [COUNT [SEED]]     (COUNT: else WORKSHOPS, else 200)

No word of the program is known here. States are compared as they are written. What is to be done
is written at different lengths by different speakers: what each says for it is learned from plain
cases (made_workshops.py), in which there is no doubt. KNOWN has what still contradicts.
EXAMPLES=N tells N of each sort, KEEP=FOLDER keeps the first of each for asking again.
"""
import collections
import concurrent.futures
import fnmatch
import html
import json
import math
import os
import re
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import made_workshops
import site_tables

here = os.path.dirname(os.path.abspath(__file__))
templates = os.path.join(here, "..", "templates")
COUNT, SEED, AT_ONCE = int(os.environ.get("WORKSHOPS", 200)), 20261201, 100
EXAMPLES, KEEP = int(os.environ.get("EXAMPLES", 2)), os.environ.get("KEEP")
MEMORY = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None  # the disk is not asked
OFTEN, SELDOM = 0.3, 0.1  # the shares of workshops that are asked the dearer questions

# In so many workshops so much comes up: the draw must not lose it.
ENOUGH, LEAST_STATES, LEAST_TEXTS = 200, 17, 35

# What still contradicts, by sort, * for anything. This is to become empty: a line by which nothing
# comes up any more, in so many workshops, fails too.
KNOWN = [
    # a typed pull does not say where the nut is; by the curve of the log's places no step is safe
    "what to do: pull 'tighten', * 'surer'",
]

TABLES = ["pull-log", "record", "record-facts", "history", "sure-windows"]
FIGURES = ["nut-drag", "years", "window-line"]
VALUES = ["good-from", "good-to", "low-pull", "aim", "high-pull"]
CONTENT = {
    "00-start.md": "# Book\n",
    "10-said.md": "# Said\n\n" + "".join(f"```table {name}\n```\n\n" for name in TABLES)
                  + "".join(f"```figure {name}\n```\n\n" for name in FIGURES),
    "card.md": "# Card\n\n```table pull-windows\nshow: card\n```\n\n---\n\nSteps.\n",
    "form-01-values.md": "# Form\n\n```grid values: Values\nvalue,is\n"
                         + "".join(f"{name},{{{name}}}\n" for name in VALUES) + "```\n"}

# ---- what is to be done, in words of the test's own ----

# A doubt that leaves a choice agrees with either side of it; and two places of the nut tell more
# than a series of pulls.
NEAR = [{"surer, or tighten", "tighten"}, {"surer, or tighten", "surer"},
        {"surer, or unload", "unload"}, {"surer, or unload", "surer"}, {"seat", "tighten"}]
# The record says no more than whether the nut stays.
STAYS = {"leave": "stays", "compare": "stays", "tighten": "is set again", "unload": "is set again"}


def near(act):
    return {act}.union(*(some for some in NEAR if act in some))


def same_act(one, two, speaker):
    if one == two or {one, two} in NEAR:
        return True
    return speaker == "record" and any(STAYS.get(a, a) == STAYS.get(b, b)
                                            for a in near(one) for b in near(two))


# ---- texts ----

def squeeze(text):
    return " ".join(text.replace("\u00a0", " ").split())


def plain(text):
    """As the program prints for programs."""
    return squeeze(text).replace("\u2212", "-").replace("\u00b7", ".")


def without_numbers(text):
    return re.sub(r"\d[\d.]*", "#", squeeze(text))


def without_sign(state):
    """A state's words without the sign before them."""
    return re.sub(r"^\W+", "", squeeze(state))


def is_date(text):
    return re.fullmatch(r"\d{4}-\d\d-\d\d", text)


def refused(rows):
    """What the engine finds wrong with a question; or None."""
    return next((f"{key}: {words}" for name, key, _, words in rows or [] if name == "fault"), None)


def said_of(rows, name):
    """The value of the first row of an answer that has this name; or None."""
    return next((squeeze(row[2]) for row in rows if row[0] == name), None)


# ---- what a workshop says ----

class Said:
    """All that was said of one workshop. An answer is a list of rows: name, label, value, unit."""

    def __init__(self, shop):
        self.shop, self.last = shop, len(shop.rows) - 1
        self.tables, self.figures, self.values, self.printed = {}, {}, {}, ""
        self.settings, self.fingerprint = [], ""
        self.card = []  # the rows of its table
        self.remarks = None  # by row, where `check` was asked
        self.judged = []  # by the engine, every row as it would be typed before it stands in the log
        self.retyped = None  # by the engine, the pulls of the last row behind the whole log
        self.tried = {}  # by the engine, the pulls of pulls_to_try()
        self.places, self.engine_nut, self.typed_nut = None, None, None  # two_places()
        self.nut, self.nut_columns = [], None
        self.pull, self.pull_columns = None, None  # pulls typed at the terminal, where that was done

    def before(self, number):
        """The page's settings as they would be before this row of the log, on its drum."""
        row, at, settings, day = self.shop.rows[number], -1, [], ""
        for key, text in self.settings:
            at += key == "log.date"
            day = text if key == "weighing.date" else day
            late = at >= number if key != "log.lock-added" else False
            if late and key.startswith("log.") or key.startswith("weighing.") and day > row.date:
                continue
            settings.append((key, f"{row.drum:g} mm" if row.drum and key == "drum.diameter" else text))
            if key == "log.date" and row.drum and not self.shop.rows[at].drum:
                settings.append(("log.drum", f"{self.shop.drum:g} mm"))
        return settings

    def read_site(self, folder):
        pages = ""
        reader = site_tables.Reader()
        for page in ("said", "form-01-values", "card", "bench"):
            with open(os.path.join(folder, "site", page + ".html"), encoding="utf-8") as file:
                pages += file.read()
        reader.feed("".join(re.findall("<table.*?</table>", pages, re.S)))
        self.tables = {table.name: table for table in reader.tables}
        self.card = [row for table in reader.tables if table.name not in TABLES + ["values"] for row in table.rows]
        self.values = {row[0].text: squeeze(row[1].text) for row in self.tables["values"].rows}
        descriptions = re.findall(r"<desc[^>]*>(.*?)</desc>", pages, re.S)
        self.figures = {name: squeeze(html.unescape(text)) for name, text in zip(FIGURES, descriptions)}
        self.settings = [(key, html.unescape(text)) for key, text
                         in re.findall(r'data-key="([^"]*)">([^<]*)<', pages)]
        self.fingerprint = re.search(r'data-fingerprint="(\w+)"', pages).group(1)

    def states(self):
        """Of every row of the log; without limits the table of it has none."""
        if not self.shop.limits:
            return [said_of(rows, "state") or "" for rows in self.judged]
        return [squeeze(row[-1].text) for row in self.tables["pull-log"].rows]

    def drags(self):
        """Of every row of the log: the cells of its drag; and their unit."""
        table = self.tables["pull-log"]
        at = next(i for i, head in enumerate(table.heads) if head.text.startswith("drag"))
        return [row[at] for row in table.rows], plain(table.heads[at].text).split("/")[1].strip()

    def rows_like(self, cells):
        """The rows of the log that have the date and the drag in these cells."""
        date = next(cell.text for cell in cells if is_date(cell.text))
        values = {cell.value for cell in cells}
        return [at for at, (row, drag) in enumerate(zip(self.tables["pull-log"].rows, self.drags()[0]))
                if row[0].text == date and drag.value in values]

    def rows_of(self, name):
        """The rows of a table that show a series."""
        return [row for row in self.tables[name].rows if any(is_date(cell.text) for cell in row)]

    def nut_drag(self, states):
        """What the figure of that name says: the state of the last, and what is next; or None."""
        text = self.figures["nut-drag"]
        found = [(text.index(f": {state}."), -len(state), state) for state in states if f": {state}." in text]
        if not found:
            return None, None
        at, _, state = min(found)
        return state, text[at + len(state) + 3:].strip(" .")

    def two_places(self):
        """Two places of the nut and their drags as they are typed: those of the last two rows,
        where these are one way up and taken alike; else None."""
        if self.last < 1 or not self.shop.limits or self.shop.unsaid(self.last):
            return None
        a, b = self.shop.rows[-2:]
        alike = all(getattr(a, name) == getattr(b, name) for name in ("lock", "warmth", "direction", "drum"))
        if not alike or a.nut is None or b.nut is None or b.drum or not self.shop.suits(b):
            return None
        if not 0 < b.nut - a.nut <= made_workshops.MOST_TURN:
            return None
        cells, unit = self.drags()
        return [(f"{row.nut:g}deg", f"{cell.value:.9f}{unit}") for row, cell in zip((a, b), cells[-2:])]

    def advice(self, states):
        """By speaker, what is to be done after the last of the log, numbers left out; the first
        is who was told most of what all were told."""
        advice, row = {}, self.shop.rows[self.last]
        if not self.shop.unsaid(self.last):  # pulls that are typed do not say it
            advice["pull"] = said_of(self.judged[-1], "next")
        if self.shop.steering() == self.last:
            advice["nut by the log"] = said_of(self.nut, "next")
            advice["figure nut-drag"] = self.nut_drag(states)[1]
        if self.typed_nut and row.is_calm():
            advice["nut by two places"] = said_of(self.typed_nut, "next")
        closing = [self.rows_like(cells) for cells in self.rows_of("record")[-2:]]
        if [self.last] in closing[-1:]:
            due = self.tables["record-facts"].rows[-1][1].text
            advice["record"] = "a date" if is_date(due) else due
        return {speaker: without_numbers(text) for speaker, text in advice.items() if text}


# ---- asking ----

FIVE = (math.sqrt(1.6), math.sqrt(0.4))  # 0 and these either way: five numbers whose deviation is 1


def pulls_to_try(said):
    """Series about the pulls that the form names, and a step outside of the window: five each,
    that scatter as the settings let expect, rounded to less, or to more where none is good."""
    shop, series = said.shop, {}
    for name, text in said.values.items():
        if not text[:1].isdigit():
            continue
        value, unit = text.split(",")[0].split()
        mean = round(float(value) / shop.step) + {"low-pull": -1, "high-pull": 1}.get(name, 0)
        rounded = math.ceil if name == "aim" else math.floor
        reach = [rounded(mean * shop.scatter / 100 * share) for share in FIVE]
        # in an order that neither rises nor falls
        steps = [mean - reach[1], mean + reach[0], mean, mean - reach[0], mean + reach[1]]
        if mean > 0 and min(steps) >= 0 and max(steps) * shop.step <= shop.capacity:
            series[name] = [("pull", f"{pull * shop.step:.{len(value.partition('.')[2])}f} {unit}")
                            for pull in steps]
    return series


def write(folder, files):
    os.makedirs(folder, exist_ok=True)
    for name, words in files.items():
        with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
            file.write(words)


def write_shop(folder, shop):
    """What a terminal needs too: `check` reads a book."""
    checks = {"gauge-check.csv": shop.check()} if shop.sessions else {}
    write(folder, {"settings.yaml": shop.settings(), "readings.csv": shop.log(), **checks,
                   **{page: CONTENT[page] for page in ("00-start.md", "card.md")}})


def make_books(program, work, shops):
    write(os.path.join(work, "content"), CONTENT)
    for shop in shops:
        write_shop(os.path.join(work, "lathes", shop.name), shop)
    with open(os.path.join(work, "engine"), "wb") as file:
        file.write(b"\0asm\1\0\0\0")  # of the bench page only the settings are wanted
    parts = [word for part in ("site", "booklet", "forms", "card") for word in ("--only", part)]
    made = subprocess.run([program, "book", "--content", "content", "--each", "lathes", "--out", "sets",
                           "--templates", templates, "--bench", "engine", *parts],
                          cwd=work, capture_output=True, text=True)
    assert made.returncode == 0, f"status {made.returncode}: {made.stderr[:3000]}{made.stdout}"


def read_books(work, shops):
    """Every sheet has its settings' fingerprint: so all can be read in one run."""
    said = [Said(shop) for shop in shops]
    files = []
    for one in said:
        folder = os.path.join(work, "sets", one.shop.name)
        one.read_site(folder)
        files += [os.path.join(folder, file) for file in ("booklet.pdf", "card.pdf", "forms.pdf")]
    whole = os.path.join(work, "all.pdf")
    subprocess.run(["pdfunite", *files, whole], check=True, stderr=subprocess.DEVNULL)
    owners = {one.fingerprint: one for one in said}
    assert len(owners) == len(shops), "two workshops with one fingerprint"
    for page in site_tables.pdf_pages(whole):
        mark = re.search(r"settings ([0-9a-f]{8})", page, re.I)
        if mark:
            owners[mark.group(1)].printed += " " + page
    return said


def questions_to_engine(said):
    """The questions, and by name which of them is whose."""
    shop, questions, at = said.shop, [], {}
    added = [("lock-added", text) for key, text in said.settings if key == "log.lock-added"]
    how = {}
    for number, row in enumerate(shop.rows):
        questions.append(("settings", said.before(number)))
        how = [("warmth", row.warmth), ("direction", row.direction), *added]
        at[number] = len(questions)
        questions.append(("judge", [("pull", pull + shop.unit) for pull in row.pulls]
                          + [("lock", row.lock), *how]))
    last = questions[-1]
    if shop.rows[-1].drum:  # the whole log, but on the drum of that row
        questions.append(("settings", [(key, f"{shop.rows[-1].drum:g} mm" if key == "drum.diameter" else text)
                                       for key, text in said.settings]))
    else:
        questions.append(("settings", said.settings))
    at["retyped"] = len(questions)
    questions.append(last)
    questions.append(("settings", said.settings))
    if said.places:
        at["nut"] = len(questions)
        (angle, drag), (next_angle, next_drag) = said.places
        questions.append(("nut", [("angle-1", angle), ("drag-1", drag), ("angle-2", next_angle),
                                  ("drag-2", next_drag), ("nut-lock", shop.rows[-1].lock), *how]))
    for name, pulls in pulls_to_try(said).items():
        at[name] = len(questions)
        questions.append(("judge", pulls + [("lock", "after"), ("warmth", shop.warmth)]))
    return questions, at


def ask_engine(engine, all_said):
    """The bench page, of every row of each log, of two places, of pulls to try."""
    asked = [questions_to_engine(said) for said in all_said]
    made = subprocess.run(["node", os.path.join(here, "ask_engine.js"), engine], text=True, check=True,
                          input="".join(json.dumps(questions) + "\n" for questions, _ in asked),
                          stdout=subprocess.PIPE)
    for said, (_, at), line in zip(all_said, asked, made.stdout.splitlines(), strict=True):
        answers = json.loads(line)
        named = {name: answers[number] for name, number in at.items()}
        said.judged = [named.pop(number) for number in range(len(said.shop.rows))]
        said.retyped = named.pop("retyped")
        said.engine_nut = named.pop("nut", None)
        said.tried = named


def ask_terminal(program, work, said):
    shop, row = said.shop, said.shop.rows[-1]
    folder = os.path.join(work, "lathes", shop.name)

    def run(*words):
        made = subprocess.run([program, *words, "--content", folder], capture_output=True, text=True)
        assert made.returncode == 0, f"{shop.name}: {words}: {made.stderr}"
        return made.stdout

    def answer(*words):
        """Without the last line, which tells the program."""
        rows = [line.split("\t") for line in run(*words, "--lines").splitlines()]
        return [[name, "", value, unit] for name, value, unit in rows[:-1]]

    how = ["--warmth", row.warmth, "--direction", row.direction] + (["--lock", row.lock] if row.lock else [])
    pulls = ["pull", *(pull + shop.unit for pull in row.pulls), *how]
    pulls += ["--drum", f"{row.drum:g}mm"] if row.drum else []
    said.nut = answer("nut")
    if said.places:
        said.typed_nut = answer("nut", *(word for place in said.places for word in place), *how)
    if shop.draw.random() < OFTEN or refused(said.judged[-1]):
        said.pull = answer(*pulls)
    if said.pull and shop.draw.random() < OFTEN:
        said.pull_columns, said.nut_columns = run(*pulls), run("nut")
    if shop.draw.random() < SELDOM:
        said.remarks = collections.defaultdict(list)
        for line, words in re.findall(r"readings\.csv:(\d+): (.*)$", run("check", "--templates", templates), re.M):
            said.remarks[int(line) - 2].append(squeeze(words).partition(": ")[2])  # behind the date


def ask_all(out, shops):
    """Of each workshop all that is said of it."""
    program = os.path.join(out, "bin", "spindlebook")
    with tempfile.TemporaryDirectory(dir=MEMORY) as work:
        make_books(program, work, shops)
        all_said = read_books(work, shops)
        for said in all_said:
            said.places = said.two_places()
        ask_engine(os.path.join(out, "build", "bench.wasm"), all_said)
        for said in all_said:
            ask_terminal(program, work, said)
        return all_said


# ---- what is found ----

class Found:
    """What contradicts, by sort: in which workshops. And how much was compared."""

    def __init__(self):
        self.sorts, self.compared = collections.defaultdict(list), collections.Counter()
        self.states, self.texts, self.facts = (collections.Counter() for _ in range(3))
        self.alarms = []

    def compare(self, good, what, sort, said, example=""):
        self.compared[what] += 1
        if not good:
            self.sorts[f"{what}: {sort}"].append((said.shop, example))

    def add(self, other):
        for sort, examples in other.sorts.items():
            self.sorts[sort] += examples
        for name in ("compared", "states", "texts", "facts"):
            getattr(self, name).update(getattr(other, name))
        self.alarms += other.alarms


class Words:
    """What the plain cases teach: the words of every state, and what each text bids to do."""

    def __init__(self, cases, found):
        self.states, self.acts = set(), {}
        for said in cases:
            self.states.update(map(without_sign, said.states()))
        self.silent = {without_sign(said.states()[-1]) for said in cases if said.shop.act == "take again"}
        self.good = next(said.states()[-1] for said in cases if said.shop.act == "leave")
        for said in cases:
            self.learn(said, said.shop.act, found)

    def learn(self, said, act, found):
        """Of all speakers; where all but one disagree with the first, compare_advice() finds it."""
        texts = said.advice(self.states)
        alone = {"seat": ("pull", "record"), "cap": ("pull",)}.get(act, ())  # who cannot tell it
        texts = {speaker: text for speaker, text in texts.items() if speaker not in alone}
        for speaker, text in texts.items():
            known = self.acts.setdefault(text, act)
            if speaker == next(iter(texts)):
                found.compare(same_act(known, act, speaker), "plain cases",
                              f"{speaker} says for '{act}' what is said for '{known}'", said, text)


# ---- comparing ----

def compare_states(said, words, found):
    shop, states = said.shop, said.states()

    def same(state, other, who, at):
        found.compare(state == other, "states", f"table pull-log, {who}", said,
                      f"row {at + 2}: '{state}', '{other}'")

    for at, (state, judged) in enumerate(zip(states, said.judged)):
        found.states[without_sign(state)] += 1
        found.compare(without_sign(state) in words.states, "states", "not known from the plain cases", said, state)
        if not shop.unsaid(at) and not refused(judged):
            same(state, said_of(judged, "state"), "bench", at)
    silent = [at for at, state in enumerate(states) if without_sign(state) in words.silent]
    steering, nut = shop.steering(silent), said_of(said.nut, "state")
    at = said.last if steering is None else steering
    for later in range(at + 1, said.last + 1):  # what is too high, or says nothing, comes before all
        alarms = {row[0] for row in said.judged[later]} & {"never-exceed", "caution"}
        at = later if alarms or later in silent else at
    if nut and (shop.limits or not shop.unsaid(at)):
        same(plain(states[at]), nut, "nut", at)
    if not shop.limits:
        return
    for name in ("record", "history"):
        for row in said.rows_of(name):
            rows = said.rows_like(row)
            found.compare(squeeze(row[-1].text) in [states[at] for at in rows], "states", f"table pull-log, {name}",
                          said, f"rows {rows}: '{row[-1].text}'")
    state, _ = said.nut_drag(words.states)
    placed = [at for at, row in enumerate(shop.rows) if row.nut is not None and shop.suits(row)]
    found.compare((state is None) == (not placed), "states", "figure nut-drag has none, or one too many", said)
    if state and placed:
        same(without_sign(states[placed[-1]]), state, "figure nut-drag", placed[-1])
    closed = said.rows_of("history")
    if closed:
        end = f"{closed[-1][0].text}, {without_sign(closed[-1][-1].text)}."
        found.compare(said.figures["years"].endswith(end), "states", "history, figure years", said, end)


def compare_print(said, words, found):
    for name in TABLES + ["values"]:
        for row in said.tables[name].rows:
            text = site_tables.row_text(row)
            found.compare(text in said.printed, "site and print", name, said, text)
    _, brief = said.nut_drag(words.states)
    found.compare(not brief or brief in said.printed, "site and print", "figure nut-drag", said, brief)
    for remark in sum((said.remarks or {}).values(), []):
        found.compare(remark in said.printed, "site and print", "what check remarks on the log", said, remark)


def compare_terminal(said, _, found):
    """The bench page and the terminal; columns and lines."""
    def shared(rows):
        return [(name, plain(value)) for name, _, value, _ in rows
                if name in ("state", "outside", "drag", "uncertainty", "next", "never-exceed", "caution", "lock", "expected-state", "note")]

    wrong = refused(said.judged[-1])
    found.compare(not wrong, "bench and terminal", "the bench refuses what its own page has from the log", said, wrong)
    if wrong:
        return
    if said.pull:
        found.compare(shared(said.pull) == shared(said.retyped), "bench and terminal", "pull", said,
                      f"{shared(said.pull)}, {shared(said.retyped)}")
    if said.places:
        found.compare(shared(said.typed_nut) == shared(said.engine_nut), "bench and terminal", "nut", said)
    for verb, rows, columns in (("pull", said.pull, said.pull_columns), ("nut", said.nut, said.nut_columns)):
        if columns is not None:
            printed = [plain(line) for line in columns.splitlines()]
            values = [plain(f"{value} {unit}") for _, _, value, unit in rows]
            found.compare(len(values) == len(printed)
                          and all(line.endswith(value) for value, line in zip(values, printed)),
                          "columns and lines", verb, said)


def compare_window(said, words, found):
    """Card, form and sure-windows, and what is said of pulls there."""
    shop, values = said.shop, said.values
    if not shop.limits:
        return
    cells = [squeeze(cell.text) for cell in said.tables["sure-windows"].rows[-1]]
    if values["low-pull"][:1].isdigit():
        numbers = {values[name].split(",")[0].split()[0] for name in ("low-pull", "aim", "high-pull")}
        found.compare(any(numbers <= {cell.text for cell in row} for row in said.card),
                      "window", "form, table of the card", said, numbers)
    if values["good-from"][:1].isdigit():
        good = f"{values['good-from'].split()[0]} \u2013 {values['good-to']}"
        found.compare(good in said.printed,
                      "window", "form, good on the card", said, values)
    for name in VALUES:
        text = values[name].split(",")[0].split()[0]
        if name != "aim":
            found.compare(text in cells, "window", f"form, sure-windows: {name}", said, f"{text}, {cells}")
        if name not in said.tried:
            continue
        state = said_of(said.tried[name], "state")
        if without_sign(state) in words.silent:  # the log lets expect less scatter
            continue
        if name.startswith("good"):
            found.compare(state == words.good, "window",
                          f"what is {name} on form and card is not good to bench and pull", said,
                          f"{values[name]}: {state}")
        elif name != "aim":
            found.compare(state != words.good, "window", f"a step outside of {name} is good to bench and pull", said)
        elif not values["good-from"][:1].isdigit():
            found.compare(state != words.good, "window",
                          "no pull is good on form and card; the aim is to bench and pull", said,
                          f"{values[name]}: {state}")


def compare_alarms(said, _, found):
    """Whoever speaks of the last series has the same warnings."""
    steering = said.shop.steering() == said.last and not said.shop.unsaid(said.last)
    for name in ("never-exceed", "caution"):
        told = said_of(said.judged[-1], name)
        for who, rows in (("nut by the log", said.nut if steering else None),
                          ("nut by two places", said.typed_nut if said.shop.rows[-1].is_calm() else None)):
            if rows is not None:
                other = said_of(rows, name)
                found.compare(told == other, "alarms", f"{name}: pull {'warns' if told else 'does not'}, "
                              f"{who} {'does' if other else 'does not'}", said, f"{told}, {other}")
    for at, rows in enumerate(said.judged if said.remarks is not None else []):
        if not said.shop.unsaid(at) and not refused(rows):
            found.alarms.append((said, at, {row[0] for row in rows} & {"never-exceed", "caution"},
                                 set(map(without_numbers, said.remarks[at]))))


def compare_alarms_with_remarks(found):
    """A warning at the bench is a remark of `check` on the row, and always the same one: the one
    that is told most like it."""
    for alarm in ("never-exceed", "caution"):
        apart = collections.Counter()
        for _, _, alarms, remarks in found.alarms:
            for remark in remarks:
                apart[remark] += 1 if alarm in alarms else -1
        remark = max(apart, key=apart.get, default=None)
        for said, at, alarms, remarks in found.alarms:
            found.compare((alarm in alarms) == (remark in remarks), "alarms and remarks", alarm, said,
                          f"row {at + 2}: '{remark}'")


def compare_advice(said, words, found):
    texts = said.advice(words.states)
    found.texts.update(texts.values())
    for speaker, text in texts.items():
        found.compare(text in words.acts, "what to do", f"not known from the plain cases: {speaker}", said, text)
    acts = {speaker: words.acts[text] for speaker, text in texts.items() if text in words.acts}
    if acts.get("nut by the log") == "seat" and acts.get("pull") == "tighten":
        del acts["pull"]
    if acts.get("nut by the log") == "cap":
        acts = {speaker: act for speaker, act in acts.items() if speaker not in ("pull", "nut by two places")}
    (first, act), *others = acts.items() or [("", "")]
    for speaker, other in others:
        found.compare(same_act(act, other, speaker), "what to do", f"{first} '{act}', {speaker} '{other}'", said,
                      f"'{texts[first]}', '{texts[speaker]}'")


def compare_all(all_said, words):
    found = Found()
    for said in all_said:
        for compare in (compare_states, compare_print, compare_terminal, compare_window, compare_alarms,
                        compare_advice):
            compare(said, words, found)
        found.facts.update(facts_of(said))
    return found


# ---- whether enough came up ----

def facts_of(said):
    """What of all that may be came up in this workshop."""
    shop, row = said.shop, said.shop.rows[-1]
    yield f"lock '{row.lock}', {row.warmth} for {shop.warmth}, {row.direction}"
    yield f"{shop.bands} bands"
    yield "limits" if shop.limits else "no limits"
    yield "increase" if shop.slack is not None else "whole drag"
    yield "lock's share " + ("known" if any(key == "log.lock-added" for key, _ in said.settings) else "not known")
    yield "nut " + ("turned back" if shop.turned_back(said.last) else "not turned back")
    if shop.limits:
        yield "window " + ("open" if said.values["low-pull"][:1].isdigit() else "closed")
        yield "good pulls" if said.values["good-from"][:1].isdigit() else "no good pull"
        yield "within the gauge" if "," not in said.values["high-pull"] else "beyond the gauge"
    if row.temperature in made_workshops.HOT and row.warmth == "cold":
        yield "hot, and said to be cold"
    if row.temperature in made_workshops.MILD and row.warmth == "warm":
        yield "mild, and said to be warm"
    for name in ("never-exceed", "caution"):
        yield f"{name} {'warned of' if said_of(said.judged[-1], name) else 'not'}"


WANTED = ["1 bands", "6 bands", "limits", "no limits", "increase", "whole drag", "lock's share known",
          "lock's share not known", "nut turned back", "nut not turned back", "window open", "window closed",
          "good pulls", "no good pull", "within the gauge", "beyond the gauge", "hot, and said to be cold",
          "mild, and said to be warm", "never-exceed warned of", "caution warned of"]


def shortcomings(found, count):
    words = [f"{fact}: in no workshop" for fact in WANTED if not found.facts[fact]]
    ways = sum(fact.startswith("lock '") for fact in found.facts)
    if ways < 16:
        words.append(f"the last series was taken in {ways} ways only")
    if len(found.states) < LEAST_STATES or len(found.texts) < LEAST_TEXTS:
        words.append(f"only {len(found.states)} states and {len(found.texts)} texts of what to do came up")
    for what, least in (("states", 10 * count), ("what to do", 3 * count), ("window", 4 * count)):
        if found.compared[what] < least:
            words.append(f"{what}: compared {found.compared[what]} times only")
    return words


# ---- all of it ----

def keep(folder, examples):
    for shop, _ in examples[:EXAMPLES]:
        write_shop(os.path.join(folder, shop.name), shop)


def tell(found, count, seed):
    """Tells what contradicts and is not known to, and what is known to and does not any more."""
    failures = 0
    for sort, examples in sorted(found.sorts.items()):
        known = any(fnmatch.fnmatchcase(sort, line) for line in KNOWN)
        if KEEP:
            keep(KEEP, examples)
        if known and "EXAMPLES" not in os.environ:
            continue
        failures += not known
        print(f"{'known' if known else 'FAILED'} {sort}: {len(examples)} of "
              f"{found.compared[sort.split(': ')[0]]}")
        for shop, example in examples[:EXAMPLES]:
            print(f"    {shop.name}: {example}")
    for line in KNOWN if count >= ENOUGH and seed == SEED else []:
        if not fnmatch.filter(found.sorts, line):
            failures += 1
            print(f"FAILED this contradicts no more, and is to go from the list: {line}")
    return failures


def main():
    out = os.path.abspath(sys.argv[1])
    count = int(sys.argv[2]) if len(sys.argv) > 2 else COUNT
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else SEED
    if not shutil.which("node") or not os.path.exists(os.path.join(out, "build", "bench.wasm")):
        print("skipped: it needs node and the bench page's engine")
        return 0
    found = Found()
    cases = ask_all(out, made_workshops.plain_cases())
    words = Words(cases, found)
    found.add(compare_all(cases, words))

    def compare_some(start):
        numbers = range(seed + start, seed + min(count, start + AT_ONCE))
        return compare_all(ask_all(out, [made_workshops.drawn(number) for number in numbers]), words)

    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for some in pool.map(compare_some, range(0, count, AT_ONCE)):
            found.add(some)
    if count >= ENOUGH:  # few rows do not show which remark it is
        compare_alarms_with_remarks(found)
    failures = tell(found, count, seed)
    if count >= ENOUGH:
        for failure in shortcomings(found, count):
            failures += 1
            print(f"FAILED {failure}")
    print(f"{sum(found.compared.values())} comparisons over {len(cases)} plain cases and {count} workshops from seed "
          f"{seed}: {len(found.states)} states, {len(found.texts)} texts of what to do, "
          f"{len(KNOWN)} known sorts of contradictions, {failures} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
