#!/bin/sh
# Nights written down beside tonight's: what can not be learnt from is named with its reason, and
# what is all right is not.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - records # SKIP the program is not built yet"
    exit 0
fi
folder=$scratch/nights
tonight=$folder/cheese-overnight.xml
mkdir "$folder"
cp samples/workshop.xml samples/mark.svg samples/cheese-overnight.xml samples/cheese-last-week.xml "$folder"
last=$folder/cheese-last-week.xml

quiet() { [ -z "$("$BURNSHEET" plan "$tonight" 2>&1 >"$scratch/plan")" ]; }
check "nothing is said of good records" quiet
check "the record counts" grep -q 'records (1)' "$scratch/plan"

# A record with a slip of the date, one of a part-filled tray, one at odds with itself, one with a
# fault; a batch with a fault but no record, which is nobody's business here.
sed -e 's/out="2026-11-28T05:35"/out="2026-11-29T06:05"/' -e '/<reading/d' "$last" >"$folder/late.xml"
sed -e 's/filled="821 mm" used="72 g"//' -e 's/level="100 %" channel="whole"/burn-time="6 h"/' -e '/<reading/d' \
    "$last" >"$folder/part.xml"
sed -e 's/T23:30" front="250 mm"/T22:00" front="600 mm"/' "$last" >"$folder/odds.xml"
sed -e 's/05:35/30:35/' "$last" >"$folder/faulty.xml"
cp "$folder/faulty.xml" "$folder/planned.xml"
sed -i -e '/<record/,/<\/record>/d' -e 's/6 kg/6/' "$folder/planned.xml"
echo '<notes>just notes</notes>' >"$folder/notes.xml"

"$BURNSHEET" plan "$tonight" >"$scratch/plan" 2>"$scratch/said"
told() { grep -q "$1" "$scratch/said"; }
check "a slip of the date is named, with what the others say" \
    told '/late.xml:13:3: warning: it says 33 h; the other 2 make it .* h to .* h: left out'
check "an unknown length" told '/part.xml:13:3: note: it teaches no speed'
check "a record at odds with itself" told '/odds.xml:13:3: warning: what was read on the way'
check "a faulty record" told '/faulty.xml: note: nothing is learnt from it'
only_four() { [ "$(grep -c ': \(note\|warning\): ' "$scratch/said")" -eq 4 ]; }
check "and nothing else" only_four
check "the plan says so too" grep -q '^  late.xml says 33' "$scratch/plan"
check "still one record counts" grep -q 'records (1)' "$scratch/plan"

cp "$tonight" "$folder/again.xml"
"$BURNSHEET" sheet -o "$scratch" "$tonight" "$folder/again.xml" 2>"$scratch/said"
check "told once, however many sheets" only_four
check_end
