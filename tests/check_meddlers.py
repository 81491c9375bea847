#!/usr/bin/env python3
"""Somebody meddles with the folder of outputs while a run makes it anew: the run is stopped just
before one of its calls that touch files, he does one thing, and it goes on. Before every call
in turn, or, without --all, before some and all about the exchange:
  mover    puts files into the outputs
  swapper  moves the outputs away, and puts a link to a folder of his choice there
  another  a whole other run, as in a second container on the same volume
  liar     puts a link to a file of secrets in the place of a page
The folder that the link leads to stays as it was; nothing of the user's is lost, whatever the
run says; and what it made is whole. Usage: check_meddlers.py OUT [--all]"""
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time

from machine import STRANGERS, Bench, hashes, sample

SEED, NEAR, FEW = 20261201, 8, 10
LATE = {"late.txt": "late", "site/late.html": "late too"}


class Meddlers:
    def __init__(self, bench):
        self.bench = bench
        self.victim = os.path.join(bench.work, "victim")
        self.away = os.path.join(bench.work, "away")
        shutil.copytree(bench.model, self.victim)  # a list of its own among it
        with open(os.path.join(bench.work, "secret.md"), "w") as file:
            file.write("# Start\n\nA secret.\n")
        self.caught = 0
        self.before = hashes(self.victim)
        self.failures, self.said = [], {0: 0, 3: 0}

    def stopped(self, number):
        """A run that stands before that call, or has ended before it came to it."""
        environment = dict(os.environ, LD_PRELOAD=self.bench.library,
                           INJECT="disk:%d:stop" % number)
        run = subprocess.Popen(self.bench.words("62 mm", self.bench.folder), env=environment,
                               stderr=subprocess.PIPE, text=True)
        os.waitpid(run.pid, os.WUNTRACED)
        return run

    def go_on(self, run):
        os.kill(run.pid, signal.SIGCONT)
        said = run.communicate(timeout=60)[1]
        self.said[run.returncode] = self.said.get(run.returncode, 0) + 1
        if run.returncode not in (0, 3) or (run.returncode == 3) != said.startswith("spindlebook: "):
            return "status %d: %r" % (run.returncode, said)
        return None

    def missing(self, folder, wanted):
        found = {}
        for path in wanted:
            if os.path.isfile(os.path.join(folder, path)):
                with open(os.path.join(folder, path)) as file:
                    found[path] = file.read()
        return [path for path, text in wanted.items() if found.get(path) != text]

    def mover(self, number):
        run = self.stopped(number)
        for path, text in LATE.items():
            with open(os.path.join(self.bench.folder, path), "w") as file:
                file.write(text)
        problem = self.go_on(run)
        if problem:
            return problem
        gone = self.missing(self.bench.folder, {**STRANGERS, **LATE})
        for path in LATE:
            if os.path.exists(os.path.join(self.bench.folder, path)):
                os.remove(os.path.join(self.bench.folder, path))
        if gone or self.bench.beside() or self.bench.state() not in ("old", "new"):
            return "missing %s, beside %s, %s" % (gone, self.bench.beside(), self.bench.state())
        return None

    def swapper(self, number):
        """Once the run has settled where the outputs lie: a link before is its user's own."""
        run = self.stopped(number)
        if not self.bench.beside():
            return self.go_on(run)
        os.rename(self.bench.folder, self.away)
        os.symlink(self.victim, self.bench.folder)
        problem = self.go_on(run)
        gone = self.missing(self.away, STRANGERS)
        in_new = gone and not self.missing(self.bench.folder, {path: STRANGERS[path] for path in gone})
        if os.path.islink(self.bench.folder):
            os.remove(self.bench.folder)
        shutil.rmtree(self.away)
        if hashes(self.victim) != self.before:
            problem = "the folder that the link leads to was changed"
            shutil.rmtree(self.victim)
            shutil.copytree(self.bench.model, self.victim)
        return problem or (gone and not in_new and "missing %s" % gone) or (
            self.bench.beside() and "beside %s" % self.bench.beside())

    def another(self, number):
        run = self.stopped(number)
        other = subprocess.Popen(self.bench.words("62 mm", self.bench.folder))
        end = time.monotonic() + 0.5  # where the first has its turn, the other waits
        while other.poll() is None and time.monotonic() < end:
            time.sleep(0.02)
        problem = self.go_on(run)
        if other.wait(timeout=60) != 0:
            problem = "the other run left with %d" % other.returncode
        if self.bench.state() != "new" or self.bench.strangers_missing() or self.bench.beside():
            problem = problem or "%s, missing %s, beside %s" % (
                self.bench.state(), self.bench.strangers_missing(), self.bench.beside())
        return problem

    def liar(self, number):
        page = os.path.join(self.bench.work, "content", "00-start.md")
        run = self.stopped(number)
        os.rename(page, page + ".kept")
        os.symlink("../secret.md", page)
        os.kill(run.pid, signal.SIGCONT)
        said = run.communicate(timeout=60)[1]
        os.rename(page + ".kept", page)
        with open(os.path.join(self.bench.folder, "site", "index.html")) as file:
            told = "secret" in file.read() or "secret" in said
        if told or run.returncode not in (0, 1):
            return "status %d, the secret is %s: %r" % (run.returncode, "out" if told else "kept", said)
        self.caught += run.returncode
        return None

    def at_every_call(self, meddle):
        numbers = self.bench.plan("disk")
        if meddle == self.liar:
            numbers = range(1, 60)  # all that is read
        elif "--all" not in sys.argv:
            near = range(self.bench.exchange - NEAR, self.bench.exchange + NEAR)
            few = sample(numbers, FEW, SEED)
            numbers = [number for number in numbers if number in near or number in few]
        for number in numbers:
            self.bench.make_old()
            problem = meddle(number)
            if problem:
                self.failures.append("%s before call %d: %s" % (meddle.__name__, number, problem))
        return len(numbers)


def main():
    with tempfile.TemporaryDirectory() as work:
        meddlers = Meddlers(Bench(work, sys.argv[1]))
        count = sum(map(meddlers.at_every_call,
                        (meddlers.mover, meddlers.swapper, meddlers.another, meddlers.liar)))
        if not meddlers.caught:
            meddlers.failures.append("no page was read behind the liar's back")
        if not meddlers.said[3] or not meddlers.said[0]:
            meddlers.failures.append("nobody came in between: %s" % meddlers.said)
    for line in meddlers.failures:
        print("FAILED", line)
    print("%d runs that somebody meddled with, %d failures" % (count, len(meddlers.failures)))
    return 1 if meddlers.failures else 0


sys.exit(main())
