#!/usr/bin/env python3
"""What is printed, measured on the rendered pages: the bars and the tape of aids.pdf to
0.1 mm, the marks of card-sheet.pdf, the height of the signs on the card.

Usage: check_paper.py OUT
Pages are rendered by poppler's pdftoppm and read as grey pixels.
"""
import math
import os
import re
import subprocess
import sys
import tempfile

import tally
from tally import check

MM = 72 / 25.4
DARK = bytes(1 if value < 128 else 0 for value in range(256))
LEAST, PREFERRED = 15, 20  # minutes of arc: NUREG-0700, 11.4.1.5-1
DISTANCE = 700  # mm, as in content/settings.yaml

def near(value, wanted, what, within=0.1):
    check(abs(value - wanted) <= within, f"{what}: {value:.3f} mm, not {wanted:.3f}")


class Picture:
    """A page in grey; pixels(x0, y0, x1, y1) in mm gives rows of bytes."""

    def __init__(self, path, page, dpi):
        made = subprocess.run(["pdftoppm", "-gray", "-r", str(dpi), "-f", str(page), "-l", str(page), path],
                              capture_output=True, check=True).stdout
        head = re.match(rb"P5\s(\d+) (\d+)\s255\s", made)
        self.width, self.height = int(head[1]), int(head[2])
        self.bytes, self.dpi = made[head.end():], dpi

    def to_mm(self, pixels):
        return pixels * 25.4 / self.dpi

    def to_pixels(self, mm):
        return round(mm * self.dpi / 25.4)

    def row(self, y):
        return self.bytes[y * self.width:(y + 1) * self.width]

    def turned(self):
        """The same with columns for rows."""
        other = object.__new__(Picture)
        other.width, other.height, other.dpi = self.height, self.width, self.dpi
        other.bytes = b"".join(self.bytes[x::self.width] for x in range(self.width))
        return other

    def dark(self, x, y):
        """Is there ink within a pixel of a place given in mm?"""
        x, y = self.to_pixels(x), self.to_pixels(y)
        return any(value < 128 for row in range(y - 1, y + 2) for value in self.row(row)[x - 1:x + 2])


def lying_bars(picture, lengths):
    """Every line of about one of these lengths (mm): row of pixels, where it begins and ends."""
    found = []
    for y in range(picture.height):
        at = 0
        for run in picture.row(y).translate(DARK).split(b"\0"):
            if run and any(abs(picture.to_mm(len(run)) - length) < 1 for length in lengths):
                if not found or y - found[-1][0] > 3:
                    found.append((y, at, at + len(run)))
            at += len(run) + 1
    return found


def ticks(picture, bar):
    """The middles (mm) of the ticks that stand on a bar, by weight of ink."""
    y, first, end = bar
    band = [picture.row(row)[first - 6:end + 6] for row in range(y - picture.to_pixels(1.6), y - picture.to_pixels(0.6))]
    ink = [sum(255 - row[x] for row in band) for x in range(len(band[0]))]
    most, found, x = max(ink), [], 0
    while x < len(ink):
        if ink[x] > most / 4:
            start = x
            while x < len(ink) and ink[x] > most / 20:
                x += 1
            weight = sum(ink[start - 1:x])
            found.append(picture.to_mm(sum(i * ink[i] for i in range(start - 1, x)) / weight + 0.5))
        x += 1
    return found


def check_bars(picture, divisions, where):
    """divisions: of each bar from the head down, its length and how many it has."""
    bars = lying_bars(picture, [length for length, _ in divisions])
    check(len(bars) == len(divisions), f"{where}: {len(bars)} bars, not {len(divisions)}")
    for bar, (length, count) in zip(bars, divisions):
        places = ticks(picture, bar)
        check(len(places) == count + 1, f"{where}: {len(places)} ticks, not {count + 1}")
        for i, place in enumerate(places):
            near(place - places[0], length * i / count, f"{where}: tick {i} of the {length} mm bar")


def words(path, page):
    made = subprocess.run(["pdftotext", "-bbox", "-f", str(page), "-l", str(page), path, "-"],
                          capture_output=True, check=True).stdout.decode()
    return [(text, *(float(number) / MM for number in numbers)) for *numbers, text in re.findall(
        r'<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>', made)]


def middle(word):
    return (word[1] + word[3]) / 2


def check_tape(path, drum, paper):
    """Figures stand over their lines: the line for D is pi (D + t) from the index line."""
    found = words(path, 2)
    numbers = [word for word in found if re.fullmatch(r"\d+", word[0]) and word[4] - word[2] < 3]
    lines = {word[0]: middle(word) for word in numbers if word[1] > 60}
    vernier = {word[0]: middle(word) for word in numbers if word[1] < 60}
    index = vernier["10"]
    picture = Picture(path, 2, 300)
    for number in range(11):
        near(index - vernier[str(number)], (10 - number) * 0.9 * math.pi, f"vernier line {number}")
    for diameter in range(math.ceil((drum - 9) / 5) * 5, drum + 6, 5):
        place = lines.get(str(diameter))
        check(place is not None, f"the tape has no {diameter}")
        if place is not None:
            near(place - index, math.pi * (diameter + paper), f"the line for {diameter} mm")
            label = next(word for word in numbers if word[0] == str(diameter) and word[1] > 60)
            check(picture.dark(place, label[4] + 1), f"no line under the {diameter} of the tape")


def check_degrees(path, rim, paper):
    found = {word[0]: middle(word) for word in words(path, 3) if word[0].isdigit() and 55 < word[2] < 80}
    for degrees in range(10, 360, 10):
        near(found[str(degrees)] - found["0"], math.pi * (rim + paper) * degrees / 360, f"{degrees} degrees")


def ink_height(picture, word):
    """Height (mm) of what is drawn of a word."""
    x0, y0, x1, y1 = (picture.to_pixels(mm) for mm in word[1:])
    rows = [y for y in range(y0, y1 + 1) if min(picture.row(y)[x0:x1 + 1]) < 128]
    return picture.to_mm(len(rows))


def check_card(path, note, distance):
    """The window as it is drawn: good pulls, the numbers below and the words beside them."""
    found, picture = words(path, 1), Picture(path, 1, 600)
    top = next(word[2] for word in found if word[0].startswith("good"))
    low = max(word[4] for word in found if word[0] == "aim" and word[2] < top + 45)
    window = [word for word in found if top <= word[2] + 0.5 and word[4] <= low + 0.5]
    heights = sorted(ink_height(picture, word) for word in window if re.fullmatch(r"\d+\.\d+", word[0]))
    check(len(heights) == 6, f"{len(heights)} numbers at the card's window")
    least = 2 * distance * math.tan(math.radians(LEAST / 60) / 2)
    preferred = 2 * distance * math.tan(math.radians(PREFERRED / 60) / 2)
    check(heights[0] >= least, f"numbers of {heights[0]:.2f} mm, less than {least:.2f}")
    check(heights[-2] >= preferred, f"good pulls of {heights[-2]:.2f} mm, less than {preferred:.2f}")
    check(heights[-2] >= 2 * heights[-3], "the good pulls do not stand out")
    said = float(re.search(r"is (\S+) mm high, (\S+) minutes", note)[1])
    check(said <= heights[0] <= 1.05 * said, f"check says {said} mm; round digits of {heights[0]:.2f} rise over it")
    minutes = float(re.search(r"high, (\S+) minutes", note)[1])
    check(abs(minutes - math.degrees(2 * math.atan(said / 2 / distance)) * 60) < 0.15, f"{minutes} minutes of arc")


def page_size(path):
    made = subprocess.run(["pdfinfo", path], capture_output=True, check=True).stdout.decode()
    return [float(number) / MM for number in re.search(r"Page size: +(\S+) x (\S+)", made).groups()]


def check_sheet(out):
    """The card at full size, marks in line with its edges, none nearer than 3 mm."""
    card, sheet = os.path.join(out, "card.pdf"), os.path.join(out, "card-sheet.pdf")
    (card_width, card_height), here, there = page_size(card), words(card, 1), words(sheet, 1)
    first = here[0]
    copy = next(word for word in there if word[0] == first[0] and abs(word[3] - word[1] - first[3] + first[1]) < 0.01)
    left, top = copy[1] - first[1], copy[2] - first[2]
    last = max((word for word in here), key=lambda word: word[2])
    check(any(abs(word[1] - last[1] - left) < 0.02 and abs(word[2] - last[2] - top) < 0.02 for word in there),
          "the card on the sheet is not of its own size")
    picture = Picture(sheet, 1, 300)
    for x in (left, left + card_width):
        for y, out_of in ((top, -1), (top + card_height, 1)):
            check(picture.dark(x, y + 5.5 * out_of), f"no mark at {x:.1f}, {y:.1f}")
            check(not picture.dark(x, y + 1.5 * out_of), f"a mark too near at {x:.1f}, {y:.1f}")
    backs = [word for word in words(sheet, 2) if word[0] == "STOP"]
    behind = [word for word in words(card, 2) if word[0] == "STOP"]
    width = page_size(sheet)[0]
    back = min(abs(word[1] - behind[0][1] - (width - left - card_width)) for word in backs)
    near(back, 0, "the back lies behind the front", 0.02)


def note_of(program, *options):
    made = subprocess.run([program, "check", *options], capture_output=True, check=True).stdout.decode()
    return made.strip().splitlines()[-1]


def main():
    out = sys.argv[1]
    program = os.path.join(out, "bin", "spindlebook")
    aids = os.path.join(out, "aids.pdf")
    lying = Picture(aids, 1, 300)
    check_bars(lying, [(100, 10), (101.6, 8)], "lying")
    standing = lying.turned()
    standing.bytes = b"".join(standing.row(y) for y in reversed(range(standing.height)))  # ticks above the bar
    check_bars(standing, [(101.6, 8), (100, 10)], "standing")
    check_bars(Picture(aids, 2, 300), [(100, 10)], "beside the tape")
    check_tape(aids, 62, 0.1)
    check_degrees(aids, 65, 0.1)
    check_card(os.path.join(out, "card.pdf"), note_of(program), DISTANCE)
    check_sheet(out)
    with tempfile.TemporaryDirectory() as folder:
        options = ["--set", "paper.card=a6", "--set", "paper.booklet=half-letter", "--set", "paper.reading-distance=50cm"]
        subprocess.run([program, "book", "--out", folder, *options], check=True)
        check_card(os.path.join(folder, "card.pdf"), note_of(program, *options), 500)
        check_sheet(folder)
        options = ["--set", "paper.thickness=0.2mm"]
        subprocess.run([program, "book", "--out", folder, *options], check=True)
        check_tape(os.path.join(folder, "aids.pdf"), 62, 0.2)
    return tally.end(f"{tally.looked} lengths on paper measured")


if __name__ == "__main__":
    sys.exit(main())
