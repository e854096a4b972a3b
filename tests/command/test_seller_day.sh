#!/bin/sh
# A seller's day from one file: two blends, twelve bags of 200 g and five of 1 kg, English and
# German, a half-used sheet and a roll. Its slip, its labels, its lots; then the same with mistakes.
# Figures are worked out by hand beside each check.
. tests/support/check.sh
own=$scratch/own
mkdir "$own"
cp samples/workshop-stall.xml samples/mark.svg "$own"
day=$own/december-stall.xml
sed 's|\.\./workshop|workshop|' samples/bagging/december-stall.xml >"$day"
pages() { pdfinfo "$1" | sed -n 's/^Pages: *//p'; }
text() { pdftotext -f "$2" -l "$3" -raw "$1" - | tr -s '[:space:]' ' '; }
has() { text "$1" 1 99 | grep -qF -- "$2"; }
narrow=$(printf '\342\200\257') # space of a figure's unit
count() { text "$1" "$2" "$3" | grep -oF -- "$4" | wc -l; }

check "check finds no fault" "$BURNSHEET" check "$day"

# ---- the slip
slip=$own/december-stall.slip.pdf
check "slip" "$BURNSHEET" slip -o "$own" "$day"
check "one page" test "$(pages "$slip")" = 1
# 12 × 200 g / 0.98 = 2448.98 g: 2449 whole grams, 55 % = 1346.95 g apple, 45 % = 1102.05 g beech;
# two bowls, since a scale of 3 kg has no room for bowl and 2449 g
check "apple into the first bowl" has "$slip" "Apple, from the orchard P-2603 673 g 673 g"
check "beech on top of it" has "$slip" "Beech, sieved twice B-2614 551 g 1.224 kg"
check "the odd gram into the second" has "$slip" "Apple, from the orchard P-2603 674 g 674 g"
# 80 % at 9 % and 20 % at 11 %: dry 0.8/1.09 + 0.2/1.11 = 0.91413, so 9.394 % on dry basis;
# 5 kg / 0.98 = 5102.04 g at 7 % are 5216.2 g before the oven: 5217 whole grams, 5102.8 g after it
check "dried to its mass" has "$slip" "Dry it until it weighs 5.103 kg: 114 g of water go"
# Directive 76/211/EEC, Annex I, 2.4: 4.5 % of 100 to 200 g, 15 g of 500 g to 1 kg; none below twice
check "small bags, English" has "$slip" "7 × 200 g a4-8 en 191 g 182 g"
check "small bags, German" has "$slip" "5 × 200 g a4-8 de 191 g 182 g"
check "large bags" has "$slip" "2 × 1 kg roll-100x150 de 985 g 970 g"
# 1347 + 1043 g of apple, 1102 + 4174 g of beech
check "the shelf of apple" has "$slip" "P-2603 6.000 kg 2.390 kg 3.610 kg"
check "the shelf of beech" has "$slip" "B-2614 9.000 kg 5.276 kg 3.724 kg"
# labels 5 to 8, then 1 to 8: nothing of the second sheet is left
check "sheets and what is free" has "$slip" "a4-8 12 2 label 5 none"
check "the roll" has "$slip" "roll-100x150 5 5 roll"

# ---- the labels
labels=$own/december-stall.labels.pdf
check "labels" "$BURNSHEET" labels -o "$own" "$day"
check "two sheets and five of the roll" test "$(pages "$labels")" = 7
check "four on the half-used sheet" test "$(count "$labels" 1 1 "Net 200 g")" = 4
check "three more on the next" test "$(count "$labels" 2 2 "Net 200 g")" = 3
check "five German beside them" test "$(count "$labels" 2 2 "Netto 200 g")" = 5
# page of 297 mm: the second row begins 13.1 + 67.7 mm down, the third 67.7 mm further, at 148.5 mm
check "nothing on the used half" test -z "$(pdftotext -l 1 -x 0 -y 0 -W 596 -H 420 "$labels" - |
    tr -d '[:space:]')"
check "the blend's name for a German buyer" test "$(count "$labels" 2 2 "Apfel mit Buche")" = 5
check "its parts in falling order" test "$(count "$labels" 2 2 "Apfel 55 % · Buche 45 %")" = 5
# 55 % at 11 % and 45 % at 9 %: dry 0.55/1.11 + 0.45/1.09 = 0.90834, 10.09 %; the older day
check "moisture, its basis and day" test "$(count "$labels" 1 1 "Moisture on 28 Nov 2026")" = 4
check "as the two dusts had it" test "$(count "$labels" 1 1 "10.1 % of dry wood")" = 4
check "of dried dust what was measured then" test "$(count "$labels" 3 5 "7.2 % of dry wood")" = 3
check "on the day of packing" test "$(count "$labels" 3 5 "Moisture on 3 Dec 2026")" = 3
for bag in 1 2 3; do
    check "bag $bag of the lot" test "$(count "$labels" 3 5 "Lot, bag $bag of 5")" = 1
done
for bag in 4 5; do
    check "the German go on with $bag" test "$(count "$labels" 6 7 "Los, Beutel $bag von 5")" = 1
done
check "how long the tray burns" test "$(count "$labels" 3 5 "(Maze tray) burns")" = 3
check "grains" test "$(count "$labels" 3 5 "Grains at true size")" = 3
check "lots of the dusts" test "$(count "$labels" 3 5 "Lots of the dusts B-2614, P-2603")" = 3
# store sealed: 180 days from 3 Dec 2026; December has 28 of them, the months to May 31, 28, 31, 30
# and 31: 179, so 1 June
check "until when it stays dry" test "$(count "$labels" 3 5 "until 1 Jun 2027")" = 3
sed 's/ moisture="7.2 %"//' "$day" >"$own/unmeasured.xml"
check "labels of what nobody measured" "$BURNSHEET" labels -o "$own" "$own/unmeasured.xml"
check "say no moisture" test "$(count "$own/unmeasured.labels.pdf" 3 7 "of dry wood")" = 0
check "nor how long it lasts" test "$(count "$own/unmeasured.labels.pdf" 3 7 "until 1 Jun")" = 0
sed 's/share="80 %"/share="30 %"/; s/share="20 %"/share="70 %"/' "$day" >"$own/sulky.xml"
check "a blend that goes out in its tray" "$BURNSHEET" labels -o "$own" "$own/sulky.xml"
check_said "does not say how long tray 'Maze tray' burns" "is said to be left out"
check "and is" test "$(count "$own/sulky.labels.pdf" 3 7 "Maze tray")" = 0

check "a page to hold against the light" "$BURNSHEET" labels -o "$own" --test-page a4-8
check "of labels" has "$own/a4-8.test.pdf" "a4-8: labels of 99.1 × 67.7 mm"

# ---- the lots
check "what a dust went into" "$BURNSHEET" trace P-2603 "$day"
check_said "Apple with beech, 12 bags, 2.4${narrow}kg, 3 Dec 2026" "the small bags"
check_said "lot P-2603, 55${narrow}%, 1.347${narrow}kg, planned" "with its share of them"
check_said "lot P-2603, 20${narrow}%, 1.043${narrow}kg, planned" "and of the large ones"
lot=$(text "$labels" 3 3 | grep -o 'L26337-..')
check "what is in a bag" "$BURNSHEET" trace "$lot" "$day"
check_said "Beech, sieved twice, lot B-2614, 80${narrow}%, 4.174${narrow}kg, planned" "beech"
check "as XML" "$BURNSHEET" trace --as xml "$lot" "$day"
check_said 'dust_lot="P-2603" share="0.2" mass="1.043 kg"' "apple"
check "as a page" "$BURNSHEET" trace -o "$own" P-2603 "$day"
check "with the bags' lot" has "$own/p-2603.trace.pdf" "$lot"
check_status 1 "a lot that nobody knows" "$BURNSHEET" trace P-2604 "$day"
check_said "P-2603" "the near one is named"

# ---- mistakes: none is printed, and each is told with its place and what would be right
mistake() { # COMMANDS, NAME, SED, SAID, REMEDY
    sed "$3" "$day" >"$own/mistake.xml"
    for command in $1; do
        to="-o $own"
        [ "$command" != check ] || to=
        # shellcheck disable=SC2086 # no name of a folder has a space here
        check_status 1 "$2: $command" "$BURNSHEET" "$command" $to "$own/mistake.xml"
        check_said "$4" "$2: what $command says"
        check_said "$5" "$2: and what would be right"
        check_said "mistake.xml:" "$2: and where"
        check_status 1 "$2: nothing is written" test -e "$own/mistake.$command.pdf"
    done
}
all="check labels slip"
mistake "$all" "unknown dust" 's/dust="apple"/dust="aple"/' "unknown dust 'aple'" \
    "did you mean 'apple'?"
mistake "$all" "shares" 's/share="45 %"/share="40 %"/' "come to 95" "100 %"
mistake "$all" "too heavy" 's/net="1 kg"/net="51 kg"/' "'51 kg' is too much for 'net'" "50 kg"
mistake "$all" "no bags" 's/count="3"/count="0"/' "'0' is too little for 'count'" "is at least 1"
mistake "$all" "beyond the sheet" 's/first="5"/first="9"/' "a page of stock 'a4-8' has no label 9" \
    "1 to 8"
mistake "$all" "more bags than dust" 's/count="3"/count="30"/' "g short: the bags take" "stock"
mistake "$all" "a day without moisture" 's/moisture="7.2 %"/measured="2026-12-03"/' \
    "a day of measuring without its 'moisture'" "write the moisture"
long="Apfelholz und Buchenholz aus dem Garten, gesiebt und im Ofen getrocknet"
large="s/stock=\"a4-8\" language/stock=\"a4-21\" language/; s/Apfel mit Buche/$long/"
mistake "check labels" "text too large" "$large" "does not fit on stock 'a4-21'" "would do"
sed 's/roll-100x150/a4-21/; s/Beech with apple/& from the old orchard at Lower Hazel/' "$day" \
    >"$own/two.xml"
check_status 1 "too small in two languages" "$BURNSHEET" labels -o "$own" "$own/two.xml"
check_said "2 errors in" "all is said in one run"
mistake "check labels" "a US label in German" 's/language="de"/language="de" market="US"/' \
    "labels for the US market are in English, not in 'de'" 'write language="en"'
sed -i 's/<address>.*//' "$own/workshop-stall.xml"
mistake "check labels" "a US label without a place" 's/first="5"/market="US"/' \
    "name the maker's place of business (16 CFR 500.5)" "<address>street, city, State and ZIP code"
check_end
