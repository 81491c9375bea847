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
import sys

import tally
from tally import check

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
    lines = "\n".join(tally.output("pdfinfo", "-struct-text", path).decode() for path in prints(out)).split("\n")
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
    objects = [json.loads(tally.output("qpdf", "--json", "--json-key=qpdf", path)) for path in prints(out)]
    values = [entry.get("value") for file in objects for entry in file["qpdf"][1].values()]
    return {plain(value["/Alt"][2:]) for value in values
            if isinstance(value, dict) and value.get("/S") == "/Figure"}


def main():
    out = sys.argv[1]
    site, printed, described = site_figures(out), printed_figures(out), alternatives(out)
    check(len(site) >= LEAST_FIGURES, f"only {len(site)} figures on the site")
    check(len(site) == len(printed), f"{len(site)} figures on the site, {len(printed)} in the booklet")
    for figure in site:
        name = figure["name"]
        for part in ("title", "desc", "figcaption"):
            check(figure[part], f"{name}: no {part}")
        check(figure["role"] == "img", f"{name}: its drawing has no role")
        check(plain(" ".join(figure["texts"])) in printed, f"{name}: the booklet says other words")
        check(plain(figure["desc"]) in described, f"{name}: its description is not in the booklet")
    return tally.end(f"{len(site)} figures")


if __name__ == "__main__":
    sys.exit(main())
