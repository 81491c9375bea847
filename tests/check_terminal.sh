#!/bin/sh
# Asks at the terminal and compares every word of the answers and every exit status.
# Usage: check_terminal.sh OUT [--update]
#
# tests/terminal.txt holds the questions, a line "$ ..." each, with the answer below
# it. "$ weighed ..." asks the same shop with a log of known weights, "$ logged ..."
# with a log of pulls, "$ unloaded ..." with one that ends where the nut was unloaded,
# "$ twice ..." with one that was unloaded between two locked places,
# "$ relocked ..." with one that knows what the lock adds, "$ lost ..." a shop without
# limits on file. "$ judged", "moved", "crept", "slack", "doubtful", "refused", "unsaid", "traced": see below.
# --update writes the answers anew: read the difference.
set -eu
out=$(cd "$1" && pwd)
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/plain"
cp "$here"/faults/base/* "$work/plain/"
cp -r "$work/plain" "$work/weighed"
cp -r "$work/plain" "$work/logged"
cp -r "$work/plain" "$work/unloaded"
cp -r "$work/plain" "$work/relocked"
cp -r "$work/plain" "$work/twice"
cp "$here/data/weighings.csv" "$work/weighed/gauge-check.csv"
cp "$here/data/readings.csv" "$work/logged/"
cp -r "$work/logged" "$work/lost"
cp "$here/data/no-limit.yaml" "$work/lost/settings.yaml"
sed 3q "$here/data/readings.csv" > "$work/unloaded/readings.csv"
cp "$here/data/relocked.csv" "$work/relocked/readings.csv"
cp "$here/data/twice.csv" "$work/twice/readings.csv"
cp "$here/data/trace.csv" "$work/"
head=$(sed 1q "$here/data/readings.csv")
# $1: the shop's name; then a row each: date,drum,cord,nut,lock,direction,warmth,...
log() {
    shop=$1
    shift
    cp -r "$work/plain" "$work/$shop"
    { echo "$head"; printf '2026-04-01,,,%s\n' "$@"; } > "$work/$shop/readings.csv"
}
log judged '8 deg,after,usual,cold,,,15.0 15.1 15.0 N,' \
    '10 deg,after,usual,cold,,,17.0 17.1 17.0 N,' '10 deg,after,usual,warm,,,16.0 16.1 16.0 N,' \
    '10 deg,after,other,cold,,,17.0 17.1 17.0 N,'
log moved '8 deg,after,usual,cold,,,15.0 15.1 15.0 N,' \
    '12 deg,after,usual,warm,,,9.0 9.1 9.0 N,'
log crept '0 deg,after,usual,cold,,,40.0 40.1 40.0 N,' \
    '-6 deg,before,usual,cold,,,19.0 19.1 19.0 N,' '-6 deg,after,usual,cold,,,20.6 20.7 20.6 N,'
log slack '-90 deg,before,usual,cold,,,3.0 3.1 3.0 N,' '-12 deg,before,usual,cold,,,8.0 8.1 8.0 N,'
log doubtful '10 deg,after,usual,cold,,,17.5 17.6 17.5 N,'
log refused '8 deg,after,usual,cold,,,15.0 15.1 15.0 N,' \
    '10 deg,after,usual,cold,,,17.0 17.1 27.0 N,'
log unsaid '12 deg,,usual,cold,,,20.6 20.7 20.6 N,'
log traced '10 deg,after,usual,cold,,,1-first.csv 11.9 11.8 N 1-first.csv,'
mkdir "$work/traced/traces"
{ echo '# speed: 12 r/min'; cat "$here/data/trace.csv"; } > "$work/traced/traces/1-first.csv"
log traceless '10 deg,after,usual,cold,,,11.9 11.8 1-first.csv N,'
ln -s "${PROGRAM:-$out/bin/spindlebook}" "$work/spindlebook" # so that it is called by that name
PATH=$work:$PATH
cd "$work"

# $1: the words behind the program's name, as a shell would read them.
ask() {
    echo "$ $1"
    status=0
    eval "set -- $1"
    content=plain
    case ${1:-} in weighed | logged | unloaded | relocked | twice | lost | judged | moved | crept | slack | doubtful | refused | unsaid | traced | traceless)
        content=$1
        shift ;;
    esac
    spindlebook --content $content --templates "$here/../templates" "$@" > answer 2>&1 || status=$?
    # how many tables there are, how large a card's signs and which version is for their own tests
    sed -e 's/^\(program\tspindlebook\) [0-9.]*/\1 N/' -e 's/[0-9]* computed tables/N computed tables/' -e '/^card: /d' answer
    echo "status $status"
    echo
}

grep '^\$ ' "$here/terminal.txt" > questions
: > said
count=0
while read -r _ words; do
    ask "$words" >> said
    count=$((count + 1))
done < questions

if [ "${2:-}" = --update ]; then
    cp said "$here/terminal.txt"
elif ! diff -u "$here/terminal.txt" said; then
    echo "FAILED: other answers"
    exit 1
fi
echo "$count questions answered"
[ "$count" -gt 0 ]
