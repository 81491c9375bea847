#!/bin/sh
# The pictures of README and docs, made from what was made: the card, a page of the
# booklet, and the site and the bench page in light, dark and on a telephone.
# Usage: pictures.sh OUT
set -eu
out=$(cd "$1" && pwd)
cd "$(dirname "$0")/.."

pdftoppm -r 90 -gray -png -f 1 -l 1 -singlefile "$out/card.pdf" docs/card

# The page whose text holds the pull windows, whatever its number is.
pages=$(pdfinfo "$out/booklet.pdf" | sed -n 's/^Pages: *//p')
for page in $(seq 1 "$pages"); do
    pdftotext -f "$page" -l "$page" "$out/booklet.pdf" - | grep -q 'The pull window of your band' && found=$page
done
pdftoppm -r 75 -gray -png -f "$found" -l "$found" -singlefile "$out/booklet.pdf" docs/booklet-page

CHROMIUM=${CHROMIUM:-$(command -v chromium)}
export CHROMIUM
tests/browser/tools.sh "$out"
NODE_PATH=$out/build/browser/node_modules node tests/browser/pictures.js "$out" docs
