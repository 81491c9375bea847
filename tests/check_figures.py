#!/usr/bin/env python3
"""Every figure of the site and of the booklet says the same words, and is described.

Usage: check_figures.py OUT
A figure of the site has a title, a description and a caption, and the booklet carries
the same description; its texts are the texts
of the booklet's figure, in the same order.
"""
import glob
import html.parser
import json
import os
import re
import subprocess
import sys

LEAST_FIGURES = 17  # of the demo


class Figures(html.parser.HTMLParser):
    """The figures of one page: name, title, description, caption and texts."""

    def __init__(self):
        super().__init__()
        self.found, self.into = [], None

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        if tag == "figure":
            self.found.append({"name": attributes["id"], "title": "", "desc": "", "texts": [],
                               "figcaption": "", "role": None})
        if not self.found:
            return
        if tag == "svg":
            self.found[-1]["role"] = attributes.get("role")
        if tag == "text":
            self.found[-1]["texts"].append("")
        if tag in ("title", "desc", "figcaption", "text"):
            self.into = tag

    def handle_endtag(self, tag):
        if tag == self.into:
            self.into = None

    def handle_data(self, data):
        if self.into == "text":
            self.found[-1]["texts"][-1] += data
        elif self.into:
            self.found[-1][self.into] += data


def run(*command):
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    if done.stderr:
        sys.exit(f"FAILED {command[0]} complains: {done.stderr}")
    return done.stdout


def plain(text):
    return " ".join(text.replace("\u00a0", " ").split())


def site_figures(out):
    figures = []
    for path in sorted(glob.glob(os.path.join(out, "site", "*.html"))):
        parser = Figures()
        with open(path, encoding="utf-8") as file:
            parser.feed(file.read())
        figures += parser.found
    return figures


def prints(out):
    return [os.path.join(out, name) for name in ("booklet.pdf", "forms.pdf")]


def printed_figures(out):
    """The words below each Figure of the structure."""
    lines = "\n".join(run("pdfinfo", "-struct-text", path) for path in prints(out)).split("\n")
    figures, inside = [], None
    for line in lines:
        depth = len(line) - len(line.lstrip())
        if re.fullmatch(r"Figure( \(\w+\))?:?", line.strip()):
            figures.append("")
            inside = depth
        elif inside is not None and depth > inside:
            figures[-1] += " " + line.strip().strip('"')
        else:
            inside = None
    return [plain(text) for text in figures]


def alternatives(out):
    """The descriptions that the booklet's structure carries."""
    objects = [json.loads(run("qpdf", "--json", "--json-key=qpdf", path)) for path in prints(out)]
    values = [entry.get("value") for file in objects for entry in file["qpdf"][1].values()]
    return {plain(value["/Alt"][2:]) for value in values
            if isinstance(value, dict) and value.get("/S") == "/Figure"}


def main():
    out, failures = sys.argv[1], []
    site, printed, described = site_figures(out), printed_figures(out), alternatives(out)
    if len(site) < LEAST_FIGURES:
        failures.append(f"only {len(site)} figures on the site")
    if len(site) != len(printed):
        failures.append(f"{len(site)} figures on the site, {len(printed)} in the booklet")
    for figure in site:
        for part in ("title", "desc", "figcaption"):
            if not figure[part]:
                failures.append(f"{figure['name']}: no {part}")
        if figure["role"] != "img":
            failures.append(f"{figure['name']}: its drawing has no role")
        if plain(" ".join(figure["texts"])) not in printed:
            failures.append(f"{figure['name']}: the booklet says other words")
        if plain(figure["desc"]) not in described:
            failures.append(f"{figure['name']}: its description is not in the booklet")
    for failure in failures:
        print(f"FAILED {failure}")
    print(f"{len(site)} figures, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
