#!/usr/bin/env python3
"""The words for people who build and change this hold: README.md, DEVELOPERS.md, docs.

Usage: check_docs.py OUT
Every command that README and pages show runs; every verb, option, path and function
that the words name is there, and those that are there are named. The keys of the
settings and the names of tables and figures are held by tests/unit/book/formats.c.
"""
import glob
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

import check_begin
import tally
from tally import check, read, root

WORDS = ["README.md", "DEVELOPERS.md"] + sorted(glob.glob("docs/*.md", root_dir=root))
PAGES = sorted(glob.glob("content/*.md", root_dir=root))


def same(named, there, where):
    """What is named and what is there are the same."""
    for name in sorted(set(named) - set(there)):
        check(False, f"{where}: {name} is named but not there")
    for name in sorted(set(there) - set(named)):
        check(False, f"{where}: {name} is there but not named")
    check(named, f"{where}: nothing is named")


def section(text, heading):
    return re.split(r"\n## ", text.split("\n" + heading + "\n", 1)[1])[0]


def first_cells(text, head):
    """The names in code of the first cells of the table with this first head."""
    table = re.search(rf"^\| {head} \|.*\n\|[-|]+\n((?:\|.*\n)+)", text, re.M).group(1)
    return [name for line in table.split("\n") if line for name in re.findall(r"`([^`]+)`", line.split("|")[1])]


# ---- what the code has

def public_functions():
    heads = "".join(read(path) for path in sorted(glob.glob("src/physics/*.h", root_dir=root)))
    heads = re.sub(r"/\*.*?\*/", "", heads, flags=re.S)
    heads = re.sub(r"static inline.*?\n}\n", "", heads, flags=re.S)
    return re.findall(r"^[a-z][\w ]*?\*?(\w+)\([^)]*\);", heads, re.M)


def usage(program):
    text = subprocess.run([program, "--help"], capture_output=True, text=True, check=True).stdout
    return (re.findall(r"^  spindlebook (\w+)", text, re.M),
            re.findall(r"^  (--[\w-]+(?: [A-Z=]+)?)  ", text, re.M))


def check_mathematics():
    text = read("docs/mathematics.md")
    same(first_cells(text, "function") + first_cells(section(text, "## How sure a drag is"), "function"),
         public_functions(), "docs/mathematics.md")
    for line in re.findall(r"^\| `.*", text, re.M):
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        check(len(cells) == 5 and all(cells[:4]), f"docs/mathematics.md: a cell is blank: {line}")


def check_program(program):
    formats = read("docs/formats.md")
    verbs, options = usage(program)
    the_program = section(formats, "## The program")
    same(first_cells(the_program, "verb"), verbs, "docs/formats.md: verbs")
    same(first_cells(the_program, "option"), options, "docs/formats.md: options")
    engine = re.findall(r'^    \{"([\w-]+)", answer_', read("src/bench/bench.c"), re.M)
    same(first_cells(section(formats, "## The bench page's engine"), "verb"), engine,
         "docs/formats.md: the engine's verbs")


# ---- make, paths and links

def make_verbs():
    made = subprocess.run(["make", "-s", "help"], cwd=root, capture_output=True, text=True, check=True)
    return re.findall(r"^  make ([a-z-]+)", made.stdout, re.M)


def check_make():
    verbs, rules = make_verbs(), read("Makefile") + read("install.mk") + read("tests/verbs.mk") + read("tests/bench/bench.mk")
    for path in WORDS + PAGES:
        for words in re.findall(r"\bmake ((?:[a-z-]+ ?)+)`", read(path)) + re.findall(r"^make ([a-z -]+)$", read(path), re.M):
            for verb in words.split():
                check(verb in verbs, f"{path}: there is no make {verb}")
    phony = " ".join(re.findall(r"^\.PHONY:(.*)$", rules, re.M)).split()
    same([verb for verb in verbs if verb in phony or verb.startswith("deps")], verbs, "make help")


def check_paths(out):
    for path in WORDS + PAGES:
        text = read(path).split("\n## To add\n")[0]  # what is added there is not there yet
        for name in re.findall(r"`((?:src|tests|docs|content|templates|out)/[\w./*-]+)`", text):
            if "NAME" in name or "_..." in name:
                continue
            place = os.path.join(out, name[4:]) if name.startswith("out/") else os.path.join(root, name)
            check(glob.glob(place), f"{path}: there is no {name}")
        for name in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", re.sub(r"`[^`\n]*`", "", text)):
            check(os.path.exists(os.path.join(root, os.path.dirname(path), name)), f"{path}: there is no {name}")


def check_tests():
    """DEVELOPERS.md says of every check what it is for."""
    text = read("DEVELOPERS.md")
    for path in sorted(glob.glob("tests/check_*", root_dir=root)):
        check(os.path.basename(path) in text, f"DEVELOPERS.md: {path} is not named")


def check_pictures():
    shown = {os.path.normpath(os.path.join(os.path.dirname(path), name))
             for path in WORDS for name in re.findall(r"!\[[^\]]+\]\(([^)]+)\)", read(path))}
    same(shown, glob.glob("docs/*.png", root_dir=root), "pictures")


def check_invented():
    """Only the notice says that the values are invented, since it goes with them; a page
    may say it of what came with the booklet, which stays true of a user's own copy."""
    for path in PAGES:
        for paragraph in read(path).split("\n\n"):
            if "invented" in paragraph and path != "content/90-your-own-lathe.md":
                check("came with" in " ".join(paragraph.split()),
                      f"{path}: 'invented' in a sentence that would outlive the notice")


# ---- commands

def commands(text):
    """Lines of fences and texts in code that call the program; a \\ goes on."""
    text = text.replace("\\\n", " ")
    lines = re.findall(r"^ *(out/bin/spindlebook [^\n`]*)$", text, re.M)
    return sorted(set(lines + re.findall(r"`(out/bin/spindlebook [^`\n]+)`", text)))


def in_a_copy(out, action):
    """Runs action(folder) in a copy of what a user's folder holds."""
    with tempfile.TemporaryDirectory() as folder:
        for name in ("content", "templates"):
            shutil.copytree(os.path.join(root, name), os.path.join(folder, name))
        lathe = os.path.join(folder, "lathes", "bay-1")
        os.makedirs(lathe)
        shutil.copy(os.path.join(root, "content", "settings.yaml"), lathe)
        os.makedirs(os.path.join(folder, "out", "bin"))
        os.symlink(os.path.join(out, "bin", "spindlebook"), os.path.join(folder, "out", "bin", "spindlebook"))
        action(folder)


def run(folder, command):
    words = shlex.split(command)
    typed = "\n".join(check_begin.ONE_BAND + ["yes", ""]) if "begin" in words else ""
    return subprocess.run(words, cwd=folder, capture_output=True, text=True, input=typed)


def check_commands(out):
    def action(folder):
        for path in ["README.md"] + PAGES:
            for command in commands(read(path)):
                made = run(folder, command)
                check(made.returncode == 0 and made.stdout + made.stderr or " --out " in command,
                      f"{path}: {command}: status {made.returncode}: {made.stderr}")
                target = re.search(r"--out (\S+)", command)
                check(not target or os.listdir(os.path.join(folder, target.group(1))),
                      f"{path}: {command} makes nothing")
    in_a_copy(out, action)


def check_example_fault(out):
    """The fault that README and a page show is what the program says of that file."""
    shown = re.search(r"^content/settings.yaml:.*$", read("README.md"), re.M).group(0)

    def action(folder):
        name = os.path.join(folder, "content", "settings.yaml")
        text = read("content/settings.yaml")
        with open(name, "w", encoding="utf-8") as file:
            file.write(re.sub(r"(\ndrum:.*?\n  diameter: \d+) mm", r"\1", text, count=1, flags=re.S))
        said = run(folder, "out/bin/spindlebook check").stderr.strip()
        check(said == shown, f"README.md shows '{shown}', the program says '{said}'")
        for path in PAGES:
            for example in re.findall(r"`(content/settings.yaml:\d[^`]*)`", read(path)):
                check(said == " ".join(example.split()), f"{path} shows '{example}', not '{said}'")
    in_a_copy(out, action)


def main():
    out = os.path.abspath(sys.argv[1])
    check_mathematics()
    check_program(os.path.join(out, "bin", "spindlebook"))
    check_make()
    check_paths(out)
    check_tests()
    check_pictures()
    check_invented()
    check_commands(out)
    check_example_fault(out)
    return tally.end(f"{tally.looked} names, paths and commands of the words looked up")


if __name__ == "__main__":
    sys.exit(main())
