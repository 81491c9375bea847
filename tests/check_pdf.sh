#!/bin/sh
# The PDF files against programs from outside: qpdf and poppler. Usage: check_pdf.sh OUT
#
# No program may say a word on standard error; every font is embedded and a subset;
# the booklet is tagged, and its structure holds every word that its pages hold; it has at
# most 6,000 bytes a page.
set -eu
out=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0

say() {
    failed=$((failed + 1))
    echo "FAILED $1"
}

words() { # each word of a text on its own line, in order, without the blanks
    tr -s ' \n\f\t' '\n\n\n\n' | sed 's/\xc2\xa0/\n/g' | grep -v '^$'
}

for name in booklet booklet-fold booklet-trial card card-sheet aids forms; do
    file=$out/$name.pdf
    qpdf --check "$file" > "$work/said" 2> "$work/errors" || say "$name: qpdf --check"
    pdfinfo "$file" > "$work/info" 2>> "$work/errors" || say "$name: pdfinfo"
    pdftotext -raw "$file" "$work/text" 2>> "$work/errors" || say "$name: pdftotext"
    pdffonts "$file" > "$work/fonts" 2>> "$work/errors" || say "$name: pdffonts"
    [ ! -s "$work/errors" ] || { say "$name: warnings"; cat "$work/errors"; }
    awk 'NR > 2 && !($0 ~ /yes yes yes/) { bad = 1 } END { exit bad || NR < 4 }' "$work/fonts" ||
        { say "$name: a font is not embedded, subset and mapped to Unicode"; cat "$work/fonts"; }
done

pdfinfo "$out/booklet.pdf" | grep -q '^Tagged: *yes' || say "the booklet is not tagged"
pdfinfo -struct-text "$out/booklet.pdf" > "$work/structure" 2> "$work/errors" || say "struct-text"
[ ! -s "$work/errors" ] || say "the structure makes pdfinfo complain"
for kind in H1 Table TH TD L Link Caption; do
    grep -q "^ *$kind" "$work/structure" || say "no $kind in the structure"
done

pages=$(pdfinfo "$out/booklet.pdf" | awk '/^Pages/ { print $2 }')
[ "$(wc -c < "$out/booklet.pdf")" -le $((6000 * pages)) ] || say "more than 6000 bytes a page"
sheets=$(pdfinfo "$out/booklet-fold.pdf" | awk '/^Pages/ { print $2 }')
[ $((sheets * 2)) -ge "$pages" ] && [ $((sheets % 2)) = 0 ] && [ $((sheets * 2 - pages)) -lt 4 ] ||
    say "$sheets sides of folded sheets do not hold $pages pages"
pdftotext -raw "$out/booklet.pdf" - | words | sort > "$work/reading"
pdftotext -raw "$out/booklet-fold.pdf" - | words | sort > "$work/folded"
[ -z "$(comm -23 "$work/reading" "$work/folded" | head -1)" ] || say "the folded booklet lacks words"
echo "7 PDF files, $pages pages, $failed failures"
[ "$failed" = 0 ]
