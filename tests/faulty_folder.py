"""A folder with a fault in it, laid out anew for each case of check_faults_made.py, and
what the program says of it and does to it."""
import hashlib
import os
import shutil
import subprocess
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
FONTS = "/usr/share/fonts/truetype/dejavu"
REGULAR = "DejaVuSansCondensed.ttf"
PATIENCE = int(os.environ.get("PATIENCE", "10"))  # seconds; more for a program under checks


def write(path, text):
    with open(path, "wb") as file:
        file.write(text if isinstance(text, bytes) else text.encode())


def lay_out(program):
    shutil.copytree(os.path.join(HERE, "faults", "base"), "content")
    shutil.copytree(os.path.join(HERE, "..", "templates"), "templates")
    os.mkdir("fonts")
    for name in (REGULAR, "DejaVuSansCondensed-Bold.ttf", "DejaVuSansCondensed-Oblique.ttf",
                 "DejaVuSansMono.ttf"):
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


def run(more):
    words = ["./spindlebook", "book", "--content", "content", "--templates", "templates",
             "--fonts", "fonts", "--out", "out"]
    dates = [word for word in more if b"SOURCE_DATE_EPOCH=" in os.fsencode(word)]
    words += [word for word in more if word not in dates]
    words = ["env"] + dates + words if dates else words
    try:
        made = subprocess.run(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=PATIENCE,
                              preexec_fn=leave_root)
    except subprocess.TimeoutExpired:
        return -1, "more than %d seconds" % PATIENCE
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
    """What is wrong with how the program takes one case; None when nothing is."""
    lay_out(program)
    more = lay() or []
    if os.getuid() == 0:
        hand_over(".")
    before = state_of(".")
    got, said = run(more)
    after = state_of(".")
    if got != status:
        return "status %d: %s" % (got, said[:500])
    if status == 0:
        before = {path: what for path, what in before.items() if not path.startswith("./out")}
        after = {path: what for path, what in after.items() if not path.startswith("./out")}
    if before != after:
        return "something was changed: %s" % sorted(set(before.items()) ^ set(after.items()))[:4]
    return said_wrong(said, words)


def check_in_new_folder(case, program):
    with tempfile.TemporaryDirectory() as work:
        os.chmod(work, 0o755)
        os.chdir(work)
        problem = check(*case, program)
        os.chmod("content", 0o755)
        os.chdir(HERE)
    return problem
