#!/usr/bin/env python3
"""The program runs where not all is as usual: a standard handle is closed, signals are ignored,
the stack is small, the locale is odd; its outputs' folder has a group and rights of its own, lies
in a lower layer or where nothing can be written; somebody else holds the turn, or has laid what
looks like an interrupted run's; one lathe of many cannot be made. Each is told or does no harm,
and nothing is lost. Needs the superuser for some. Usage: check_surroundings.py OUT"""
import fcntl
import os
import shutil
import struct
import subprocess
import sys
import tempfile
import time

from faulty_folder import lay_out, leave_root, write

CASES = []
NOBODY = 65534


def case(function):
    CASES.append(function)
    return function


def book(*more, before="", user=False, words=("book", "--only", "card"), **how):
    """Runs it by the shell, behind other commands; gives its status and what it says."""
    command = [*words, "--content", "content", "--templates", "templates", "--fonts", "fonts", *more]
    made = subprocess.run(["bash", "-c", before + ' exec ./spindlebook "$@"', "bash", *command],
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=90, check=False,
                          preexec_fn=leave_root if user else None, **how)
    return made.returncode, made.stderr.decode(errors="replace")


def must(good, *what):
    if not good:
        raise AssertionError(" ".join(map(repr, what)))


def must_make(got):
    must(got == (0, ""), got)
    must(os.path.isfile("out/card.pdf") and os.path.isfile("out/mine.txt"), os.listdir("out"))
    must(not [name for name in os.listdir(".") if name.startswith(".out.")], os.listdir("."))


# ---- the process

@case
def handles_are_closed():
    for closed in ("exec <&- 2>&-;", "exec <&-;", "exec <&- >&- 2>&-;"):
        must_make(book(before=closed))
        shutil.rmtree("out/mine", ignore_errors=True)


@case
def answer_cannot_be_heard():
    status, said = book(before="exec >&-;", words=["window"])
    must(status == 3 and "the answer cannot be written" in said, status, said)


@case
def signals_are_ignored():
    must_make(book(before="trap '' CHLD PIPE HUP XFSZ;", words=["book"]))


@case
def stack_is_small():
    must_make(book(before="ulimit -s 64;", words=["book"]))


@case
def locale_is_odd():
    must_make(book(before="exec 3>&2 2>/dev/null; export LC_ALL=tr_TR.UTF-8 LANG=xx TZ=:/nowhere; exec 2>&3;"))


# ---- the folder of outputs

@case
def group_rights_and_list_stay():
    """An access list as the kernel keeps it: version 2, then tag, rights and who."""
    rows = ((1, 7, -1), (2, 5, 1234), (4, 5, -1), (16, 5, -1), (32, 0, -1))
    rules = struct.pack("<I", 2) + b"".join(struct.pack("<HHi", *row) for row in rows)
    os.chown("out", 0, 100)
    os.chmod("out", 0o2750)
    try:
        os.setxattr("out", "system.posix_acl_access", rules)
    except OSError:
        rules = None  # this file system has no such lists
    before = os.stat("out").st_mode
    must_make(book())
    status = os.stat("out")
    must((status.st_gid, status.st_mode) == (100, before), status)
    must(os.stat("out/card.pdf").st_gid == 100, "the file's group")
    must(not rules or os.getxattr("out", "system.posix_acl_access") == rules, "the access list")


@case
def group_cannot_be_kept():
    hand = [os.path.join(path, name) for path, folders, names in os.walk(".") for name in folders + names]
    for path in [".", *hand]:
        os.chown(path, NOBODY, NOBODY)
    os.chown("out", NOBODY, 100)
    os.chmod("out", 0o770)
    status, said = book(user=True)
    must(status == 1 and said.startswith("out: new outputs cannot have the group 100 "), status, said)
    must(os.listdir("out") == ["mine.txt"], os.listdir("out"))
    os.chown("out", NOBODY, NOBODY)
    must_make(book(user=True))


@case
def parents_that_were_made_go_again():
    status, said = book("--out", "none/../content")
    must(status != 0 and not os.path.exists("none"), status, said, os.listdir("."))


@case
def outputs_lie_in_a_lower_layer():
    os.makedirs("layers/lower")
    os.mkdir("layers/all")
    shutil.move("out", "layers/lower/out")
    os.mkdir("layers/space")  # a file system that may be a layer above
    if subprocess.run("mount -t tmpfs none layers/space && mkdir layers/space/u layers/space/w && mount -t overlay "
                      "none -o lowerdir=layers/lower,upperdir=layers/space/u,workdir=layers/space/w layers/all",
                      shell=True, stderr=subprocess.DEVNULL, check=False).returncode != 0:
        return "skipped"
    status, said = book("--out", "layers/all/out")
    must(status == 3 and "nothing was changed; give --out a folder further in" in said, status, said)
    must(os.listdir("layers/all/out") == ["mine.txt"], os.listdir("layers/all/out"))
    must(book("--out", "layers/all/out/set") == (0, ""))
    return None


@case
def nothing_can_be_written():
    if subprocess.run("mount --bind . . && mount -o remount,bind,ro .", shell=True, stderr=subprocess.DEVNULL,
                      check=False).returncode != 0:
        return "skipped"
    os.chdir(os.getcwd())
    status, said = book()
    must(status == 3 and "Read-only file system" in said, status, said)
    must(book(words=["check"])[0] == 0)
    return None


# ---- other people

@case
def somebody_has_the_turn():
    handle = os.open(".", os.O_RDONLY)
    fcntl.flock(handle, fcntl.LOCK_EX)
    run = subprocess.Popen(["./spindlebook", "book", "--only", "card", "--content", "content", "--templates",
                            "templates", "--fonts", "fonts"], stderr=subprocess.PIPE, text=True)
    time.sleep(4)
    waits = run.poll() is None
    os.close(handle)
    said = run.communicate(timeout=60)[1]
    must(waits and run.returncode == 0 and "another run is putting its outputs into " in said, waits, said)


@case
def another_laid_a_leftover():
    os.chmod(".", 0o1777)
    os.makedirs(".out.spindlebook-99-1/site")
    write(".out.spindlebook-99-1/.spindlebook", "site/index.html\n")
    write(".out.spindlebook-99-1/site/evil.html", "evil\n")
    for path in ("", "/.spindlebook", "/site", "/site/evil.html"):
        os.chown(".out.spindlebook-99-1" + path, 1234, 1234)
    status, said = book()
    must(status == 0 and "is not touched" in said, status, said)
    must(not os.path.exists("out/site/evil.html") and os.path.exists(".out.spindlebook-99-1/site/evil.html"))


@case
def leftover_without_a_list():
    os.mkdir(".out.spindlebook-99-1")
    write(".out.spindlebook-99-1/mine.html", "mine\n")
    status, said = book()
    must(status == 0 and "is not touched" in said and os.listdir(".out.spindlebook-99-1") == ["mine.html"],
         status, said)


@case
def folder_name_moves_the_cursor():
    os.makedirs("a\x1b[2J")
    os.chdir("a\x1b[2J")
    for name in ("content", "templates", "fonts", "spindlebook"):
        os.symlink("../" + name, name)
    status, said = book(before="ulimit -f 8;", words=["book"])
    must(status == 3 and "a?[2J" in said and "\x1b" not in said, status, said)


# ---- many lathes

@case
def one_lathe_of_many_cannot_be_made():
    os.mkdir("lathes")
    for name in ("good.yaml", "n" * 240 + ".yaml", "x.yaml", "x.spindlebook-9.yaml", ".x.spindlebook-9-1.yaml"):
        shutil.copy("content/settings.yaml", "lathes/" + name)
    for name in ("sparse", "shut"):
        os.mkdir("lathes/" + name)
        shutil.copy("content/settings.yaml", "lathes/" + name)
    write("lathes/sparse/readings.csv", "date,direction,warmth,pulls\n")
    os.truncate("lathes/sparse/readings.csv", 10 << 30)
    os.makedirs("sets/shut")
    os.chmod("sets/shut", 0)
    for path in ("sets", "sets/shut"):
        os.chown(path, NOBODY, NOBODY)
    status, said = book("--out", "sets", "--each", "lathes", user=True,
                        before="ulimit -v 2000000;")
    must(status == 1, status, said)
    for words in ("this name is too long", "lathes/sparse/readings.csv: the file is larger than 128 MiB",
                  "sets/shut: you may not write in this folder"):
        must(words in said, words, said)
    must(sorted(os.listdir("sets")) == ["good", "shut", "x", "x.spindlebook-9"], os.listdir("sets"))
    status, again = book("--out", "sets", "--each", "lathes", user=True)
    must(status == 1 and again == said and os.path.exists("sets/x.spindlebook-9/card.pdf"), status, again)


def run_case(function, program):
    """What is wrong; None when nothing is, "skipped" where this machine has no such thing."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as work:
        os.chmod(work, 0o755)
        os.chdir(work)
        lay_out(program)
        try:
            return function()
        except AssertionError as wrong:
            return str(wrong)
        finally:
            os.chdir("/")
            subprocess.run("umount %s/layers/all %s/layers/space %s" % (work, work, work), shell=True,
                           stderr=subprocess.DEVNULL, check=False)


def main():
    program = os.path.join(os.path.abspath(sys.argv[1]), "bin", "spindlebook")
    failed, skipped = 0, []
    for function in CASES:
        problem = run_case(function, program)
        if problem == "skipped":
            skipped.append(function.__name__)
        elif problem:
            failed += 1
            print("FAILED %s: %s" % (function.__name__, problem))
    print("%d unusual surroundings, %d failed%s" % (
        len(CASES) - len(skipped), failed, ", not to be had here: " + " ".join(skipped) if skipped else ""))
    return 1 if failed else 0


if os.getuid() != 0:
    print("skipped: needs the superuser, who plays several users")
    sys.exit(0)
UNSHARE = ["unshare", "--mount", "--propagation", "private"]  # what is mounted ends with it
if "--within" not in sys.argv and subprocess.run(UNSHARE + ["true"], check=False).returncode == 0:
    os.execvp(UNSHARE[0], [*UNSHARE, sys.executable, *sys.argv, "--within"])
sys.exit(main())
