#!/bin/sh
# A folder of nights together: on the terminal, as XML and CSV, as pages; with faults among them.
. tests/support/check.sh
export SOURCE_DATE_EPOCH=1796335200
season() { "$BURNSHEET" season "$@"; }
pages() { pdfinfo "$1" | sed -n 's/^Pages: *//p'; }
own=$scratch/own
mkdir "$own"
cp samples/season/*.xml "$own"

check "as text" season --as text "$own"
check_said "34 nights, 30 written down" "how many nights"
check_said "4 to come, 1 day of bagging" "what is to come"
check_said "planned 7 h, took 6 h, burnt to the end" "a night planned and happened"
check_said "went out, relit" "one that was relit"
check_said "Tray Folded tray, Hard cheese and Loin, Fri 4 Dec" "two that want one tray"
check_said "30 g there, 5 g missing, buy before Mon 7 Dec (Salt)" "dust that runs out"
check_said "ended within the hours given for 8 in 10" "burn times against their bands"
check_said "about 8 in 10: 3 of 6" "what was said, and how many lasted"
check_said "damp air: 5" "what nights died of"
check_said "25 burnt to the end, 5 went out, 1 of these relit" "as many deaths as above"
check_said "butter, 5 of 5 to the end, 13.5 kg of product" "what was smoked"
check "in German" season --as text --language de "$own"
check_said "34 Nächte, 30 aufgeschrieben" "in German words"
check "in Polish" season --as text --language pl "$own"
check_said "styczeń 2026" "a month standing alone"

season --as xml "$own" >"$scratch/season.out" 2>"$scratch/said"
check "well-formed" xmllint --noout "$scratch/season.out"
count() { xmllint --xpath "string(count($1))" "$scratch/season.out"; }
check "every night" test "$(count "//entry[@night='yes']")" = 34
check "and the bagging" test "$(count "//entry[@bagging='yes']")" = 1
check "in its month" test "$(count "//month[@first='2026-11-01']/entry")" = \
    "$(xmllint --xpath "string(//month[@first='2026-11-01']/@nights)" "$scratch/season.out")"
check "deaths add up" test "$(xmllint --xpath 'string(sum(//death/@nights))' "$scratch/season.out")" = \
    "$(count "//entry[@died='yes']")"

season --as csv "$own" >"$scratch/season.csv"
check "a line for each, and a heading" test "$(wc -l <"$scratch/season.csv")" = 36
even() { python3 -c '
import csv, sys
rows = list(csv.DictReader(open(sys.argv[1], newline="")))
assert len(rows) == 35 and all(None not in row and None not in row.values() for row in rows)
assert rows[0]["product"] == "Hard cheese, quarters" and rows[0]["took_h"] == "6"
' "$scratch/season.csv"; }
check "as spreadsheets read it" even

page=$scratch/pages.pdf
check "pages" season -o "$page" "$own"
check "an overview and six months, short ones together" test "$(pages "$page")" = 3
pdftotext -layout "$page" "$scratch/page.txt"
months() { grep -cE '^(January|February|March|October|November|December) 2026 *$' "$1"; }
check "each under its name" test "$(months "$scratch/page.txt")" = 6
check "all nights" sh -c "grep -c 'burnt to the end *$' '$scratch/page.txt' | grep -qx 25"
ends=$(grep -oE '[0-9]+ of [0-9]+ to the end' "$scratch/page.txt" | awk '{ sum += $1 } END { print sum }')
check "those of all products are as many" test "$ends" = 25
check "a name is not said twice" sh -c "! grep -qF 'Hard cheese, Hard cheese' '$scratch/page.txt'"
check "what grey is" grep -qF "Saturday and Sunday" "$scratch/page.txt"
check "named after its folder" sh -c "cd '$scratch' && '$BURNSHEET' season own/ && [ -s out/own.season.pdf ]"
check "or where it stands" sh -c "cd '$own' && '$BURNSHEET' season -o '$scratch' . && [ -s '$scratch/own.season.pdf' ]"
check "the template is checked" "$BURNSHEET" check templates/season.xml

# faults among the rest
sed 's/mass="6 kg"/mass="6"/' "$own/night-001.xml" >"$own/faulty.xml"
echo "<batch" >"$own/broken.xml"
echo "<notes/>" >"$own/notes.xml"
check_status 1 "a fault stops nothing else" season --as text "$own"
check_said "34 nights" "the rest is there"
check_said "faulty.xml:3:61: error: '6' has no unit" "the fault is told"
check_said "Files with faults" "and listed"
check_said "burnsheet: 35 of 37 files done" "how many of how many"
check_status 1 "pages too" season -o "$page" "$own"
pdftotext -layout -l 1 "$page" "$scratch/page.txt"
check "which say so" grep -q "2 files have faults and are in no figure here" "$scratch/page.txt"
quiet() { ! season --as xml "$own" 2>&1 >/dev/null | grep -q 'notes\|left'; }
check "other files are nobody's business, and a pipe gets no progress" quiet

# many nights, and the longest names
mkdir "$scratch/many" "$scratch/one"
cp "$own/workshop.xml" "$scratch/many"
cp "$own/workshop.xml" "$own/night-003.xml" "$scratch/one"
long='Farmed trout sides of the second pond, dry-salted, rinsed, hung for a day and a night'
for day in $(seq 1 30); do
    two=$(printf %02d "$day")
    for hour in 01 09 17; do
        sed -e "s/light=\"[^\"]*\"/light=\"2026-11-${two}T$hour:00\"/" -e '/<record/,/record>/d' \
            -e "s/Farmed trout sides, dry-salted/$long/" \
            "$own/night-003.xml" >"$scratch/many/night-$two-$hour.xml"
    done
done
check "ninety nights of a month" season -o "$page" "$scratch/many"
check "on several pages" test "$(pages "$page")" -gt 4
pdftotext -raw "$page" "$scratch/page.txt"
check "none is lost" sh -c "tr '\n' ' ' <'$scratch/page.txt' | grep -o 'second pond' | wc -l | grep -qx 90"
check "one night alone" season -o "$page" "$scratch/one"
check "on two pages" test "$(pages "$page")" = 2

# at a terminal, and only there, how far it is
if command -v script >/dev/null; then
    script -qec "'$BURNSHEET' season --as xml '$scratch/many' >/dev/null" /dev/null </dev/null >"$scratch/typed"
    check "at a terminal it says how far it is" grep -q '[0-9] of 90' "$scratch/typed"
fi
"$BURNSHEET" season --as xml "$scratch/many" >/dev/null 2>"$scratch/said"
check "in a pipe it does not" test ! -s "$scratch/said"

# the days before a night stand in the calendar, while there is time for them
mkdir "$scratch/trout"
cp samples/workshop.xml samples/mark.svg samples/trout-brined.xml "$scratch/trout"
check "a night with days before" season --as text "$scratch/trout"
check_said "Thu 10 Dec, Brined trout, Lake trout sides, into the freezer, 16:00, to come" "the first step"
check_said "Fri 18 Dec, Brined trout, Lake trout sides, rinse, 22:00, to come" "a later one"
check_said "1 night, 1 to come" "a step is no night"
SOURCE_DATE_EPOCH=1797285600
check "four days too late" season --as text "$scratch/trout"
check_said "do not light, about 9 in 10" "it is refused as on its sheet"
check_status 1 "and nothing is to be begun" sh -c "grep -q freezer '$scratch/.check'"
SOURCE_DATE_EPOCH=1796335200

mkdir "$scratch/none"
check_status 1 "an empty folder" season "$scratch/none"
check_said "no batch and no bagging in" "says so"
check_status 3 "no folder" season "$scratch/nowhere"
check_status 3 "a file" season "$own/night-001.xml"
check_status 2 "two folders" season "$own" "$scratch/one"
check_status 2 "pages on standard output" season --as text -o "$page" "$own"
check_status 2 "fields" season --as fields "$own"
rm "$own/workshop.xml"
check_status 3 "without a workshop" season --as text "$own"
check_end
