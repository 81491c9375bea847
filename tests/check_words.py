#!/usr/bin/env python3
"""One word for one thing: content/93-words.md against settings, logs, pages and messages.

Usage: check_words.py OUT
Every key of the settings and every column of the logs is explained there or is plain
English; every key named there is one; and the words that others use for our things
stand nowhere else, but where a page tells that they mean the same.
"""
import csv
import glob
import re
import sys

import tally
from tally import check, read, root

GLOSSARY = "content/93-words.md"

# Keys and columns that need no explaining.
PLAIN = set("name workshop from to page latitude height drum-sizes booklet card thickness date note "
            "load temperature first-temperature second-temperature by "
            "id corrects minutes speed masses certificate".split())

# Where a page or a remark tells what others call a thing.
TOLD = {
    "content/20-read-your-manual.md": {"breakaway torque", "rolling torque", "rotating torque"},
    "content/settings.yaml": {"rolling", "rotating"},
    "content/00-start.md": {"force gauge"}, "README.md": {"force gauge"},
}
ENGLISH = {"line", "uncertainty"}  # of text or of pull; the GUM's own word


def fence(text, name):
    """The rows of a csv block without their heads."""
    body = re.search(rf"```csv {name}: .*\n((?:.*\n)*?)```", text).group(1)
    return list(csv.reader(body.split("\n")[:-1]))[1:]


def rows_in_code(text, head):
    table = re.search(rf"^\| {head} \|.*\n\|[-|]+\n((?:\|.*\n)+)", text, re.M).group(1)
    return [name for line in table.split("\n") if line for name in re.findall(r"`([^`]+)`", line.split("|")[1])]


def check_keys(words):
    formats = read("docs/formats.md")  # held against the code by tests/unit/book/formats.c
    keys = {key.split(".")[-1] for key in rows_in_code(formats.split("## content/settings.yaml")[1], "key")}
    columns = set(rows_in_code(formats.split("## content/gauge-check.csv")[1], "column")
                  + rows_in_code(formats.split("## content/readings.csv")[1], "column"))
    named = {key for row in words for key in row[2].split()}
    explained = {row[0] for row in words}
    for key in sorted(keys - named - PLAIN):
        check(False, f"the key {key} is neither explained nor plain")
    for key in sorted(named - keys):
        check(False, f"{key} is explained, and no key")
    for column in sorted(columns - PLAIN):
        if not {column, column.removesuffix("s")} & explained:
            check(False, f"the column {column} is neither explained nor plain")
    for word in sorted(PLAIN - keys - columns):
        check(False, f"{word} is called plain and is no key")
    return len(keys | columns)


def check_order(words):
    heads = [row[0] for row in words]
    if heads != sorted(heads, key=str.lower) or len(set(heads)) != len(heads):
        check(False, "the words are not in order, or one stands twice")
    for word, meaning, _ in words:
        if not meaning or meaning.rstrip(".") != meaning:
            check(False, f"{word}: its meaning is blank or ends in a full stop")


def prose(path):
    """What people read of a file: of C what stands in quotes, of pages what is no code."""
    text = read(path)
    if path.endswith(".c"):
        text = re.sub(r"^#include.*$", "", text, flags=re.M)
        return "\n".join(re.findall(r'"((?:[^"\\\n]|\\.)*)"', text))
    return text


def check_others(others):
    theirs = {word.strip() for row in others for word in row[0].split(";")}
    read_by_people = (sorted(glob.glob("content/*.md", root_dir=root)) + ["content/settings.yaml", "README.md",
                      "templates/bench.html"] + sorted(glob.glob("src/*/*.c", root_dir=root)) + ["src/cli/main.c"])
    for path in read_by_people:
        if path == GLOSSARY:
            continue
        text = " ".join(prose(path).split())
        for word in sorted(theirs - TOLD.get(path, set()) - ENGLISH):
            if re.search(rf"\b{re.escape(word)}s?\b", text, re.I):
                check(False, f"{path}: '{word}'; {GLOSSARY} has another word for it")
    return len(theirs) * len(read_by_people)


def main():
    text = read(GLOSSARY)
    words, others = fence(text, "words"), fence(text, "other-words")
    count = check_keys(words) + check_others(others)
    check_order(words)
    explained = {row[0] for row in words}
    for row in others:
        check(row[1] in explained, f"'{row[1]}' is said to be ours and is not explained")
    return tally.end(f"{len(words)} words, {count} keys and places looked at")


if __name__ == "__main__":
    sys.exit(main())
