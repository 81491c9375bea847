#!/usr/bin/env python3
"""Jobs, corrections and the records of closed jobs: what was stored stays, whoever writes
meanwhile and whatever is changed later, and that is said. Usage: check_records.py OUT"""
import os
import re
import shutil
import subprocess
import sys
import tempfile

import tally

PROGRAM = os.path.abspath(os.path.join(sys.argv[1], "bin", "spindlebook"))
HEADS = "date,job,step,by,nut,lock,direction,warmth,temperature,pulls,speed,minutes,id,corrects,note"
LOG = """
2026-03-02,,,,9 deg,after,usual,cold,,18.2 18.3 18.1 N,,,,,before there were jobs
2026-03-07,a-1,begun,A,,,,,,,,,,,found too tight
2026-03-07,a-1,,A,9 deg,after,usual,cold,17 degC,27.7 27.9 27.8 N,,,found,,
2026-03-08,a-1,,A,5 deg,after,usual,cold,17 degC,18.2 18.3 18.1 N,,,last,,
2026-03-08,a-1,run-in,A,,,,,30 degC,,500 r/min,10 min,,,
2026-03-08,a-1,closed,A,,,,,,,,,,,
""".lstrip()


def write(path, text):
    with open(path, "w", encoding="utf-8", newline="") as file:
        file.write(text)


def read(path):
    with open(path, encoding="utf-8", newline="") as file:
        return file.read()


def log(text=LOG):
    write("content/readings.csv", HEADS + "\n" + text)


def run(*words):
    return subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=False)


def said(*words):
    """The rows of an answer for programs, and its notes; a fault is a failure."""
    done = run(*words, "--lines")
    tally.check(done.returncode == 0, f"{words}: {done.stderr}")
    rows = [line.split("\t") for line in done.stdout.splitlines()]
    return ({name: value for name, value, _ in rows if name != "note"},
            [value for name, value, _ in rows if name == "note"])


def told(what, words, status=1):
    """A fault of the log in these words."""
    done = run("check")
    tally.check(done.returncode == status and words in done.stdout + done.stderr,
                f"{what}: status {done.returncode}, {done.stdout}{done.stderr}")


def rows_that_are_wrong():
    """Each a row behind the log, and the words that are told of it."""
    for row, words in (
            ("2026-03-09,a-1,,A,,after,usual,cold,,18 N,,,,,", "the job a-1 was closed above"),
            ("2026-03-09,b,,A,,after,usual,cold,,18 N,,,,,", "no row just above begins the job b"),
            ("2026-03-09,a-1,begun,A,,,,,,,,,,,", "the job a-1 was closed above"),
            ("2026-03-09,b/c,begun,A,,,,,,,,,,,", "'b/c' is no name of a job"),
            ("2026-03-09,b,begun,A,,after,,,,,,,,,", "a step has no pulls"),
            ("2026-03-09,,begun,A,,,,,,,,,,,", "a step belongs to a job"),
            ("2026-03-09,b,gone,A,,,,,,,,,,,", "'gone' cannot stand here"),
            ("2026-03-09,,,A,,after,cold,usual,,18 N,,,,,", "it is a word of the column warmth"),
            ("2026-03-09,,,A,,after,usual,cold,,18 N,500 r/min,,,,", "only a row with run-in"),
            ("2026-03-09,,,A,,after,usual,cold,,18 N,,,,nothing,", "no earlier row has the id 'nothing'"),
            ("2026-03-09,a-1,,A,,after,usual,cold,,18 N,,,,2026-03-08,", "more than one row is called"),
            ("9.3.2026,,,A,,after,usual,cold,,18 N,,,,,", "'9.3.2026' is no date"),
            ("2026-03-09,b,begun,A,,,,,,,,,,,\n2026-03-09,,,A,,after,usual,cold,,18 N,,,,,",
             "stands within the job b and names none"),
            ("2026-03-09,b,begun,A,,,,,,,,,,,\n2026-03-09,b,run-in,A,,,,,,,,,,,", "write its speed"),
            ("2026-03-09,b,begun,A,,,,,,,,,,,\n2026-03-09,b,skipped,A,,,,,,,,,,,", "write which and why")):
        log(LOG + row + "\n")
        told(row, words)
    log(LOG.replace("closed,A", "off,A") + "2026-03-09,b,begun,A,,,,,,,,,,,\n2026-03-09,a-1,closed,A,,,,,,,,,,,\n")
    told("a job that goes on behind another", "keep the rows of a job together")
    log(LOG[:-1])
    told("a half line", "the last line has no end", status=0)


def rows_against_their_gauge():
    """Pulls that this gauge cannot have shown, and a row that stands there twice."""
    for pulls, words in (("1.86 1.87 1.85 kgf", "was read, and the gauge's step is"),
                         ("18.23 18.31 18.12 N", "is no whole step of the gauge"),
                         ("92.1 92.2 92.3 N", "Was it another gauge?")):
        log(LOG.replace("18.2 18.3 18.1 N,,,last", pulls + ",,,last"))
        told(pulls, words, status=0)
    log(LOG.replace("2026-03-08,a-1,run-in", "2026-03-08,a-1,,A,5 deg,after,usual,cold,17 degC,18.2 18.3 18.1 N,,,,,\n"
                    "2026-03-08,a-1,run-in"))
    told("a copy", "the same pulls in the same way as line 5: was the row copied?", status=0)
    log()
    done = run("check")
    for words in ("was read, and", "no whole step", "was the row copied"):
        tally.check(words not in done.stdout, f"said of a plain log: {words}")


def stored_once():
    """A record is stored, and from then on printed as it was stored."""
    log()
    told("a closed job without a record", "the job a-1 is closed and has no record", status=0)
    tally.check(run("record", "--job", "b").returncode == 1, "a job that is not there has a record")
    tally.check(run("record", "--job", "a-1", "--issued", "tomorrow").returncode == 1, "tomorrow is a date")
    tally.check(not os.path.exists("content/records"), "a folder is left where nothing was stored")
    rows, notes = said("record", "--job", "a-1", "--issued", "2026-03-10")
    tally.check(rows["stored"] == "content/records/a-1.yaml" and not notes, f"not stored: {rows}, {notes}")
    tally.check(rows["issued"] == "2026-03-10" and rows["date"] == "2026-03-08" and rows["mean"] == "18.200",
                f"other results: {rows}")
    kept = read("content/records/a-1.yaml")
    again, notes = said("record", "--job", "a-1")
    tally.check(not notes and {**again, "stored": rows["stored"]} == rows, f"not as stored: {again}, {notes}")
    tally.check(os.listdir("content/records") == ["a-1.yaml"], f"something is left: {os.listdir('content/records')}")
    return kept, rows


def too_long():
    """A record that could not be read back is not stored: it would stand in the way of every other answer."""
    begun, pulls, closed = LOG.splitlines(True)[1:3] + LOG.splitlines(True)[-1:]
    log(begun + pulls.replace("found", "") * 2000 + closed)
    done = run("record", "--job", "a-1")
    tally.check(done.returncode == 1 and "could not be read back: 2000 in 4 MiB" in done.stderr, f"too long: {done.stderr}")
    tally.check(not os.path.exists("content/records") and run("window").returncode == 0, "a record is in the way")


def whatever_comes_later(kept, rows):
    """Settings, formatting, pulls, the record's own file: what changes the record, and what is said."""
    def same(what, noted):
        now, notes = said("record", "--job", "a-1")
        known = {key: value for key, value in rows.items() if key != "stored"}
        tally.check(now == known, f"{what} changed what is printed: {now}")
        tally.check(any(noted in note for note in notes) if noted else not notes, f"{what}: {notes}")
        tally.check(read("content/records/a-1.yaml") == kept, f"{what} changed the file")
    settings = read("content/settings.yaml")
    write("content/settings.yaml", re.sub("drum: {diameter: [^,]*", "drum: {diameter: 40 mm", settings))
    same("another drum", None)
    write("content/settings.yaml", settings)
    write("content/readings.csv", (HEADS + "\n" + LOG).replace("\n", "\r\n"))
    same("other line ends", None)
    log(LOG.replace("18.2 18.3 18.1 N,,,last", '"18.2N 18.3N  18.1N",,,last'))
    same("another way to write pulls", None)
    log(LOG.replace("18.1 N,,,last", "18.0 N,,,last"))
    same("another pull", "mean: the record has \"18.200 N\", now it is \"18.167 N\"")
    log(LOG.replace("27.7 27.9", "27.7 27.8"))
    same("another pull as found", "row 2 of the job")
    log(LOG.replace("closed,A", "off,A"))
    same("a job that is open again", "does not close the job any more")
    log(LOG + "2026-03-08,a-1,,A,5 deg,after,usual,cold,17 degC,18.3 18.3 18.2 N,,,,last,misread\n")
    same("a correction", "mean: the record has \"18.200 N\", now it is \"18.267 N\"")
    log()
    os.chmod("content/records/a-1.yaml", 0o644)
    write("content/records/a-1.yaml", kept.replace("\n", "\r\n").replace('"A"', "A"))
    _, notes = said("record", "--job", "a-1")
    tally.check(not notes, f"line ends and quotes of the record count: {notes}")
    write("content/records/a-1.yaml", kept.replace("18.200", "18.210"))
    _, notes = said("record", "--job", "a-1")
    tally.check(any("was changed since it was stored" in note for note in notes), f"a slip is not told: {notes}")
    told("a record that was changed", "was changed since it was stored", status=0)
    write("content/records/a-1.yaml", "x: 1\n")
    told("no record", "content/records/a-1.yaml:1: this is no record of a setting")
    shutil.rmtree("content/records")


def at_once():
    """Of many that store one record one does, and nothing of the others is left."""
    log()
    runs = [subprocess.Popen([PROGRAM, "record", "--job", "a-1", "--issued", "2026-03-1%d" % i, "--lines"],
                             stdout=subprocess.PIPE, text=True) for i in range(8)]
    answers = [one.communicate()[0] for one in runs]
    tally.check(all(one.returncode == 0 for one in runs), "a run beside others failed")
    tally.check(sum("stored\t" in answer for answer in answers) == 1, "not one of them stored it")
    tally.check(len({re.search("fingerprint\t(.*)\t", answer)[1] for answer in answers}) == 1, "two records")
    tally.check(os.listdir("content/records") == ["a-1.yaml"], "something is left of the others")


def main():
    with tempfile.TemporaryDirectory() as work:
        os.chdir(work)
        shutil.copytree(os.path.join(tally.root, "tests", "faults", "base"), "content")
        shutil.copytree(os.path.join(tally.root, "templates"), "templates")
        rows_that_are_wrong()
        rows_against_their_gauge()
        too_long()
        whatever_comes_later(*stored_once())
        at_once()
        os.chdir("/")
    return tally.end(f"{tally.looked} answers about jobs and records")


sys.exit(main())
