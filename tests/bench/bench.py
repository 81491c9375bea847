#!/usr/bin/env python3
"""How fast it is, on this machine and in this run: every comparison runs its programs in
turn, RUNS times (10 unless the environment says otherwise), and takes medians.
Usage: bench.py OUT [PART...]    parts: demo site booklet growth drag browser (all of them)

CPU is user and system time: it says the same on a busy machine. Wall time is what one
waits. Files are written to memory where /dev/shm is there: the disk is not measured."""
import math
import os
import pathlib
import shutil
import signal
import statistics
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
FONT = "/usr/share/fonts/truetype/dejavu/DejaVuSansCondensed.ttf"
LIMIT = 300.0  # seconds that Chromium may take
RUNS = int(os.environ.get("RUNS", "10"))


class Run:
    """What one run of a command took: seconds of CPU and of wall time, KiB at its peak."""

    runner = None  # run.c

    def __init__(self, words, into=None):
        with tempfile.NamedTemporaryFile("r") as took, open(into or os.devnull, "wb") as out:
            made = subprocess.run([self.runner, took.name, *map(str, words)], stdout=out,
                                  cwd=ROOT, stderr=subprocess.DEVNULL)
            if made.returncode:
                sys.exit("bench: this failed: %s" % " ".join(map(str, words)))
            self.cpu, self.wall, self.peak = map(float, took.read().split())


def lacks(*programs):
    """Says which of the programs are missing; true if any is."""
    missing = [name for name in programs if not shutil.which(name)]
    for name in missing:
        print("  skipped: there is no %s" % name)
    return bool(missing)


def compare(title, commands, by="cpu"):
    """Runs the commands in turn; prints medians, and each as a share of the first.
    A command is a name, its words, a file for what it prints, a folder to empty."""
    taken = {name: [] for name, *_ in commands}
    for _ in range(RUNS):
        for name, words, into, empty in commands:
            shutil.rmtree(empty, ignore_errors=True)
            taken[name].append(Run(words, into))
    print(title)
    own = statistics.median(getattr(run, by) for run in taken[commands[0][0]])
    for name, runs in taken.items():
        cpu = statistics.median(run.cpu for run in runs)
        wall = statistics.median(run.wall for run in runs)
        ratio = own / max(statistics.median(getattr(run, by) for run in runs), 1e-6)
        print("  %-34s %9.1f ms CPU %9.1f ms wall   ours is %6.2f of it (%s)"
              % (name, cpu * 1e3, wall * 1e3, ratio, by))
    sys.stdout.flush()


class Bench:
    def __init__(self, out, work):
        self.out, self.work = pathlib.Path(out).resolve(), pathlib.Path(work)
        self.program = self.out / "bin" / "spindlebook"
        Run.runner = self.helper("run")

    def helper(self, name):
        return self.out / "build" / "bench" / ("measure-" + name)

    def pages(self, count):
        folder = self.work / ("pages-%d" % count)
        if not folder.exists():
            subprocess.run([HERE / "make_pages.py", ROOT / "content", folder, str(count)],
                           check=True)
        return folder

    def book(self, content, into, *options):
        return [self.program, "book", "--content", content, "--out", into, *options]

    def cmark(self, content):
        words = ["cmark", *sorted(content.glob("*.md"))]
        return ("cmark, the same Markdown", words, self.work / "cmark.html", "")

    def floor(self, name, made, unpacked=()):
        into = self.work / "floor"
        return (name, [self.helper("floor"), made, into, *unpacked], None, into)

    def unpacked(self, made):
        """The PDF files with their streams as they are before they are packed."""
        files = []
        if not lacks("qpdf"):
            for file in sorted(made.glob("*.pdf")):
                files.append(self.work / (file.stem + "-unpacked.pdf"))
                subprocess.run(["qpdf", "--stream-data=uncompress", file, files[-1]], check=True)
        return files

    def demo(self):
        into, content = self.work / "demo", ROOT / "content"
        engine = self.out / "build" / "bench.wasm"
        options = ["--bench", engine] if engine.exists() else []
        Run(self.book(content, into, *options))
        commands = [("spindlebook book, everything", self.book(content, into, *options), None, into)]
        if not lacks("cmark"):
            commands.append(self.cmark(content))
        commands.append(self.floor("plain write and deflate of it", into, self.unpacked(into)))
        compare("The demo, all outputs", commands)

    def site(self):
        for count in (1000, 10000):
            content, into = self.pages(count), self.work / "site"
            words = self.book(content, into, "--only", "site")
            Run(words)
            kept = self.work / "kept"
            shutil.rmtree(kept, ignore_errors=True)
            shutil.copytree(into, kept)
            commands = [("spindlebook book --only site", words, None, into)]
            if not lacks("cmark"):
                commands.append(self.cmark(content))
            commands.append(self.floor("plain write of the site", kept))
            compare("The site of %d made-up pages" % count, commands)

    def booklet(self):
        content, into = self.pages(1000), self.work / "booklet"
        words = self.book(content, into, "--only", "booklet")
        Run(words)
        commands = [("spindlebook book --only booklet", words, None, into)]
        if not lacks("pdftotext"):
            text = self.work / "booklet.txt"
            subprocess.run(["pdftotext", "-layout", into / "booklet.pdf", text], check=True)
            commands.append(("libharu alone, the same lines", [self.helper("bare"), text, FONT,
                                                               self.work / "bare.pdf"], None, ""))
        compare("The booklet of 1000 made-up pages", commands)

    def browser(self):
        """Once each, by wall time: a browser is many processes, and takes minutes."""
        if lacks("chromium"):
            return
        print("A booklet, and Chromium printing our single file, once each, wall time")
        for count in (100, 1000):
            content, into = self.pages(count), self.work / "booklet"
            single = self.work / "single"
            Run(self.book(content, single, "--only", "single"))
            own = Run(self.book(content, into, "--only", "booklet")).wall
            took = self.chromium(single / "spindlebook.html")
            print("  %5d pages: %.2f s; Chromium %s%.1f s, %.0f times as long"
                  % (count, own, "" if took < LIMIT else "is stopped after ", took, took / own))
            sys.stdout.flush()

    def chromium(self, html):
        """Seconds of wall time; LIMIT where it was stopped."""
        words = ["chromium", "--headless", "--no-sandbox", "--disable-gpu",
                 "--user-data-dir=%s" % (self.work / "browser"),
                 "--print-to-pdf=%s" % (self.work / "chromium.pdf"), "file://%s" % html]
        start = time.monotonic()
        process = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                   start_new_session=True)
        try:
            process.wait(timeout=LIMIT)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()
            return LIMIT
        return time.monotonic() - start

    def growth(self):
        for part in ("site", "booklet"):
            points = []
            print("Growth of --only %s" % part)
            for count in (10, 100, 1000, 10000):
                content, into = self.pages(count), self.work / "growth"
                runs = [Run(self.book(content, into, "--only", part))
                        for _ in range(RUNS if count < 10000 else 3)]
                cpu = statistics.median(run.cpu for run in runs)
                points.append((count, cpu, max(run.peak for run in runs)))
                print("  %6d pages %9.1f ms CPU %9.0f KiB at the peak"
                      % (count, cpu * 1e3, points[-1][2]))
            self.fit(points)

    @staticmethod
    def fit(points):
        """Exponent of CPU time over pages, of the points from 100 on, by least squares."""
        logs = [(math.log(count), math.log(cpu)) for count, cpu, _ in points[1:]]
        middle = [sum(column) / len(logs) for column in zip(*logs)]
        slope = (sum((x - middle[0]) * (y - middle[1]) for x, y in logs)
                 / sum((x - middle[0]) ** 2 for x, _ in logs))
        last, before = points[-1], points[-2]
        print("  exponent %.3f over 100 to 10000 pages, %.3f over the last tenfold"
              % (slope, math.log(last[1] / before[1]) / math.log(last[0] / before[0])))
        print("  memory: %.2f KiB for each page more"
              % ((last[2] - before[2]) / (last[0] - before[0])))
        sys.stdout.flush()

    def drag(self):
        speeds = [[float(word) for word in subprocess.run(
            [self.helper("drag")], check=True, stdout=subprocess.PIPE).stdout.split()]
                  for _ in range(RUNS)]
        own, bare = (statistics.median(column) for column in zip(*speeds))
        print("Windows worked out by src/drag\n  %.0f million a second; the bare arithmetic "
              "%.0f: ours takes %.2f times as long" % (own, bare, bare / own))


def main():
    memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
    with tempfile.TemporaryDirectory(dir=memory) as work:
        bench = Bench(sys.argv[1], work)
        print("%d runs each; %d processors; load %.1f" % (RUNS, os.cpu_count(), os.getloadavg()[0]))
        for part in sys.argv[2:] or ["demo", "site", "booklet", "growth", "drag", "browser"]:
            getattr(bench, part)()


main()
