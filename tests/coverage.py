#!/usr/bin/env python3
"""Branch and line coverage by folder, out of gcov's own counts. Usage: coverage.py BUILD

BUILD holds the objects of a build with --coverage that the tests have run on. Fails
where a folder falls below what the project asks of it.
"""
import collections
import glob
import json
import os
import subprocess
import sys

WANTED = {"drag": 100.0, "number": 100.0, "read": 95.0}  # percent of branches


def counts(build):
    """{source: {(line, branch): taken}} and the same of lines, over all objects."""
    branches, lines = collections.defaultdict(dict), collections.defaultdict(dict)
    notes = [os.path.abspath(path) for path in glob.glob(build + "/*/*.gcno")]
    told = subprocess.run(["gcov", "--json-format", "--stdout", "--branch-probabilities", *notes],
                          capture_output=True, check=True).stdout
    for report in told.splitlines():  # a line an object; files would overwrite their namesakes
        for file in json.loads(report)["files"]:
            name = os.path.relpath(file["file"]) if os.path.isabs(file["file"]) else file["file"]
            for line in file["lines"]:
                key = line["line_number"]
                lines[name][key] = max(lines[name].get(key, 0), line["count"])
                for number, branch in enumerate(line["branches"]):
                    at = (key, number)
                    branches[name][at] = max(branches[name].get(at, 0), branch["count"])
    return branches, lines


def share(taken):
    return 100.0 * sum(1 for one in taken if one) / len(taken) if taken else 100.0


def main():
    branches, lines = counts(sys.argv[1])
    folders = sorted({name.split("/")[1] for name in lines if name.startswith("src/") and name.count("/") > 1})
    short = 0
    for folder in folders:
        mine = [name for name in lines if name.startswith(f"src/{folder}/")]
        taken = [count for name in mine for count in branches[name].values()]
        run = [count for name in mine for count in lines[name].values()]
        wanted = WANTED.get(folder)
        print(f"{folder:10} {len(taken):5} branches {share(taken):6.2f} %   "
              f"{len(run):5} lines {share(run):6.2f} %" + (f"   (at least {wanted:g} %)" if wanted else ""))
        if wanted and share(taken) < wanted:
            short += 1
            for name in mine:
                for (line, _), count in sorted(branches[name].items()):
                    if not count:
                        print(f"    {name}:{line}: a branch is never taken")
    return 1 if short else 0


if __name__ == "__main__":
    sys.exit(main())
