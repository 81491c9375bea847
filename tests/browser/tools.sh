#!/bin/sh
# What the tests in a browser need from npm, kept in OUT/build/browser for the next time.
# Usage: tools.sh OUT
set -eu
here=$(cd "$(dirname "$0")" && pwd)
tools=$1/build/browser
cmp -s "$here/package-lock.json" "$tools/package-lock.json" && [ -e "$tools/done" ] && exit 0
rm -rf "$tools"
mkdir -p "$tools"
cp "$here/package.json" "$here/package-lock.json" "$tools/"
(cd "$tools" && npm ci --ignore-scripts --no-audit --no-fund > npm.log 2>&1) || {
    cat "$tools/npm.log"
    echo "FAILED: npm could not install what tests/browser needs"
    exit 1
}
touch "$tools/done"
