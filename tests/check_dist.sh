#!/bin/sh
# The archive of the sources: the same bytes each time, with its sums and notices; what lies in
# it builds, and is of the version and commit that it says. Usage: check_dist.sh OUT
set -eu
out=$(cd "$1" && pwd)
cd "$(dirname "$0")/.."
[ -e .git ] || {
    echo "skipped: this is no clone, and the archive is made from one"
    exit 0
}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail() {
    echo "FAILED: $1"
    exit 1
}

mkdir "$work/out"
echo '<!DOCTYPE html>' > "$work/out/pocket.html"
make -s OUT="$work/out" dist > /dev/null
mv "$work/out/dist" "$work/first"
rm "$work/out/pocket.html"
make -s OUT="$work/out" dist > /dev/null
cd "$work/first"
sha256sum --quiet -c SHA256SUMS || fail "the sums"
name=$(basename spindlebook-*.tar.gz .tar.gz)
[ "$(wc -l < SHA256SUMS)" = 3 ] && [ -s "$name.html" ] || fail "the pocket file has no place"
cmp "$name.tar.gz" "$work/out/dist/$name.tar.gz" || fail "two archives of one commit differ"
for library in libharu cmark libyaml FreeType libmd zlib DejaVu; do
    grep -qi "$library" "$name-notices.txt" || fail "no notice of $library"
done
for copy in one two; do
    mkdir "$work/$copy"
    tar -xzf "$name.tar.gz" -C "$work/$copy"
    make -s -C "$work/$copy/$name" program > /dev/null
done
cd "$work/one/$name"
program=out/bin/spindlebook
commit=$(cat COMMIT)
"$program" --version | grep -qxF "spindlebook ${name#spindlebook-} ($commit)" || fail "its version"
"$program" book --out made > /dev/null || fail "its book"
[ -s made/booklet.pdf ] || fail "its booklet"
cmp "$program" "$work/two/$name/$program" || fail "two builds of the same source differ"
echo "$(tar -tzf "$work/first/$name.tar.gz" | wc -l) files of the archive looked at; it builds"
