#!/bin/sh
# Does the program still make what it made at an earlier commit, byte for byte? Code that is
# moved or merged must. Usage: tests/frozen.sh OUT [COMMIT]     (the commit before, if none)
#
# The earlier program is built in a folder of its own. Both programs get that commit's pages,
# templates and tests: the demo, made-up workshops (check_oracle.py), the terminal's questions
# and the fault folders. A difference that is meant is justified in its commit.
set -eu
out=$(cd "$1" && pwd)
commit=$(git rev-parse "${2:-HEAD^}")
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
before=${FROZEN:-$out/build/frozen}/$commit

if [ ! -x "$before/out/bin/spindlebook" ]; then
    mkdir -p "$before"
    git archive "$commit" | tar -x -C "$before"
    make -s -C "$before" -j2 program > /dev/null
fi
sha256() { (cd "$1" && find . -type f -printf '%P\0' | sort -z | xargs -0 sha256sum); }

# Everything that a program makes, as a list of sums; the answers word for word.
make_all() { # PROGRAM FOLDER
    mkdir -p "$2/terminal"
    (cd "$before" && "$1" book --out "$2/demo" > "$2/demo.said" 2>&1) || true
    sed -i "s|$2|OUT|g" "$2/demo.said"
    python3 - "$before/tests" "$before/templates" "$1" "$2" <<'END'
import os, random, shutil, subprocess, sys
tests, templates, program, to = sys.argv[1:]
sys.path.insert(0, tests)
import check_oracle as shops
pages = os.path.join(tests, "..", "content")
for seed in range(4000, 4012):
    draw = random.Random(seed)
    text = shops.shop_text(draw)
    content = os.path.join(to, f"shop-{seed}")
    if seed % 4 == 3:  # the demo's pages
        shutil.copytree(pages, content)
    else:
        os.makedirs(content)
    logs = {"gauge-check.csv": shops.check_log(draw, text), "readings.csv": shops.pull_log(draw, text)}
    files = {"settings.yaml": shops.without_limits(text) if seed % 5 == 4 else text}
    if seed % 4 != 3:
        files |= {"00-start.md": "# Book\n", "10-tables.md": shops.PAGE, "card.md": shops.CARD}
    files |= {name: log for name, log in logs.items() if log}
    for name, words in files.items():
        with open(os.path.join(content, name), "w", encoding="utf-8") as file:
            file.write(words)
    for verb in (["book", "--out", os.path.join(content, "out")], ["check"], ["window"], ["gauge"]):
        made = subprocess.run([program, *verb, "--templates", templates, "--content", "."],
                              cwd=content, capture_output=True)
        with open(os.path.join(content, verb[0] + ".said"), "wb") as said:
            said.write(made.stdout + made.stderr + b"%d\n" % made.returncode)
END
    [ -z "${QUICK:-}" ] || return 0
    PROGRAM=$1 "$before/tests/check_terminal.sh" "$before/out" > "$2/terminal/said" 2>&1 || true
    PROGRAM=$1 "$before/tests/check_faults.sh" "$before/out" > "$2/terminal/faults" 2>&1 || true
}

[ -e "$before/made/whole" ] || {
    rm -rf "$before/made"
    QUICK='' make_all "$before/out/bin/spindlebook" "$before/made"
    : > "$before/made/whole"
}
make_all "$out/bin/spindlebook" "$work/made"
: > "$work/made/whole"
[ -z "${QUICK:-}" ] || cp -r "$before/made/terminal" "$work/made/"
sha256 "$before/made" > "$work/was"
sha256 "$work/made" > "$work/is"
if ! diff "$work/was" "$work/is" > "$work/differences"; then
    cat "$work/differences"
    diff -ru -x '*.pdf' "$before/made" "$work/made" | grep -a '^[-+]' | cut -c1-200 | head -40 || true
    echo "FAILED: outputs differ from those at $commit"
    exit 1
fi
echo "$(wc -l < "$work/is") files as at $commit"
