#!/usr/bin/env python3
"""Measures the aims of docs/speed.md, on this machine and in this run. Programs to be
compared run in turn, RUNS times (10 unless the environment says otherwise); what is told is
the median of their CPU time, their own and the kernel's for them, which a busy machine
changes least; beside it their own alone. Files go to memory where /dev/shm is there: the disk is not measured. The status is 1 where an aim is
missed. Usage: bench.py OUT [AIM...]    aims: demo site booklet memory check card answers (all of
them)"""
import math
import os
import pathlib
import shutil
import statistics
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
FONT = "/usr/share/fonts/truetype/dejavu/DejaVuSansCondensed.ttf"
RUNS = int(os.environ.get("RUNS", "10"))
SHORT, LONG = 1000, 10000  # pages of the made-up books


class Bench:
    def __init__(self, out, work):
        self.out, self.work = pathlib.Path(out).resolve(), pathlib.Path(work)
        self.missed = 0

    def helper(self, name):
        return self.out / "build" / "bench" / ("measure-" + name)

    def run(self, words, says=os.devnull):
        """Seconds of CPU, of them the program's own, and KiB at the peak of one run (run.c)."""
        took = self.work / "took"
        with open(says, "wb") as out:
            made = subprocess.run([self.helper("run"), took, *words], cwd=ROOT, stdout=out,
                                  stderr=subprocess.DEVNULL)
        if made.returncode:
            sys.exit("bench: this failed: %s" % " ".join(map(str, words)))
        own, kernel, peak = map(float, took.read_text().split())
        return own + kernel, own, peak

    def judge(self, what, unit, found, most):
        met = found <= most
        self.missed += not met
        print("  %s: %.2f %s; the aim is at most %g: %s"
              % (what, found, unit, most, "met" if met else "MISSED"))
        sys.stdout.flush()

    def compare(self, what, most, ours, other, name, runs=RUNS):
        """ours and other: the words of a command, the folder that it makes or None."""
        taken = ([], [])
        for _ in range(runs):
            for runs, (words, folder) in zip(taken, (ours, other)):
                shutil.rmtree(folder or self.work / "none", ignore_errors=True)
                runs.append(self.run(words, self.work / "said"))
        (cpu, own, _), (other_cpu, other_own, _) = (
            map(statistics.median, zip(*runs)) for runs in taken)
        print("%s: %.1f ms of CPU, its own %.1f; %s: %.1f, its own %.1f; own alone %.2f times"
              % (what, cpu * 1e3, own * 1e3, name, other_cpu * 1e3, other_own * 1e3,
                 own / (other_own or math.nan)))
        self.judge("ours", "times the other", cpu / other_cpu, most)

    def pages(self, count):
        folder = self.work / ("pages-%d" % count)
        if not folder.exists():
            subprocess.run([HERE / "make_pages.py", ROOT / "content", folder, str(count)],
                           check=True)
        return folder

    def book(self, content, into, *options):
        return [self.out / "bin" / "spindlebook", "book", "--content", content, "--out", into,
                *options]

    def demo(self):
        into, bare = self.work / "demo", self.work / "bare"
        engine = self.out / "build" / "bench.wasm"
        words = self.book(ROOT / "content", into, *(["--bench", engine] if engine.exists() else []))
        self.run(words)
        made = self.work / "unpacked"  # the same files, the streams of the PDF files unpacked
        shutil.copytree(into, made)
        for pdf in into.glob("*.pdf"):
            subprocess.run(["qpdf", "--stream-data=uncompress", pdf, made / pdf.name], check=True)
        self.compare("The demo, all outputs", 2.2, (words, into),
                     ([self.helper("floor"), made, bare], bare),
                     "writing its files, the PDF files deflated")

    def site(self):
        content, into = self.pages(LONG), self.work / "site"
        self.compare("The site of %d pages" % LONG, 3,
                     (self.book(content, into, "--only", "site"), into),
                     (["cmark", *sorted(content.glob("*.md"))], None), "cmark")

    def booklet(self):
        content, into = self.pages(SHORT), self.work / "booklet"
        words, text = self.book(content, into, "--only", "booklet"), self.work / "booklet.txt"
        self.run(words)
        subprocess.run(["pdftotext", "-layout", into / "booklet.pdf", text], check=True)
        bare = [self.helper("bare"), text, FONT, self.work / "bare.pdf"]
        self.compare("The booklet of %d pages" % SHORT, 1.2, (words, into), (bare, None),
                     "libharu alone, the same lines")

    def demo_beside_cmark(self, what, words, folder=None):
        """What is over in milliseconds is run more often."""
        pages = sorted((ROOT / "content").glob("*.md"))
        self.compare(what, 3, ([self.out / "bin" / "spindlebook", *words], folder),
                     (["cmark", *pages], None), "cmark", 5 * RUNS)

    def check(self):
        self.demo_beside_cmark("The check of the demo", ["check"])

    def card(self):
        into = self.work / "card"
        self.demo_beside_cmark("The card of the demo", ["book", "--only", "card", "--out", into], into)

    def answers(self):
        for words in (["window"], ["pull", "18.2N", "18.3N", "18.15N", "--lock", "after"]):
            self.compare("The answer of " + words[0], 2, ([self.out / "bin" / "spindlebook", *words], None),
                         ([self.helper("empty")], None), "an empty program", 20 * RUNS)

    def memory(self):
        """The second run into a folder replaces an old set, which takes more."""
        peaks = []
        for count in (SHORT, LONG):
            words = self.book(self.pages(count), self.work / ("site-%d" % count), "--only", "site")
            peaks.append(max(self.run(words)[2] for _ in range(2)))
            print("The site of %d pages: %.0f KiB at the peak" % (count, peaks[-1]))
        self.judge("each page more", "KiB", (peaks[1] - peaks[0]) / (LONG - SHORT), 1)


def main():
    for program in ("cmark", "qpdf", "pdftotext"):
        if not shutil.which(program):
            sys.exit("bench: there is no %s; make deps installs it" % program)
    memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
    with tempfile.TemporaryDirectory(dir=memory) as work:
        bench = Bench(sys.argv[1], work)
        print("%d runs each; %d processors; load %.1f" % (RUNS, os.cpu_count(), os.getloadavg()[0]))
        for aim in sys.argv[2:] or ["demo", "site", "booklet", "memory", "check", "card", "answers"]:
            getattr(bench, aim)()
    return 1 if bench.missed else 0


sys.exit(main())
