#!/usr/bin/env python3
"""A book whose every text tries to be something else: no mark-up and no attribute of its
own in the HTML, no formula in a CSV cell, links only to pages and https:, http: and
mailto: addresses. Usage: check_untrusted.py OUT"""
import base64
import csv
import glob
import hashlib
import html.parser
import io
import os
import re
import shutil
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
FORMULA, MARK_UP = "=HYPERLINK(\"https://x.example\"); =1+1;+cmd", "\"'><script>alert(1)</script><b onx=\"&lt;"
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
FORM = """# Form

```boxes
Label %(mark)s
Label = value %(mark)s
Tick: □ %(mark)s
Lathe = {lathe}
```

```lines
Line %(mark)s / %(mark)s
```

```grid words: Caption %(mark)s
"head %(quoted)s","=1+1"
"%(quoted)s","@SUM(1)"
```

```graph paper: Caption %(mark)s
across: %(mark)s
up: drag
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
        if name.startswith("on") or name == "style":
            return "an attribute %s" % name
        if tag == "a" and name == "href" and not is_safe_link(value):
            return "a link to %s" % value
    return None


def pages_in(folder):
    return glob.glob(folder + "/site/*.html") + [folder + "/spindlebook.html"]


def hash_of(text):
    return "'sha256-%s'" % base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def wrong_policy(text, tags):
    """The policy stands before all that is loaded, allows nothing but the page's own scripts
    and styles by their hashes (https://www.w3.org/TR/CSP3/), and none of them is missing."""
    loads = [(tag, dict(attributes)) for tag, attributes in tags
             if tag in ("link", "script", "style", "iframe", "img", "object")
             or "http-equiv" in dict(attributes)]
    tag, first = loads[0]
    policy = first.get("content", "")
    if tag != "meta" or first.get("http-equiv") != "Content-Security-Policy":
        return "a <%s> stands before the policy" % tag
    allowed = dict((part.split() + [""])[:1] + [part.split()[1:]] for part in policy.split(";"))
    for word in sum(allowed.values(), []):
        if not re.fullmatch(r"'none'|'self'|file:|'wasm-unsafe-eval'|'sha256-[\w+/=]+'", word):
            return "the policy allows %s" % word
    if allowed["default-src"] != ["'none'"] or "'self'" in allowed.get("script-src", []):
        return "the policy is too wide: %s" % policy
    if [each for each in loads[1:] if "src" in each[1] or "http-equiv" in each[1]]:
        return "something is loaded from elsewhere"
    hashes = [hash_of(script) for script in re.findall(r"<script>(.*?)</script>", text, re.S)]
    if sorted(hashes) != sorted(set(allowed.get("script-src", [])) - {"'wasm-unsafe-eval'"}):
        return "the scripts are not those of the policy"
    return None


def check_policies(folder):
    wrong = []
    for path in pages_in(folder):
        with open(path, encoding="utf-8") as file:
            text = file.read()
        problem = wrong_policy(text, tags_of(path))
        if problem:
            wrong.append("%s: %s" % (path, problem))
    return len(pages_in(folder)), wrong


def check_html(folder, known):
    """known: the elements of a book of plain words."""
    wrong, looked = [], 0
    for path in pages_in(folder):
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
            text = file.read()
        cells = [cell for row in csv.reader(io.StringIO(text)) for cell in row]
        # and as readers part it that know of no quotes, or of other commas
        cells += [cell.lstrip('" ') for cell in re.split(r"[;\t\r\n]", text)]
        for cell in cells:
            looked += 1
            if re.match(r"[=@\t\r]|[+-](?!\d+(\.\d+)?(,|$))", cell):
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
        for name, words in zip(("10-page.md", "form-01-words.md"), page):
            with open(os.path.join(self.content, name), "w", encoding="utf-8") as file:
                file.write(words)
        words = [self.program, "book", "--content", self.content, "--templates",
                 os.path.join(HERE, "..", "templates"), "--out", os.path.join(self.work, folder)]
        for key in TEXTS:
            words += ["--set", "%s=%s" % (key, text)]
        return subprocess.run(words, stderr=subprocess.PIPE, text=True, check=False)


def plain_pages():
    return [text % {"mark": "mark", "quoted": "mark"} for text in (PAGE, FORM)]


def hostile_pages():
    mark, quoted = "\\" + MARK_UP.replace("<", "\\<"), MARK_UP.replace('"', '""')
    return PAGE % {"mark": mark, "quoted": quoted}, FORM % {"mark": MARK_UP, "quoted": quoted}


def check_links(book):
    wrong = []
    for target in REFUSED:
        made = book.make("links", ["# T\n\n[x](%s)\n" % target], "plain")
        if made.returncode != 1 or "10-page.md:3:1: " not in made.stderr:
            wrong.append("a link to %s: status %d: %s" % (target, made.returncode, made.stderr))
    return len(REFUSED), wrong


def make_all(book):
    made = [book.make("plain", plain_pages(), "plain"),
            book.make("formula", plain_pages(), FORMULA),
            book.make("mark-up", hostile_pages(), MARK_UP)]
    return [run.stderr for run in made if run.returncode != 0]


def check_all(book, work, out):
    known = {tag for path in pages_in(work + "/plain") for tag, _ in tags_of(path)}
    looked, wrong = 0, []
    for more, bad in (check_html(work + "/mark-up", known),
                      check_html(work + "/formula", known), check_csv(work + "/formula"),
                      check_policies(work + "/mark-up"), check_policies(out),
                      check_csv(work + "/mark-up"), check_links(book)):
        looked += more
        wrong += bad
    return looked, wrong


def main():
    with tempfile.TemporaryDirectory() as work:
        book = Book(work, sys.argv[1])
        looked, wrong = 0, make_all(book)
        if not wrong:
            looked, wrong = check_all(book, work, sys.argv[1])
    for line in wrong:
        print("FAILED", line)
    print("%d elements, cells and links of hostile texts, %d failures" % (looked, len(wrong)))
    return 1 if wrong else 0


sys.exit(main())
