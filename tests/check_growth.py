#!/usr/bin/env python3
"""Work and memory grow with the input, and not faster: every construct that input can hold is
doubled and doubled again, one made ten times as long twice, and both may grow by no more than
the power 1.15.
Usage: check_growth.py OUT [NAME...]    without names the quick ones; with CONSTRUCTS=all, all

Work is counted in instructions, by valgrind, so that a busy machine changes nothing. What the
second doubling adds is compared with what the first adds: what the book takes without the
construct is in neither. Memory is the peak of the same runs without valgrind. Where the second
doubling adds less than LEAST_WORK there is too little to judge: that is a failure too."""
import concurrent.futures
import math
import os
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
BASE = HERE / "faults" / "base"
MOST_POWER = 1.15
LEAST_WORK = 5e5  # instructions

SOME = "cord drum headstock a of breakaway 18.2 lock spindle the nut pull".split()


# ---- what a construct is made of; each takes how many ----

def words(count, seed=1):
    draw = random.Random(seed)
    return " ".join(draw.choices(SOME, k=count))


def page(text):
    """Files of a book with this page."""
    return {"10-page.md": "# A page\n\n" + text + "\n"}


def form(text):
    return {"form-01-sheet.md": "# F1. A sheet\n\n" + text + "\n"}


def block(kind, *rows):
    return "```%s\n%s\n```\n" % (kind, "\n".join(rows))


def table(rows, columns, most_words, name="made"):
    draw = random.Random(rows + columns)
    heads = ",".join("head %d" % i for i in range(columns))
    body = [",".join(words(draw.randint(1, most_words), draw.random()) for _ in range(columns))
            for _ in range(rows)]
    return block("csv %s: A made table" % name, heads, *body)


def settings(pattern, text):
    """The settings with something else in one place."""
    whole, count = re.subn(pattern, lambda _: text, (BASE / "settings.yaml").read_text(), flags=re.S)
    assert count == 1, pattern
    return {"settings.yaml": whole}


def bands(count):
    row = "    - {from: %d r/min, to: %d r/min, low: 0.5 N.m, high: 0.9 N.m}"
    rows = [row % (400 * i, 400 * i + 400) for i in range(count)]
    return settings(r"    - \{from.*page: 28\}", "\n".join(rows))


def more_settings(text):
    return {"settings.yaml": (BASE / "settings.yaml").read_text() + text}


def log(count):
    heads = "date,nut,lock,direction,warmth,temperature,breakaway,pulls,note"
    rows = ["20%02d-%02d-%02d,%d deg,%s,usual,cold,18 degC,%.1f N,%s N,a note" %
            (10 + i // 336, 1 + i // 28 % 12, 1 + i % 28, i % 40, ("before", "after")[i % 2],
             25 + i % 7, " ".join("%.2f" % (18 + (i * k) % 5 / 20) for k in range(1, 6)))
            for i in range(count)]
    shown = "\n".join(block("table " + name) for name in ("pull-log", "history", "nut-map"))
    return {"readings.csv": "\n".join([heads, *rows, ""]), **page(shown)}


def judged(count):
    """Four rows a day: the nut goes on, is locked, and is begun anew after forty places."""
    heads = "date,nut,lock,direction,warmth,pulls"
    rows = ["%04d-%02d-%02d,%d deg,%s,usual,cold,%s N" %
            (1950 + i // 1344, 1 + i // 112 % 12, 1 + i // 4 % 28, i // 2 % 40, ("before", "after")[i % 2],
             " ".join("%.2f" % (18 + (i * k) % 5 / 20) for k in range(1, 6)))
            for i in range(count)]
    return {"readings.csv": "\n".join([heads, *rows, ""])}


def day(i):
    return "%04d-%02d-%02d" % (1950 + i // 336, 1 + i // 28 % 12, 1 + i % 28)


def corrections(count):
    """Every row is corrected by another, and that by a third: the one by its id, the other by its date."""
    heads = "date,id,corrects,direction,warmth,pulls"
    rows = ["%s,%s,%s,usual,cold,18.2 18.3 18.15 N" % (day(i), name, corrects) for step in range(3) for i in range(count)
            for name, corrects in [[("row-%d" % i, ""), ("", "row-%d" % i), ("", day(i))][step]]]
    return {"readings.csv": "\n".join([heads, *rows, ""])}


def stored_jobs(count):
    """Jobs of three rows, with the record of each."""
    rows = [row % (day(i), i) for i in range(count) for row in
            ("%s,%d,begun,,,,", "%s,%d,,after,usual,cold,18.2 18.3 18.15 N", "%s,%d,closed,,,,")]
    return {"readings.csv": "\n".join(["date,job,step,lock,direction,warmth,pulls", *rows, ""]),
            **{"records/%d.yaml" % i: 'record: "%d"\n' % i for i in range(count)}}


def trace(count):
    return {"../trace.csv": "".join("%.2f,%.2f N\n" % (i / 20, 18 + math.sin(i / 16) + i * 7919 % 13 / 50)
                                    for i in range(count))}


def weighings(count):
    rows = ["2026-03-02,%s,%.2f N,%.2f N" % (("up", "down")[i % 2], 1 + i % 45, 1 + i % 45 + i % 3 / 20)
            for i in range(count)]
    shown = block("table gauge-check") + "\n" + block("figure gauge-residuals")
    return {"gauge-check.csv": "\n".join(["date,direction,load,reading", *rows, ""]), **page(shown)}


def pages(count, text=lambda i: "Words.\n"):
    return {"%05d-page-%05d.md" % (10 + i, i): "# Page %d\n\n%s" % (i, text(i)) for i in range(count)}


def lists(length):
    """As deep as so many characters reach: each level is written further in than the last."""
    return page("\n".join("%s- words" % ("  " * i) for i in range(math.isqrt(length))))


def backticks(length):
    """Runs, each longer by one, of so many characters in all."""
    return page(" ".join("`" * i for i in range(1, math.isqrt(2 * length))))


def frame(text):
    """Page templates with this in the frame."""
    whole = (HERE.parent / "templates" / "page.html").read_text()
    return {"../templates/page.html": whole.replace("<body>", "<body>" + text, 1)}


def stranger_files(count):
    return {"../out/mine-%05d" % i: "" for i in range(count)}


def stranger_folders(count):
    """Folders of your own in out, and the list of what an earlier run made there."""
    return {"../out/.spindlebook": "".join("site/page-%05d.html\n" % i for i in range(count)),
            **{"../out/mine-%05d/note" % i: "" for i in range(count)}}


def lathes(count):
    text = (BASE / "settings.yaml").read_text()
    return {"../lathes/bay-%04d.yaml" % i: text for i in range(count)}


WINDOW, CHECK, SITE = ["window"], ["check"], ["book", "--only", "site", "--only", "single"]
BOOK = ["book"] + [word for part in ("site", "single", "booklet", "tables") for word in ("--only", part)]
TABLES = ["book", "--only", "tables"]
EACH = ["book", "--only", "tables", "--each", "../lathes"]


class Construct:
    """make(n) gives the files of a book that has n of it; status: what the program leaves with;
    times: how many times as many there are at each of the two steps."""

    def __init__(self, name, count, make, verb=BOOK, status=0, quick=False, times=2):
        self.name, self.count, self.make = name, count, make
        self.verb, self.status, self.quick, self.times = verb, status, quick, times


def paragraphs(name, count, unit, verb=BOOK, status=0, **more):
    """So many times a text, in one paragraph."""
    return Construct(name, count, lambda n: page(unit * n), verb, status, **more)


CONSTRUCTS = [
    # tables
    Construct("rows of cells that wrap", 60, lambda n: page(table(n, 6, 9)), quick=True),
    Construct("rows that do not wrap", 250, lambda n: page(table(n, 4, 1))),
    Construct("tables", 40, lambda n: page("\n".join(table(3, 4, 3, "t%d" % i) for i in range(n)))),
    Construct("words of a cell", 75, lambda n: page(block("csv made: Made", "a,b", words(n) + ",b"))),
    Construct("words of a cell beyond a page", 5000, status=1, quick=True,
              make=lambda n: page(block("csv made: Made", "a,b", words(n) + ",b"))),
    Construct("words of a head beyond a page", 5000, status=1,
              make=lambda n: page(block("csv made: Made", "a," + words(n), "a,b"))),
    Construct("words of a caption", 2000, lambda n: page(block("csv made: " + words(n), "a,b", "a,b"))),
    Construct("columns", 500, lambda n: page(table(4, n, 2)), SITE),
    Construct("columns beyond a page", 500, lambda n: page(table(4, n, 2)), status=1),
    Construct("cells too many in a row", 500, status=1,
              make=lambda n: page(block("csv made: Made", "a,b", *["a,b" + ",c" * 8] * n))),
    # forms
    Construct("boxes to tick in one place", 1500, verb=CHECK, status=1, quick=True,
              make=lambda n: form(block("boxes", "State" + " □ good" * n))),
    Construct("places in a row of boxes", 1500, verb=CHECK, status=1, quick=True,
              make=lambda n: form(block("boxes", " | ".join(["Date"] * n)))),
    Construct("places in a row of lines", 1500, verb=CHECK, status=1,
              make=lambda n: form(block("lines", " | ".join(["Date"] * n)))),
    Construct("rows of boxes", 700, lambda n: form(block("boxes", *["Date | Name"] * n)), status=1, verb=CHECK),
    Construct("rows of a grid", 700, verb=CHECK, status=1,
              make=lambda n: form(block("grid made: Made", "what,seen", *["drum,"] * n))),
    Construct("columns of a grid", 700, verb=CHECK, status=1,
              make=lambda n: form(block("grid made: Made", ",".join(["what"] * n), ",".join(["drum"] * n)))),
    Construct("values in a place", 1500, verb=CHECK, status=1,
              make=lambda n: form(block("boxes", "Drum = " + "{drum} " * n))),
    Construct("forms", 25, lambda n: {"form-%03d-sheet-%d.md" % (i, i): "# F%d. Sheet\n\n%s" % (
        i, block("boxes", "Date | Name")) for i in range(n)}, ["book", "--only", "forms"]),
    # pages and what is on them
    Construct("pages", 150, lambda n: pages(n)),
    Construct("pages that link to pages", 50, lambda n: pages(n, lambda i: "".join(
        "[there](%05d-page-%05d.md)\n" % (10 + k % n, k % n) for k in range(i, i + 8)))),
    Construct("headings of a page", 200, lambda n: page("\n".join("## Head %d\n\nWords." % i for i in range(n)))),
    Construct("headings of one name", 200, lambda n: page("## Head\n\nWords.\n\n" * n)),
    Construct("links of a page", 350, lambda n: page("\n\n".join("[words](10-page.md#a-page)" for i in range(n)))),
    Construct("links to headings", 200, lambda n: page("\n".join(
        "## Head %d\n\n[there](#head-%d)\n" % (i, n - 1 - i) for i in range(n)))),
    Construct("links that lead nowhere", 700, status=1,
              make=lambda n: page("\n".join("[words](#head-%d)" % i for i in range(n)))),
    Construct("addresses of links", 700, lambda n: page("\n".join(
        ["[w%d]" % i for i in range(n)] + [""] + ["[w%d]: https://example.org/%d" % (i, i) for i in range(n)]))),
    Construct("items of a list", 350, lambda n: page("- words\n" * n)),
    Construct("items of a numbered list", 350, lambda n: page("".join("%d. words\n" % (i + 1) for i in range(n)))),
    Construct("paragraphs", 700, lambda n: page("Words.\n\n" * n)),
    Construct("cautions", 150, lambda n: page(block("caution Care", "Words.") * n)),
    Construct("blocks in a caution", 500, lambda n: page(block("caution Care", *["Words.\n"] * n))),
    Construct("literal lines", 700, lambda n: page(block("", *["words"] * n))),
    Construct("signs of a literal line", 20000, lambda n: page(block("", "w" * n)), SITE),
    paragraphs("words of a paragraph", 4000, "words "),
    paragraphs("lines of a paragraph", 1500, "words\n"),
    paragraphs("signs of a word", 15000, "w"),
    paragraphs("words wider than a line", 150, "w" * 200 + " "),
    paragraphs("numbers with units", 3000, "1 mm "),
    paragraphs("words with hyphens", 1500, "lock-nut-"),
    paragraphs("short code", 1500, "`a` "),
    paragraphs("changes of look", 750, "*a* **b** "),
    paragraphs("signs with a meaning to HTML", 2000, "< & "),
    # nesting, and what a reader of Markdown meets from an enemy
    Construct("lists in lists", 10000, lists, CHECK, status=1),
    Construct("quotes in quotes", 3000, lambda n: page(">" * n + " a"), CHECK, status=1),
    paragraphs("emphasis in emphasis", 1500, "*a **b ", CHECK),
    paragraphs("open brackets", 8000, "[", CHECK),
    paragraphs("links that stay open", 4000, "[a](", CHECK),
    paragraphs("closing brackets", 8000, "a]", CHECK),
    paragraphs("underscores", 8000, "_a ", CHECK),
    paragraphs("open HTML", 4000, "a <!-- ", CHECK),
    Construct("raw HTML", 1000, lambda n: page("<b>\n\n" * n), CHECK, status=1),
    Construct("runs of backticks", 11000, backticks, CHECK),
    paragraphs("entities", 4000, "&amp; ", CHECK),
    paragraphs("pictures", 200, "![a](b) ", CHECK, status=1),  # beyond 1,000 there is one fault
    paragraphs("pictures in pictures", 60000, "![[]()", CHECK, status=1),
    Construct("pictures in pictures, parted", 500, lambda n: page(("![[]()" * 900 + "\n\n") * (n // 100)), CHECK, status=1),
    # faults
    Construct("faults of one page", 700, lambda n: page("\n".join("[a](%d.md)" % i for i in range(n))), status=1),
    Construct("faults over many pages", 750, lambda n: pages(n, lambda i: "[a](x.md)"), CHECK, status=1,
              quick=True),
    Construct("pages of bad bytes", 500, lambda n: {k: "\udcff" for k in pages(n)}, CHECK, status=1),
    paragraphs("hidden signs", 3000, "\u202ew ", CHECK, status=1),
    paragraphs("signs that no font has", 2000, "\u4e00 ", CHECK, status=1),
    Construct("keys that are unknown", 400, lambda n: more_settings(
        "".join("key-%d: 1\n" % i for i in range(n))), CHECK, status=1),
    Construct("keys given twice", 700, lambda n: more_settings("paper: {card: a5}\n" * n), CHECK, status=1),
    Construct("rows of a log that are wrong", 200, lambda n: {
        "readings.csv": "date,direction,warmth,pulls\n" + "2026-13-02,up,hot,x\n" * n}, CHECK, status=1),
    Construct("cells of a log's row", 2000, lambda n: {
        "readings.csv": "date,direction,warmth,pulls\n" + "," * n}, CHECK, status=1),
    # settings and logs
    Construct("bands", 9, bands),
    Construct("speeds", 15, verb=CHECK, make=lambda n: settings(
        "top-speed: 1600 r/min", "top-speed: 1600 r/min\n  speeds: " + ", ".join(
            "%d%sr/min" % (i + 1, " " * 300) for i in range(n)))),
    Construct("speeds too many", 3000, lambda n: settings(
        "top-speed: 1600 r/min", "top-speed: 1600 r/min\n  speeds: " + "1 r/min, " * n), CHECK, status=1),
    Construct("drums to tabulate", 15, lambda n: settings(
        'drum-sizes: "[^"]*"', 'drum-sizes: "%s"' % ", ".join("%d mm" % (20 + i) for i in range(n)))),
    Construct("signs of a name", 100000, lambda n: settings("name: Test lathe", "name: " + "w" * n), CHECK,
              status=1),
    Construct("signs of a figure", 200000, lambda n: settings(
        "top-speed: 1600 r/min", "top-speed: 1600.%s r/min" % ("0" * n)), CHECK, status=1),
    Construct("comments of the settings", 2000, lambda n: more_settings("# words\n" * n), CHECK),
    Construct("brackets of the settings", 60000, lambda n: more_settings("x: " + "[" * n), CHECK, status=1),
    Construct("rows of the log", 120, log),
    Construct("rows of a long log", 2500, log, TABLES),  # 10,000 in the end
    Construct("rows of a log that are judged", 500, judged, WINDOW, quick=True),
    Construct("rows of a log that are judged, to 200,000", 2000, judged, WINDOW, times=10),
    Construct("rows that are corrected", 400, corrections, WINDOW, quick=True),
    Construct("records of closed jobs", 400, stored_jobs, WINDOW, quick=True),
    Construct("records of closed jobs, looked through", 100, stored_jobs, CHECK),
    Construct("readings of a trace", 50000, trace, ["trace", "../trace.csv", "--speed", "12r/min"]),
    Construct("weighings", 120, weighings),
    # templates, other people's files, many lathes
    Construct("slots", 1000, lambda n: frame('<slot name="title"></slot>' * n), SITE),
    Construct("slots that stay open", 1500, lambda n: frame("<slot " * n), CHECK, status=1, quick=True),
    Construct("slots that are unknown", 700, lambda n: frame('<slot name="x"></slot>' * n), CHECK, status=1),
    Construct("signs of a template", 20000, lambda n: frame("w" * n), SITE),
    Construct("your own files in out", 1000, stranger_files, SITE),
    Construct("your own folders in out, and pages", 300, quick=True, verb=SITE,
              make=lambda n: {**stranger_folders(n), **pages(n)}),
    Construct("lathes", 4, lathes, EACH),
]


class Book:
    """Counts what the program takes for a book."""

    def __init__(self, out, work):
        self.program = pathlib.Path(out).resolve() / "bin" / "spindlebook"
        self.work = pathlib.Path(work)
        self.runner = self.work / "run"
        subprocess.run([os.environ.get("CC", "gcc"), "-O1", "-o", self.runner, HERE / "bench" / "run.c"],
                       check=True)

    def write(self, files):
        """A folder with content/, templates/ and what else these files lie in."""
        folder = pathlib.Path(tempfile.mkdtemp(dir=self.work))
        shutil.copytree(BASE, folder / "content")
        shutil.copytree(HERE.parent / "templates", folder / "templates")
        for name, text in files.items():
            file = folder / "content" / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(text.encode("utf-8", "surrogateescape"))
        return folder / "content"

    def run(self, before, folder, verb, status):
        """What a run prints on standard error, valgrind's words among it."""
        words = [*before, self.program, *verb, "--content", ".", "--templates", "../templates"]
        if verb[0] == "book":
            words += ["--out", "../out"]
        made = subprocess.run(words, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                              check=False)
        said = made.stderr.decode(errors="replace")
        if made.returncode != status:
            raise RuntimeError("left with %d: %s" % (made.returncode, said[-600:]))
        return said

    def work_of(self, files, verb, status):
        folder = self.write(files)
        said = self.run(["valgrind", "--tool=cachegrind", "--cache-sim=no",
                         "--cachegrind-out-file=/dev/null"], folder, verb, status)
        shutil.rmtree(folder.parent)
        return sum(int(count.replace(",", "")) for count in re.findall(r"I +refs: +([\d,]+)", said))

    def peak_of(self, files, verb, status):
        folder = self.write(files)
        took = folder.parent / "took"
        self.run([self.runner, took], folder, verb, status)
        peak = float(took.read_text().split()[2])
        shutil.rmtree(folder.parent)
        return peak

    def measure(self, construct):
        """The powers with which work and peak grow, the work that the last step adds, and the
        largest peak."""
        times = construct.times
        books = [construct.make(construct.count * times ** step) for step in range(3)]
        how = construct.verb, construct.status
        work = [self.work_of(files, *how) for files in books]
        peak = [self.peak_of(files, *how) for files in books[::2]]
        first, second = (max(work[i + 1] - work[i], 1) for i in (0, 1))
        powers = math.log(second / first, times), math.log(peak[1] / peak[0], times ** 2)
        return powers, second, peak[1]


def tell(book, construct):
    """A line about a construct, and whether it is as it should be."""
    try:
        (work, peak), count, kib = book.measure(construct)
    except RuntimeError as failure:
        return "%s: %s" % (construct.name, failure), False
    line = "%-36s work %4.2f (%6.1f million)  memory %4.2f (%5.1f MiB)" % (
        construct.name, work, count / 1e6, peak, kib / 1024)
    grows = max(work, peak) > MOST_POWER
    if count < LEAST_WORK:
        return line + "  too little to judge", False
    return line, not grows


def main():
    names, every = sys.argv[2:], os.environ.get("CONSTRUCTS") == "all"
    chosen = [c for c in CONSTRUCTS if c.name in names or not names and (c.quick or every)]
    if not shutil.which("valgrind"):
        print("skipped: there is no valgrind to count instructions; type: make deps")
        return 0
    failed = 0
    with tempfile.TemporaryDirectory() as work, \
            concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        book = Book(sys.argv[1], work)
        for line, good in pool.map(lambda construct: tell(book, construct), chosen):
            print(line if good else "FAILED " + line, flush=True)
            failed += not good
    print("%d constructs, %d failures" % (len(chosen), failed))
    return 1 if failed or not chosen else 0


sys.exit(main())
