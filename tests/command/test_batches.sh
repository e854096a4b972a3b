#!/bin/sh
# Runs over several batches: faults do not stop the others, files appear whole or not at all, and
# the same input gives the same bytes. PDFs are looked into with qpdf and poppler.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - batches # SKIP the program is not built yet"
    exit 0
fi
good=samples/cheese-overnight.xml
other=samples/butter-short.xml
bare=samples/cheese-last-week.xml
broken=tests/broken/five-mistakes.xml
out=$scratch/out
mkdir "$out"

# ---- Five mistakes: five messages, and an earlier page is left alone
mkdir "$scratch/five"
"$BURNSHEET" sheet -o "$scratch/five" $good && "$BURNSHEET" labels -o "$scratch/five" $good
for page in sheet labels; do
    earlier=$scratch/five/five-mistakes.$page.pdf
    mv "$scratch/five/cheese-overnight.$page.pdf" "$earlier"
    touch -d '2026-01-02 03:04:05' "$earlier"
    cp -p "$earlier" "$scratch/$page.kept"
    check_status 1 "$page of five mistakes" "$BURNSHEET" $page -o "$scratch/five" $broken
    cp "$scratch/.check" "$scratch/messages"
    five() { [ "$(grep -c '^tests/broken/five-mistakes.xml:[0-9]*:[0-9]*: error: ' "$scratch/messages")" -eq 5 ]; }
    carets() { [ "$(grep -c '^ *^~*$' "$scratch/messages")" -eq 5 ]; }
    closes() { [ "$(tail -n 1 "$scratch/messages")" = "5 errors in $broken" ]; }
    same_time() { [ "$(stat -c %Y%s "$1")" = "$(stat -c %Y%s "$2")" ]; }
    check "$page: five messages with their places" five
    check "$page: five carets" carets
    check "$page: their count at the end" closes
    check "$page: the earlier page keeps its bytes" cmp "$earlier" "$scratch/$page.kept"
    check "$page: and its time" same_time "$earlier" "$scratch/$page.kept"
done
only_two() { [ "$(find "$scratch/five" -type f | wc -l)" -eq 2 ]; }
check "nothing else was written" only_two

# ---- One of three fails
for page in sheet labels; do
    check_status 1 "$page: one of three has faults" "$BURNSHEET" $page -o "$out" $good $broken $other
    check_said "2 of 3 " "$page: 2 of 3 are told"
    check "$page: the first is written" test -s "$out/cheese-overnight.$page.pdf"
    check "$page: the last is written" test -s "$out/butter-short.$page.pdf"
    check "$page: the faulty one is not" test ! -e "$out/five-mistakes.$page.pdf"
    check_status 3 "$page: a missing file counts more than faults" \
        "$BURNSHEET" $page -o "$out" $good $broken samples/missing.xml
    check_said "1 of 3 " "$page: 1 of 3 is told"
    check_status 1 "$page: one file for all, one has faults" \
        "$BURNSHEET" $page -o "$out/all.pdf" $good $broken $other
    check "$page: that file is not written" test ! -e "$out/all.pdf"
done
check_status 1 "plan: one of three has faults" "$BURNSHEET" plan $good $broken $other
check_said "2 of 3 files done" "plan: 2 of 3 are told"
quiet() { [ -z "$("$BURNSHEET" sheet -o "$out" $good $other 2>&1)" ]; }
check "a run without faults is quiet in a pipe" quiet

# ---- All in one file
pages() { [ "$(pdfinfo "$1" | sed -n 's/^Pages: *//p')" -eq "$2" ]; }
bookmarks() {
    qpdf --json --json-key=outlines "$1" |
        /usr/bin/python3 -c 'import json, sys
for mark in json.load(sys.stdin)["outlines"]: print(mark["destpageposfrom1"], mark["title"])' \
            >"$scratch/bookmarks"
    sed 's/^/# /' "$scratch/bookmarks"
    [ "$(cut -d ' ' -f 1 "$scratch/bookmarks" | tr '\n' ' ')" = "$2 " ]
}
named() { cut -d ' ' -f 2- "$scratch/bookmarks" | grep -qxF "$1"; }
check_status 0 "three sheets in one file" "$BURNSHEET" sheet -o "$out/week.pdf" $good $other $bare
check "a page for each" pages "$out/week.pdf" 3
check "a bookmark for each" bookmarks "$out/week.pdf" "1 2 3"
check "named after the batch" named "Butter, short burn"
check "no other file" test ! -e "$out/cheese-last-week.sheet.pdf"
check_status 0 "labels in one file, one batch without bags" \
    "$BURNSHEET" labels -o "$out/bags.pdf" $good $bare $other
check "a page for each that has bags" pages "$out/bags.pdf" 2
check "bookmarks of the labels" bookmarks "$out/bags.pdf" "1 2"
check "the files are sound" qpdf --check "$out/week.pdf"
check "the labels too" qpdf --check "$out/bags.pdf"
check_status 0 "no bags at all" "$BURNSHEET" labels -o "$out/none.pdf" $bare
check "no file of no labels" test ! -e "$out/none.pdf"
check_status 0 "a batch twice" "$BURNSHEET" sheet -o "$out/twice.pdf" $good $good
check "has two pages" pages "$out/twice.pdf" 2

# ---- The same bytes
samples=$(ls samples/*.xml | grep -v workshop)
make_all() { # FOLDER, in the source tree
    "$BURNSHEET" sheet -o "$scratch/$1" $samples && "$BURNSHEET" labels -o "$scratch/$1" $samples
}
make_elsewhere() { # FOLDER: another zone, another place, a second later, other file times
    mkdir -p "$scratch/tree" && cp -r samples "$scratch/tree" && cd "$scratch/tree" && sleep 1 &&
        TZ=Asia/Kathmandu LC_ALL=C make_all "$1"
}
differs_in_date() {
    for file in "$scratch"/one/*.pdf; do
        later=$scratch/later/$(basename "$file")
        cmp -s "$file" "$later" && echo "# $file does not change" && return 1
        for copy in "$file" "$later"; do
            pdftotext "$copy" - | sed -E "s/(0?[0-9]) (Jan|Feb) 1970|1970-0[12]-0[0-9]/DAY/" >"$copy.text"
            pdfinfo "$copy" | sed -E '/^(CreationDate|ModDate|File size)/d' >>"$copy.text"
        done
        diff "$file.text" "$later.text" || return 1
    done
}
export SOURCE_DATE_EPOCH=86400
check "all samples" make_all one
(make_elsewhere two) >"$scratch/elsewhere" 2>&1
check "the same bytes from elsewhere" diff -r "$scratch/one" "$scratch/two"
export SOURCE_DATE_EPOCH=2851200
check "all samples on another day" make_all later
check "another day changes the date alone" differs_in_date
export SOURCE_DATE_EPOCH=1780000000
is_dated() { "$BURNSHEET" sheet -o "$out" $good && pdfinfo -rawdates "$out/cheese-overnight.sheet.pdf" | grep -q 'CreationDate: *D:20260528'; }
# 1780000000 s after 1970 is 2026-05-28T20:26:40Z (GNU date)
check "the date is the one given" is_dated
check_end
