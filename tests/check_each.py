#!/usr/bin/env python3
"""book --each: a set of outputs for every lathe, as a run for that lathe alone makes it;
a fault in one leaves the others; only what changed is made again, whatever the clock says;
on a terminal it says how far it is, elsewhere nothing. Usage: check_each.py OUT"""
import os
import pathlib
import pty
import re
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
CONTENT = HERE / "faults" / "base"
LATHES = {"bay-1": "60 mm", "bay-2": "62 mm", "bay-3": "64 mm"}


def tree(folder):
    return {str(file.relative_to(folder)): file.read_bytes()
            for file in sorted(folder.rglob("*")) if file.is_file()}


class Each:
    def __init__(self, out, work):
        self.program = pathlib.Path(out).resolve() / "bin" / "spindlebook"
        self.work = pathlib.Path(work)
        self.lathes, self.content = self.work / "lathes", self.work / "content"
        self.templates, self.out = self.work / "templates", self.work / "out"
        shutil.copytree(CONTENT, self.content)
        shutil.copytree(HERE.parent / "templates", self.templates)
        for name, drum in LATHES.items():
            (self.lathes / name).mkdir(parents=True)
            self.write(name, drum)
        self.failures, self.looked = [], 0

    def write(self, name, drum):
        text = (CONTENT / "settings.yaml").read_text()
        text = re.sub(r"(drum: {diameter: )[^,]*", r"\g<1>" + drum, text)
        (self.lathes / name / "settings.yaml").write_text(text)

    def words(self, *more):
        return [self.program, "book", "--content", self.content, "--templates", self.templates,
                "--each", self.lathes, "--out", self.out, *more]

    def run(self, *more, **extra):
        return subprocess.run(self.words(*more), text=True, stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE, env=dict(os.environ, **extra), check=False)

    def expect(self, what, status, told, *more, **extra):
        """One run: its status, and the line that it ends with."""
        made = self.run(*more, **extra)
        self.looked += 1
        if made.returncode != status or "".join(made.stdout.splitlines(True)[-1:]) != told:
            self.failures.append("%s: status %d, %r, %r" % (what, made.returncode, made.stdout,
                                                           made.stderr))
        return made

    def check(self, what, good):
        self.looked += 1
        if not good:
            self.failures.append(what)


def first_run(each):
    made = each.expect("first run", 0, "3 made, 0 as they were, 0 with faults\n")
    each.check("something was said where no terminal is", made.stderr == "")
    for name in LATHES:
        alone = each.work / "alone"
        content = each.work / "content-of-one"
        shutil.copytree(each.content, content)
        shutil.copy(each.lathes / name / "settings.yaml", content)
        subprocess.run([each.program, "book", "--content", content, "--templates",
                        each.templates, "--out", alone], check=True, stdout=subprocess.DEVNULL)
        found, expected = tree(each.out / name), tree(alone)
        for odd in (".made-from", ".spindlebook"):
            found.pop(odd)
            expected.pop(odd, None)
        each.check("%s is another than made alone" % name, found == expected and len(found) > 20)
        shutil.rmtree(alone)
        shutil.rmtree(content)


def made_again(each):
    kept = "0 made, 3 as they were, 0 with faults\n"
    each.expect("nothing changed", 0, kept)
    for file in each.work.rglob("*.yaml"):
        os.utime(file, (10 ** 9, 10 ** 9))
    each.expect("another time of a file is no change", 0, kept)
    each.write("bay-2", "63 mm")
    before = {name: tree(each.out / name) for name in LATHES}
    each.expect("one lathe's settings changed", 0, "1 made, 2 as they were, 0 with faults\n")
    each.check("the wrong lathes were made", [tree(each.out / name) != before[name]
                                              for name in LATHES] == [False, True, False])
    everything = "3 made, 0 as they were, 0 with faults\n"
    with open(each.content / "00-start.md", "a", encoding="utf-8") as page:
        page.write("\nMore words.\n")
    each.expect("a page changed", 0, everything)
    with open(each.templates / "style.css", "a", encoding="utf-8") as style:
        style.write("\np { color: black }\n")
    each.expect("a template changed", 0, everything)
    each.expect("a date came", 0, everything, SOURCE_DATE_EPOCH="86400")
    each.expect("an option came", 0, everything, "--set", "gauge.step=0.2 N")
    engine = (each.work / "engine.wasm").resolve()
    for words in ("an engine came", "the engine changed"):
        engine.write_bytes(b"\0asm" + words.encode())
        each.expect(words, 0, everything, "--bench", str(engine))
    each.expect("back", 0, everything)
    os.remove(each.out / "bay-3" / "booklet.pdf")
    each.expect("an output was lost", 0, "1 made, 2 as they were, 0 with faults\n")
    (each.lathes / "bay-1" / "readings.csv").write_text("date,direction,warmth,pulls\n")
    each.expect("a log came", 0, "1 made, 2 as they were, 0 with faults\n")


def faults(each):
    before = tree(each.out / "bay-1")
    each.write("bay-1", "60")
    each.write("bay-3", "65 mm")
    made = each.expect("one fault", 1, "1 made, 1 as they were, 1 with faults\n")
    each.check("the fault is not told: %r" % made.stderr, re.match(
        r"\S*lathes/bay-1/settings\.yaml:\d+:\d+: drum\.diameter: the number has no unit",
        made.stderr))
    each.check("the set of a faulty lathe changed", tree(each.out / "bay-1") == before)
    each.write("bay-1", "60 mm")
    each.expect("mended: as before, so nothing is to be made", 0,
                "0 made, 3 as they were, 0 with faults\n")
    (each.lathes / "bay-4").mkdir()
    made = each.expect("no settings", 1, "0 made, 3 as they were, 1 with faults\n")
    each.check("no settings: %r" % made.stderr, "bay-4/settings.yaml: there is no such file"
               in made.stderr)
    overview(each)
    shutil.rmtree(each.lathes)
    made = each.expect("no folder", 1, "")
    each.check("no folder: %r" % made.stderr, "the folder of lathes cannot be read"
               in made.stderr)
    each.lathes.mkdir()
    made = each.expect("no lathe", 1, "")
    each.check("no lathe: %r" % made.stderr, "there is no lathe here" in made.stderr)


def overview(each):
    """check --each: remarks and faults by lathe, then a line for each lathe, faulty ones too."""
    log = each.lathes / "bay-2" / "readings.csv"
    log.write_text("date,lock,direction,warmth,pulls\n2026-03-09,after,usual,cold,22.0 22.1 22.0 N\n")
    made = subprocess.run([each.program, "check", "--each", each.lathes], text=True, capture_output=True,
                          check=False)
    log.unlink()
    lines = made.stdout.splitlines()
    each.check("check --each: status %d" % made.returncode, made.returncode == 1)
    each.check("check --each: no fault of bay-4: %r" % made.stderr,
               "bay-4/settings.yaml: there is no such file" in made.stderr)
    each.check("check --each: the line of bay-2: %r" % lines, any(re.match(
        r"bay-2 +[0-9a-f]{8}  .*2026-03-09", line) for line in lines))
    each.check("check --each: lathes out of order: %r" % lines, [line.split()[0] for line in lines[-5:]] ==
               ["lathe", "bay-1", "bay-2", "bay-3", "bay-4"])
    each.check("check --each: the line of bay-4: %r" % lines, lines[-1].split(None, 1)[1].startswith("faults"))


def registers(each):
    """A gauge that all lathes share stands once, in the folder above them."""
    window = lambda: subprocess.run([each.program, "window", "--content", each.lathes / "bay-2"], text=True,
                                    capture_output=True, check=False)
    settings, register = each.lathes / "bay-2" / "settings.yaml", each.lathes / "gauges.yaml"
    typed, before = settings.read_text(), window().stdout
    keys = re.search(r"^gauge: ({.*})$", typed, re.M)[1]
    settings.write_text(typed.replace("gauge: " + keys, "gauge: {id: G1}"))
    register.write_text("G0: {capacity: 5 N}\nG1: " + keys + "\n")
    each.check("a window by a register is another: %r" % window().stderr, before and window().stdout == before)
    each.expect("the register is a lathe, or not read", 0, "3 made, 0 as they were, 0 with faults\n")
    register.write_text("G1: " + keys.replace("step: ", "step: 1") + "\n")
    each.expect("the register changed", 0, "3 made, 0 as they were, 0 with faults\n")
    each.check("another step of the register makes no other window", window().stdout != before)
    register.write_text("G0: " + keys + "\n")
    each.check("an id that is not there: %r" % window().stderr, re.search(
        r"settings\.yaml:\d+:\d+: \S*gauges\.yaml has no entry 'G1' with keys under it; it has G0",
        window().stderr))
    register.unlink()
    settings.write_text(typed)
    each.run()


def files_of_settings(each):
    """A file of settings alone is a lathe too, its logs behind its name."""
    shutil.rmtree(each.lathes)
    (each.lathes / "bay-1").mkdir(parents=True)
    each.write("bay-1", "60 mm")
    alone = each.lathes / "bay-5.yaml"
    shutil.copy(each.lathes / "bay-1" / "settings.yaml", alone)
    each.expect("a file beside a folder", 0, "2 made, 0 as they were, 0 with faults\n")
    each.check("the file's set is another than the folder's",
               {name: found for name, found in tree(each.out / "bay-5").items()
                if name != ".made-from"} ==
               {name: found for name, found in tree(each.out / "bay-1").items()
                if name != ".made-from"})
    log = each.lathes / "bay-5-readings.csv"
    log.write_text("date,direction,warmth,pulls\n2026-03-09,usual,cold,18.2N 18.3N 18.1N\n")
    each.expect("the file's log came", 0, "1 made, 1 as they were, 0 with faults\n")
    each.check("the log is not in the set",
               "2026-03-09" in (each.out / "bay-5" / "tables" / "pull-log.csv").read_text())
    log.write_text("date,direction,warmth,pulls\n2026-03-09,usual,cold,18.2\n")
    made = each.expect("a fault in the file's log", 1, "0 made, 1 as they were, 1 with faults\n")
    each.check("that fault is not told: %r" % made.stderr, "bay-5-readings.csv:2:" in made.stderr)
    log.unlink()
    shutil.copy(alone, each.lathes / "bay-1.yaml")
    made = each.expect("a file and a folder of one name", 1,
                       "1 made, 1 as they were, 0 with faults\n")
    each.check("one name is not told: %r" % made.stderr,
               "lathes/bay-1.yaml: there is a folder of this name too" in made.stderr)
    (each.lathes / "bay-1.yaml").unlink()
    (each.lathes / "bay-6.yaml").symlink_to(each.content / "settings.yaml")
    made = each.expect("a link that leads out", 1, "0 made, 2 as they were, 0 with faults\n")
    each.check("the link is not told: %r" % made.stderr, "leads out" in made.stderr)


def read_all(terminal):
    """What was written to the other end until it was closed: then reading fails."""
    said = b""
    try:
        while more := os.read(terminal, 4096):
            said += more
    except OSError:
        pass
    os.close(terminal)
    return said.decode()


def on_a_terminal(each):
    shutil.rmtree(each.out)
    ours, theirs = pty.openpty()
    subprocess.run(each.words("--only", "tables"), stdout=subprocess.DEVNULL, stderr=theirs,
                   check=True)
    os.close(theirs)
    said = read_all(ours)
    each.check("a terminal is told %r" % said, re.search(
        r"\r1 of 3 lathes, [\d.]+ a second, \d+ s left.*\r3 of 3 lathes", said, re.S))


def main():
    with tempfile.TemporaryDirectory() as work:
        each = Each(sys.argv[1], work)
        first_run(each)
        on_a_terminal(each)
        each.run()
        made_again(each)
        files_of_settings(each)
        for name, drum in LATHES.items():
            (each.lathes / name).mkdir(exist_ok=True)
            each.write(name, drum)
        (each.lathes / "bay-5.yaml").unlink()
        (each.lathes / "bay-6.yaml").unlink()
        each.run()
        registers(each)
        faults(each)
    for failure in each.failures:
        print("FAILED", failure)
    print("%d things about runs for many lathes, %d failures" % (each.looked, len(each.failures)))
    sys.exit(bool(each.failures))


main()
