#!/usr/bin/env python3
"""The booklet is read aloud in the order in which it was written.

Usage: check_reading_order.py OUT
Headings and paragraphs of content/, as cmark reads them, must stand in the structure of
booklet.pdf, as pdfinfo reads it, whole and one after the other; captions of tables typed by
hand too. What stands at the foot of each sheet is not read.
"""
import glob
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ET

LEAST_BLOCKS = 400  # of the demo: the count must not fall


def run(*command):
    done = subprocess.run(command, capture_output=True, check=True)
    assert not done.stderr, done.stderr
    return done.stdout.decode()


def squeezed(text):
    """Without blanks: where lines end is not the question."""
    return "".join(text.replace("\u00a0", " ").split())


def text_of(node):
    """The words of an inline tree."""
    name = node.tag.rsplit("}", 1)[-1]
    if name in ("softbreak", "linebreak"):
        return " "
    if name in ("text", "code"):
        return node.text or ""
    return "".join(text_of(child) for child in node)


def blocks(node):
    """Texts of headings, paragraphs, cautions and captions, in order."""
    for child in node:
        name = child.tag.rsplit("}", 1)[-1]
        if name in ("heading", "paragraph"):
            yield text_of(child)
        elif name == "code_block":
            info = child.get("info", "")
            if info.startswith("caution "):
                yield info.split(" ", 1)[1]
                yield from blocks(markdown(child.text))
            elif info.startswith("csv "):
                yield info.split(":", 1)[1].strip()
        else:
            yield from blocks(child)


def markdown(text):
    made = subprocess.run(["cmark", "-t", "xml"], input=text.encode(), capture_output=True, check=True)
    return ET.fromstring(made.stdout)


def spoken(out):
    """Every text of the structure, in its order, as one."""
    lines = run("pdfinfo", "-struct-text", os.path.join(out, "booklet.pdf")).split("\n")
    texts = [line.strip()[1:-1] for line in lines if re.fullmatch(r'\s+".*"', line)]
    return squeezed("".join(texts))


def main():
    out, failures, count = sys.argv[1], 0, 0
    here = os.path.dirname(os.path.abspath(__file__))
    said, at = spoken(out), 0
    for path in sorted(glob.glob(os.path.join(here, "..", "content", "[0-9]*.md"))):
        with open(path, encoding="utf-8") as file:
            for text in blocks(markdown(file.read())):
                found = said.find(squeezed(text), at)
                count += 1
                if found < 0:
                    print(f"FAILED {os.path.basename(path)}: '{text[:60]}' is not said behind what stands before it")
                    failures += 1
                else:
                    at = found + len(squeezed(text))
    if "INVENTEDEXAMPLE:notthelimitsofanyreallathe" in said[len(said) // 20:]:
        print("FAILED the notice at the foot of the sheets is read aloud")
        failures += 1
    if count < LEAST_BLOCKS:
        print(f"FAILED only {count} headings and paragraphs")
        failures += 1
    print(f"{count} headings and paragraphs in their order, {failures} failures")
    return failures > 0


if __name__ == "__main__":
    sys.exit(main())
