#!/usr/bin/env python3
"""Every allocation and every call that touches files fails in turn: once, and from then
on. The program must end with status 3 and words, or with 0 where the call did not
matter; the outputs are then wholly old or wholly new, and nothing is lost. The user's files
are where they were, unless moving them back fails too: that is told, and mended by the next
run; and so is a file of the old set, or of one that was given up, that cannot be removed.
Usage: check_injected.py OUT [--all]"""
import pathlib
import sys
import tempfile

from machine import Bench, sample

SEED, NEAR = 20261125, 10
FEW = {"memory": 120, "disk": 60, "swap": 1, "move": 3, "list": 20, "tidy": 20}
TRACE = pathlib.Path(__file__).resolve().parent / "data" / "trace.csv"
ASKED = [["check"], ["settings"], ["window"], ["gauge"], ["pull", "18.2N", "18.3N", "18.1N"],
         ["nut", "0deg", "0.31N.m", "3deg", "0.42N.m"],
         ["trace", str(TRACE), "--speed", "12r/min"]]
FEW_ASKED = 12


def wrong(bench, made, mode):
    """What is wrong with how a run ended; None when nothing is."""
    state = bench.state()
    if made.returncode == 0:
        if state != "new" or bench.strangers_missing() or bench.beside():
            return "status 0, but %s, missing %s, beside %s" % (
                state, bench.strangers_missing(), bench.beside())
        return None
    if made.returncode != 3 or not made.stderr.startswith("spindlebook: "):
        return "status %d: %r" % (made.returncode, made.stderr)
    told = ".o.spindlebook-" in made.stderr
    if state != "old" and not (state == "new" and told and "new outputs are at" in made.stderr):
        return "status 3, and the outputs are %s" % state
    if bench.beside() and not bench.strangers_missing() and not told:
        return "something is left beside the outputs: %r" % made.stderr
    if bench.strangers_missing() and (mode == "once" or not told):
        return "files are missing, %s: %r" % (bench.strangers_missing(), made.stderr)
    return None


def try_all(bench, group, few):
    """Fails each call of a group; gives how many runs there were and what went wrong."""
    numbers = bench.plan(group)
    near = range(bench.exchange - NEAR, bench.exchange + NEAR) if group == "disk" else []
    drawn = sample(numbers, few, SEED)
    numbers = [number for number in numbers if number in drawn or number in near]
    failures, runs = [], 0
    for mode in ("once", "on"):
        bench.make_old()
        for number in numbers:
            made = bench.run("62 mm", INJECT="%s:%d:%s" % (group, number, mode))
            runs += 1
            problem = wrong(bench, made, mode)
            if not problem and (bench.strangers_missing() or bench.beside()
                                or bench.state() != "old"):
                problem = bench.mends()
                bench.make_old()
            if problem:
                failures.append("%s:%d:%s: %s" % (group, number, mode, problem))
                bench.make_old()
    return runs, failures


def try_verb(bench, words, few):
    """The answer is whole, or there is none, and then status 3 and words say why."""
    whole = bench.ask(*words)
    assert whole.returncode == 0
    failures, runs = [], 0
    for group in ("memory", "disk"):
        numbers = bench.plan_of(group, lambda file: bench.ask(*words, INJECT_PLAN=file))
        for number in sample(numbers, few, SEED):
            for mode in ("once", "on"):
                made = bench.ask(*words, INJECT="%s:%d:%s" % (group, number, mode))
                runs += 1
                told = (made.returncode == 3 and made.stderr.startswith("spindlebook: ")
                        and not made.stdout)
                same = made.returncode == 0 and made.stdout == whole.stdout
                if not told and not same:
                    failures.append("%s, %s:%d:%s: status %d: %r" % (
                        words[0], group, number, mode, made.returncode, made.stderr))
    return runs, failures


def main():
    failures, runs = [], 0
    with tempfile.TemporaryDirectory() as work:
        bench = Bench(work, sys.argv[1])
        for group, few in FEW.items():
            more, bad = try_all(bench, group, 0 if "--all" in sys.argv else few)
            runs += more
            failures += bad
        for words in ASKED:
            more, bad = try_verb(bench, words, 0 if "--all" in sys.argv else FEW_ASKED)
            runs += more
            failures += bad
        if bench.content_changed():
            failures.append("the content was written to")
    for line in failures:
        print("FAILED", line)
    print("%d runs with a failing machine, %d failures" % (runs, len(failures)))
    return 1 if failures else 0


sys.exit(main())
