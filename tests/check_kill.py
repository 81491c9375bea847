#!/usr/bin/env python3
"""A run is killed while it replaces an old set of outputs by a new one: at 200 random
moments, and just before every call that touches files. The folder then holds wholly the
old or wholly the new set, and the next run puts the user's own files back and leaves
nothing beside. Then the same where folders cannot be exchanged in one step, and runs
at the same time. Without --all only some of the calls, most of them about the
exchange. Usage: check_kill.py OUT [--all]"""
import random
import subprocess
import sys
import tempfile
import time

from machine import STRANGERS, Bench, sample

SEED, MOMENTS = 20261125, 200
NEAR, FEW = 10, 18


class Kills:
    def __init__(self, bench):
        self.bench = bench
        self.failures = []
        self.seen = {"old": 0, "new": 0, "none": 0}

    def look(self, name, allowed):
        """After a kill: is it whole, and does the next run mend the rest?"""
        state = self.bench.state()
        if state not in allowed:
            self.failures.append("%s: the outputs are %s" % (name, state))
        else:
            self.seen[state] += 1
        untouched = state == "old" and not self.bench.beside()
        problem = None if untouched else self.bench.mends()
        if untouched and self.bench.strangers_missing():
            problem = "files are gone from the old set"
        if problem:
            self.failures.append("%s: %s" % (name, problem))
        if problem or not untouched:
            self.bench.make_old()

    def at_random(self):
        draw = random.Random(SEED)
        self.bench.make_old()
        start = time.monotonic()
        self.bench.run("62 mm")
        length = time.monotonic() - start
        self.bench.make_old()
        for i in range(MOMENTS):
            run = subprocess.Popen(self.bench.words("62 mm", self.bench.folder),
                                   stderr=subprocess.DEVNULL)
            time.sleep(draw.uniform(0, 1.1 * length))
            run.kill()
            run.wait()
            self.look("random moment %d" % i, ("old", "new"))

    def at_every_call(self, before, allowed):
        numbers = self.bench.plan("disk")
        if "--all" not in sys.argv:
            near = range(self.bench.exchange - NEAR, self.bench.exchange + NEAR)
            few = sample(numbers, FEW, SEED)
            numbers = [number for number in numbers if number in near or number in few]
        for number in numbers:
            self.bench.make_old()
            made = self.bench.run("62 mm", INJECT="%sdisk:%d:kill" % (before, number))
            name = "%scall %d" % (before, number)
            if made.returncode not in (-9, 0):
                self.failures.append("%s: status %d" % (name, made.returncode))
            self.look(name, allowed)

    def while_undoing(self):
        """The last of the user's files cannot be moved."""
        self.bench.plan("disk")
        last = self.bench.moves[-1] + 1
        for number in range(last + 1, last + 1 + 2 * NEAR):
            self.bench.make_old()
            self.bench.run("62 mm", INJECT="disk:%d:once,then:%d:kill" % (last, number))
            if number == last + 1 and len(self.bench.strangers_missing()) != len(STRANGERS) - 1:
                self.failures.append("there was nothing to undo")
            self.look("undoing, call %d" % number, ("old",))

    def while_mending(self):
        """Some of the user's files are in the folder that a killed run left."""
        self.bench.plan("disk")
        at_last = "disk:%d:kill" % (self.bench.moves[-1] + 1)

        def leave():
            self.bench.make_old()
            self.bench.run("62 mm", INJECT=at_last)

        leave()
        if not self.bench.strangers_missing() or not self.bench.beside():
            self.failures.append("the killed run left nothing to mend")
        self.bench.plan_of("disk", lambda file: self.bench.run("62 mm", INJECT_PLAN=file))
        for number in range(self.bench.moves[0] - 2, self.bench.moves[0] + 2 * NEAR):
            leave()
            self.bench.run("62 mm", INJECT="disk:%d:kill" % number)
            self.look("mending, call %d" % number, ("old",))

    def at_once(self, rounds):
        """Several runs for one folder: one of them wins, whole."""
        for i in range(rounds):
            self.bench.make_old()
            runs = [subprocess.Popen(self.bench.words("62 mm", self.bench.folder))
                    for _ in range(4)]
            if [run.wait() for run in runs] != [0, 0, 0, 0]:
                self.failures.append("round %d: a run of four at once failed" % i)
            if (self.bench.state() != "new" or self.bench.strangers_missing()
                    or self.bench.beside()):
                self.failures.append("round %d: four at once: %s, missing %s, beside %s" % (
                    i, self.bench.state(), self.bench.strangers_missing(),
                    self.bench.beside()))


def main():
    with tempfile.TemporaryDirectory() as work:
        kills = Kills(Bench(work, sys.argv[1]))
        kills.at_random()
        kills.at_every_call("", ("old", "new"))
        if kills.seen["none"] or not kills.seen["old"] or not kills.seen["new"]:
            kills.failures.append("the moments were badly spread: %s" % kills.seen)
        kills.at_every_call("swap:1:on,move:1:on,", ("old", "new", "none"))
        if not kills.seen["none"]:
            kills.failures.append("no kill fell between the two steps of a slow exchange")
        kills.while_undoing()
        kills.while_mending()
        kills.at_once(10)
        if kills.bench.content_changed():
            kills.failures.append("the content was written to")
    for line in kills.failures:
        print("FAILED", line)
    print("%d kills, then old %d, new %d, none yet %d; %d failures" % (
        sum(kills.seen.values()), kills.seen["old"], kills.seen["new"], kills.seen["none"],
        len(kills.failures)))
    return 1 if kills.failures else 0


sys.exit(main())
