#!/usr/bin/env python3
"""The simulation of the chain from drum to verdict: what is promised of coverage, false alarms
and "good" must hold in every case.

Usage: tests/check_simulation.py OUT [--table]      (TRIALS=47000 for the whole; else 1000 a place)

With --table what was found is printed for docs, a line a case.

Cases that the program is known not to hold yet stand in tests/simulate/not-yet.txt.
"""
import itertools
import os
import subprocess
import sys

root = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))


def table(lines):
    """A line a case, the worst over its numbers of pulls; good at 78 % of the window by ten."""
    rows = {}
    for line in lines:
        name, count, *numbers = line.split("\t")
        covers, high, low, good, could = map(float, numbers[:5])
        cheat = next((text.split(": ")[1] for text in numbers[7:] if "cheat" in text), "")
        row = rows.setdefault(name.rstrip(), {"covers": [], "wrong": [], "cheat": cheat})
        row["covers"].append(covers)
        row["wrong"] += [number for number in (high, low) if number == number]
        if int(count) == 10:
            row["good"] = f"{good:.0f} of {could:.0f}"
    print("| case | covers, at least | called good outside, at most | good at 78 % by ten pulls, "
          "of what could be |\n|---|---|---|---|")
    for name, row in rows.items():
        said = f"{name}: nature cheats, {row['cheat']}" if row["cheat"] else name
        covers = min((covers for covers in row["covers"] if covers == covers), default=0)
        print(f"| {said} | {covers:.1f} | {max(row['wrong']):.1f} | {row['good']} |")


def main():
    program = os.path.join(os.path.abspath(sys.argv[1]), "build/simulate/simulate")
    trials, shares = os.environ.get("TRIALS", "1000"), os.cpu_count()
    with open(f"{root}/tests/simulate/not-yet.txt", encoding="utf-8") as file:
        not_yet = set(file.read().splitlines())
    runs = [subprocess.Popen([program, "--check", "--trials", trials, "--share", f"{share}/{shares}"],
                             stdout=subprocess.PIPE, text=True) for share in range(shares)]
    outputs = [run.communicate()[0] for run in runs]
    if any(run.returncode not in (0, 1) for run in runs):
        sys.exit("simulate did not run to its end")
    shared = [said.splitlines()[1:] for said in outputs]
    lines = [line for together in itertools.zip_longest(*shared) for line in together if line]
    if sys.argv[2:] == ["--table"]:
        table(lines)
    cases = {line.split("\t")[0].rstrip() for line in lines}
    failed = [line for line in lines if "FAILED" in line]
    wrong = [line for line in failed if line.split("\t")[0].rstrip() not in not_yet]
    for line in wrong:
        print(line)
    for name in sorted(not_yet - cases):
        print(f"tests/simulate/not-yet.txt: there is no case '{name}'")
    moved = subprocess.run([program, "--nut", "--check", "--trials", str(min(int(trials), 2000))],
                           stdout=subprocess.PIPE, text=True)
    if moved.returncode not in (0, 1) or len(moved.stdout.splitlines()) < 7:
        sys.exit("simulate did not move the nut to its end")
    risks = [line for line in moved.stdout.splitlines() if "FAILED" in line]
    print("".join(line + "\n" for line in risks), end="")
    print(f"{len(lines)} points of {len(cases)} cases, {trials} trials at each place; "
          f"{len(failed) - len(wrong)} known not to hold yet; the nut passed a limit too often in "
          f"{len(risks)} cases")
    return bool(wrong or not_yet - cases or moved.returncode)


if __name__ == "__main__":
    sys.exit(main())
