#!/bin/sh
# The site, the single file and the bench page in a browser and before the Nu HTML
# checker; see tests/browser. Usage: check_browser.sh OUT [SEED]
#
# Skipped only where there is no node or no Chromium.
set -eu
out=$(cd "$1" && pwd)
root=$(cd "$(dirname "$0")/.." && pwd)
CHROMIUM=${CHROMIUM:-$(command -v chromium || true)}
export CHROMIUM
for what in "node $(command -v node || true)" "chromium $CHROMIUM"; do
    [ -n "${what#* }" ] && continue
    echo "skipped: there is no ${what% *} here; make deps check"
    exit 0
done
if [ ! -e "$out/site/bench.html" ]; then
    echo "FAILED: there is no bench page in $out/site; make deps booklet"
    exit 1
fi

tools=$out/build/browser
"$root/tests/browser/tools.sh" "$out"

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# The checker does not work out hashes, nor does it know what file: may load: a browser
# does, and complains below if anything is kept back.
java -jar "$tools/node_modules/vnu-jar/build/dist/vnu.jar" --also-check-css --stdout \
    --format gnu --filterpattern '.*violates Content Security Policy.*' \
    "$out"/site/*.html "$out"/site/*.css "$out/spindlebook.html" > "$work/nu" &
nu=$!
failed=0
if "$out/bin/spindlebook" book --content "$root/content" --templates "$root/templates" \
    --bench "$work/none.wasm" --out "$work/none" 2> "$work/said" || [ -e "$work/none" ] ||
    ! grep -q "none.wasm: the bench page's engine cannot be read" "$work/said"; then
    echo "FAILED: an engine that is not there"
    failed=1
fi
NODE_PATH=$tools/node_modules node "$root/tests/browser/run.js" "$out" "$root" "$work" ${2:+"$2"} \
    > "$work/said" || failed=1
wait "$nu" || failed=1
cat "$work/nu"
[ -s "$work/nu" ] && failed=1
cat "$work/said"
exit "$failed"
