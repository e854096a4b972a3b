#!/bin/sh
# Nights that can hurt: every tests/unsafe/NAME.xml gets at least the verdict of NAME.expected, for
# the causes it names, and a sheet can be printed of it. What stands behind a demand is written
# in the case. tests/tools/unsafe says how an .expected file reads.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - unsafe nights # SKIP the program is not built yet"
    exit 0
fi
export BURNSHEET

for case_file in tests/unsafe/*.xml; do
    case $case_file in *workshop.xml) continue ;; esac
    check "$case_file" tests/tools/unsafe "$case_file"
    grep -q '^refused' "${case_file%.xml}.expected" 2>/dev/null ||
        check "$case_file has a sheet" "$BURNSHEET" sheet -o "$scratch" "$case_file"
done
for expected in tests/unsafe/*.expected; do
    check "$expected has its case" test -f "${expected%.expected}.xml"
done

# ---- The judge itself: each of these demands is wrong of a night that is sound
cp samples/mark.svg "$scratch"
cp samples/workshop.xml "$scratch/workshop.xml"
cp samples/butter-short.xml "$scratch/sound.xml"
cp tests/broken/no-root.xml "$scratch/faulty.xml"
refuses() { # CASE NAME WORD...: the judge is to fail a case that demands the words
    case_name=$1
    printf '%s\n' "$2" | tr ' ' '\n' >"$scratch/$case_name.expected"
    check_status 1 "the judge fails '$2' of a $case_name case" \
        tests/tools/unsafe "$scratch/$case_name.xml"
}
check_status 1 "the judge fails a case without its .expected" \
    tests/tools/unsafe "$scratch/sound.xml"
refuses sound ""
refuses sound good
refuses sound tend
refuses sound "tend food"
refuses sound "tend care.chill"
refuses sound "refused butter"
refuses faulty "tend food"
refuses faulty "refused nonsense-nobody-says"
refuses faulty refused
check_end
