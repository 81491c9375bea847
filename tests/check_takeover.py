#!/usr/bin/env python3
"""The outputs lie where something may not be moved: the superuser made them, or a folder in
them; something is mounted there; a file is marked as not to be changed. A run then says so
in the very words below and changes nothing, not even what is the program's own; once that is
mended as the words say, the next run makes the new set and has all the user's files.
Needs the superuser, who plays both parts. Usage: check_takeover.py OUT"""
import os
import shutil
import subprocess
import sys
import tempfile

from faulty_folder import hand_over, lay_out, run, said_wrong, state_of, write

CASES = []
OR_ELSEWHERE = ", or give another folder with --out"
ROOTS = "this belongs to root, and you may not change it; make it yours with chown -R" + OR_ELSEWHERE
MINE = "you may not write in this folder; allow it with chmod u+rwx" + OR_ELSEWHERE
MOUNTED = "something is mounted here; unmount it" + OR_ELSEWHERE
MARKED = ("this is marked as not to be changed; take the mark off with chattr -ia" + OR_ELSEWHERE)


def case(*words, status=1):
    """A case by the name of its function, which lays its hindrance in the old outputs, and
    gives the command that takes it away, or False where this machine has no such thing;
    words: what is said."""
    def keep(lay):
        CASES.append((lay, status, words))
        return lay
    return keep


def roots(*paths):
    """Given to the superuser, and what is in them; gives the way back."""
    subprocess.run(["chown", "-R", "root:root", *paths], check=True)
    return ["chown", "-R", "65534:65534", *paths]


def lay_with(words, *paths):
    """Does so with each path; False where this machine does not let us."""
    return all(subprocess.run([word.replace("PATH", path) for word in words], check=False,
                              stderr=subprocess.DEVNULL).returncode == 0 for path in paths)


def mount(*paths):
    return lay_with(["mount", "--bind", "PATH", "PATH"], *paths) and ["umount", *paths]


def mark(letter, *paths):
    return lay_with(["chattr", "+" + letter, "PATH"], *paths) and ["chattr", "-" + letter, *paths]


# ---- who owns it

@case("out: " + ROOTS)
def root_made_all():
    return roots("out")


@case("out: " + ROOTS)
def root_made_all_for_his_eyes():
    os.chmod("out", 0o700)
    return roots("out")


@case("out/bin: " + ROOTS)
def root_made_a_folder():
    return roots("out/bin")


@case("out/site: " + ROOTS)
def root_made_the_site():
    return roots("out/site")


@case("out/bin: " + ROOTS, "out/site: " + ROOTS, "out/tables: " + ROOTS)
def root_made_several_folders():
    return roots("out/tables", "out/site", "out/bin")


@case("out/card.pdf: " + ROOTS, "out/notes.txt: " + ROOTS)
def root_made_files_where_each_keeps_his_own():
    os.chmod("out", 0o1777)
    mend = roots("out/card.pdf", "out/notes.txt")
    os.chown("out", 0, 0)
    return mend


@case("out: " + ROOTS)
def root_made_all_where_each_keeps_his_own():
    os.chmod(".", 0o1777)
    os.chown(".", 0, 0)
    os.chmod("out", 0o777)
    os.chown("out", 0, 0)
    return ["chown", "65534", "out"]


@case("out: " + MINE)
def rights_are_gone():
    os.chmod("out", 0o555)
    return ["chmod", "u+rwx", "out"]


@case("out/bin: " + MINE)
def rights_to_a_folder_are_gone():
    os.chmod("out/bin", 0o555)
    return ["chmod", "u+rwx", "out/bin"]


@case("out/site: " + MINE)
def rights_to_the_site_are_gone():
    os.chmod("out/site", 0)
    return ["chmod", "u+rwx", "out/site"]


# ---- mounts

@case("out/bin: " + MOUNTED)
def folder_is_mounted():
    return mount("out/bin")


@case("out/card.pdf: " + MOUNTED, "out/notes.txt: " + MOUNTED)
def files_are_mounted():
    return mount("out/card.pdf", "out/notes.txt")


@case("out/site: " + MOUNTED)
def site_is_mounted():
    return mount("out/site")


@case("out: something is mounted here; give --out a folder further in")
def all_is_mounted():
    return mount("out")


# ---- marks

@case("out/notes.txt: " + MARKED)
def file_is_marked():
    return mark("i", "out/notes.txt")


@case("out/card.pdf: " + MARKED)
def file_of_the_set_is_marked():
    return mark("i", "out/card.pdf")


@case("out/bin: " + MARKED, "out/site: " + MARKED)
def folders_are_marked():
    return mark("i", "out/bin", "out/site")


@case("out: " + MARKED)
def all_is_marked():
    return mark("a", "out")


# ---- what was left by a run that was killed, or that did not look first

@case("spindlebook: an interrupted run left files of yours that belong into WORK/out: "
      "WORK/.out.spindlebook-99999-1: " + ROOTS, status=3)
def root_was_killed():
    os.mkdir(".out.spindlebook-99999-1")
    write(".out.spindlebook-99999-1/.spindlebook", "site/index.html\n")
    os.rename("out/bin", ".out.spindlebook-99999-1/bin")
    return roots(".out.spindlebook-99999-1")


@case("spindlebook: an interrupted run left WORK/.out.spindlebook-99999-1/bin/maker, and there is "
      "another in WORK/out, and so with 1 more; keep one of the two", status=3)
def left_and_made_again():
    shutil.copytree("out/bin", ".out.spindlebook-99999-1/bin")
    write(".out.spindlebook-99999-1/.spindlebook", "site/index.html\n")
    for name in ("maker", "program"):
        write("out/bin/" + name, "made again\n")
    hand_over(".")
    return ["rm", "out/bin/maker", "out/bin/program"]


def users_files():
    """By their paths: what no run made."""
    with open("out/.spindlebook") as file:
        listed = set(file.read().split("\n")) | {".spindlebook"}
    return {path: what for path, what in state_of("out").items()
            if os.path.isfile(path) and os.path.relpath(path, "out") not in listed}


def lay_old_set():
    """With a program and notes of the user's among it."""
    for name in ("bin", "site/mine"):
        os.makedirs("out/" + name, exist_ok=True)
    write("out/bin/program", "bytes\n")
    write("out/bin/maker", "its maker\n")
    write("out/notes.txt", "mine\n")
    write("out/site/mine/page.html", "mine too\n")
    hand_over(".")
    status, said = run([])
    assert status == 0, said


def owners():
    return {path: os.lstat(path).st_uid for path in state_of(".")}


def check(lay, status, words):
    """What is wrong with how the program takes one case; None when nothing is, False when it
    cannot be laid."""
    lay_old_set()
    mine = users_files()
    mend = lay()
    if not mend:
        return False
    before = state_of("."), owners(), os.stat("out").st_ino
    got, said = run(["--set", "drum.diameter=62 mm"])
    after = state_of("."), owners(), os.stat("out").st_ino
    subprocess.run(mend, stderr=subprocess.DEVNULL, check=False)
    if got != status:
        return "status %d: %s" % (got, said[:500])
    if before != after:
        return "something was changed: %s" % sorted(
            set(before[0].items()) ^ set(after[0].items()))[:4]
    return said_wrong(said.replace(os.getcwd(), "WORK"), words) or is_mended(mine)


def is_mended(mine):
    got, said = run(["--set", "drum.diameter=62 mm"])
    if got != 0 or said:
        return "mended as was said, and status %d: %s" % (got, said[:500])
    if users_files() != mine:
        return "files of the user's are %s" % sorted(users_files())
    beside = [name for name in os.listdir(".") if name.startswith(".out.")]
    return "beside the outputs: %s" % beside if beside else None


def check_in_new_folder(case_, program):
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as work:
        os.chmod(work, 0o755)
        os.chdir(work)
        lay_out(program)
        try:
            return check(*case_)
        finally:
            os.chdir("/")
            subprocess.run(["chattr", "-R", "-f", "-ia", work], check=False)


def main():
    program = os.path.join(os.path.abspath(sys.argv[1]), "bin", "spindlebook")
    failed, skipped = 0, []
    for case_ in CASES:
        problem = check_in_new_folder(case_, program)
        if problem:
            failed += 1
            print("FAILED %s: %s" % (case_[0].__name__, problem))
        elif problem is False:
            skipped.append(case_[0].__name__)
    print("%d outputs that may not be moved, %d failed%s" % (
        len(CASES) - len(skipped), failed,
        ", not to be had here: " + " ".join(skipped) if skipped else ""))
    return 1 if failed else 0


if os.getuid() != 0:
    print("skipped: needs the superuser, who plays two users")
    sys.exit(0)
UNSHARE = ["unshare", "--mount", "--propagation", "private"]  # what is mounted ends with it
if "--within" not in sys.argv and subprocess.run(UNSHARE + ["true"], check=False).returncode == 0:
    os.execvp(UNSHARE[0], [*UNSHARE, sys.executable, *sys.argv, "--within"])
sys.exit(main())
