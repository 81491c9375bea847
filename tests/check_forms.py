#!/usr/bin/env python3
"""The forms as they come from the printer: each one sheet, A4 or letter, with its words,
the workshop's own numbers, and rows that a pencil can fill.

Usage: check_forms.py OUT
Pages are rendered by poppler's pdftoppm in black and white, without any grey; the numbers
are those of tests/oracle.py; the words are those of the site's pages.
"""
import glob
import html
import os
import re
import shutil
import sys
import tempfile

import oracle
import site_tables
import tally
from tally import check

CONTENT = os.path.join(tally.root, "content")
SIZES = {"a5": (210.0, 297.0), "half-letter": (215.9, 279.4)}  # mm: ISO 216; ANSI/ASME Y14.1
LEAST_ROW = 9.0  # mm, as docs/formats.md says
DPI = 200


def squeeze(text):
    return " ".join(html.unescape(text).replace("\u00a0", " ").split())


def page_text(path, page):
    return squeeze(tally.output("pdftotext", "-raw", "-f", str(page), "-l", str(page), path, "-").decode())


def rows_of_black(path, page):
    """The page in black and white: for each row of pixels its longest run of ink, in mm."""
    made = tally.output("pdftoppm", "-mono", "-r", str(DPI), "-f", str(page), "-l", str(page), path)
    head = re.match(rb"P4\s(\d+) (\d+)\s", made)
    width, height = int(head[1]), int(head[2])
    stride = (width + 7) // 8
    for y in range(height):
        row = made[head.end() + y * stride:head.end() + (y + 1) * stride]
        bits = bin(int.from_bytes(b"\1" + row, "big"))[3:3 + width]
        yield max(map(len, bits.split("0"))) * 25.4 / DPI


def lines_across(path, page, least):
    """Where (mm from the top) lines lie that are at least so long."""
    found = []
    for y, run_length in enumerate(rows_of_black(path, page)):
        if run_length >= least:
            if not found or y - found[-1][1] > 2:
                found.append([y, y])
            found[-1][1] = y
    return [(first + last) / 2 * 25.4 / DPI for first, last in found]


def check_rows(path, page, name, wanted):
    """As many rows of 9 mm or more, between lines over the whole width, as the grids have."""
    lines = lines_across(path, page, 160)
    high = [b - a for a, b in zip(lines, lines[1:]) if b - a >= LEAST_ROW - 0.15]
    check(len(high) >= wanted, f"{name}: {len(high)} rows of {LEAST_ROW} mm, not {wanted}")


def site_words(out, name):
    """Labels, heads, captions, cautions and paragraphs of a form's page on the site."""
    with open(os.path.join(out, "site", name + ".html"), encoding="utf-8") as file:
        main = re.search(r"<main.*?<nav class=\"turn\"", file.read(), re.S)[0]
    main = re.sub(r"<svg.*?</svg>", "", main, flags=re.S)
    found = re.findall(r"<(dt|h1|caption|p|th|figcaption)\b[^>]*>(.*?)</\1>", main, re.S)
    words = [squeeze(re.sub(r"<span class=\"unit\">.*?</span>|<[^>]+>", "", text)) for _, text in found]
    return [text for text in words if text and "On this page" not in text]


def check_form(out, path, page, name, tables):
    text = page_text(path, page)
    for words in site_words(out, name):
        check(words.replace(" ", "") in text.replace(" ", ""), f"{name}: '{words}' is not on its sheet")
    check("INVENTED EXAMPLE" in text, f"{name}: the notice is not on its sheet")
    check(re.search(r"Settings [0-9a-f]{8}, spindlebook [0-9.]+\.", text), f"{name}: no fingerprint on its sheet")
    check("Millrace Yard" in text, f"{name}: the workshop is not on its sheet")
    grids = [table for table in tables if table.page == name + ".html"]
    check_rows(path, page, name, sum(len(table.rows) for table in grids))
    return text


def check_numbers(texts, replacements):
    """Window and radius of the lathe's own band, worked out by the oracle."""
    shop = oracle.Shop(oracle.read_settings(os.path.join(CONTENT, "settings.yaml"), replacements))
    own = [row for row in oracle.pull_windows(shop, card=True)]
    low, aim, high = (sorted(cell[1])[0] for cell in own[-1][1:4])
    for number in ("04", "05", "08", "09"):
        for pull in (low, aim, high):
            check(f"{pull} N" in texts[number], f"form {number}: {pull} N is not on its sheet")
    check(f"{(62 + 0.8) / 2:.3f} mm" in texts["04"], "form 04: the radius is not on its sheet")


def check_paper(out, program, booklet, names):
    with tempfile.TemporaryDirectory() as made:
        setting = f"paper.booklet={booklet}"
        tally.output(program, "book", "--out", made, "--set", setting, "--only", "forms", "--only", "site")
        path = os.path.join(made, "forms.pdf")
        info = tally.output("pdfinfo", path).decode()
        width, height = (float(n) * 25.4 / 72 for n in re.search(r"Page size: +(\S+) x (\S+)", info).groups())
        check(abs(width - SIZES[booklet][0]) < 0.1 and abs(height - SIZES[booklet][1]) < 0.1,
              f"{booklet}: sheets of {width:.1f} x {height:.1f} mm")
        check(f"Pages: {len(names)}" in squeeze(info), f"{booklet}: not a sheet for each of {len(names)} forms")
        check("Tagged: yes" in squeeze(info), "the forms are not tagged")
        check(re.search(r"Title: +.*: forms", info), "forms.pdf has no title")
        tables = site_tables.html_tables(os.path.join(made, "site"))
        texts = {name[5:7]: check_form(made, path, page, name, tables) for page, name in enumerate(names, 1)}
        check_numbers(texts, [setting])


def check_without_limits(program):
    """The manual is lost: no number stands where a limit would, and the forms are made."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(CONTENT, os.path.join(folder, "content"))
        settings = os.path.join(folder, "content", "settings.yaml")
        with open(settings, encoding="utf-8") as file:
            text = file.read()
        start, end = text.index("\nlimits:\n"), text.index("\ndrum:\n")
        with open(settings, "w", encoding="utf-8") as file:
            file.write(text[:start] + "\nlimits:\n  on-file: none\n" + text[end:])
        made = os.path.join(folder, "made")
        tally.output(program, "book", "--content", os.path.join(folder, "content"), "--out", made, "--only", "forms")
        text = squeeze(tally.output("pdftotext", "-raw", os.path.join(made, "forms.pdf"), "-").decode())
        check(text.count("no limit on file") >= 20, "the forms do not say that there is no limit")
        for number in ("14.40", "18.40", "22.35", "0.45", "0.70"):
            check(number not in text, f"{number} stands on a form though there are no limits")


def check_structure(out, names):
    """Heads of grids are heads to one who listens, and the outline names every form."""
    path = os.path.join(out, "forms.pdf")
    structure = tally.output("pdfinfo", "-struct-text", path).decode()
    for kind in ("H1", "Table", "TH", "TD", "Caption", "Figure"):
        check(re.search(rf"^ *{kind}\b", structure, re.M), f"no {kind} in the structure of forms.pdf")
    objects = tally.output("qpdf", "--json", "--json-key=outlines", path).decode()
    check(objects.count('"title"') == len(names), "the outline does not name every form")


def main():
    out = os.path.abspath(sys.argv[1])
    names = sorted(os.path.basename(path)[:-3] for path in glob.glob(os.path.join(CONTENT, "form-*.md")))
    check(len(names) >= 10, f"only {len(names)} forms")
    for booklet in SIZES:
        check_paper(out, os.path.join(out, "bin", "spindlebook"), booklet, names)
    check_without_limits(os.path.join(out, "bin", "spindlebook"))
    check_structure(out, names)
    return tally.end(f"{tally.looked} looks at {len(names)} forms on two papers")


if __name__ == "__main__":
    sys.exit(main())
