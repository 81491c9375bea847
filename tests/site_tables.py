"""Reads the tables out of the made HTML, CSV and PDF, each in its own way."""
import csv
import glob
import html.parser
import os
import re
import subprocess


class Cell:
    def __init__(self, head):
        self.head, self.text, self.value = head, "", None


class Table:
    def __init__(self, name):
        self.name, self.caption, self.heads, self.rows, self.page = name, "", [], [], None


def squeeze(text):
    return re.sub(r"[ \t\r\n]+", " ", text).strip()


class Reader(html.parser.HTMLParser):
    """Collects tables with their cells' texts and data values."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.tables, self.table, self.cell, self.part = [], None, None, None

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        if tag == "table":
            self.table = Table(attributes.get("id"))
            self.tables.append(self.table)
        elif self.table is None:
            return
        elif tag in ("thead", "tbody", "caption"):
            self.part = tag
        elif tag == "tr" and self.part == "tbody":
            self.table.rows.append([])
        elif tag in ("td", "th"):
            assert tag == "td" or attributes.get("scope") in ("col", "row"), "a head without scope"
            self.cell = Cell(tag == "th")
            (self.table.heads if self.part == "thead" else self.table.rows[-1]).append(self.cell)
        elif tag == "data":
            self.cell.value = float(attributes["value"])

    def handle_endtag(self, tag):
        if tag == "table":
            self.table = None
        elif tag in ("td", "th"):
            self.cell.text = squeeze(self.cell.text)
            self.cell = None
        elif tag == "caption":
            self.table.caption = squeeze(self.table.caption)
            self.part = None

    def handle_data(self, data):
        if self.cell is not None:
            self.cell.text += data
        elif self.table is not None and self.part == "caption":
            self.table.caption += data


def html_tables(site):
    """Every table of the site, in order of pages' names."""
    tables = []
    for path in sorted(glob.glob(os.path.join(site, "*.html"))):
        reader = Reader()
        reader.feed(open(path, encoding="utf-8").read())
        for table in reader.tables:
            table.page = os.path.basename(path)
            tables.append(table)
    return tables


def csv_rows(path):
    """Without the ' before a cell that a spreadsheet would take for a formula."""
    with open(path, encoding="utf-8", newline="") as file:
        return [[re.sub("^'(?=[-+=@])", "", cell) for cell in row] for row in csv.reader(file)]


def pdf_pages(path):
    """Of each page the words in the order in which they were drawn, single blanks between them.
    A hyphen at a line's end was there before: no word is divided by the program."""
    made = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, check=True)
    assert made.stderr == b"", made.stderr
    text = re.sub(r"(?<=[^\W\d_]-)\n(?=[^\W\d_])", "", made.stdout.decode())
    return [" ".join(page.replace("\u00a0", " ").split()) for page in text.split("\f")]


def pdf_text(path):
    """The words of all pages."""
    return " ".join(pdf_pages(path)).strip()


def row_text(row):
    return " ".join(" ".join(cell.text for cell in row).replace("\u00a0", " ").split())
