#!/usr/bin/env python3
"""What was in force on a day: rows of the log keep their verdict when the settings change and the
earlier ones are kept, and lose it when they are not; what a run replaces changes windows and no
verdict of a logged row. Usage: check_days.py OUT"""
import csv
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

import tally

HERE = pathlib.Path(__file__).resolve().parent
CHANGES = (("low: 0.45 N.m, high: 0.70 N.m", "low: 0.20 N.m, high: 0.45 N.m"),  # your band
           ("diameter: 62 mm", "diameter: 80 mm"),
           ("warmth: cold", "warmth: warm"))


class Workshop:
    def __init__(self, out, folder):
        self.program = pathlib.Path(out).resolve() / "bin" / "spindlebook"
        self.folder = pathlib.Path(folder)
        shutil.copytree(HERE.parent / "content", self.folder / "content")
        self.settings = self.folder / "content" / "settings.yaml"
        self.typed = self.settings.read_text()

    def run(self, *words):
        return subprocess.run([self.program, *words, "--templates", HERE.parent / "templates"], cwd=self.folder,
                              capture_output=True, text=True, env=dict(os.environ, TZ="UTC"), check=False)

    def rows(self, *more):
        """Date, drag and state of each row of the log."""
        made = self.run("book", "--only", "tables", "--out", "made", *more)
        tally.check(made.returncode == 0, f"book {more}: {made.stderr}")
        with open(self.folder / "made" / "tables" / "pull-log.csv", encoding="utf-8", newline="") as file:
            return [(row[0], row[5], row[-1]) for row in list(csv.reader(file))[1:]]

    def change(self):
        text = self.typed
        for old, new in CHANGES:
            tally.check(old in text, f"the demo's settings have no '{old}'")
            text = text.replace(old, new)
        self.settings.write_text(text)

    def keep(self, day):
        (self.settings.parent / f"settings-before-{day}.yaml").write_text(self.typed)


def main():
    with tempfile.TemporaryDirectory() as folder:
        workshop = Workshop(sys.argv[1], folder)
        before = workshop.rows()
        windows = workshop.run("window").stdout
        replaced = ("--set", "limits.bands.1.low=0.2 N.m", "--drum", "80 mm", "--set", "site.latitude=52 deg",
                    "--set", "pulls.scatter=4 %")
        tally.check(workshop.rows(*replaced) == before, "what was replaced changed a logged row")
        tally.check(workshop.run("window", *replaced).stdout != windows, "what was replaced changed no window")
        workshop.change()
        changed = workshop.rows()
        tally.check(all(one != other for one, other in zip(before, changed)),
                    "other settings change every row, where the earlier ones are not kept")
        day = before[len(before) // 2][0]
        workshop.keep(day)
        for old, new, kept in zip(before, changed, workshop.rows()):
            tally.check(kept == (old if old[0] < day else new), f"{kept[0]}, settings changed on {day}: {kept}")
        tally.check("Low limit" in workshop.run("pull", "14 N", "14.1 N", "--lock", "after").stdout, "pull says no limit")
        workshop.keep("2100-01-01")
        tally.check(workshop.rows() == before, "settings kept until 2100 hold for every row")
        tally.check("judged by content/settings-before-2100-01-01.yaml" in workshop.run("nut").stdout,
                    "nut does not say that the settings have changed since")
    return tally.end(f"{tally.looked} things about what was in force on a day")


if __name__ == "__main__":
    sys.exit(main())
