#!/bin/sh
# Every folder of tests/faults lays its files over tests/faults/base and holds in
# `expected` what spindlebook must say of it. Usage: check_faults.sh OUT [--update]
#
# Beside the words it is checked that the status is 1 and that a folder of outputs
# keeps what it had.
set -eu
out=$(cd "$1" && pwd)
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
count=0
failed=0

say() {
    failed=$((failed + 1))
    echo "FAILED $1: $2"
}

for folder in "$here"/faults/*/; do
    name=$(basename "$folder")
    [ "$name" = base ] && continue
    count=$((count + 1))
    rm -rf "$work/content" "$work/kept"
    mkdir "$work/content" "$work/kept"
    cp "$here"/faults/base/* "$work/content/"
    find "$folder" -type f ! -name expected -exec cp {} "$work/content/" \;
    echo kept > "$work/kept/card.pdf"
    status=0
    (cd "$work" && "${PROGRAM:-$out/bin/spindlebook}" book --templates "$here/../templates" --out kept \
        > said 2>&1) || status=$?
    # what tables and figures there are is for their own tests
    sed -i 's/\(the \(tables\|figures\) are\) .*/\1 .../' "$work/said"
    (cd "$work" && "${PROGRAM:-$out/bin/spindlebook}" check --templates "$here/../templates" > checked 2>&1) ||
        [ $? = "$status" ] || say "$name" "check leaves another status"
    sed -i 's/\(the \(tables\|figures\) are\) .*/\1 .../' "$work/checked"
    cmp -s "$work/said" "$work/checked" || say "$name" "check tells other faults"
    [ "$status" = 1 ] || say "$name" "status $status, not 1"
    [ "$(ls "$work/kept")" = card.pdf ] || say "$name" "the outputs were touched"
    if [ "${2:-}" = --update ]; then
        cp "$work/said" "$folder/expected"
    elif ! diff -u "$folder/expected" "$work/said"; then
        say "$name" "other words"
    fi
done
echo "$count faults, $failed failed"
[ "$failed" = 0 ] && [ "$count" -gt 0 ]
