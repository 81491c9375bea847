#!/usr/bin/env python3
"""Breaks each formula in turn and sees whether the tests notice.

Usage: check_mutants.py OUT [WORD ...]
Every row of tests/mutants.tsv replaces one piece of one source file; with words, only
the rows whose file's name has one of them. The changed file is laid over a shared
library of the program's parts, and the unit tests run against both; what they let pass
makes the books of some made-up shops, whose tables the oracle works out anew. A mutant
that none of them notices is a failure, and so is a row that changes nothing.
"""
import concurrent.futures
import glob
import os
import subprocess
import sys
import tempfile

TOP = os.path.abspath(os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
TESTS = ["drag", "window", "state", "machine", "statistics", "uncertainty", "decimal", "unit",
         "show", "quantity", "gauge", "told", "told_lock", "taken", "lock", "record", "tape", "made_windows",
         "properties", "properties_number", "run_in", "turning", "drum", "warmth", "fit", "card_table", "remarks", "last_alike",
         "log_later", "unloaded", "told_next", "log_meant"]
CPU_LIMIT = 5  # seconds of work: a mutant that hangs has been noticed
COMPILE = ["gcc", "-std=c11", "-D_GNU_SOURCE", "-O1", "-fPIC", "-Isrc", "-I/usr/include/freetype2"]
LIBRARIES = ["-lhpdf", "-lcmark", "-lyaml", "-lfreetype", "-lmd", "-lz", "-lm"]
ORACLE = "oracle"  # the last of the tests
SHOPS = "8"  # for the oracle


def run(command, **options):
    return subprocess.run(command, cwd=TOP, capture_output=True, **options)


def must(command):
    done = run(command)
    if done.returncode:
        sys.exit("FAILED " + " ".join(command) + "\n" + done.stderr.decode())


def sources():
    return [path for path in sorted(glob.glob(f"{TOP}/src/*.c") + glob.glob(f"{TOP}/src/*/*.c"))
            if not path.startswith((f"{TOP}/src/bench/", f"{TOP}/src/main.c"))]


def prepare(work):
    """A library of all sources; the tests and the program linked against it."""
    objects = {}
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for path in sources():
            name = os.path.relpath(path, TOP)
            objects[name] = os.path.join(work, name.replace("/", "_")[:-2] + ".o")
        list(pool.map(lambda item: must(COMPILE + ["-c", item[0], "-o", item[1]]), objects.items()))
        must(["gcc", "-shared", "-o", f"{work}/libparts.so", *objects.values()] + LIBRARIES)
        list(pool.map(lambda test: must(
            COMPILE + ["-Itests/unit", f"tests/unit/test_{test}.c", "-o", f"{work}/test_{test}",
                       f"-L{work}", "-lparts", "-lcmocka", "-lgsl", "-lgslcblas"] + LIBRARIES),
            TESTS))
        must(COMPILE + ["src/main.c", "-o", f"{work}/spindlebook", f"-L{work}", "-lparts"] + LIBRARIES)


def program_with(work, mutant):
    """A folder that holds the program as if it had been made with the mutant."""
    folder = f"{mutant or work + '/whole'}.out"
    os.makedirs(f"{folder}/bin", exist_ok=True)
    with open(f"{folder}/bin/spindlebook", "w", encoding="utf-8") as file:
        file.write(f"""#!/bin/sh
ulimit -t {CPU_LIMIT}
LD_LIBRARY_PATH="{work}" LD_PRELOAD="{mutant}" exec "{work}/spindlebook" "$@"
""")
    os.chmod(f"{folder}/bin/spindlebook", 0o755)
    return folder


def noticed(work, tests, mutant=""):
    """The first of the tests that fails with the mutant loaded before the library."""
    environment = dict(os.environ, LD_LIBRARY_PATH=work, LD_PRELOAD=mutant)
    for test in tests:
        if test == ORACLE:
            if run(["tests/check_oracle.py", program_with(work, mutant), SHOPS]).returncode:
                return test
            continue
        command = f'ulimit -t {CPU_LIMIT}; exec "{work}/test_{test}"'
        if run(["sh", "-c", command], env=environment).returncode:
            return test
    return None


def try_mutant(work, favourites, number, row):
    """What is wrong with the row, or None. favourites: for each source file the tests,
    those first that noticed its last mutants."""
    name, old, new = row
    text = open(os.path.join(TOP, name), encoding="utf-8").read()
    if old not in text:
        return f"row {number}: '{old}' does not stand in {name}"
    source, mutant = f"{work}/mutant_{number}.c", f"{work}/mutant_{number}.so"
    with open(source, "w", encoding="utf-8") as file:
        file.write(text.replace(old, new, 1))
    compiled = run(COMPILE + [f"-I{os.path.dirname(os.path.join(TOP, name))}", "-shared", source,
                              "-o", mutant])
    if compiled.returncode:
        return f"row {number}: '{new}' in {name} does not compile"
    tests = favourites.get(name, TESTS + [ORACLE])
    test = noticed(work, tests, mutant)
    if test is None:
        return f"row {number}: no test notices '{old}' -> '{new}' in {name}"
    favourites[name] = [test] + [other for other in tests if other != test]
    return None


def main():
    with open(os.path.join(TOP, "tests", "mutants.tsv"), encoding="utf-8") as file:
        rows = [(number, line.rstrip("\n").split("\t")) for number, line in enumerate(file, 1)][1:]
    rows = [row for row in rows if not sys.argv[2:] or any(word in row[1][0] for word in sys.argv[2:])]
    with tempfile.TemporaryDirectory() as work:
        prepare(work)
        survivor = noticed(work, TESTS + [ORACLE])
        if survivor:
            print(f"FAILED {survivor} fails without any mutant")
            return 1
        favourites = {}
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            found = list(pool.map(lambda item: try_mutant(work, favourites, *item), rows))
    failures = [failure for failure in found if failure]
    for failure in failures:
        print(f"FAILED {failure}")
    print(f"{len(rows)} mutants, {len(rows) - len(failures)} noticed")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
