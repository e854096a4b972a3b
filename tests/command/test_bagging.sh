#!/bin/sh
# A day of packing from one file: its slip, its labels in two languages on a half-used sheet and a
# roll, a shelf that does not suffice, what each command says of the wrong kind of file.
. tests/support/check.sh
day=samples/bagging/market-day.xml
own=$scratch/own
mkdir "$own"
cp samples/workshop.xml samples/mark.svg "$own"
pages() { pdfinfo "$1" | sed -n 's/^Pages: *//p'; }
text() { pdftotext -f "$2" -l "${3:-$2}" -raw "$1" - | tr -s '[:space:]' ' '; }
has() { text "$1" "$2" | grep -qF -- "$3"; }
count() { text "$1" "$2" "$3" | grep -oF -- "$4" | wc -l; }

check "check finds no fault" "$BURNSHEET" check "$day"
check "a slip" "$BURNSHEET" slip -o "$scratch" "$day"
slip=$scratch/market-day.slip.pdf
check "on one page" test "$(pages "$slip")" = 1
# sums by hand: 12 bags of 200 g and 5 of 1 kg
check "no 200 g bag below 182 g (Directive 76/211/EEC)" has "$slip" 1 "8 × 200 g a4-8 en 191 g 182 g"
check "labels of the day, and which is free next" has "$slip" 1 "a4-8 12 2 label 3 label 7"
check "only one of 50 is short (FPackV, section 9), each of four weighed" has "$slip" 1 "182 g each"
check "no 1 kg bag below 970 g" has "$slip" 1 "3 × 1 kg roll-100x150 en 985 g 970 g"

check "labels" "$BURNSHEET" labels -o "$scratch" "$day"
check_said "on the last sheet of 'a4-8' label 7 is free next" "the rest of the sheet is not lost"
labels=$scratch/market-day.labels.pdf
# labels 3 to 8, then 1 to 6, then five of the roll
check "two sheets and five of the roll" test "$(pages "$labels")" = 7
check "six English on the half-used sheet" test "$(count "$labels" 1 1 "Net 200 g")" = 6
check "two more on the next" test "$(count "$labels" 2 2 "Net 200 g")" = 2
check "four German beside them" test "$(count "$labels" 2 2 "Netto 200 g")" = 4

cat >"$own/mixed.xml" <<'END'
<bagging name="Mixed" packed="2026-12-03">
  <pack lot="A-1">
    <blend name="Beech alone"><part dust="beech" share="100 %"/></blend>
    <bag net="200 g" count="3" stock="a4-8"/>
    <bag net="1 kg" count="1" stock="roll-100x150"/>
  </pack>
  <pack lot="Q-2">
    <blend name="Cherry alone"><part dust="cherry" share="100 %"/></blend>
    <bag net="200 g" count="3" stock="a4-8"/>
  </pack>
</bagging>
END
check "labels of two blends, another stock between" "$BURNSHEET" labels -o "$own" "$own/mixed.xml"
check_said "label 7 is free next" "share one sheet"
check "one sheet and one of the roll" test "$(pages "$own/mixed.labels.pdf")" = 2
check "the first blend's lot three times" test "$(count "$own/mixed.labels.pdf" 1 1 "A-1")" = 3
check "the second's beside it" test "$(count "$own/mixed.labels.pdf" 1 1 "Q-2")" = 3

sed 's/count="3" stock="a4-8"/count="900" stock="a4-8"/' "$own/mixed.xml" >"$own/many.xml"
sed 's/stock="a4-8"/stock="a4-8" first="9"/' "$own/mixed.xml" >"$own/beyond.xml"
for page in labels slip; do
    check_status 1 "$page: a first label beyond the sheet" "$BURNSHEET" $page -o "$own" "$own/beyond.xml"
    check_said "a page of stock 'a4-8' has no label 9" "$page: says which"
    check_status 1 "$page: more bags than dust" "$BURNSHEET" $page -o "$own" "$own/many.xml"
    check_said " g short: the bags take " "$page: says how much is missing"
    check_status 1 "$page: nothing is written" test -e "$own/many.$page.pdf"
done
sed 's/stock="a4-8"/stock="a4-8" first="9"/' "$own/mixed.xml" >"$own/beyond.xml"
check_status 1 "check: a first label beyond the sheet" "$BURNSHEET" check "$own/beyond.xml"
check_said "has no label 9" "check: says which"
sed 's/a4-8/a4-99/' "$own/mixed.xml" >"$own/stock.xml"
check_status 1 "check: an unknown stock" "$BURNSHEET" check "$own/stock.xml"
check_said "unknown label stock 'a4-99'" "check: says which"

sed 's/ lot="C-2609"//' samples/workshop.xml >"$own/workshop.xml"
check "a slip of a dust without a lot" "$BURNSHEET" slip -o "$own" "$own/mixed.xml"
check "the other's lot stays in one piece" has "$own/mixed.slip.pdf" 1 "Beech, middle sieving B-2611 12.000 kg"
cp samples/workshop.xml "$own"

check_status 1 "a sheet of a bagging" "$BURNSHEET" sheet -o "$own" "$day"
check_said "it is a bagging file" "says what it is"
check "a slip of a batch's bags" "$BURNSHEET" slip -o "$own" samples/cheese-overnight.xml
check "its bags are on it" has "$own/cheese-overnight.slip.pdf" 1 "6 × 250 g"
# by hand: 12 kg, 985 g into bags, 42 g onto the tray (the sheet's weigh-out)
check "tonight's dust leaves the shelf too" has "$own/cheese-overnight.slip.pdf" 1 "12.000 kg 985 g 42 g 10.973 kg"
mkdir "$own/short"
cp samples/mark.svg "$own/short"
sed 's/stock="12 kg"/stock="1 kg"/' samples/workshop.xml >"$own/short/workshop.xml"
cp samples/cheese-overnight.xml samples/forecast.csv "$own/short"
check_status 1 "a shelf with enough for the bags, not for the tray too" \
    "$BURNSHEET" slip -o "$own/short" "$own/short/cheese-overnight.xml"
check_said "28 g short: the bags take 985 g, the trays 43 g, and 1000 g are there" "says so"
sed 's/<bag .*/<bag net="250 g" count="900" stock="a4-8"\/>/' samples/cheese-overnight.xml >"$own/night.xml"
cp samples/forecast.csv "$own"
check_status 1 "a slip of more bags than a batch has dust for" "$BURNSHEET" slip -o "$own" "$own/night.xml"
check_said " g short: the bags take " "says how much is missing there too"
check "the figures as XML" "$BURNSHEET" plan --as xml "$day"
check_said '<bowl number="2"' "with every bowl"
check_status 2 "no plan of a night" "$BURNSHEET" plan "$day"
check_end
