"""A small book to make over and over while the machine fails, and what must hold of
its folder of outputs: it is wholly the old set or wholly the new one."""
import hashlib
import os
import random
import shutil
import subprocess

HERE = os.path.dirname(os.path.abspath(__file__))
STRANGERS = {"notes.txt": "mine", "site/mine.html": "mine too", "photos/2024/spindle.txt": "p"}


def hashes(folder):
    """Every file below a folder with the hash of its bytes."""
    found = {}
    for path, _, names in os.walk(folder):
        for name in names:
            whole = os.path.join(path, name)
            with open(whole, "rb") as file:
                found[os.path.relpath(whole, folder)] = hashlib.sha256(file.read()).hexdigest()
    return found


class Bench:
    """A work folder with content, the program and the library that lets it fail."""

    def __init__(self, work, out):
        self.work = work
        self.program = os.path.join(os.path.abspath(out), "bin", "spindlebook")
        self.folder = os.path.join(work, "o")
        self.library = os.path.join(work, "inject.so")
        shutil.copytree(os.path.join(HERE, "faults", "base"), os.path.join(work, "content"))
        subprocess.run(["gcc", "-std=c11", "-D_GNU_SOURCE", "-O1", "-fPIC", "-shared", "-o",
                        self.library, os.path.join(HERE, "inject", "inject.c")], check=True)
        self.old = self.make_reference("60 mm")
        self.new = self.make_reference("62 mm")
        self.model = self.make_model()
        self.typed = hashes(os.path.join(work, "content"))
        # Calls that touch files before the two folders are exchanged, and before each of the
        # user's files is moved.
        self.exchange, self.moves = 0, []
        assert self.old.keys() == self.new.keys() and self.old != self.new

    def words(self, drum, folder):
        return [self.program, "book", "--content", os.path.join(self.work, "content"),
                "--templates", os.path.join(HERE, "..", "templates"), "--out", folder,
                "--set", "drum.diameter=" + drum]

    def run(self, drum, folder=None, **extra):
        return self.run_words(self.words(drum, folder or self.folder), **extra)

    def ask(self, *words, **extra):
        """A verb that answers and makes nothing."""
        return self.run_words(
            [self.program, *words, "--content", os.path.join(self.work, "content"),
             "--templates", os.path.join(HERE, "..", "templates")], **extra)

    def run_words(self, words, **extra):
        environment = dict(os.environ, **extra)
        if extra:
            environment["LD_PRELOAD"] = self.library
        return subprocess.run(words, env=environment, stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE, text=True, timeout=60)

    def make_reference(self, drum):
        folder = os.path.join(self.work, "reference")
        shutil.rmtree(folder, ignore_errors=True)
        assert self.run(drum, folder).returncode == 0
        return hashes(folder)

    def make_model(self):
        """An old set with files of the user's in it, to copy from."""
        model = os.path.join(self.work, "model")
        assert self.run("60 mm", model).returncode == 0
        for path, text in STRANGERS.items():
            whole = os.path.join(model, path)
            os.makedirs(os.path.dirname(whole), exist_ok=True)
            with open(whole, "w") as file:
                file.write(text)
        return model

    def make_old(self):
        """The old set and nothing beside it."""
        for name in self.beside():
            shutil.rmtree(os.path.join(self.work, name))
        shutil.rmtree(self.folder, ignore_errors=True)
        shutil.copytree(self.model, self.folder)

    def plan(self, group):
        """Numbers of the calls of a group that are worth failing."""
        self.make_old()
        return self.plan_of(group, lambda file: self.run("62 mm", INJECT_PLAN=file))

    def plan_of(self, group, run):
        file = os.path.join(self.work, "plan")
        assert run(file).returncode == 0
        numbers = {"memory": set(), "disk": set(), "swap": set(), "move": set(), "list": set(),
                   "tidy": set()}
        self.moves = []
        with open(file) as lines:
            for line in lines:
                name, number, disk = line.split()
                if name == "swap":
                    self.exchange = int(disk)
                elif name == "move":
                    self.moves.append(int(disk))
                numbers[name].add(int(number))
        return sorted(numbers[group])

    def beside(self):
        return [name for name in os.listdir(self.work) if name.startswith(".o.")]

    def state(self):
        """"old", "new", "none", or a word on what is mixed; without the user's files."""
        found = {path: sum for path, sum in hashes(self.folder).items()
                 if path not in STRANGERS}
        if not os.path.exists(self.folder):
            return "none"
        return "old" if found == self.old else "new" if found == self.new else "a mix"

    def strangers_missing(self):
        missing = []
        for path, text in STRANGERS.items():
            try:
                with open(os.path.join(self.folder, path)) as file:
                    if file.read() != text:
                        missing.append(path + " (changed)")
            except OSError:
                missing.append(path)
        return missing

    def content_changed(self):
        """What the user typed is read and never written."""
        return hashes(os.path.join(self.work, "content")) != self.typed

    def mends(self):
        """The next run: a whole new set, the user's files, nothing beside."""
        made = self.run("62 mm")
        if made.returncode != 0:
            return "the next run ended with %d: %s" % (made.returncode, made.stderr)
        if self.state() != "new" or self.strangers_missing() or self.beside():
            return "after the next run: %s, missing %s, beside %s" % (
                self.state(), self.strangers_missing(), self.beside())
        return None


def sample(numbers, most, seed):
    """At most so many of the numbers, drawn from a seed; the first and last among them."""
    if most <= 0 or len(numbers) <= most:
        return numbers
    drawn = random.Random(seed).sample(numbers[1:-1], most - 2)
    return [numbers[0]] + sorted(drawn) + [numbers[-1]]
