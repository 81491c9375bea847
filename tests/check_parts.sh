#!/bin/sh
# check_parts.sh OUT: what --only makes is, byte for byte, that part of the whole set and
# nothing else; a part that there is not is wrong usage.
set -eu
out=$(cd "$1" && pwd)
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
book="$out/bin/spindlebook book"
checked=0

$book --out "$work/whole" > /dev/null
for part in site single tables booklet fold card aids forms drum record; do
    $book --only $part --out "$work/$part" > /dev/null
    case $part in
    site|tables) expected=$part ;;
    single) expected=spindlebook.html ;;
    booklet|aids|forms|record) expected=$part.pdf ;;
    fold) expected="booklet-fold.pdf booklet-trial.pdf" ;;
    drum) expected="drum.3mf drum.dxf drum.stl drum.svg" ;;
    card) expected="card-sheet.pdf card.pdf" ;;
    esac
    [ "$(ls "$work/$part" | tr '\n' ' ')" = "$expected " ] ||
        { echo "--only $part makes $(ls "$work/$part")"; exit 1; }
    for file in $expected; do
        diff -r "$work/whole/$file" "$work/$part/$file" ||
            { echo "--only $part: $file is another than in the whole set"; exit 1; }
        checked=$((checked + 1))
    done
done

$book --only card --only aids --out "$work/two" > /dev/null
[ "$(ls "$work/two" | tr '\n' ' ')" = "aids.pdf card-sheet.pdf card.pdf " ] ||
    { echo "two parts make $(ls "$work/two")"; exit 1; }

status=0
$book --only nothing --out "$work/none" 2> "$work/said" || status=$?
[ $status = 2 ] && [ ! -e "$work/none" ] && grep -q 'no part nothing' "$work/said" ||
    { echo "a part that there is not: status $status"; cat "$work/said"; exit 1; }

echo "$checked outputs made alone, as in the whole set"
