#!/usr/bin/env python3
"""Site, CSV and PDF show the same value in every cell, and the values are right.

Usage: check_agreement.py OUT [CONTENT [KEY=VALUE ...]]
OUT holds the outputs; CONTENT the settings they were made from (the demo's by
default), with replacements as given to --set. The oracle is tests/oracle.py.
"""
import collections
import os
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import oracle
import site_tables

LEAST_CELLS = 1400  # computed ones of the demo: the count must not fall


class Failures(Exception):
    pass


def check(condition, message):
    if not condition:
        raise Failures(message)


def check_cell(where, cell, want):
    if isinstance(want, str):
        check(cell.text == want and cell.value is None, f"{where}: '{cell.text}', not '{want}'")
        return
    value, texts, *tolerance = want
    check(cell.text in texts, f"{where}: shows '{cell.text}', not {sorted(texts)}")
    check(cell.value is not None, f"{where}: no value behind '{cell.text}'")
    scale = max(abs(float(value)), 1e-300)
    relative = tolerance[0] if tolerance else 1e-12
    check(abs(cell.value - float(value)) <= relative * scale + 1e-13,
          f"{where}: value {cell.value!r}, not {float(value)!r}")


def check_rows(table, rows):
    check(len(table.rows) == len(rows), f"{table.name}: {len(table.rows)} rows, not {len(rows)}")
    for number, (row, want) in enumerate(zip(table.rows, rows), 1):
        check(len(row) == len(want), f"{table.name} row {number}: {len(row)} cells, not {len(want)}")
        for column, (cell, cell_want) in enumerate(zip(row, want), 1):
            check_cell(f"{table.name} row {number} column {column}", cell, cell_want)


def check_csv(out, table):
    rows = site_tables.csv_rows(os.path.join(out, "tables", table.name + ".csv"))
    check(rows[0] == [head.text for head in table.heads], f"{table.name}.csv: other heads {rows[0]}")
    check(rows[1:] == [[cell.text for cell in row] for row in table.rows],
          f"{table.name}.csv: other cells than the site")


def check_pdf(text, table):
    """Every row in its order behind the caption."""
    at = text.find(" ".join(table.caption.replace("\u00a0", " ").split()))
    check(at >= 0, f"{table.name}: its caption is not in the PDF")
    for number, row in enumerate(table.rows, 1):
        if table.page.startswith("form-"):  # a box to tick is a sign on the site, a drawing in print
            row = [cell for cell in row if cell.text != "\u25a1"]
        found = text.find(site_tables.row_text(row), at)
        check(found >= 0, f"{table.name}: row {number} is not in the PDF: {site_tables.row_text(row)}")
        at = found + 1
    return at


def check_card(text, shop, table, sure):
    """At the window the numbers of the own band; the table of all bands where it is printed."""
    at = shop.bands.index(shop.own_band())
    own, good = ([cell.text for cell in each.rows[at]] for each in (table, sure))
    if "none" not in good[2:4]:
        check(f"{good[2]} \u2013 {good[3]}" in text, f"the good pulls {good[2]} to {good[3]} are not on the card")
    for number in own[1:]:
        check(number in text.split() or number == "none", f"the card's window lacks {number}")
    if " ".join(table.caption.split()) in text:
        check_pdf(text, table)


def check_all(out, shop):
    """The cells that agree, and those with a number: both counted by computed table."""
    tables = site_tables.html_tables(os.path.join(out, "site"))
    booklet = site_tables.pdf_text(os.path.join(out, "booklet.pdf"))
    card = site_tables.pdf_text(os.path.join(out, "card.pdf"))
    has_forms = os.path.exists(os.path.join(out, "forms.pdf"))
    forms = site_tables.pdf_text(os.path.join(out, "forms.pdf")) if has_forms else ""
    computed = {name[:-4] for name in os.listdir(os.path.join(out, "tables"))}
    cells, numbers = collections.Counter(), collections.Counter()
    for table in tables:
        name = table.name
        if table.page == "card.html":
            name = "card"
            check_rows(table, oracle.pull_windows(shop, card=True) if shop.bands else [[oracle.NO_LIMIT]])
            if shop.bands:
                sure = next(other for other in tables if other.name == "sure-windows")
                check_card(card, shop, table, sure)
            else:
                check_pdf(card, table)
        elif name in computed:
            check_rows(table, oracle.expected(shop, name, table.rows))
            check_csv(out, table)
            check_pdf(booklet, table)
            computed.remove(name)
        else:  # written by hand
            check_pdf(forms if table.page.startswith("form-") else booklet, table)
            continue
        cells[name] += sum(len(row) for row in table.rows)
        numbers[name] += sum(cell.value is not None for row in table.rows for cell in row)
    check(not computed, f"on no page of the site: {sorted(computed)}")
    return cells, numbers


def main():
    out = sys.argv[1]
    here = os.path.dirname(os.path.abspath(__file__))
    content = sys.argv[2] if len(sys.argv) > 2 else os.path.join(here, "..", "content")
    settings = oracle.read_settings(os.path.join(content, "settings.yaml"), sys.argv[3:])
    try:
        counts, _ = check_all(out, oracle.Shop(settings))
        cells = sum(counts.values())
        check(len(sys.argv) > 2 or cells >= LEAST_CELLS, f"only {cells} cells were compared")
    except Failures as failure:
        print(f"FAILED {failure}")
        return 1
    print(f"{cells} computed cells of {len(counts)} tables agree between site, CSV, PDF and the oracle")
    return 0


if __name__ == "__main__":
    sys.exit(main())
