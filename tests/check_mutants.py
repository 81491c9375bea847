#!/usr/bin/env python3
"""Breaks decisions and formulas, one slip at a time, and sees whether the tests notice.

Usage: check_mutants.py OUT [--all] [FILE ...]
tests/mutator.py makes the mutants of each file in FOLDERS; a share of them is drawn, by what
they are and not by where they stand. With names of files all mutants of those are tried, with
--all those of all. One that does not compile is none.

A mutant is noticed when a unit test fails, or an answer at the terminal changes
(tests/check_terminal.sh), or the oracle finds another cell in the tables of some made-up shops.
One that loops is noticed too. All mutants are compiled into one program, which tries them in
children of its own (tests/mutants/choose.c), so that no test begins anew for each.

The rule. Not every slip can be noticed: some change nothing that can be seen. So each folder
has a share of its mutants that must be noticed, as measured, and every other one is printed.
In the folder of formulas it is all of them, but for those of tests/mutants/alike.tsv, each with
its function, its change and why it changes nothing; a line there that fits no mutant is a
failure, and so is, where all are tried, one whose mutant is noticed.
"""
import concurrent.futures
import glob
import hashlib
import os
import re
import resource
import subprocess
import sys
import tempfile

import check_oracle
import mutator

TOP = os.path.abspath(os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
# The share of the mutants of a folder that is drawn, and the per cent of them to be noticed; a
# file that stands by itself is not of its folder. Each mutant of the trace takes seconds.
FOLDERS = {"src/physics": (0.1, 100), "src/judge": (0.1, 77), "src/number": (0.1, 85),
           "src/physics/trace.c": (0.01, 85), "src/physics/wave.c": (0.01, 85)}
ALIKE = "tests/mutants/alike.tsv"
UNITS = ["facts", "judge", "number", "physics", "report"]  # the programs of unit tests
# Groups that take seconds: for the mutants of which files they are run.
SLOW = {"properties": (), "trace": ("src/physics/trace.c", "src/physics/wave.c"), "unit": ("src/number/unit.c",),
        "windows": ()}
SHOPS, SEED = 4, 1  # for the oracle
JOBS = str(os.cpu_count())
COMPILE = ["gcc", "-std=c11", "-D_GNU_SOURCE", "-O0", "-w", "-Werror=implicit-function-declaration",
           "-Werror=int-conversion", "-Werror=incompatible-pointer-types", '-DCOMMIT=""', "-Isrc",
           "-Itests/unit", "-I/usr/include/freetype2"]
LIBRARIES = "-lcmocka -lgsl -lgslcblas -lhpdf -lcmark -lyaml -lfreetype -lmd -lz -lm".split()


def run(command, **options):
    return subprocess.run(command, cwd=TOP, capture_output=True, **options)


def must(command, **options):
    done = run(command, **options)
    if done.returncode:
        sys.exit(f"FAILED {' '.join(command[:3])} ...: status {done.returncode}\n"
                 + (done.stdout[-2000:] + done.stderr[-4000:]).decode(errors="replace"))


def at_once(work, things):
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        return list(pool.map(work, things))


def read(path):
    with open(os.path.join(TOP, path), encoding="utf-8") as file:
        return file.read()


# ---- the mutants

def drawn(mutant, share):
    words = f"{mutant.home.name} {mutant.told}".encode()
    return int(hashlib.sha256(words).hexdigest()[:8], 16) < share * 16 ** 8


def folder_of(path):
    return path if path in FOLDERS else os.path.dirname(path)


def choose(files, everything):
    """{number: (file, mutant)}, where the last of each folder changes nothing, and must not be
    noticed; and (function, change) of all that could be drawn. What is known to change nothing
    is tried only with everything: it would take most of the time."""
    chosen, number, alike, known = {}, 0, read_alike(), set()
    for folder, (share, _) in FOLDERS.items():
        own = [path for path in files if folder_of(path) == folder]
        for path in own:
            found = mutator.mutants_of(read(path))
            if not found:
                continue
            known |= {(mutant.home.name, mutant.told) for mutant in found}
            fits = [mutant for mutant in found if everything
                    or drawn(mutant, share) and (mutant.home.name, mutant.told) not in alike]
            if path == own[-1]:
                home = next(mutant.home for mutant in found if mutant.home.is_function)
                fits.append(mutator.Mutant(home, "none", home.start, home.start, "", "unchanged"))
            for mutant in fits:
                number += 1
                chosen[number] = path, mutant
    return chosen, known


def read_alike():
    """{(function, change): why} of the mutants that change nothing."""
    rows = [line.split("\t") for line in read(ALIKE).split("\n")[1:] if line]
    return {(name, told): why for name, told, why in rows}


# ---- the programs that hold them

def compile_file(work, path, mutants, functions):
    """Makes the object of a file with its mutants; those that do not compile are taken out."""
    base = os.path.join(work, path.replace("/", "_")[:-2])
    while True:
        with open(base + ".c", "w", encoding="utf-8") as file:
            file.write(mutator.variants(read(path), mutants, functions))
        done = run(COMPILE + [f"-I{os.path.dirname(path)}", "-c", base + ".c", "-o", base + ".o"])
        if done.returncode == 0:
            return base + ".o"
        bad = {int(number) for number in re.findall(r"^mutant-(\d+):\d+:\d+: error", done.stderr.decode(), re.M)}
        if not bad:
            sys.exit(f"FAILED {path} with its mutants does not compile:\n{done.stderr.decode()[:3000]}")
        for number in bad:
            del mutants[number]


def write_table(work, chosen, places):
    """What choose.c wants to know of the mutants. places: {(file, start of function): number}"""
    count = max(chosen) + 1
    homes, data = [-1] * count, ["0"] * count
    for number, (path, mutant) in chosen.items():
        if mutant.home.is_function:
            homes[number] = places[path, mutant.home.start]
        else:
            data[number] = f"&mutant_data_{number}"
    known = "\n".join(f"extern void (*const {name[1:]})(void);" for name in data if name != "0")
    with open(os.path.join(work, "table.c"), "w", encoding="utf-8") as file:
        file.write(f"{known}\nconst int mutant_count = {count}, mutant_functions = {len(places) + 1};\n"
                   f"const int mutant_function[] = {{{', '.join(map(str, homes))}}};\n"
                   f"void (*const *const mutant_data[])(void) = {{{', '.join(data)}}};\n")


def unit_objects(out, program):
    """The objects of a program of unit tests, made."""
    sources = ["tests/unit/main.c", *sorted(glob.glob(f"tests/unit/{program}/*.c", root_dir=TOP))]
    objects = [os.path.join(out, "build", source[len("tests/"):-2] + ".o") for source in sources]
    must(["make", "-s", f"OUT={out}", *objects])
    return objects


def unit_groups():
    """(program, group): each is run by itself."""
    return [(program, os.path.basename(path)[:-2]) for program in UNITS
            for path in sorted(glob.glob(f"tests/unit/{program}/*.c", root_dir=TOP))
            if "\nGROUP(" in read(path)]


def build(out, work, chosen):
    """Makes the programs in the folder work; takes out of chosen what does not compile."""
    by_file = {}
    for number, (path, mutant) in chosen.items():
        by_file.setdefault(path, {})[number] = mutant
    starts = sorted({(path, mutant.home.start) for path, mutant in chosen.values() if mutant.home.is_function})
    places = {start: i for i, start in enumerate(starts)}
    objects = at_once(lambda item: compile_file(work, *item, {
        start: place for (path, start), place in places.items() if path == item[0]}), by_file.items())
    for number, (path, _) in list(chosen.items()):
        if number not in by_file[path]:
            del chosen[number]
    write_table(work, chosen, places)
    parts = objects + ["tests/mutants/choose.c", os.path.join(work, "table.c"),
                       os.path.join(out, "build", "libspindlebook.a")] + LIBRARIES
    programs = {program: unit_objects(out, program) for program in UNITS}
    programs["spindlebook"] = ["src/cli/main.c"]
    at_once(lambda item: must(COMPILE + item[1] + parts + ["-o", os.path.join(work, item[0])]), programs.items())


# ---- the trials

class Trial:
    """Which mutants of a work folder are noticed so far, and by what."""

    def __init__(self, work, chosen):
        self.work, self.noticed_file = work, os.path.join(work, "noticed")
        self.by, self.chosen = {}, chosen
        self.try_all_of(None)
        open(self.noticed_file, "w").close()
        self.environment = dict(os.environ, MUTANTS=os.path.join(work, "tried"), NOTICED=self.noticed_file,
                                JOBS=JOBS, CMOCKA_TEST_ABORT="1")

    def try_all_of(self, files):
        """Mutants of these files; None: of all."""
        with open(os.path.join(self.work, "tried"), "w", encoding="utf-8") as file:
            file.write("".join(f"{number}\n" for number, (path, _) in self.chosen.items()
                               if files is None or path in files))

    def living(self):
        return [number for number in self.chosen if number not in self.by]

    def look(self, name):
        """Who has noticed what is new in the file."""
        with open(self.noticed_file, encoding="utf-8") as file:
            for number in map(int, file.read().split()):
                self.by.setdefault(number, name)

    def notice(self, numbers, name):
        with open(self.noticed_file, "a", encoding="utf-8") as file:
            file.write("".join(f"{number}\n" for number in numbers))
        self.look(name)

    def units(self, groups):
        """The quick ones first: they leave less to the others."""
        seconds = {}
        groups = [(program, group) for program, group in groups if SLOW.get(group, True)]
        for program, group in groups:
            before = resource.getrusage(resource.RUSAGE_CHILDREN)
            must([os.path.join(self.work, program), group])
            seconds[program, group] = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before.ru_utime
        for program, group in sorted(groups, key=seconds.get):
            self.try_all_of(SLOW.get(group))
            must([os.path.join(self.work, program), group], env=self.environment)
            self.look(group)
        self.try_all_of(None)

    def terminal(self, out):
        must(["tests/check_terminal.sh", out],
             env=dict(self.environment, COMPARE="1", PROGRAM=os.path.join(self.work, "spindlebook")))
        self.look("terminal")

    def oracle(self, seed):
        """The tables of a shop; where a mutant's differ, what the oracle says of them."""
        with tempfile.TemporaryDirectory() as folder:
            check_oracle.write_shop(folder, seed)
            must([os.path.join(self.work, "spindlebook"), "book", "--content", folder, "--only", "tables",
                  "--templates", os.path.join(TOP, "templates"), "--out", "made"],
                 env=dict(self.environment, EACH_IN=folder))
            self.look("oracle")
            whole = tables(os.path.join(folder, "0", "made"))
            other = [number for number in self.living() if os.path.exists(os.path.join(folder, str(number)))
                     and tables(os.path.join(folder, str(number), "made")) != whole]
        refused = at_once(lambda number: self.refused(number, seed), other)
        self.notice([number for number, is_so in zip(other, refused) if is_so], "oracle")

    def refused(self, number, seed):
        """Has the oracle something against the mutant?"""
        try:
            return check_oracle.try_shop(self.alone(number), seed)[1] is not None
        except (ValueError, ArithmeticError, KeyError, IndexError):  # cells that it cannot read
            return True

    def alone(self, number):
        """A program that has the mutant."""
        name = os.path.join(self.work, f"spindlebook-{number}")
        with open(name, "w", encoding="utf-8") as file:
            file.write(f'#!/bin/sh\nulimit -t 20\nMUTANT={number} exec "{self.work}/spindlebook" "$@"\n')
        os.chmod(name, 0o755)
        return name


def tables(folder):
    """The bytes of every computed table below the folder."""
    found = {}
    for path in glob.glob("**/*.csv", root_dir=folder, recursive=True):
        with open(os.path.join(folder, path), "rb") as file:
            found[path] = file.read()
    return found


# ---- what is said

def tell(trial, files, known):
    """Prints what was not noticed; returns the failures."""
    alike, failures = read_alike(), []
    for folder, (_, least) in FOLDERS.items():
        own = {number: mutant for number, (path, mutant) in trial.chosen.items() if folder_of(path) == folder}
        living = 0
        for number, mutant in own.items():
            path, key = trial.chosen[number][0], (mutant.home.name, mutant.told)
            words = f"{path}: {mutant.home.name}(): {mutant.operator}: {mutant.told}"
            if mutant.operator == "none":
                if number in trial.by:
                    failures.append(f"{words}: {trial.by[number]} fails")
            elif key in alike:
                if number in trial.by:
                    failures.append(f"{words}: {trial.by[number]} notices it, and {ALIKE} says that nothing can")
            elif number not in trial.by:
                living += 1
                print(f"not noticed: {words}")
        count = sum(mutant.operator != "none" and (mutant.home.name, mutant.told) not in alike for mutant in own.values())
        if count:
            share = 100 * (count - living) / count
            print(f"{folder}: {count} mutants, {count - living} noticed: {share:.1f} %")
            if share < least:
                failures.append(f"{folder}: {share:.1f} % noticed, and {least} % must be")
    if not files:
        failures += [f"{ALIKE}: no mutant of {name}() is '{told}'" for name, told in alike if (name, told) not in known]
    return failures


def main():
    arguments = [word for word in sys.argv[2:] if word != "--all"]
    files = [os.path.relpath(path, TOP) if os.path.isabs(path) else path for path in arguments] or \
        sorted(path for folder in FOLDERS for path in glob.glob(f"{folder}/*.c", root_dir=TOP))
    if not all(os.path.exists(os.path.join(TOP, folder)) for folder in FOLDERS):
        sys.exit(f"FAILED there is none of one of {', '.join(FOLDERS)}")
    everything = len(sys.argv) > 2
    chosen, known = choose(files, everything)
    with tempfile.TemporaryDirectory() as work:
        build(os.path.abspath(sys.argv[1]), work, chosen)
        trial = Trial(work, chosen)
        trial.units(unit_groups())
        for i in range(SHOPS):
            trial.oracle(SEED + i)
        trial.terminal(sys.argv[1])
        failures = tell(trial, arguments, known)
    for failure in failures:
        print(f"FAILED {failure}")
    noticed = len(trial.by)
    print(f"{len(chosen)} mutants, {noticed} noticed, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
