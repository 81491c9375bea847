#!/usr/bin/env python3
"""Help, the page of the manual and the completion of words say what the program does, and its
version stands on every sheet and in every answer for programs.

Usage: check_usage.py OUT
Which options go with a verb, and which words with an option, is asked of the program itself.
"""
import glob
import os
import re
import subprocess
import sys
import tempfile

import tally
from tally import check, read, root

SHOP = ["--content", os.path.join(root, "tests/faults/base")]


def said(*words):
    made = subprocess.run(words, capture_output=True, text=True)
    return made.returncode, made.stdout, made.stderr


def usage(program):
    text = said(program, "--help")[1]
    return (re.findall(r"^  spindlebook (\w+)", text, re.M),
            dict(re.findall(r"^  --([\w-]+) ([A-Z=]*)  ", text, re.M)))


def check_manual(program, verbs, options):
    status, page, _ = said(program, "--help-as", "man")
    with tempfile.NamedTemporaryFile("w", suffix=".1") as file:
        file.write(page)
        file.flush()
        lint = said("mandoc", "-Tlint", file.name)
        check(status == 0 and lint[0] == 0 and not lint[1] + lint[2], "mandoc: " + lint[1] + lint[2])
        shown = said("mandoc", "-Tascii", "-Owidth=78", file.name)[1]
    shown = re.sub(".\x08", "", shown)
    for verb in verbs:
        check(re.search(rf"^     {verb}\b", shown, re.M), f"the manual has no verb {verb}")
    for option, argument in options.items():
        check(re.search(rf"^     --{option}(?: {argument})?(?:  |$)", shown, re.M),
              f"the manual has no option --{option}")


class Completion:
    def __init__(self, program):
        self.script = said(program, "--help-as", "bash")[1]

    def __call__(self, *words, folder=root):
        """What bash offers for the last of the words."""
        asked = self.script + '''
            COMP_WORDS=("$@") COMP_CWORD=$(($# - 1))
            $(complete -p spindlebook | sed 's/.*-F \\([^ ]*\\) .*/\\1/') spindlebook
            printf '%s\\n' "${COMPREPLY[@]}"'''
        made = subprocess.run(["bash", "-uc", asked, "bash", "spindlebook", *words], cwd=folder,
                              capture_output=True, text=True)
        check(made.returncode == 0 and not made.stderr, f"bash: {words}: {made.stderr}")
        return set(made.stdout.split("\n")) - {""}


def goes_with(program, verb, option, argument):
    """Whether the program takes the option with the verb. It is asked for pages that are not
    there, and makes nothing."""
    words = [verb] + ["9N"] * (verb in ("pull", "trace")) + ["--content", "none", "--" + option]
    status, _, wrong = said(program, *words, *(["card"] if argument else []))
    check(status < 2 or "does not go with" in wrong, f"{words}: {wrong}")
    return status < 2


def check_completion(program, verbs, options):
    complete = Completion(program)
    every = {"--" + option for option in options}
    check(complete("") == set(verbs) | every, "completion: the first word is a verb or an option")
    check(complete("pu") == {"pull"}, "completion: pu is the beginning of pull")
    for verb in verbs:
        offered = complete(verb, "--")
        for option, argument in options.items():
            if option == "help-as":
                continue  # knows its forms alone
            check(goes_with(program, verb, option, argument) == ("--" + option in offered),
                  f"completion: --{option} behind {verb}")
    pull = [program, "pull", "20N", *SHOP]
    for option, before in (("lock", pull), ("warmth", pull), ("direction", pull),
                           ("help-as", [program]), ("only", [program, "window"])):
        offered = complete("pull", "--" + option, "")
        check(len(offered) > 1, f"completion: --{option} has words")
        for word in offered:
            made = said(*before, "--" + option, word)
            check(made[0] == 0 or "does not go with" in made[2], f"--{option} {word}: {made[2]}")
        some = min(offered)
        check(complete("--" + option, "=", some[:-1]) == {some}, f"completion: --{option}={some}")
        check(complete("--" + option, "=") == offered, f"completion: --{option}=")
    check(not complete("pull", "--drum", ""), "completion: any diameter")
    with tempfile.TemporaryDirectory() as folder:
        os.mkdir(os.path.join(folder, "a folder"))
        open(os.path.join(folder, "a file"), "w").close()
        check(complete("book", "--out", "a", folder=folder) == {"a folder"}, "completion: folders")
        check(complete("book", "--bench", "a", folder=folder) == {"a folder", "a file"},
              "completion: files")


def check_version(program, out):
    version = re.search(r'^#define VERSION +"([0-9.]+)"$', read("src/base/version.h"), re.M).group(1)
    status, text, _ = said(program, "--version")
    check(status == 0 and re.match(rf"spindlebook {version}( \([0-9a-f]+\+?\))?\nwith libharu ", text),
          f"--version: {text}")
    answer = said(program, "window", "--lines", *SHOP)[1].split("\n")
    check(answer[-2] == f"program\tspindlebook {version}\t", f"--lines: {answer[-2]}")
    stamp = rf"[0-9a-f]{{8}}, spindlebook {version}\b"
    pages = glob.glob(out + "/site/*.html") + [out + "/spindlebook.html"]
    for path in pages:
        with open(path, encoding="utf-8") as file:
            check(re.search(stamp, file.read()), f"{path}: no version")
    for path in set(glob.glob(out + "/*.pdf")) - {out + "/booklet-trial.pdf"}:  # thrown away
        text = " ".join(said("pdftotext", "-layout", path, "-")[1].split())
        check(re.search(stamp, text), f"{path}: no version")
    check(len(pages) > 1 and glob.glob(out + "/*.pdf"), "nothing was made")


def check_readme(verbs, options):
    text = read("README.md")
    for verb in verbs:
        check(f"spindlebook {verb}" in text, f"README.md: {verb} is not named")
    for option in options:
        check(re.search(rf"--{option}\b(?!-)", text), f"README.md: --{option} is not named")


def main():
    out = os.path.abspath(sys.argv[1])
    program = os.path.join(out, "bin", "spindlebook")
    verbs, options = usage(program)
    check_manual(program, verbs, options)
    check_completion(program, verbs, options)
    check_version(program, out)
    check_readme(verbs, options)
    return tally.end(f"{tally.looked} words of the usage looked up")


if __name__ == "__main__":
    sys.exit(main())
