#!/usr/bin/env python3
"""A book whose every text tries to be something else: no mark-up and no attribute of its
own in the HTML, no formula in a CSV cell, links only to pages and https:, http: and
mailto: addresses. Usage: check_untrusted.py OUT"""
import csv
import glob
import html.parser
import os
import re
import shutil
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
FORMULA, MARK_UP = "=HYPERLINK(\"https://x.example\")", "\"'><script>alert(1)</script><b onx=\"&lt;"
TEXTS = ["lathe.name", "lathe.workshop", "lathe.notice", "limits.source", "drum.name",
         "cord.name", "gauge.name", "limits.bands.1.page", "limits.bands.2.page"]
PAGE = """# Title %(mark)s

## Heading %(mark)s

Words %(mark)s and `code %(mark)s` *and %(mark)s* [link %(mark)s](https://x.example/?a="b"&c='d'<e)

[b](<https://x.example/" onclick="alert(1)> "title") [c](mailto:a@x.example?subject="x)

```caution Title %(mark)s
Body %(mark)s
```

```csv words: Caption %(mark)s
"head %(quoted)s","=1+1"
"%(quoted)s","@SUM(1)"
```

```
literal %(mark)s
```
"""
REFUSED = ["javascript:alert(1)", "JavaScript:alert(1)", "<java&#9;script:alert(1)>",
           "<&#1;javascript:alert(1)>", "&#106;avascript:alert(1)", "vbscript:x", "data:text/html,x",
           "file:///etc/passwd", "blob:x", "//x.example/y", "\\\\\\\\x.example"]


class Reader(html.parser.HTMLParser):
    """Every tag, with its attributes."""

    def __init__(self):
        super().__init__()
        self.tags = []

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, attributes))


def tags_of(path):
    reader = Reader()
    with open(path, encoding="utf-8") as file:
        reader.feed(file.read())
    return reader.tags


def is_safe_link(target):
    return re.match(r"(https|http|mailto):|[A-Za-z0-9._%-]*(#[A-Za-z0-9._%-]*)?$", target)


def wrong_tag(tag, attributes, known):
    if tag not in known:
        return "an element <%s> that no page has otherwise" % tag
    for name, value in attributes:
        if name.startswith("on"):
            return "an attribute %s" % name
        if tag == "a" and name == "href" and not is_safe_link(value):
            return "a link to %s" % value
    return None


def check_html(folder, known):
    """known: the elements of a book of plain words."""
    wrong, looked = [], 0
    for path in glob.glob(folder + "/site/*.html"):
        for tag, attributes in tags_of(path):
            looked += 1
            problem = wrong_tag(tag, attributes, known)
            if problem:
                wrong.append("%s: %s" % (os.path.basename(path), problem))
    return looked, wrong


def check_csv(folder):
    wrong, looked = [], 0
    for path in glob.glob(folder + "/tables/*.csv"):
        with open(path, encoding="utf-8", newline="") as file:
            for row in csv.reader(file):
                for cell in row:
                    looked += 1
                    if re.match(r"[=@\t\r]|[+-](?!\d+(\.\d+)?$)", cell):
                        wrong.append("%s: the cell %r" % (os.path.basename(path), cell))
    return looked, wrong


class Book:
    def __init__(self, work, out):
        self.work = work
        self.program = os.path.join(os.path.abspath(out), "bin", "spindlebook")
        self.content = os.path.join(work, "content")
        shutil.copytree(os.path.join(HERE, "faults", "base"), self.content)
        self.copy_log("readings.csv")

    def copy_log(self, name):
        """The demo's log, with a formula in every note."""
        with open(os.path.join(HERE, "..", "content", name), encoding="utf-8",
                  newline="") as file:
            rows = list(csv.reader(file))
        for row in rows[1:]:
            row[rows[0].index("note")] = FORMULA
        with open(os.path.join(self.content, name), "w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(rows)

    def make(self, folder, page, text):
        with open(os.path.join(self.content, "10-page.md"), "w", encoding="utf-8") as file:
            file.write(page)
        words = [self.program, "book", "--content", self.content, "--templates",
                 os.path.join(HERE, "..", "templates"), "--out", os.path.join(self.work, folder)]
        for key in TEXTS:
            words += ["--set", "%s=%s" % (key, text)]
        return subprocess.run(words, stderr=subprocess.PIPE, text=True, check=False)


def plain_page():
    return PAGE % {"mark": "mark", "quoted": "mark"}


def hostile_page():
    mark = "\\" + MARK_UP.replace("<", "\\<")
    return PAGE % {"mark": mark, "quoted": MARK_UP.replace('"', '""')}


def check_links(book):
    wrong = []
    for target in REFUSED:
        made = book.make("links", "# T\n\n[x](%s)\n" % target, "plain")
        if made.returncode != 1 or "10-page.md:3:1: " not in made.stderr:
            wrong.append("a link to %s: status %d: %s" % (target, made.returncode, made.stderr))
    return len(REFUSED), wrong


def main():
    with tempfile.TemporaryDirectory() as work:
        book = Book(work, sys.argv[1])
        made = [book.make("plain", plain_page(), "plain"),
                book.make("formula", plain_page(), FORMULA),
                book.make("mark-up", hostile_page(), MARK_UP)]
        wrong = [run.stderr for run in made if run.returncode != 0]
        known = {tag for path in glob.glob(work + "/plain/site/*.html")
                 for tag, _ in tags_of(path)}
        looked = 0
        for more, bad in (check_html(work + "/mark-up", known),
                          check_html(work + "/formula", known), check_csv(work + "/formula"),
                          check_csv(work + "/mark-up"), check_links(book)):
            looked += more
            wrong += bad
    for line in wrong:
        print("FAILED", line)
    print("%d elements, cells and links of hostile texts, %d failures" % (looked, len(wrong)))
    return 1 if wrong else 0


sys.exit(main())
