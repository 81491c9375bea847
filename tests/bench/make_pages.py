#!/usr/bin/env python3
"""make_pages.py CONTENT FOLDER COUNT [SEED]: a folder of COUNT made-up pages with a table
each, for measuring. Settings, logs and the card's page are those of CONTENT. The same
arguments give the same bytes."""
import pathlib, random, shutil, sys

WORDS = ("bearing cord drum gauge pull spindle nut lock band speed warm cold steady slow turn "
         "reading limit table page sheet paper pencil bench light oil grease clean wait again "
         "measure write mean scatter step zero arm radius weight hook knot end side front back "
         "left right hand thumb eye level square mark line first last every other both none"
         ).split()


def sentence(draw):
    words = draw.choices(WORDS, k=draw.randint(6, 14))
    return " ".join([words[0].capitalize()] + words[1:]) + "."


def paragraph(draw):
    lines = [sentence(draw) for _ in range(draw.randint(3, 5))]
    return "\n".join(lines) + "\n"


def table(draw, number):
    rows = [f"{draw.choice(WORDS)} {row},{draw.uniform(0.1, 99):.2f},{draw.randint(1, 400)},"
            f"{draw.choice(WORDS)}" for row in range(8)]
    return "\n".join([f"```csv made-{number}: Made-up figures {number}",
                      "thing,low / N,high / N,remark"] + rows + ["```", ""])


def page(draw, number, count, name):
    other = draw.randrange(count)
    return "\n".join([
        f"# Made-up page {number}\n", paragraph(draw), f"## The {draw.choice(WORDS)}\n",
        paragraph(draw), table(draw, number), f"## The {draw.choice(WORDS)} and the *rest*\n",
        "\n".join(f"- {sentence(draw)}" for _ in range(4)) + "\n", paragraph(draw),
        f"More stands on [page {other}]({name(other)}#made-{other}).\n"])


def main():
    content, folder = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    count, draw = int(sys.argv[3]), random.Random(int((sys.argv + ["1"])[4]))
    name = "{:05d}-page-{:05d}.md".format
    folder.mkdir(parents=True)
    for file in ("settings.yaml", "readings.csv", "gauge-check.csv", "card.md"):
        shutil.copy(content / file, folder)
    for number in range(count):
        text = page(draw, number, count, lambda n: name(n, n))
        (folder / name(number, number)).write_text(text)


main()
