#!/usr/bin/env python3
"""A book of 300 made-up pages: the list of pages is whole on the first page and short on
the others, every link leads somewhere, and the booklet has them all.
Usage: check_long_book.py OUT"""
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
COUNT = 300


def listed(html):
    """The pages that the list of pages names, in order."""
    pages = re.search(r'<nav class="pages".*?</nav>', html, re.S).group()
    return re.findall(r'<li><a href="([^"]+)"', pages)


def expected(number):
    """What the list on a page holds; the card's page stands last."""
    files = ["index.html"] + ["page-%05d.html" % i for i in range(1, COUNT)] + ["card.html"]
    made = ["find.html"]
    if number == 0:
        return files + made
    near = files[max(0, number - 5):number + 6]
    return (near if "index.html" in near else ["index.html"] + near) + made


def dead_links_in(html):
    """Links within a file that lead nowhere."""
    names = set(re.findall(r' id="([^"]+)"', html))
    return [link for link in re.findall(r'href="#([^"]+)"', html) if link not in names]


def main():
    program = pathlib.Path(sys.argv[1]).resolve() / "bin" / "spindlebook"
    failures, looked = [], 0
    with tempfile.TemporaryDirectory() as work:
        content, out = pathlib.Path(work) / "content", pathlib.Path(work) / "out"
        subprocess.run([HERE / "bench" / "make_pages.py", HERE.parent / "content", content,
                        str(COUNT)], check=True)
        subprocess.run([program, "book", "--content", content, "--out", out, "--templates",
                        HERE.parent / "templates"], check=True, stdout=subprocess.DEVNULL)
        for number in (0, 1, 5, 6, 7, 150, COUNT - 5, COUNT - 1):
            name = "page-%05d.html" % number if number else "index.html"
            looked += 1
            if listed((out / "site" / name).read_text()) != expected(number):
                failures.append("%s lists %s" % (name, listed((out / "site" / name).read_text())))
        subprocess.run([HERE / "check_links.py", out], check=True)
        failures += dead_links_in((out / "spindlebook.html").read_text())
        text = subprocess.run(["pdftotext", out / "booklet.pdf", "-"], check=True,
                              stdout=subprocess.PIPE, text=True).stdout
        for number in range(COUNT):
            looked += 1
            if "Made-up figures %d\n" % number not in text:
                failures.append("page %d is not in the booklet" % number)
    for failure in failures[:20]:
        print("FAILED", failure)
    print("%d things looked at in a long book, %d failures" % (looked, len(failures)))
    sys.exit(bool(failures))


main()
