#!/bin/sh
# The same content gives the same bytes: in another folder and working folder, in a
# language whose decimal sign is a comma, in another time zone, by another clock, under
# other rights for new files, with next to no environment, and by a program that was built
# elsewhere and not optimised. Usage: check_same_bytes.sh OUT
set -eu
out=$(cd "$1" && pwd)
cd "$(dirname "$0")/.."
tests=$PWD/tests
program=$out/bin/spindlebook
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
compared=0
unset SOURCE_DATE_EPOCH
bench=
[ ! -e "$out/build/bench.wasm" ] || bench="--bench $out/build/bench.wasm"

say() {
    failed=$((failed + 1))
    echo "FAILED $1"
}

# Every output of the first folder, and no other, stands with the same bytes in the second.
compare() { # NAME FOLDER FOLDER
    (cd "$2" && xargs -a .spindlebook -d '\n' sha256sum .spindlebook) > "$work/first"
    (cd "$3" && find . -type f -printf '%P\0' | xargs -0 sha256sum) > "$work/second"
    sort -k2 -o "$work/first" "$work/first"
    sort -k2 -o "$work/second" "$work/second"
    diff "$work/first" "$work/second" > "$work/differences" || {
        say "$1"
        cat "$work/differences"
    }
    compared=$((compared + $(wc -l < "$work/second")))
}

# A language with a decimal comma, made here; and the sign that it really has.
mkdir "$work/languages"
localedef -i de_DE -f UTF-8 "$work/languages/de_DE.UTF-8"
comma=$(LOCPATH="$work/languages" LC_ALL=de_DE.UTF-8 locale decimal_point)
[ "$comma" = , ] || say "the other language has no decimal comma"
gcc -shared -fPIC -o "$work/clock.so" tests/inject/clock.c
year=$(LD_PRELOAD="$work/clock.so" date +%Y)
[ "$year" = 2049 ] || say "the other clock says $year"

mkdir -p "$work/elsewhere/deeper"
cp -r content templates "$work/elsewhere/"
(cd "$work/elsewhere" && umask 077 && env LOCPATH="$work/languages" LC_ALL=de_DE.UTF-8 \
    LANG=de_DE.UTF-8 LANGUAGE=de TZ=Pacific/Auckland "$program" book --out made $bench) ||
    say "elsewhere"
compare "in another folder, language and time zone" "$out" "$work/elsewhere/made"

(cd "$work/elsewhere/deeper" && LD_PRELOAD="$work/clock.so" "$program" book --out made $bench \
    --content ../content --templates ../templates) || say "another clock"
compare "from another working folder, by another clock" "$out" "$work/elsewhere/deeper/made"

env -i "$program" book --out "$work/bare" $bench || say "without environment"
compare "without environment" "$out" "$work/bare"

SOURCE_DATE_EPOCH=1000000000 "$program" book --out "$work/dated" $bench || say "dated"
SOURCE_DATE_EPOCH=1000000000 TZ=Pacific/Auckland LD_PRELOAD="$work/clock.so" \
    "$program" book --out "$work/dated2" $bench || say "dated by another clock"
compare "with the same date given" "$work/dated" "$work/dated2"

mkdir "$work/tree"
cp -r Makefile install.mk LICENSE README.md src tests content templates "$work/tree/"
make -s -C "$work/tree" OUT="$work/built" CFLAGS=-O0 program > "$work/said" 2>&1 || {
    say "the other build"
    cat "$work/said"
}
"$work/built/bin/spindlebook" book --out "$work/by-other" $bench || say "by the other build"
compare "by another build, elsewhere" "$out" "$work/by-other"

# The terminal's answers too.
"$program" window --lines > "$work/here"
LOCPATH="$work/languages" LC_ALL=de_DE.UTF-8 "$program" window --lines > "$work/there"
cmp "$work/here" "$work/there" || say "the terminal answers otherwise in another language"
echo "$compared files with the same bytes wherever and whenever they are made, $failed failures"
[ "$failed" = 0 ] && [ "$compared" -gt 0 ]
