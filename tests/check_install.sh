#!/bin/sh
# What is installed works from any folder, with the user's own settings, pages and templates,
# and is removed again with nothing left. Usage: check_install.sh OUT
set -eu
out=$(cd "$1" && pwd)
cd "$(dirname "$0")/.."
tree=$(pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
looked=0
failed=0
check() { # WORDS COMMAND...
    looked=$((looked + 1))
    words=$1
    shift
    "$@" > "$work/said" 2>&1 || {
        failed=$((failed + 1))
        echo "FAILED: $words"
        cat "$work/said"
    }
}
fails() { # STATUS COMMAND...: a command that must fail so
    wanted=$1
    shift
    status=0
    "$@" || status=$?
    [ "$status" = "$wanted" ]
}
none() { [ -z "$("$@")" ]; }

place=$work/root/opt/drag
share=$place/share/spindlebook
verb() { make -s OUT="$out" DESTDIR="$work/root" PREFIX=/opt/drag "$1"; }
check "install" verb install
check "install over itself" verb install
ln -s "$place/bin/spindlebook" "$work/spindlebook" # found by its real place
PATH=$work:$PATH

# From a folder with nothing in it: never by the invented settings, unless they are named.
mkdir "$work/nothing"
cd "$work/nothing"
check "--version" spindlebook --version
check "window without settings" fails 1 spindlebook window
check "check without settings" fails 1 spindlebook check
mv "$work/said" "$work/told"
check "which file is missing" grep -q '^content/settings.yaml: there is no such file' "$work/told"
check "no fault but that" [ "$(wc -l < "$work/told")" -eq 1 ]
check "the demo" spindlebook book --content "$share/content" --out made
(cd "$tree" && "$out/bin/spindlebook" book --out "$work/tree" \
    $(test ! -e "$out/build/bench.wasm" || echo --bench "$out/build/bench.wasm") > /dev/null)
check "the same bytes as from the sources" diff -r made "$work/tree"
check "the page of the manual" mandoc -Tlint "$place/share/man/man1/spindlebook.1"
check "completion" bash -n "$place/share/bash-completion/completions/spindlebook"

# A lathe as README begins it.
cd "$work"
grep -qx 'spindlebook begin my-lathe' "$tree/README.md"
PYTHONPATH=$tree/tests python3 -c 'import check_begin; print("\n".join(check_begin.ONE_BAND + ["yes"]))' > answers
check "README's step" sh -c 'spindlebook begin my-lathe < answers'
check "it makes a card" test -s my-lathe/out/card.pdf
echo 'lathe.notice: "by the own settings"' >> my-lathe/settings.yaml
check "the own settings" spindlebook book --content my-lathe
check "their notice on a page that is not the user's" grep -q 'by the own settings' out/site/make-safe.html
cp -r "$tree/templates" .
sed -i 's|</footer>|<p>own frame</p></footer>|' templates/page.html
check "own templates" spindlebook book --content my-lathe
check "they frame the pages" grep -q 'own frame' out/site/make-safe.html
cp "$share/content/card.md" my-lathe
printf '# My own\n\nWords.\n' > my-lathe/00-own.md
check "own pages" spindlebook book --content my-lathe
check "they alone are the book" [ "$(ls out/site | grep -c 'html$')" -le 3 ]

# Gone again, but for what was not installed.
: > "$share/content/own.md"
cd "$tree"
check "uninstall" verb uninstall
check "what is the user's stays" [ "$(cd "$work/root" && find . ! -type d)" = ./opt/drag/share/spindlebook/content/own.md ]
rm "$share/content/own.md"
check "install once more" verb install
check "uninstall once more" verb uninstall
check "no file is left" none find "$work/root" ! -type d
check "no folder of ours is left" none find "$work/root" -name 'spindlebook*'
check "uninstall what is not there" verb uninstall
echo "$looked looks at what was installed, $failed failures"
[ "$failed" = 0 ]
