#!/usr/bin/env python3
"""Where the limits are for the starting drag, whatever is printed, shown and answered asks for
starting pulls, and nothing is said of steady ones but what they are.

Usage: check_starting.py OUT
The demo with such limits is made whole. No sentence of its site, prints, answers and the bench
page's engine may speak of steady pulls, of whole turns to read over or of a breakaway beside
the pulls, but those that tell the two apart.
"""
import csv
import html
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

import tally
from tally import check

OF_RUNNING = re.compile(r"\bsteady (pull|reading|one)|\bwhole turns\b|\bevenly\b|\bbreakaways?\b"
                        r"|\brunning drag\b|\bone turn in five\b", re.I)
# What says which is which; and turns that are not read over.
ALLOWED = re.compile(
    r"Breakaway and steady pull|is the breakaway\b|that keeps it turning slowly and evenly"
    r"|^is the steady pull|Another word for starting is breakaway|want the running drag"
    r"|Never judge running drag by|always blank. The pulls are breakaways|mean steady pull of five"
    r"|date,drum,cord,nut|^breakaway$|^breakaway:$|^running drag$|^steady pull$|breakaway torque"
    r"|drag while it turns slowly and evenly|pull that keeps it turning evenly|a breakaway$"
    r"|whole turns (side by side|and mark|pulled off|of cord off)|whole turns, mark the cord"
    r"|indicator on the drum; read whole turns|warms unevenly|Slacken a cover evenly"
    r"|slowly and evenly. A catch|breakaway *pull at which a spindle at rest starts"
    r"|(running drag|steady pull|breakaway) +(drag|pull|What the words mean)"
    r"|turn freely and evenly|running drag; new and used bearings", re.I)
SMALL_GAUGE = ["--set", "gauge.capacity=30N"]
PULLS = ["18.2N", "18.3N", "18.15N", "18.25N", "18.3N"]


def lay(folder, torque):
    """The demo's content, with such limits and no never-exceed; a log without breakaways."""
    content = os.path.join(folder, "content")
    shutil.copytree(os.path.join(tally.root, "content"), content)
    path = os.path.join(content, "settings.yaml")
    with open(path, encoding="utf-8") as file:
        text = file.read()
    with open(path, "w", encoding="utf-8") as file:
        text = re.sub("  never-exceed:.*\n", "", text)
        file.write(text.replace("torque: running", f"torque: {torque}"))
    path = os.path.join(content, "readings.csv")
    with open(path, encoding="utf-8") as file:
        rows = list(csv.reader(file))
    if torque == "starting":
        for row in rows[1:]:
            row[rows[0].index("breakaway")] = ""
    with open(path, "w", encoding="utf-8") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)


def run(program, folder, *words):
    return subprocess.run([program, *words], cwd=folder, capture_output=True, text=True,
                          stdin=subprocess.DEVNULL)


def pieces(text):
    """What stands between tags, or on lines that belong together."""
    text = re.sub(r"<(script|style)\b.*?</\1>", "", text, flags=re.S)
    texts = re.findall(r'(?:alt|aria-label|data-[a-z]+|content)="([^"]*)"', text)
    text = re.sub(r"</?(a|b|em|strong|code|span|kbd)\b[^>]*>", "", text)
    texts += re.sub(r"<[^>]*>", "\0", text).split("\0")
    return [" ".join(html.unescape(piece).split()) for piece in texts]


def look(where, text):
    for piece in pieces(text):
        if piece.startswith("{if-running}"):
            continue  # of the page that fills the card itself, for whichever limits are typed
        for sentence in re.split(r"(?<=[.:?!]) ", piece):
            check(not OF_RUNNING.search(sentence) or ALLOWED.search(piece),
                  f"{where}: of running pulls: {sentence[:200]}")


def in_print(out, name):
    done = subprocess.run(["pdftotext", "-layout", os.path.join(out, name), "-"],
                          capture_output=True, text=True, check=True)
    return done.stdout


def ask_engine(out, site, questions):
    """The settings as the bench page has them, then the questions."""
    with open(os.path.join(site, "bench.html"), encoding="utf-8") as file:
        kept = re.findall(r'data-key="([^"]*)">([^<]*)<', file.read())
    settings = [[key, html.unescape(text)] for key, text in kept]
    asked = json.dumps([["settings", settings], *questions])
    done = subprocess.run(["node", os.path.join(tally.root, "tests/ask_engine.js"),
                           os.path.join(out, "build/bench.wasm")],
                          input=asked + "\n", capture_output=True, text=True, check=True)
    return json.loads(done.stdout)


def look_at_site_and_prints(made):
    for name in sorted(os.listdir(os.path.join(made, "site"))):
        if name.endswith(".html"):
            with open(os.path.join(made, "site", name), encoding="utf-8") as file:
                look(name, file.read())
    with open(os.path.join(made, "spindlebook.html"), encoding="utf-8") as file:
        look("spindlebook.html", file.read())
    for name in ("card.pdf", "card-sheet.pdf", "forms.pdf", "aids.pdf"):
        text = in_print(made, name)
        look(name, text)
        check(name == "aids.pdf" or re.search("start", text), f"{name} says nothing of the start")
    booklet = " ".join(in_print(made, "booklet.pdf").split())
    check("steady reading" not in booklet and "Steady pull on" not in booklet,
          "the booklet has a table of steady pulls")
    for words in ("Starting pull on the", "highest reading at the start",
                  "The longer it stands, the harder it starts", "each time at another place"):
        text = booklet if "each time" not in words else " ".join(in_print(made, "card.pdf").split())
        check(words in text, f"'{words}' is printed nowhere")


def look_at_terminal(program, folder):
    for words in (["pull", *PULLS, "--lock", "after"], ["window"], ["gauge"], ["nut"], ["check"],
                  ["nut", "0deg", "0.31N.m", "2deg", "0.42N.m"], ["--help"]):
        for lines in ([], ["--lines"]):
            if lines and words[0] in ("check", "--help"):
                continue
            done = run(program, folder, *words, *lines)
            look("terminal: " + " ".join(words), done.stdout.replace("\n", "\0") + done.stderr)
            check(words[0] not in ("pull", "window") or "starting pull" in done.stdout,
                  f"{words[0]} does not say that starting pulls count")


def look_at_engine(out, made):
    fields = [["pull", pull] for pull in PULLS] + [["lock", "after"]]
    row = [["date", "2029-01-01"], ["direction", "usual"], ["warmth", "cold"],
           ["pull", "18.2N"]]
    settings, judged, refused, logged, unlogged = ask_engine(
        out, os.path.join(made, "site"),
        [["judge", fields], ["judge", fields + [["breakaway", "25N"]]], ["log", row],
         ["log", row + [["breakaway", "25N"]]]])
    for answer in (settings, judged, logged):
        look("engine", "\0".join(" ".join(row) for row in answer if row[0] != "breakaway-label"))
        check(not any(row[0] == "fault" for row in answer), f"the engine refuses: {answer}")
    labels = {row[0]: row[2] for row in settings}
    check(labels["pull-label"] == "Starting pull" and not labels["breakaway-label"],
          f"the bench page asks for {labels}")
    for answer in (refused, unlogged):
        check(any(row[:2] == ["fault", "breakaway"] for row in answer),
              "the engine takes a breakaway beside starting pulls")


def look_at_log(program, folder):
    """A breakaway beside starting pulls is refused where it stands."""
    path = os.path.join(folder, "content/readings.csv")
    with open(path, encoding="utf-8") as file:
        rows = list(csv.reader(file))
    rows[3][rows[0].index("breakaway")] = "25 N"
    with open(path, "w", encoding="utf-8") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)
    done = run(program, folder, "window")
    check(done.returncode == 1 and re.match(r"content/readings.csv:4:\d+: a breakaway", done.stderr),
          f"a breakaway was taken: {done.stderr}")


def main():
    out = os.path.abspath(sys.argv[1])
    program = os.path.join(out, "bin/spindlebook")
    with tempfile.TemporaryDirectory() as folder, tempfile.TemporaryDirectory() as other:
        lay(folder, "starting")
        made = os.path.join(folder, "out")
        done = run(program, folder, "book", "--templates", os.path.join(tally.root, "templates"),
                   "--bench", os.path.join(out, "build/bench.wasm"), "--out", made)
        check(done.returncode == 0, f"nothing was made: {done.stderr[:500]}")
        if done.returncode == 0:
            look_at_site_and_prints(made)
            look_at_engine(out, made)
        look_at_terminal(program, folder)
        # 22.35 N at the high limit: a gauge of 30 N reads a starting pull so far, no breakaway
        said = run(program, folder, "window", *SMALL_GAUGE).stdout
        check(said and "beyond" not in said, "the starting pull was multiplied once more")
        lay(other, "running")
        said = run(program, other, "window", *SMALL_GAUGE).stdout
        check("beyond" in said, "the breakaway of a running limit was not looked at")
        look_at_log(program, folder)
    return tally.end(f"{tally.looked} sentences and answers under starting limits")


if __name__ == "__main__":
    sys.exit(main())
