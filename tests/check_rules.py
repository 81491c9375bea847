#!/usr/bin/env python3
"""The rules of the house hold: who includes whom, and how long things are.

Usage: check_rules.py OUT [TREE]
The rules are the two tables of DEVELOPERS.md under "Where a line of code lives", and the list under
"Sizes"; nothing here repeats them. TREE is the source tree (this one by default).
"""
import ast
import fnmatch
import glob
import os
import re
import statistics
import sys

STANDARD = set("assert complex ctype errno fenv float inttypes iso646 limits locale math setjmp signal "
               "stdalign stdarg stdatomic stdbool stddef stdint stdio stdlib stdnoreturn string "
               "tgmath threads time uchar wchar wctype".split())  # ISO/IEC 9899:2011, 7.1.2
SYSTEM = {"dirent.h", "fcntl.h", "ftw.h", "getopt.h", "linux/audit.h", "linux/filter.h", "linux/landlock.h",
          "linux/seccomp.h", "strings.h", "sys/file.h", "sys/ioctl.h", "sys/mman.h", "sys/prctl.h",
          "sys/stat.h", "sys/syscall.h", "sys/types.h", "sys/xattr.h",
          "unistd.h"}  # POSIX.1-2008, getopt_long(), and Linux
STANDARD_ALONE = {"src/physics", "src/number"}


def read(*path):
    with open(os.path.join(*path), encoding="utf-8") as file:
        return file.read()


def table(text, first_head):
    """The rows of the Markdown table whose first head has these words."""
    lines = text.split("\n")
    start = next(i for i, line in enumerate(lines) if line.startswith(f"| {first_head} |"))
    rows = []
    for line in lines[start + 2:]:
        if not line.startswith("|"):
            return rows
        rows.append([cell.strip() for cell in line.strip("|").split("|")])
    return rows


def code(cell):
    return re.findall(r"`([^`]+)`", cell)


class Rules:
    def __init__(self, developers):
        self.rooms = {code(row[0])[0]: {word.strip() for word in row[2].split(",")}
                      for row in table(developers, "folder")}
        self.lossy = [call for row in table(developers, "call") for call in code(row[0])]
        self.homes = {code(row[0])[0]: code(row[1]) for row in table(developers, "header")}
        sizes = " ".join(developers.split("### Sizes")[1].split("\n#")[0].split())
        number = lambda words: int(re.search(words.replace("N", r"(\d+)"), sizes).group(1))
        self.longest, self.file = number("none over N lines"), number("file over N lines")
        self.columns = number("line over N columns")


def room_of(path, rules):
    """The room a source belongs to: its folder, or the row that names it or its prefix."""
    folder = os.path.dirname(path)
    if folder in rules.rooms:
        return folder
    return next((room for room in rules.rooms if fnmatch.fnmatchcase(path, room)), None)


def short(room):
    return os.path.basename(room).replace("*", "").split(".")[0]


def check_includes(tree, path, rules, say):
    room = room_of(path, rules)
    if room is None:
        return say(path, 1, "stands in no room of DEVELOPERS.md")
    may = rules.rooms[room]
    everything = next((words for words in may if words.startswith("everything")), None)
    for number, line in enumerate(read(tree, path).split("\n"), 1):
        match = re.match(r'#include ([<"])([^">]+)', line)
        if not match:
            continue
        kind, name = match.groups()
        if kind == '"':
            target = room_of("src/" + name, rules)
            if target is None:
                say(path, number, f"{name} stands in no room")
            elif target != room and short(target) not in may and (
                    not everything or short(target) in everything.split()):
                say(path, number, f"{short(room)} may not include {short(target)} ({name})")
        elif name in rules.homes:
            if not any(fnmatch.fnmatchcase(path, "src/" + home) for home in rules.homes[name]):
                say(path, number, f"<{name}> belongs to {', '.join(rules.homes[name])} alone")
        elif name.removesuffix(".h") not in STANDARD and (name not in SYSTEM or room in STANDARD_ALONE):
            say(path, number, f"<{name}> is not known to DEVELOPERS.md")


def check_calls(tree, path, rules, say):
    """No call that loses what it was given."""
    for number, line in enumerate(read(tree, path).split("\n"), 1):
        for call in rules.lossy:
            if re.search(rf"\b{call}\b", line):
                say(path, number, f"{call}() loses what it is given; see DEVELOPERS.md")


def check_head(tree, path, say):
    """A header's guard is its own name."""
    guard = re.sub(r"[/.]", "_", path.removeprefix("src/")).upper()
    text = read(tree, path)
    if f"#ifndef {guard}\n#define {guard}\n" not in text:
        say(path, 1, f"its guard is not {guard}")


def c_functions(text):
    """(line, name, length of the body, its lines); the look of .clang-format is taken for granted."""
    lines, start = text.split("\n"), None
    for number, line in enumerate(lines):
        if line == "{":
            start = number
        elif line == "}" and start is not None:
            head = next(lines[i] for i in range(start - 1, -1, -1) if re.match(r"\w.*\(", lines[i]))
            yield start + 1, re.search(r"(\w+)\(", head).group(1), number - start - 1, lines[start + 1:number]
            start = None


def python_functions(text):
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef):
            yield node.lineno, node.name, node.end_lineno - node.lineno, []


def is_flat_switch(body):
    """Of C: a switch whose cases hold no block."""
    return any(line.startswith("    switch (") for line in body) and not any(
        line.startswith(" " * 8) and line.rstrip().endswith("{") for line in body)


def check_functions(where, functions, rules, say):
    """The sizes of all functions of one kind of source."""
    lengths = sorted(length for _, _, _, length, _ in functions)
    for path, line, name, length, body in functions:
        if length > rules.longest and not is_flat_switch(body):
            say(path, line, f"{name}() has {length} lines; {rules.longest} are the most")
    half, tenth = statistics.median(lengths), lengths[int(0.9 * len(lengths))]
    return f"{where}: {len(lengths)} functions, half have at most {half:g} lines, nine of ten {tenth}, all {lengths[-1]}"


def check_files(tree, paths, rules, say):
    for path in paths:
        lines = read(tree, path).split("\n")[:-1]
        if len(lines) > rules.file:
            say(path, len(lines), f"a file of {len(lines)} lines; {rules.file} are the most")
        if path.endswith((".c", ".h")):
            for number, line in enumerate(lines, 1):
                if len(line) > rules.columns:
                    say(path, number, f"{len(line)} columns; {rules.columns} are the most")
        for word in ("setlocale", "__DATE__", "__TIME__", "__FILE__", "TODO", "FIXME", "XXX"):
            if path.startswith("src/") and re.search(rf"\b{word}\b", "\n".join(lines)):
                say(path, 1, f"{word} has no place here")


def found(tree, *patterns):
    return sorted(os.path.relpath(path, tree) for pattern in patterns
                  for path in glob.glob(os.path.join(tree, pattern), recursive=True))


def main():
    here = os.path.dirname(os.path.abspath(__file__))
    tree = sys.argv[2] if len(sys.argv) > 2 else os.path.join(here, "..")
    rules, failures = Rules(read(tree, "DEVELOPERS.md")), []
    say = lambda path, line, words: failures.append(f"{path}:{line}: {words}")
    sources = found(tree, "src/*.[ch]", "src/*/*.[ch]")
    for path in sources:
        check_includes(tree, path, rules, say)
        check_calls(tree, path, rules, say)
        if path.endswith(".h"):
            check_head(tree, path, say)
    for room in rules.rooms:
        if not any(room_of(path, rules) == room for path in sources):
            say("DEVELOPERS.md", 1, f"there is no {room}")
    tests, scripts = found(tree, "tests/**/*.c"), found(tree, "tests/*.py")
    check_files(tree, sources + tests + scripts + found(tree, "tests/*.sh", "tests/**/*.h", "templates/*",
                "tests/browser/*.js", "content/*", "docs/*.md"), rules, say)
    for where, paths, read_functions in (("src", sources, c_functions), ("tests", tests, c_functions),
                                         ("tests/*.py", scripts, python_functions)):
        print(check_functions(where, [(path, *one) for path in paths for one in read_functions(read(tree, path))],
                              rules, say))
    for failure in failures:
        print("FAILED " + failure)
    print(f"{len(sources)} sources, {len(tests) + len(scripts)} tests under the rules, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
