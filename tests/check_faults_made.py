#!/usr/bin/env python3
"""Faults that cannot be kept as plain files: they are made here. Each must be told in the
very words below, within ten seconds, and nothing may be written or changed.
Usage: check_faults_made.py OUT"""
import os
import shutil
import sys

from faulty_folder import REGULAR, check_in_new_folder, write

CASES = []
MANY = 100000
LOG = "date,direction,warmth,pulls,note\n2026-03-09,usual,cold,18.2 18.3 N,ok\n"
TABLE = "# T\n\n```csv a: Words\nx,y\n%s\n```\n"


def case(status, *words):
    """A case by the name of its function, which lays its faults and may give further words
    for the command line; words: what is said."""
    def keep(lay):
        CASES.append((lay, status, words))
        return lay
    return keep


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


ENDS = "'%s' stands here and would end this file's part of the page; write it as '<\\%s'"


@case(1, "templates/find.js:2:2: " + ENDS % ("</script", "/script"))
def script_that_ends_itself():
    write("templates/find.js", "\n'</SCRIPT>'")


@case(1, "templates/style.css:1:7: " + ENDS % ("</style", "/style"),
      "templates/form.css:1:1: " + ENDS % ("</style", "/style"),
      "templates/find.css:1:4: " + ENDS % ("</style", "/style"))
def styles_that_end_themselves():
    write("templates/style.css", "a::b {</style><script>x</script>}")
    write("templates/form.css", "</Style ")
    write("templates/find.css", "/* </style */")


@case(1, *["templates/%s.css: there is no such file; make it..." % name for name in ("style", "form")])
def both_styles_missing():
    os.remove("templates/style.css")
    os.remove("templates/form.css")


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


@case(1, "content/10-page.md:3:1: pictures are not taken in; describe the thing in words",
      "out: this is a file; give the folder for the outputs with --out")
def out_is_a_file_and_a_page_is_wrong():
    page("# T\n\n![a](b)\n")
    out_is_a_file()


@case(1, "out: this link leads to nothing; give the folder for the outputs with --out")
def out_is_a_link_to_nothing():
    shutil.rmtree("out")
    os.symlink("nothing", "out")


@case(1, "out/card.pdf: this was not made by an earlier run, and would be lost; move it away, or "
         "give another folder with --out")
def file_in_the_way():
    write("out/card.pdf", "mine\n")


@case(1, "out/booklet.pdf: this and 2 others here were not made by an earlier run, and would be "
         "lost; move them away, or give another folder with --out")
def files_in_the_way():
    os.mkdir("out/site")
    for name in ("card.pdf", "booklet.pdf", "site/index.html"):
        write("out/" + name, "mine\n")


OUT_HOLDS = ("%s in this folder, which the outputs will have for themselves; give another with "
             "--out")


@case(1, "content: " + OUT_HOLDS % "content lies")
def out_is_content():
    return ["--out", "content"]


@case(1, ".: " + OUT_HOLDS % "the folder that you work in lies")
def out_is_here():
    return ["--out", "."]


@case(1, "canary: " + OUT_HOLDS % "templates lies")
def out_holds_templates():
    shutil.move("templates", "canary/templates")
    os.symlink("canary/templates", "templates")
    return ["--out", "canary"]


@case(1, "templates/page.html: this is no engine for the bench page; make it with make, or leave "
         "--bench out")
def engine_is_none():
    return ["--bench", "templates/page.html"]


@case(1, "--set: 'drum.name=??' is not UTF-8; write it in plain text")
def set_is_not_utf8():
    return ["--set", b"drum.name=\xff\xfe"]


# ---- a date that is none

NO_DATE = ("SOURCE_DATE_EPOCH: '%s' is no date; set it to a whole number of seconds since 1970, "
           "up to 253402300799 (the year 9999), or unset it")


@case(1, NO_DATE % "yesterday")
def date_is_no_number():
    return ["SOURCE_DATE_EPOCH=yesterday"]


@case(1, NO_DATE % "-86400")
def date_is_negative():
    return ["SOURCE_DATE_EPOCH=-86400"]


@case(1, NO_DATE % "253402300800")
def date_is_beyond_the_year_9999():
    return ["SOURCE_DATE_EPOCH=253402300800"]


@case(1, NO_DATE % ("9" * 40))
def date_without_end():
    return ["SOURCE_DATE_EPOCH=" + "9" * MANY]


@case(1, "content/settings.yaml:2:10: lathe.name (what you call the lathe) has no value; write a "
         "few words", NO_DATE % "?")
def date_is_not_utf8_and_a_name_is_blank():
    settings("Test lathe", '" "')
    return [b"SOURCE_DATE_EPOCH=\xff"]


# ---- logs that are no files

@case(1, "content/readings.csv: there is no such file; make it, or give the right name")
def log_is_a_link_to_nothing():
    os.symlink("nothing.csv", "content/readings.csv")


@case(1, "content/gauge-check.csv: this is a folder; a file belongs here",
      "content/readings.csv: the file cannot be read (Too many levels of symbolic links); it must "
      "be a plain file that you may read")
def logs_are_none():
    os.mkdir("content/gauge-check.csv")
    os.symlink("readings.csv", "content/readings.csv")


@case(1, "content/readings.csv: the file cannot be read (Permission denied); it must be a plain "
         "file that you may read")
def log_is_unreadable():
    write("content/readings.csv", LOG)
    os.chmod("content/readings.csv", 0)


# ---- paths that lead out

@case(0)
def list_of_outputs_leads_out():
    """What an earlier run is said to have made is only looked for within the folder."""
    write("out/.spindlebook", "../canary/secret.md\n/etc/passwd\nsite/../../canary/secret.md\n"
                              "mine.txt/../../canary\n")


@case(1, "content/readings.csv: this link leads out of its folder; put the file itself here")
def log_is_a_link_out():
    write("canary/readings.csv", LOG)
    os.symlink("../canary/readings.csv", "content/readings.csv")


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


@case(1, "content: the name of the file '10-a?b.md' holds characters that cannot be printed; rename "
         "it as in 40-wind-and-pull.md",
      "content: the name of the file '10-a?b.md' holds characters that cannot be printed; rename it "
      "as in 40-wind-and-pull.md",
      "content: the name of the file '10-a??b.md' holds characters that cannot be printed; rename it "
      "as in 40-wind-and-pull.md",
      "content: the name of the file '20-?[31mred.md' holds characters that cannot be printed; "
      "rename it as in 40-wind-and-pull.md",
      "content: the name of the file '30-.md' is nothing but a number; rename it as in "
      "40-wind-and-pull.md",
      "content: the name of the file '40-%s.md' is too long; rename it as in "
      "40-wind-and-pull.md" % ("x" * 240))
def names_of_pages():
    for name in ["10-a\nb", b"10-a\xff\xfeb", "20-\x1b[31mred", "30-", "40-" + "x" * 240,
                 "10-a\u202eb"]:
        name = name if isinstance(name, bytes) else name.encode()
        write(b"content/" + name + b".md", "# T\n\nWords.\n")


@case(1, "content/settings.yaml:4:3: byte 0xFF is not UTF-8; save the file as UTF-8 text",
      "content/10-page.md:3:2: a NUL byte stands here; delete it: the file must be plain text")
def lines_that_end_with_returns():
    page("# T\r\ra\0\r")
    write("content/settings.yaml", b"a: b\rc: d\r\ne: f\n  \xff")


# ---- forms of text that are no faults

@case(0)
def byte_order_mark_and_line_ends():
    page("\ufeff# T\r\rWords.\r\r```csv a: Words\rx,y\r1,2\r```\r")
    with open("content/settings.yaml") as file:
        text = file.read()
    write("content/settings.yaml", "\ufeff" + text.replace("\n", "\r\n"))


@case(0)
def logs_with_byte_order_mark_and_line_ends():
    write("content/readings.csv", "\ufeff" + LOG.replace("\n", "\r\n"))
    write("content/gauge-check.csv",
          "\ufeff" + "date,direction,load,reading\r" + "2026-03-01,up,1 kg,9.8 N\r" * 3)


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


@case(1, "content/10-page.md:3:101: more than 100 blocks or marks are nested here; write it flat")
def quotes_in_quotes():
    page("# T\n\n" + ">" * MANY + " x\n")


@case(1, "content/10-page.md:3:101: more than 100 blocks or marks are nested here; write it flat")
def lists_in_lists():
    page("# T\n\n" + "- " * MANY + "x\n")


@case(1, "content/10-page.md:3:1: more than 100 blocks or marks are nested here; write it flat")
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


@case(0)
def log_with_a_cell_of_a_megabyte():
    write("content/readings.csv", LOG.replace("ok", "k" * 1000000))


@case(1, "content/readings.csv:2:1: '%s' is no date; write year, month and day as in 2026-03-09"
         % ("k" * 40))
def log_with_a_date_of_a_megabyte():
    write("content/readings.csv", LOG.replace("2026-03-09", "k" * 1000000))


@case(1, "content/readings.csv:2:23: the quote opened here is never closed; close it")
def log_with_an_open_quote_of_a_megabyte():
    write("content/readings.csv", LOG.replace("18.2", '"' + "18.2,\n" * 200000))


@case(1, *["content/readings.csv:2:%d: 'x' is neither..." % column for column in range(23, 103, 2)],
      "content/readings.csv:2:103: more than 20 pulls; write two series")
def log_with_words_without_end():
    write("content/readings.csv", LOG.replace("18.2 18.3 N", "x " * 500000))


@case(1, *["content/readings.csv:%d:1: this row has 1 cell..." % line for line in range(2, 1002)],
      "content/readings.csv: 1999000 more faults were found in this file; mend these first")
def log_with_faults_without_end():
    write("content/readings.csv", LOG.splitlines(True)[0] + "a\n" * 2000000)


@case(1, "content/settings.yaml:2002:9: more than 2000 values stand here; there are not so many "
         "keys")
def settings_without_end():
    write("content/settings.yaml", "a:\n" + "".join("  %s: 1\n" % key for key in range(300000)))


@case(1, "content/settings.yaml:2:9: lathe.name (what you call the lathe) is longer than 300 "
         "characters; shorten it")
def name_of_a_megabyte():
    settings("Test lathe", "L" * 1000000)


@case(1, "content/settings.yaml:19:23: tables.drum-sizes has more than 60 entries; keep the "
         "useful ones")
def sizes_without_end():
    settings("40 mm, 50 mm", "40 mm, " + "50 mm," * MANY + "50 mm")


def main():
    program = os.path.join(os.path.abspath(sys.argv[1]), "bin", "spindlebook")
    failed = 0
    for each in CASES:
        problem = check_in_new_folder(each, program)
        if problem:
            failed += 1
            print("FAILED %s: %s" % (each[0].__name__.replace("_", "-"), problem))
    print("%d made faults, %d failed" % (len(CASES), failed))
    return 1 if failed else 0


sys.exit(main())
