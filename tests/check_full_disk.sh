#!/bin/sh
# No room left: every verb that answers on standard output, into a full device; and
# the outputs onto a disk of 64 KiB, or past the largest file that is allowed. Status 3
# and words each time, the old outputs whole and nothing left beside them.
# Usage: check_full_disk.sh OUT
set -u
out=$(cd "$1" && pwd) || exit 2
here=$(cd "$(dirname "$0")" && pwd)
program=$out/bin/spindlebook
work=$(mktemp -d)
trap 'umount "$work/disk" 2> /dev/null; rm -rf "$work"' EXIT
looked=0
failed=0
cd "$work" || exit 2
cp -r "$here/faults/base" content
cp -r "$here/../templates" .

say() {
    failed=$((failed + 1))
    echo "FAILED $1"
    cat said
}

# The last command had to end with status 3 and one line of words.
expect_words() { # NAME STATUS
    looked=$((looked + 1))
    [ "$2" = 3 ] || say "$1: status $2, not 3"
    grep -q '^spindlebook: .*[a-z]' said || say "$1: no words"
    [ "$(wc -l < said)" = 1 ] || say "$1: not one line"
}

answer() { # WORD...
    for lines in "" --lines; do
        [ "$1$lines" != check--lines ] || continue # it knows plain lines alone
        "$program" "$@" $lines > plain 2> said || say "$* $lines: refused"
        [ -s plain ] || say "$* $lines: no answer"
        "$program" "$@" $lines > /dev/full 2> said
        expect_words "$* $lines" $?
    done
}

answer window
answer pull 10N 10N 10N 10N 10N
answer nut 0deg 0.5N.m 3deg 0.6N.m
answer check
answer gauge --content "$here/../content"
"$program" --help > /dev/full 2> said
expect_words --help $?

book() { # FOLDER
    "$program" book --out "$1" 2> said
}

# The set is larger than the room: the old one, small enough to fit, must stay.
try_room() { # NAME FOLDER
    mkdir -p "$2/o" && echo mine > "$2/o/notes.txt"
    book "$2/o"
    expect_words "$1" $?
    [ "$(cat "$2/o/notes.txt")" = mine ] || say "$1: a file was lost"
    [ "$(ls -A "$2")" = o ] && [ "$(ls -A "$2/o")" = notes.txt ] || say "$1: something is left over"
}

disk="and a disk of 64 KiB"
mkdir disk small
if mount -t tmpfs -o size=64k none disk 2> /dev/null; then
    try_room "disk of 64 KiB" "$work/disk"
else
    disk="no disk could be mounted"
fi
if (ulimit -f 16; try_room "files of 8 KiB" "$work/small"; [ "$failed" = 0 ]); then
    looked=$((looked + 1))
else
    failed=$((failed + 1))
fi
echo "$looked full devices, $disk, $failed failed"
[ "$failed" = 0 ] && [ "$looked" -gt 0 ]
