"""What the checks in Python share: counting what was looked at, telling what failed, reading
the repository's files, running a program that must not complain."""
import os
import subprocess

root = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
looked = failed = 0


def check(good, words):
    global looked, failed
    looked += 1
    if not good:
        failed += 1
        print(f"FAILED {words}")


def end(summary):
    """The last line, and the status to leave with."""
    print(f"{summary}, {failed} failures")
    return 1 if failed else 0


def read(path):
    with open(os.path.join(root, path), encoding="utf-8") as file:
        return file.read()


def output(*command):
    """What a program prints, in bytes."""
    done = subprocess.run(command, capture_output=True, check=True)
    check(not done.stderr, f"{command[0]} complains: {done.stderr}")
    return done.stdout
