#!/bin/sh
# The kept inputs of the fuzz targets, each run once: what was found before stays
# mended. Usage: check_fuzz_corpus.sh OUT
set -u
out=$(cd "$1" && pwd) || exit 2
cd "$(dirname "$0")/.." || exit 2
sum=0
failed=0
for folder in tests/fuzz/corpus/*/; do
    name=$(basename "$folder")
    said=$("$out/build/tests/fuzz_$name" "$folder"* 2>&1)
    if [ $? = 0 ]; then
        sum=$((sum + $(echo "$said" | sed -n 's/^\([0-9]*\) inputs$/\1/p')))
    else
        failed=$((failed + 1))
        echo "FAILED $name: $said"
    fi
done
echo "$sum kept inputs of the fuzzers, $failed targets failed"
[ "$failed" = 0 ] && [ "$sum" -gt 0 ]
