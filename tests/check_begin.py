#!/usr/bin/env python3
"""The verb that asks for a lathe's settings: from the first question to the card.

Usage: check_begin.py OUT
Answers are typed as a newcomer would; what the settings then say is asked of the program.
"""
import os
import subprocess
import sys
import tempfile

import tally
from tally import check

# One band of running drag; the answer to each question in turn.
ONE_BAND = ["Lathe of the test", "yes", "Manual of the test, section 6", "running", "absolute", "used", "cold",
            "1800 rpm", "", "0.45 N.m", "0.70 N.m", "41", "", "62 mm", "0.05 mm", "0.8 mm", "0.05 mm", "",
            "50 N", "0.05 N", "0.5 %", "", ""]
MOST_ENTRIES = 25


def begin(program, folder, answers):
    made = subprocess.run([program, "begin", folder], input="".join(answer + "\n" for answer in answers),
                          capture_output=True, text=True)
    return made.returncode, made.stdout, made.stderr


def window(program, folder):
    made = subprocess.run([program, "window", "--lines", "--content", folder], capture_output=True, text=True)
    return dict(line.split("\t")[:2] for line in made.stdout.splitlines())


def read(folder):
    with open(os.path.join(folder, "settings.yaml"), encoding="utf-8") as file:
        return file.read()


def to_the_card(program, folder):
    """Counted: what one types from the first question to the card."""
    answers = ONE_BAND + ["yes"]
    check(len(answers) <= MOST_ENTRIES, f"{len(answers)} entries to the first card")
    status, said, wrong = begin(program, folder, answers)
    check(status == 0 and not wrong, f"begin: {status}, {wrong}")
    check("pulls of 14.40\u00a0N to 22.30\u00a0N" in said and "1.5\u00a0kg to 2.3\u00a0kg" in said,
          "the limits are not read back as the hand feels them")
    for name in ("settings.yaml", "readings.csv", "gauge-check.csv", "out/card.pdf", "out/card-sheet.pdf"):
        check(os.path.exists(os.path.join(folder, name)), f"no {name}")
    card = subprocess.run(["pdftotext", "-layout", os.path.join(folder, "out/card.pdf"), "-"],
                          capture_output=True, text=True).stdout
    check("Lathe of the test" in card and "22.30" in card and "INVENTED" not in card, "the card is not of this lathe")
    found = window(program, folder)
    check((found.get("low"), found.get("high")) == ("14.40", "22.30"), f"the window is {found}")


def on_the_spot(program, folder):
    """A wrong answer is told of at once, and the question asked again."""
    answers = list(ONE_BAND)
    answers[17:17] = ["back", "0.05 mm"]
    answers[14:14] = ["62"]  # without its unit, where the tolerance is asked for
    answers[11:11] = ["0.30 N.m is too low"]  # as the page: any words will do
    answers[10:10] = ["0.40 N.m"]  # a high limit below the low one
    answers[3:3] = ["rolling"]
    del answers[13]
    status, said, wrong = begin(program, folder, answers + ["yes"])
    check(status == 0, f"begin with wrong answers: {status}, {wrong}")
    for words in ("cannot be 'rolling'", "is above the high limit", "the number has no unit"):
        check(wrong.count(words) == 1, f"not told once: {words} in {wrong}")
    check(window(program, folder).get("high") == "22.30", "the window after wrong answers")


def gone_on(program, folder):
    """However it ends, what was answered stands there, and is not asked again."""
    os.mkdir(folder)
    for count in (1, 8, 11, len(ONE_BAND) - 1):
        status, said, _ = begin(program, os.path.join(folder, str(count)), ONE_BAND[:count])
        check(status == 1 and "To go on: spindlebook begin" in said, f"left after {count}: {status}")
        check('lathe.name: "Lathe of the test"' in read(os.path.join(folder, str(count))), "the first answer is gone")
        status, _, wrong = begin(program, os.path.join(folder, str(count)), ONE_BAND[count:] + ["yes"])
        check(status == 0, f"gone on after {count}: {status}, {wrong}")
        check(window(program, os.path.join(folder, str(count))).get("low") == "14.40", f"window after {count}")


def bands(program, folder):
    """Bands are asked for until one reaches the top speed; and once more where the user says no."""
    two = ONE_BAND[:8] + ["450 r/min", "0.65 N.m", "1.00 N.m", "41", "1800 r/min", "0.45 lbf.in", "0.70 N.m", "42"]
    status, _, wrong = begin(program, folder, two + ONE_BAND[12:] + ["no"] + two[8:12] + ["", "0.45 N.m"] + two[14:] + ["yes"])
    check(status == 0, f"two bands: {status}, {wrong}")
    check("limits.bands.2.from: 450 r/min" in read(folder), "the second band does not begin where the first ends")
    check(window(program, folder).get("low") == "14.40", "the limits were not asked for again")


def without_limits(program, folder):
    answers = ["Lathe of the test", "none", "1800 rpm"] + ONE_BAND[13:]
    status, said, wrong = begin(program, folder, answers)
    check(status == 0 and not wrong, f"without limits: {status}, {wrong}")
    check("limits.on-file: none" in read(folder) and "limits.torque" not in read(folder), "a limit is asked for")


def changed_by_hand(program, folder):
    """The file is read again as its writer may have changed it; what cannot be is told with its place."""
    begin(program, folder, ONE_BAND[:15])
    text = read(folder).replace("drum.diameter: 62 mm", "drum.diameter: 60  mm   # turned down")
    with open(os.path.join(folder, "settings.yaml"), "w", encoding="utf-8") as file:
        file.write(text + "cord.name: \"the \\\"thin\\\" one\" # new\n")
    status, _, wrong = begin(program, folder, ONE_BAND[15:] + ["yes"])
    check(status == 0, f"gone on after a change by hand: {status}, {wrong}")
    check("the \\\"thin\\\" one" in read(folder) and window(program, folder).get("low") == "14.85",
          f"a change by hand is lost: {window(program, folder)}")
    for line, words in (("gauge", "'gauge' is no key with its value"), ("drum.colour: red", "no setting 'drum.colour'"),
                        ("drum.bore: 'x", "no value that can be read"), ("cord.name: b", "cord.name is given twice")):
        with open(os.path.join(folder, "settings.yaml"), "w", encoding="utf-8") as file:
            file.write(text + line + "\n" + ("cord.name: c\n" if line.startswith("cord") else ""))
        status, _, wrong = begin(program, folder, ["yes"])
        check(status == 1 and words in wrong and f"settings.yaml:{text.count(chr(10)) + 1 + line.startswith('cord')}:" in wrong,
              f"{line}: {status}, {wrong}")


def left_alone(program, folder):
    os.mkdir(folder)
    with open(os.path.join(folder, "settings.yaml"), "w", encoding="utf-8") as file:
        file.write("lathe:\n  name: mine\n")
    status, _, wrong = begin(program, folder, ONE_BAND + ["yes"])
    check(status == 1 and "stay as they are" in wrong, f"settings of another hand: {status}, {wrong}")
    check(read(folder) == "lathe:\n  name: mine\n", "settings of another hand were changed")


def nothing_else(program, folder):
    """While it asks it can open nothing else, and what lies beside the settings it does not write through."""
    os.makedirs(folder)
    beside, other = os.path.join(folder, "settings.yaml.new"), folder + "-other"
    with open(other, "w", encoding="utf-8") as file:
        file.write("mine\n")
    os.symlink(other, beside)
    status, _, wrong = begin(program, folder, ONE_BAND + ["yes"])
    with open(other, encoding="utf-8") as file:
        check(status == 0 and file.read() == "mine\n", f"a link beside the settings is written through: {wrong}")
    firm = "no other file" in subprocess.run([program, "--version"], capture_output=True, text=True).stdout
    if not firm:
        return
    asking = subprocess.Popen([program, "begin", folder + "-asked"], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    while b"> " not in (said := asking.stdout.read1()) and said:
        pass
    with open(f"/proc/{asking.pid}/status", encoding="utf-8") as file:
        check("Seccomp:\t2\n" in file.read(), "it asks before it gives up what it does not need")
    asking.communicate(b"")


def main():
    program = os.path.join(os.path.abspath(sys.argv[1]), "bin", "spindlebook")
    os.chdir(tally.root)
    with tempfile.TemporaryDirectory() as folder:
        for case in (to_the_card, on_the_spot, gone_on, bands, without_limits, changed_by_hand, left_alone, nothing_else):
            case(program, os.path.join(folder, case.__name__))
    return tally.end(f"{tally.looked} things looked at from the first question to the card")


if __name__ == "__main__":
    sys.exit(main())
