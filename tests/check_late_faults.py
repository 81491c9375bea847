#!/usr/bin/env python3
"""Faults that come to light when hundreds of pages of the site are written already: all are
told in the order of the pages, whatever is made, and nothing is left of what was written.
Usage: check_late_faults.py OUT"""
import os
import pathlib
import subprocess
import sys
import tempfile

from faulty_folder import state_of

HERE = pathlib.Path(__file__).resolve().parent
COUNT = 300
FILE = "content/{0:05d}-page-{0:05d}.md".format
WIDE = "\n```csv wide: Wide\n%s\n%s\n```\n" % (
    ",".join("x" * 30 for _ in range(20)), ",".join("y" * 30 for _ in range(20)))

# What is added to which page, and what is said of it. Links to later pages are looked at in
# the end, and are told of in their place all the same.
LATE = [(2, "\n[there](%s#no-such)\n" % FILE(250)[8:], "the link leads to '#no-such'"),
        (150, "\n[there](no-such.md)\n", "the link leads to 'no-such.md'"),
        (280, "\n![x](y)\n", "pictures are not taken in"),
        (281, "\n[back](%s#no-such-either)\n" % FILE(7)[8:], "the link leads to '#no-such-either'")]
LAST = [(2, LATE[0][1], LATE[0][2])]
PAPER = [(200, WIDE, "wide")]


class Book:
    def __init__(self, program, work):
        self.program, self.work, self.failures, self.looked = program, work, [], 0
        subprocess.run([HERE / "bench" / "make_pages.py", HERE.parent / "content",
                        work / "content", str(COUNT)], check=True)

    def check(self, what, good):
        self.looked += 1
        if not good:
            self.failures.append(what)

    def run(self, verb, *words):
        return subprocess.run([self.program, verb, "--templates", HERE.parent / "templates",
                               *words], cwd=self.work, capture_output=True, text=True)

    def lay(self, faults):
        """Adds the faults to their pages; gives what the pages were."""
        before = {}
        for page, text, _ in faults:
            path = self.work / FILE(page)
            before[path] = path.read_text()
            path.write_text(before[path] + text)
        return before

    def try_out(self, name, faults, *words):
        before = self.lay(faults)
        state = state_of(self.work)
        for out in ("out", "not/yet/there"):
            made = self.run("book", "--out", out, *words)
            said = made.stderr.splitlines()
            self.check("%s: status %d" % (name, made.returncode), made.returncode == 1)
            self.check("%s: said %s" % (name, said), len(said) == len(faults) and all(
                line.startswith(FILE(page) + ":") and part in line
                for line, (page, _, part) in zip(said, faults)))
            self.check("%s: something was left or changed" % name,
                       state_of(self.work) == state)
        for path, text in before.items():
            path.write_text(text)


def main():
    program = pathlib.Path(sys.argv[1]).resolve() / "bin" / "spindlebook"
    with tempfile.TemporaryDirectory() as work:
        book = Book(program, pathlib.Path(work))
        made = book.run("book", "--only", "site")
        book.check("without faults: status %d" % made.returncode, made.returncode == 0)
        (book.work / "out" / "mine.txt").write_text("mine\n")
        for parts in (["site"], ["site", "tables"], ["site", "card"]):
            words = [word for part in parts for word in ("--only", part)]
            book.try_out(" and ".join(parts) + ", on the way", LATE, *words)
            book.try_out(" and ".join(parts) + ", in the end", LAST, *words)
        book.try_out("on paper", PAPER, "--only", "site", "--only", "booklet")
        made = book.run("book", "--only", "site")
        book.check("again without faults: status %d" % made.returncode, made.returncode == 0)
        book.check("the user's file is gone", os.path.exists(book.work / "out" / "mine.txt"))
    for failure in book.failures:
        print("FAILED", failure)
    print("%d things about faults that come late, %d failures" % (book.looked,
                                                                 len(book.failures)))
    return 1 if book.failures else 0


sys.exit(main())
