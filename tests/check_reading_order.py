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

import tally
from tally import check

LEAST_BLOCKS = 400  # of the demo: the count must not fall
HOLD = {"with-limits", "in-celsius", "if-running"}  # of the conditions, in the demo


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
    lines = tally.output("pdfinfo", "-struct-text", os.path.join(out, "booklet.pdf")).decode().split("\n")
    texts = [line.strip()[1:-1] for line in lines if re.fullmatch(r'\s+".*"', line)]
    return re.sub(r"\(p\.\d+\)", "", squeezed("".join(texts)))  # behind links, in print alone


def main():
    out, count = sys.argv[1], 0
    said, at = spoken(out), 0
    for path in sorted(glob.glob("content/[0-9]*.md", root_dir=tally.root)):
        for text in blocks(markdown(tally.read(path))):
            condition = re.match(r"\{([a-z-]+)\}", text)
            if condition and condition[1] not in HOLD:
                continue
            text = text[condition.end():] if condition else text
            found = said.find(squeezed(text), at)
            count += 1
            check(found >= 0, f"{path}: '{text[:60]}' is not said behind what stands before it")
            at = max(at, found + len(squeezed(text)) if found >= 0 else 0)
    check("INVENTEDEXAMPLE:notthelimitsofanyreallathe" not in said[len(said) // 20:],
          "the notice at the foot of the sheets is read aloud")
    check(count >= LEAST_BLOCKS, f"only {count} headings and paragraphs")
    return tally.end(f"{count} headings and paragraphs in their order")


if __name__ == "__main__":
    sys.exit(main())
