#!/bin/sh
# Another drum by --set: everything is made anew, and agrees with the oracle; values
# that cannot be are clear faults. Usage: check_another_drum.sh OUT
set -eu
out=$(cd "$1" && pwd)
here=$(cd "$(dirname "$0")" && pwd)
program=$out/bin/spindlebook
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
looked=0
cd "$here/.."

say() {
    failed=$((failed + 1))
    echo "FAILED $1"
}

book() { # FOLDER OPTION...
    folder=$1
    looked=$((looked + 1))
    shift
    "$program" book --out "$folder" "$@" 2> "$work/said"
}

book "$work/a" --set drum.diameter=2.5in || say "2.5in was refused"
python3 tests/check_agreement.py "$work/a" content drum.diameter=2.5in || say "2.5 in: cells"
book "$work/b" --set "drum.diameter=2 9/16 in" --set "gauge.step=0.02 lbf" \
    --set "gauge.capacity=15 lbf" --set "limits.bands.1.high=9 lbf.in" --set paper.card=a6 \
    --set paper.booklet=half-letter || say "five replacements were refused"
python3 tests/check_agreement.py "$work/b" content "drum.diameter=2 9/16 in" \
    "gauge.step=0.02 lbf" "gauge.capacity=15 lbf" "limits.bands.1.high=9 lbf.in" ||
    say "five replacements: cells"
pdfinfo "$work/b/booklet.pdf" | grep -q 'Page size: *396 x 612 pts' || say "half letter is not so large"
cmp -s "$work/a/tables/pull-windows.csv" "$out/tables/pull-windows.csv" && say "the windows did not change"

refuse() { # SETTING WORDS
    status=0
    book "$work/c" --set "$1" || status=$?
    [ "$status" = 1 ] || say "$1: status $status"
    grep -q "$2" "$work/said" || { say "$1: other words"; cat "$work/said"; }
    [ ! -e "$work/c" ] || say "$1: something was written"
}

refuse drum.diameter=0mm '^--set drum.diameter: drum.diameter .* must lie between .*, not 0 mm'
refuse drum.diameter=50 '^--set drum.diameter: drum.diameter: the number has no unit'
refuse drum.diameter=50N 'N is a unit of force; a length is needed'
refuse drum.size=50mm '^--set drum.size: there is no setting'
refuse drum.diameter 'is not a key'
status=0
"$program" book --zet x > /dev/null 2>&1 || status=$?
[ "$status" = 2 ] || say "an unknown option gave status $status"

echo "$looked runs with another drum, $failed failures"
[ "$failed" = 0 ]
