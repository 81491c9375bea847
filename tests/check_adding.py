#!/usr/bin/env python3
"""Follows the worked examples of DEVELOPERS.md, "To add", to the letter.

Usage: check_adding.py OUT
They are applied to a copy of the tree, it is built (from the objects in OUT where
nothing has changed), and what they add must be in the site, the booklet, the CSV, at
the terminal and under the rules.
"""
import glob
import os
import re
import shutil
import subprocess
import sys
import tempfile

root = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")
COPIED = ["src", "tests", "content", "docs", "templates"]
FILES = ["Makefile", "install.mk", "DEVELOPERS.md", "README.md", ".clang-format"]
CODE = r"(`+) ?(.+?) ?\1"
UNITS = ["number", "shop", "book", "figures"]


class Failure(Exception):
    pass


# ---- the steps

def steps(text):
    """(what, groups) of each step, in their order."""
    text = text.split("\n## To add\n")[1]
    fence = r"[^`:]*:\n\n(?P<ticks>`{3,})\w*\n(?P<body>.*?\n)(?P=ticks)\n"
    forms = {
        "write": r"\nWrite `(?P<path>[^`]+)`" + fence,
        "put": r"\n(?P<where>At the beginning|At the end|By the alphabet|Behind the last `(?P<last>[^`]+)`) (?:of|in) (?:`(?P<name>[^`]+)` in )?"
               r"`(?P<path>[^`]+)`" + fence,
        "above": r"\nAbove `(?P<name>[\w-]+:)` in `(?P<path>[^`]+)`" + fence,
        "add": r"\nIn `(?P<path>[^`]+)`,(?: in the row of `(?P<row>[^`]+)`,)?"
               r"(?: in `(?P<within>[^`]+)`,)? add `(?P<new>[^`]+)` behind `(?P<old>[^`]+)`\.",
        "run": r"\nRun `(?P<path>[^`]+)`[.,]",
        "copy": r"\nCopy `(?P<path>[^`]+)` to `(?P<to>[^`]+)`\.",
    }
    found = [(match.start(), name, match.groupdict()) for name, form in forms.items()
             for match in re.finditer(form, text, re.S)]
    return [(name, groups) for _, name, groups in sorted(found, key=lambda one: one[0])]


def read(tree, path):
    with open(os.path.join(tree, path), encoding="utf-8") as file:
        return file.read()


def save(tree, path, text):
    name = os.path.join(tree, path)
    os.makedirs(os.path.dirname(name), exist_ok=True)
    with open(name, "w", encoding="utf-8") as file:
        file.write(text)


def only(path, form, text, name):
    """The one place in the text that has the form."""
    places = list(re.finditer(form, text, re.M))
    if len(places) != 1:
        raise Failure(f"{path}: '{name}' stands there {len(places)} times")
    return places[0]


def closing(text, opening):
    """Where the brace closes that opens there."""
    depth = 0
    for match in re.compile(r"[{}]").finditer(text, opening):
        depth += 1 if match.group(0) == "{" else -1
        if depth == 0:
            return match.start()
    raise Failure(f"no brace closes '{text[opening - 40:opening + 1]}'")


def body_of(path, text, function):
    """From the brace that opens a function's body to the one that closes it."""
    name = function.removesuffix("()")
    opening = only(path, rf"^\w[^;{{}}]*\b{name}\([^;{{}}]*\)\n\{{", text, function).end() - 1
    return opening, closing(text, opening)


def braces(path, text, name):
    """From behind the brace that opens what has that name to the one that closes it."""
    plain = re.escape(name.removesuffix("[]"))
    form = rf"\b{plain}\[[^\n]*\] = \{{" if name.endswith("[]") else rf"^{plain}(?: =)? \{{"
    opening = only(path, form, text, name).end() - 1
    return opening + 1, closing(text, opening)


def rows(path, text, name):
    """The rows of a table of a page, of a table of a document, or what is below a key."""
    if name.endswith(":"):
        key = only(path, rf"^{re.escape(name)}( *\{{)?$|^{re.escape(name)} *\{{", text, name)
        return key.end() + text[key.end():].startswith("\n"), None
    if path.startswith("content/"):
        head = only(path, rf"^```csv {re.escape(name)}:.*\n.*\n", text, name)
        return head.end(), text.index("```", head.end())
    head = only(path, rf"^\| {re.escape(name)} \|.*\n\|[-|]*\n", text, name)
    return head.end(), head.end() + re.match(r"(?:\|.*\n)*", text[head.end():]).end()


def put(tree, step):
    path, name, body = step["path"], step["name"], step["body"]
    text = read(tree, path)
    if not name:
        start = end = text.rindex("#endif") if path.endswith(".h") else len(text)
    elif path.endswith((".c", ".h", ".py")):
        start, end = braces(path, text, name)
    else:
        start, end = rows(path, text, name)
    at = start if step["where"] == "At the beginning" else end
    if step["where"] == "By the alphabet":
        later = [match.start() for match in re.finditer(r"^.+$", text[start:end], re.M) if match.group(0) > body]
        at = start + later[0] if later else end
    if step["last"]:
        found = text.rindex(step["last"], start, end)
        at = found + re.search(r"\n(?= {0,4}\S|\n)", text[found:]).end()
    before, after = text[:at].rstrip(" "), text[at:]
    if not name:
        before, after = before.rstrip("\n") + "\n", ("\n" if after else "") + after
    elif not before.endswith("\n"):  # the brace shares its line with what is within
        before += "\n" if before.endswith(("{", ",")) else ",\n"
        after = after.lstrip("\n")
        body += re.match(" *", body).group(0) if after[0] != " " else ""
    save(tree, path, before + body + after)


def put_above(tree, step):
    text = read(tree, step["path"])
    at = only(step["path"], rf"^ *{re.escape(step['name'])}", text, step["name"]).start()
    save(tree, step["path"], text[:at] + step["body"] + text[at:])


def add(tree, step):
    """A word to a list, as its neighbour stands in it: within ticks, behind a comma or not."""
    path, text = step["path"], read(tree, step["path"])
    start, end = 0, len(text)
    if step["row"]:
        row = only(path, rf"^\| `{re.escape(step['row'])}` \|.*$", text, step["row"])
        start, end = row.span()
    elif step["within"]:
        is_function = step["within"].endswith("()")
        start, end = (body_of if is_function else braces)(path, text, step["within"])
    place = only(path, rf"(?<![\w.])(`?){re.escape(step['old'])}(`?)(?![\w.])", text[start:end], step["old"])
    at = start + place.end()
    comma = "," if text[at:at + 1] == "," or text[:start + place.start()].endswith(", ") else ""
    save(tree, path, f"{text[:at]}{comma} {place.group(1)}{step['new']}{place.group(2)}{text[at:]}")


def follow(tree, name, step):
    if name == "write":
        save(tree, step["path"], step["body"])
    elif name == "run":
        set_lines(tree)
        run(tree, *step["path"].split())
    elif name == "copy":
        save(tree, step["to"], read(tree, step["path"]))
    else:
        {"put": put, "above": put_above, "add": add}[name](tree, step)


def set_lines(tree):
    if shutil.which("clang-format"):
        run(tree, "clang-format", "-i", *written(tree))


def written(tree):
    """The files of C that the steps write to."""
    return sorted({step["path"] for name, step in steps(read(tree, "DEVELOPERS.md"))
                   if name != "run" and step["path"].endswith((".c", ".h"))})


# ---- the copy

def run(tree, *command, status=0):
    quick = dict(os.environ, CFLAGS="-O0 -Werror")  # for make
    made = subprocess.run(command, cwd=tree, capture_output=True, text=True, env=quick)
    if made.returncode != status:
        said = "\n".join(line for line in (made.stdout + made.stderr).split("\n") if "  compile " not in line)
        raise Failure(f"{' '.join(command)}: status {made.returncode}:\n{said}")
    return made.stdout + made.stderr


def copy_tree(tree, out):
    for name in COPIED:
        shutil.copytree(os.path.join(root, name), os.path.join(tree, name),
                        ignore=shutil.ignore_patterns("__pycache__", "node_modules"))
    for name in FILES:
        shutil.copy2(os.path.join(root, name), tree)
    for folder, _, files in os.walk(os.path.join(out, "build")):
        place = os.path.join(tree, "out", "build", os.path.relpath(folder, os.path.join(out, "build")))
        if os.path.exists(os.path.join(root, "src", os.path.relpath(place, os.path.join(tree, "out", "build")))):
            copy_objects(folder, place, [name for name in files if name.endswith((".o", ".d"))])


def copy_objects(folder, place, names):
    """Their rules are written anew for the copy's own folder of outputs."""
    os.makedirs(place, exist_ok=True)
    for name in names:
        shutil.copy2(os.path.join(folder, name), place)
        if name.endswith(".d"):
            text = read(place, name)
            save(place, name, re.sub(r"^\S*?/build/", "out/build/", text, count=1))


# ---- what must be there

def must(good, words):
    if not good:
        raise Failure(words)


def check_outputs(tree):
    program = os.path.join("out", "bin", "spindlebook")
    site = read(tree, "out/site/steps-of-the-gauge.html")
    booklet = run(tree, "pdftotext", "-raw", "out/booklet.pdf", "-")
    must('<table id="window-steps"' in site, "the table is not on the site")
    must('<figure id="two-radii"' in site and "broken line" in site, "the figure is not on the site")
    must("Gauge steps in each pull window" in booklet, "the table is not in the booklet")
    must("broken line: the middle of the cord" in booklet, "the figure is not in the booklet")
    must("steps inside" in read(tree, "out/tables/window-steps.csv"), "the table has no CSV")
    must("steps-of-the-gauge.html" in read(tree, "out/site/index.html"), "the page is in no list")
    must("Gauge steps" in read(tree, "out/site/find.html"), "the table is not in the index")
    forms = run(tree, "pdftotext", "-raw", "out/forms.pdf", "-")
    must("What is stamped on the rings" in forms, "the form is not in forms.pdf")
    must("What is stamped on the rings" in read(tree, "out/site/form-11-ring-numbers.html"), "the form is not on the site")
    said = run(tree, program, "pull", "--lines", "1820cN", "1830cN", "1815cN")
    must("mean\t18.217\tN" in said, f"the unit is not known at the terminal: {said}")
    said = run(tree, program, "check", "--set", "drum.width=3m", status=1)
    must("drum.width" in said and "not 3 m" in said, f"the setting is not checked: {said}")
    run(tree, program, "book", "--set", "paper.card=b6", "--only", "card", "--out", "b6")
    size = re.search(r"Page size: *([\d.]+) x ([\d.]+)", run(tree, "pdfinfo", "b6/card.pdf"))
    for found, mm in zip(sorted(size.groups(), key=float), (125, 176)):
        must(abs(float(found) - mm * 72 / 25.4) < 0.01, f"the card is not B6: {size.group(0)}")


def check_faults(tree):
    """Nothing but new names is new in what the faults say."""
    for path in glob.glob("tests/faults/*/expected", root_dir=tree):
        said = read(tree, path)
        if path == "tests/faults/drum-too-wide/expected":
            must("must lie between 1 mm and 1 m, not 3 m" in said, f"{path}: {said}")
            continue
        said = said.replace(", half-letter or b6", " or half-letter")
        said = said.replace("A5 or half letter or B6", "A5 or half letter")
        said = said.replace("write width if that is meant; ", "")
        for name in (", cN", ", width"):
            said = said.replace(name, "")
        must(said == read(root, path), f"{path}: another difference than new names:\n{said}")


def check_tests(tree):
    run(tree, "make", "-s", *[f"out/build/tests/{name}" for name in UNITS])
    for name in UNITS:
        run(tree, f"out/build/tests/{name}")
    for name in ("check_rules.py", "check_words.py", "check_agreement.py", "check_figures.py"):
        run(tree, f"tests/{name}", "out")


def main():
    out = os.path.abspath(sys.argv[1])
    text = read(root, "DEVELOPERS.md")
    found = steps(text)
    with tempfile.TemporaryDirectory() as tree:
        try:
            copy_tree(tree, out)
            for name, step in found:
                follow(tree, name, step)
            check_outputs(tree)
            check_faults(tree)
            check_tests(tree)
        except Failure as failure:
            print(f"FAILED {failure}")
            return 1
    paragraphs = len(re.findall(r"\n(?:(?:Write|In|Copy|Run|Above)|(?:At the beginning|At the end|By the alphabet) (?:of|in)|Behind the last) `", text.split("\n## To add\n")[1]))
    if paragraphs != len(found):
        print(f"FAILED {paragraphs} steps are written, {len(found)} were understood")
        return 1
    print(f"{len(found)} steps followed, 8 things added and found")
    return 0


if __name__ == "__main__":
    sys.exit(main())
