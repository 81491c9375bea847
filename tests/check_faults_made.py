#!/usr/bin/env python3
"""Faults that cannot be kept as plain files: they are made here. Each must be told in the
very words below, within ten seconds, and nothing may be written or changed.
Usage: check_faults_made.py OUT"""
import hashlib
import os
import shutil
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
FONTS = "/usr/share/fonts/truetype/dejavu"
REGULAR = "DejaVuSansCondensed.ttf"
CASES = []
MANY = 100000
TABLE = "# T\n\n```csv a: Words\nx,y\n%s\n```\n"


def case(status, *words):
    """A case by the name of its function, which lays its faults; words: what is said."""
    def keep(lay):
        CASES.append((lay.__name__.replace("_", "-"), lay, status, words))
        return lay
    return keep


def write(path, text):
    with open(path, "wb") as file:
        file.write(text if isinstance(text, bytes) else text.encode())


def page(text):
    write("content/10-page.md", text)


def settings(old, new):
    with open("content/settings.yaml") as file:
        text = file.read()
    assert old in text
    write("content/settings.yaml", text.replace(old, new))


# ---- fonts and templates

@case(1, "fonts/%s: the font cannot be read (No such file or directory); install the Debian "
         "package fonts-dejavu-extra, or give the right folder with --fonts" % REGULAR)
def font_missing():
    os.remove("fonts/" + REGULAR)


@case(1, "fonts/%s: this is not the font file that was tested; take the one of the Debian "
         "package fonts-dejavu-extra, version 2.37" % REGULAR)
def font_damaged():
    with open("fonts/" + REGULAR, "r+b") as file:
        file.seek(20000)
        byte = file.read(1)
        file.seek(20000)
        file.write(bytes([byte[0] ^ 1]))


@case(1, "fonts/%s: this is not the font file that was tested; take the one of the Debian "
         "package fonts-dejavu-extra, version 2.37" % REGULAR)
def font_empty():
    write("fonts/" + REGULAR, "")


@case(1, "fonts/%s: the font cannot be read (Is a directory); install the Debian package "
         "fonts-dejavu-extra, or give the right folder with --fonts" % REGULAR)
def font_is_a_folder():
    os.remove("fonts/" + REGULAR)
    os.mkdir("fonts/" + REGULAR)


@case(1, "templates/page.html: there is no such file; make it, or give the right name",
      "templates/style.css: there is no such file; make it, or give the right name", ...)
def templates_missing():
    shutil.rmtree("templates")


@case(1, "templates/page.html:1:10: the slot '...", ...)
def template_without_slots():
    write("templates/page.html", "<p>Words.")


@case(1, "templates/find.js: '</script' stands in this script and would end it; write it as "
         "'<\\/script'")
def script_that_ends_itself():
    write("templates/find.js", "'</SCRIPT>'")


@case(1, "templates/style.css: this is a folder; a file belongs here")
def style_is_a_folder():
    os.remove("templates/style.css")
    os.mkdir("templates/style.css")


# ---- files that are none

@case(1, "content/10-page.md: this is a folder; a file belongs here")
def page_is_a_folder():
    os.mkdir("content/10-page.md")


@case(1, "content/settings.yaml: this is a folder; a file belongs here")
def settings_are_a_folder():
    os.remove("content/settings.yaml")
    os.mkdir("content/settings.yaml")


@case(1, "content/10-page.md: the file cannot be read (Invalid argument); it must be a plain "
         "file that you may read")
def page_is_a_pipe():
    os.mkfifo("content/10-page.md")


@case(1, "content/10-page.md: the file cannot be read (Too many levels of symbolic links); it "
         "must be a plain file that you may read")
def page_is_a_loop():
    os.symlink("10-page.md", "content/10-page.md")


@case(1, "content/10-page.md: there is no such file; make it, or give the right name")
def page_is_a_link_to_nothing():
    os.symlink("nothing.md", "content/10-page.md")


@case(1, "content/10-page.md: the file cannot be read (Permission denied); it must be a plain "
         "file that you may read")
def page_is_unreadable():
    page("# T\n\nWords.\n")
    os.chmod("content/10-page.md", 0)


@case(1, "content: the folder of pages cannot be read (Permission denied); give the right one "
         "with --content", ...)
def content_is_unreadable():
    os.chmod("content", 0o311)


@case(1, "content/10-page.md: the file is larger than 4 MiB; a page or a log is far smaller")
def page_is_too_large():
    page("# T\n\n" + "words " * 800000)


@case(1, "out: this is a file; give the folder for the outputs with --out")
def out_is_a_file():
    shutil.rmtree("out")
    write("out", "mine\n")


# ---- paths that lead out

@case(1, "content/10-page.md: this link leads out of its folder; put the file itself here")
def page_is_a_link_out():
    os.symlink("../canary/secret.md", "content/10-page.md")


@case(1, "content/settings.yaml: this link leads out of its folder; put the file itself here")
def settings_are_a_link_out():
    shutil.move("content/settings.yaml", "canary/settings.yaml")
    os.symlink(os.path.abspath("canary/settings.yaml"), "content/settings.yaml")


@case(0)
def page_is_a_link_within():
    page("# T\n\nWords.\n")
    os.symlink("10-page.md", "content/20-same.md")
    os.remove("content/10-page.md")
    os.mkdir("content/more")
    write("content/more/page.txt", "# T\n\nWords.\n")
    os.symlink("more/page.txt", "content/10-page.md")


@case(1, "content/10-page.md:3:1: the link leads to '../canary/secret.md', but there is no such "
         "page; name a file of the same folder",
      "content/10-page.md:3:28: the link leads to '/etc/passwd', but there is no such page; name "
      "a file of the same folder",
      "content/10-page.md:3:45: the link leads to '..%2Fcanary', but there is no such page; name "
      "a file of the same folder",
      "content/10-page.md:3:62: 'file:///etc/passwd' is no place to link to; link to a page, a "
      "heading or an https: address")
def links_lead_out():
    page("# T\n\n[aaa](../canary/secret.md) [b](/etc/passwd) [c](..%2Fcanary) "
         "[d](file:///etc/passwd)\n")


@case(1, "content/10-page.md:3:1: '../../canary/x' is no name of a table; write it as in "
         "```table pull-windows", ...)
def table_name_leads_out():
    page("# T\n\n```table ../../canary/x\n```\n")


@case(1, "content/10-page.md:3:1: the csv block has no name and caption; write it as in ```csv "
         "my-table: My caption")
def csv_name_leads_out():
    page("# T\n\n```csv ../../canary/x: Words\na,b\n1,2\n```\n")


@case(1, "content: the name of the file '10-a?b.md' holds signs that cannot be printed; rename "
         "it as in 40-wind-and-pull.md",
      "content: the name of the file '10-a??b.md' holds signs that cannot be printed; rename it "
      "as in 40-wind-and-pull.md",
      "content: the name of the file '20-?[31mred.md' holds signs that cannot be printed; "
      "rename it as in 40-wind-and-pull.md",
      "content: the name of the file '30-.md' is nothing but a number; rename it as in "
      "40-wind-and-pull.md",
      "content: the name of the file '40-%s.md' is too long; rename it as in "
      "40-wind-and-pull.md" % ("x" * 240))
def names_of_pages():
    for name in ["10-a\nb", b"10-a\xff\xfeb", "20-\x1b[31mred", "30-", "40-" + "x" * 240]:
        name = name if isinstance(name, bytes) else name.encode()
        write(b"content/" + name + b".md", "# T\n\nWords.\n")


# ---- forms of text that are no faults

@case(0)
def byte_order_mark_and_line_ends():
    page("\ufeff# T\r\rWords.\r\r```csv a: Words\rx,y\r1,2\r```\r")
    with open("content/settings.yaml") as file:
        text = file.read()
    write("content/settings.yaml", "\ufeff" + text.replace("\n", "\r\n"))


# ---- much of something

@case(1, "content/10-page.md:3:1: the table 'a' is too wide for the page at every size...")
def cell_of_a_megabyte():
    page(TABLE % ("1," + "c" * 1000000))


@case(1, "content/10-page.md:5:3: the quote opened here is never closed; close it")
def quoted_cell_of_a_megabyte():
    page(TABLE % ('1,"' + "c\n" * 500000))


@case(0)
def words_without_end():
    page("# T\n\n" + "w" * 1000000 + "\n")


@case(1, "content/10-page.md:3:101: more than 100 blocks or signs are nested here; write it flat")
def quotes_in_quotes():
    page("# T\n\n" + ">" * MANY + " x\n")


@case(1, "content/10-page.md:3:101: more than 100 blocks or signs are nested here; write it flat")
def lists_in_lists():
    page("# T\n\n" + "- " * MANY + "x\n")


@case(1, "content/10-page.md:3:1: more than 100 blocks or signs are nested here; write it flat")
def stars_in_stars():
    page("# T\n\n" + "*" * MANY + "a" + "*" * MANY + "\n")


@case(0)
def brackets_in_brackets():
    page("# T\n\n" + "[" * MANY + "a" + "]" * MANY + " " + "[a](" * MANY + "\n")


@case(1, "content/10-page.md:4001:1: this page has more than 2000 headings; divide it")
def headings_without_end():
    page("# T\n\n" + "## a\n\n" * 20000)


@case(1, "content/10-page.md:3:1: the link leads to '#x', but content/10-page.md has no such "
         "heading, table or figure; a heading's name is its words in lower case with hyphens",
      ...)
def links_without_end():
    page("# T\n\n" + "[a](#x) " * 20000 + "\n")


@case(1, "content/settings.yaml:1:11: sections stand too deep in each other; two levels are "
         "enough")
def settings_in_settings():
    write("content/settings.yaml", "a: " + "[" * MANY)


@case(1, "content/settings.yaml:2:9: lathe.name (what you call the lathe) is longer than 300 "
         "signs; shorten it")
def name_of_a_megabyte():
    settings("Test lathe", "L" * 1000000)


@case(1, "content/settings.yaml:19:23: tables.drum-sizes has more than 60 entries; keep the "
         "useful ones")
def sizes_without_end():
    settings("40 mm, 50 mm", "40 mm, " + "50 mm," * MANY + "50 mm")


# ---- the frame

def lay_out(program):
    shutil.copytree(os.path.join(HERE, "faults", "base"), "content")
    shutil.copytree(os.path.join(HERE, "..", "templates"), "templates")
    os.mkdir("fonts")
    for name in (REGULAR, "DejaVuSansCondensed-Bold.ttf", "DejaVuSansCondensed-Oblique.ttf"):
        shutil.copy(os.path.join(FONTS, name), "fonts")
    for name in ("out", "canary"):
        os.mkdir(name)
    write("out/mine.txt", "mine\n")
    write("canary/secret.md", "# Secret words\n\nCanary.\n")
    shutil.copy(program, "spindlebook")


def state_of(folder):
    """Every path with its kind, rights and, for a plain file, the hash of its bytes."""
    found = {}
    for path, folders, names in os.walk(folder):
        for name in folders + names:
            whole = os.path.join(path, name)
            status = os.lstat(whole)
            found[whole] = (status.st_mode, os.path.isfile(whole) and not os.path.islink(whole)
                            and hashlib.sha256(open(whole, "rb").read()).hexdigest())
    return found


def leave_root():
    """A superuser may read everything: the program runs as nobody."""
    if os.getuid() == 0:
        os.setgroups([])
        os.setgid(65534)
        os.setuid(65534)


def hand_over(folder):
    for path, folders, names in os.walk(folder):
        for name in folders + names + ["."]:
            os.chown(os.path.join(path, name), 65534, 65534, follow_symlinks=False)


def run():
    words = ["./spindlebook", "book", "--content", "content", "--templates", "templates",
             "--fonts", "fonts", "--out", "out"]
    try:
        made = subprocess.run(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=10,
                              preexec_fn=leave_root)
    except subprocess.TimeoutExpired:
        return -1, "more than ten seconds"
    return made.returncode, made.stderr.decode()


def said_wrong(said, words):
    """An ellipsis as the last of the words: more lines may follow; at the end of a line:
    more may stand there."""
    lines = said.splitlines()
    if words and words[-1] is ...:
        lines, words = lines[:len(words) - 1], words[:-1]
    if len(lines) == len(words) and all(
            line.startswith(word[:-3]) if word.endswith("...") else line == word
            for line, word in zip(lines, words)):
        return None
    return "it said:\n    " + "\n    ".join(line[:300] for line in lines[:8])


def check(lay, status, words, program):
    lay_out(program)
    lay()
    if os.getuid() == 0:
        hand_over(".")
    before = state_of(".")
    got, said = run()
    after = state_of(".")
    if got != status:
        return "status %d: %s" % (got, said[:500])
    if status == 0:
        before = {path: what for path, what in before.items() if not path.startswith("./out")}
        after = {path: what for path, what in after.items() if not path.startswith("./out")}
    if before != after:
        return "something was changed: %s" % sorted(set(before.items()) ^ set(after.items()))[:4]
    return said_wrong(said, words)


def main():
    program = os.path.join(os.path.abspath(sys.argv[1]), "bin", "spindlebook")
    failed = 0
    for name, lay, status, words in CASES:
        with tempfile.TemporaryDirectory() as work:
            os.chmod(work, 0o755)
            os.chdir(work)
            problem = check(lay, status, words, program)
            os.chmod("content", 0o755)
            os.chdir(HERE)
        if problem:
            failed += 1
            print("FAILED %s: %s" % (name, problem))
    print("%d made faults, %d failed" % (len(CASES), failed))
    return 1 if failed else 0


sys.exit(main())
