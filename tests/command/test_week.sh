#!/bin/sh
# Windows of several days, and batches of one run that share a tray: what is chosen, and what is
# said of it.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - week # SKIP the program is not built yet"
    exit 0
fi
export LC_ALL=C.UTF-8 SOURCE_DATE_EPOCH=1796335200
desk=$scratch/desk
mkdir "$desk"
cp samples/workshop.xml samples/mark.svg samples/week/*.xml "$desk"
cp samples/week/forecast.csv "$desk"
sed -i 's|\.\./workshop.xml|workshop.xml|' "$desk"/*.xml
cd "$desk" || exit 1

lit() { "$BURNSHEET" plan "$@" | sed -n 's/^Light at *//p'; }

# ---- Together
lit cheese.xml salt.xml trout.xml >"$scratch/forward"
lit trout.xml salt.xml cheese.xml | sed '1!G;h;$!d' >"$scratch/backward"
three() { [ "$(sort -u "$scratch/forward" | wc -l)" -eq 3 ]; }
check "three batches get three hours" three
check "whatever the order of the files" cmp "$scratch/forward" "$scratch/backward"
check "the plan tells with whom" "$BURNSHEET" plan cheese.xml salt.xml trout.xml
check_said "with “Trout for Saturday”, which has Folded-channel tray from" "the one with the tray"
check_said "next best" "the next best hour"
check_said "The best hour of each day" "and the days"

# No two of them hold the tray at once, as the plan itself has it: the first number of each line is
# when it is taken, the second when it is free.
apart() {
    "$BURNSHEET" plan cheese.xml salt.xml trout.xml | grep 'which has Folded' | sort -u |
        sed 's/.*from ... \([0-9]*\) ... \(..\):\(..\) to ... \([0-9]*\) ... \(..\):\(..\)/\1\2\3 \4\5\6/' |
        sort -n | awk '$1 < last { exit 1 } { last = $2; count++ } END { exit count != 3 }'
}
check "no two hold the tray at once" apart

# ---- Alone
"$BURNSHEET" plan trout.xml >"$scratch/alone"
grep -v 'which has' "$scratch/alone" >"$scratch/none"
check "a batch alone speaks of no other" cmp "$scratch/alone" "$scratch/none"
twice() { [ "$(lit trout.xml trout.xml | sort -u | wc -l)" -eq 1 ]; }
check "one file given twice is one batch" twice

# Another workshop, with a tray of the same name: each page is as it would be alone, to the byte.
cp workshop.xml other.xml
sed 's/workshop="workshop.xml"/workshop="other.xml"/' salt.xml >apart.xml
"$BURNSHEET" plan apart.xml >"$scratch/apart"
"$BURNSHEET" plan trout.xml apart.xml >"$scratch/both"
cat "$scratch/alone" "$scratch/apart" >"$scratch/each"
check "who shares nothing changes nothing" cmp "$scratch/both" "$scratch/each"

# ---- A stated hour stands, and is in the way
hour=$(lit trout.xml)
sed "s|<timing .*|<timing light=\"$(echo "$hour" | tr ' ' T)\"/>|" cheese.xml >stated.xml
lit stated.xml trout.xml >"$scratch/hours"
stands() { [ "$(head -n 1 "$scratch/hours")" = "$hour" ] && [ "$(tail -n 1 "$scratch/hours")" != "$hour" ]; }
check "a stated hour stands, the other gives way" stands

# ---- No room
sed 's|best-from="[^"]*" best-to="[^"]*"|best-from="2026-12-10T18:00" best-to="2026-12-10T21:00"|' \
    trout.xml >first.xml
sed 's/Trout for Saturday/Trout for Sunday/' first.xml >second.xml
check_status 1 "two that want one evening" "$BURNSHEET" sheet -o out first.xml second.xml
check_said "finds no hour beside 'Trout for S" "names both"
check_said "(Folded-channel tray)" "names the tray"
check_said "xml:13:3: error: " "says where"
check_said "make the window longer" "says what would help"
check_said "1 of 2 batches done" "the other is done"
one_page() { [ "$(ls out/*.pdf | wc -l)" -eq 1 ]; }
check "one page is there" one_page

# ---- Sleep
sed -i 's|<call |<asleep from="21:30" to="09:15"/><call |' workshop.xml
awake() { lit cheese.xml | awk '{ split($2, t, ":"); m = t[1] * 60 + t[2]; exit !(m >= 735 && m <= 1290) }'; }
check "nobody is got out of bed to light, nor to make ready" awake
nights() { "$BURNSHEET" plan --as xml cheese.xml | grep -q '<away number="[0-9]*" from="[^"]*T21:30:00[^"]*" to="[^"]*T09:15:00'; }
check "nobody looks in at night" nights
sed -i 's|from="21:30" to="09:15"|from="24:30" to="9"|' workshop.xml
check_status 1 "no times of the clock" "$BURNSHEET" check workshop.xml
check_said "'24:30' is no time of the clock" "names the one"
check_said "'9' is no time of the clock" "and the other"

# ---- The forecast
cp "$OLDPWD/samples/workshop.xml" "$OLDPWD/samples/mark.svg" .
sed -n '1,80p' forecast.csv >short.csv
sed 's/forecast.csv/short.csv/' cheese.xml >short.xml
check "a forecast that ends early" "$BURNSHEET" plan short.xml
check_said "the forecast ends before the window does" "is warned of"
check_said "the forecast ends: later nights were left out" "and stands on the page"
last=$(tail -n 1 short.csv | cut -d, -f1 | tr T ' ')
before() { [ "$(printf '%s\n%s\n' "$(lit short.xml 2>/dev/null)" "$last" | sort | head -n 1)" != "$last" ]; }
check "no night behind its end is chosen" before
sed 's|<weather .*|<weather temperature="5 °C" humidity="80 %"/>|' cheese.xml >single.xml
check "one reading for a week" "$BURNSHEET" plan single.xml
check_said "one reading of the weather tells no day" "is warned of"
check_said "one reading of the weather stands for all its days" "and stands on the page"
sed 's|<timing .*|<timing light="2026-12-12T20:00"/>|' cheese.xml >far.xml
far() { "$BURNSHEET" plan --as xml far.xml | grep -q 'caution.forecast_far'; }
near() { sed 's/12-12T20/12-08T20/' far.xml >near.xml && ! "$BURNSHEET" plan --as xml near.xml | grep -q 'caution.forecast_far'; }
check "a night five days ahead says that its weather may come otherwise" far
check "one a day ahead does not" near
check_end
