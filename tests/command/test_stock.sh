#!/bin/sh
# Label stock on the command line: first free labels of each stock, two labels a bag on small stock,
# the templates that a command can use.
. tests/support/check.sh
own=$scratch/own
mkdir "$own"
cp samples/workshop.xml samples/mark.svg "$own"
pages() { pdfinfo "$1" | sed -n 's/^Pages: *//p'; }
count() { pdftotext -f "$2" -l "$3" -raw "$1" - | tr -s '[:space:]' ' ' | grep -oF -- "$4" | wc -l; }

cat >"$own/small.xml" <<'END'
<bagging name="Small" packed="2026-12-03">
  <pack lot="A-1">
    <blend name="Beech alone"><part dust="beech" share="100 %"/></blend>
    <bag net="50 g" count="3" stock="a4-65"/>
    <bag net="50 g" count="2" stock="a4-8" first="7"/>
    <bag net="50 g" count="2" stock="a4-65" language="de"/>
  </pack>
</bagging>
END
small=$own/small.labels.pdf
check "two labels a bag" "$BURNSHEET" labels -o "$own" "$own/small.xml"
check_said "'a4-65' label 11 is free next" "five bags take ten labels"
check "one sheet of each stock" test "$(pages "$small")" = 2
check "the lot on both labels of five bags" test "$(count "$small" 1 1 "A-1")" = 10
check "a warning on the second of each" test "$(count "$small" 1 1 "WARNING")" = 3
check "in its language" test "$(count "$small" 1 1 "WARNUNG")" = 2
check "first of each stock" "$BURNSHEET" labels --first a4-65=62 --first a4-8=2 -o "$own" "$own/small.xml"
check_said "'a4-8' label 4 is free next" "what is said goes before what the bag says"
check_said "'a4-65' label 7 is free next" "two bags from 62 to 65, three on the next sheet"
check "a number alone is of the first stock" "$BURNSHEET" labels --first 3 -o "$own" "$own/small.xml"
check_said "'a4-65' label 13 is free next" "a4-65 from its third on"
check_status 1 "only the last label free" "$BURNSHEET" labels --first 65 -o "$own" "$own/small.xml"
check_said "a bag takes two labels of stock 'a4-65', and label 65 is the page's last" "says why"
check_status 2 "an unknown stock" "$BURNSHEET" labels --first a4-66=2 -o "$own" "$own/small.xml"
check_said "unknown label stock 'a4-66'" "says which"
check_said "did you mean 'a4-6" "and a near one"
check_status 2 "no such label" "$BURNSHEET" labels --first a4-8=9 -o "$own" "$own/small.xml"
for first in 0 a4-8= =3 a4-8=x 3x; do
    check_status 2 "--first $first" "$BURNSHEET" labels --first "$first" -o "$own" "$own/small.xml"
    check_said "option '--first' can not be '$first'" "says so"
done

# The slip says of every stock what printing the labels says.
agrees() { # OPTION...
    "$BURNSHEET" slip "$@" -o "$own" "$own/small.xml" || return 1
    "$BURNSHEET" labels "$@" -o "$own" "$own/small.xml" 2>&1 |
        sed -n "s/.* of '\(.*\)' label \([0-9]*\) is free.*/\1 \2/p" | sort >"$scratch/printed"
    pdftotext -raw "$own/small.slip.pdf" - |
        sed -n 's/^\(a4-[0-9]*\).* label \([0-9]*\)$/\1 \2/p' | sort >"$scratch/slip"
    test -s "$scratch/slip" && diff "$scratch/printed" "$scratch/slip"
}
for first in 1 2 3 a4-8=2 a4-8=8 a4-65=58 a4-65=60 a4-65=64; do
    check "slip and labels agree from $first on" agrees --first $first
done
check "and from what the bags say" agrees
check "two labels a bag are said on the slip" test "$(count "$own/small.slip.pdf" 1 1 "two a bag")" = 1
check_status 2 "a slip from the last label on" "$BURNSHEET" slip --first a4-65=65 -o "$own" "$own/small.xml"

# What labels would find is found by check, for every bag in its language and market.
name="Beech, felled in the winter before last, split, stacked and dried under a roof for two years"
sed "s/Beech alone/$name, milled in small lots, sieved twice/" "$own/small.xml" >"$own/long.xml"
check_status 1 "check: a name too long for its stock" "$BURNSHEET" check "$own/long.xml"
check_said "the first of a bag's two labels does not fit on stock 'a4-65'" "check: says so"
check_said "stock 'a4-24' (two labels a bag of 70 × 37 mm) would do" "check: says what would do"
sed 's/stock="a4-65" language="de"/stock="a4-65" market="US"/' "$own/small.xml" >"$own/us.xml"
check_status 1 "check: a bag for another market" "$BURNSHEET" check "$own/us.xml"
check_said "us.xml:6:5: error: the first of a bag's two labels" "check: says which bag"
sed "s/<bag .*/<bag net=\"250 g\" count=\"2\" stock=\"a4-65\"\/>/; s/name=\"Beech and cherry\"/name=\"$name\"/" \
    samples/cheese-overnight.xml >"$own/night.xml"
cp samples/forecast.csv "$own"
check_status 1 "check: a night's bags" "$BURNSHEET" check "$own/night.xml"
check_said "does not fit on stock 'a4-65'" "check: says so there too"
check "check: no fault in what can be printed" "$BURNSHEET" check "$own/small.xml" samples/*.xml
mkdir "$scratch/data"
cp -r templates "$scratch/data"
BURNSHEET_DATA=$scratch/data
export BURNSHEET_DATA
check "check: without faces it is no fault" "$BURNSHEET" check "$own/long.xml" "$own/night.xml"
check_said "note: whether labels hold their texts is not checked: cannot open" "check: says that it did not"
unset BURNSHEET_DATA

# A page to hold against the light, without any file.
tests() { (cd "$scratch" && "$BURNSHEET" labels "$@"); }
check "a test page" tests --test-page a4-65
check "of the stock's paper" test "$(pdfinfo "$scratch/out/a4-65.test.pdf" | grep -c 'A4')" = 1
check "with all numbers" test "$(count "$scratch/out/a4-65.test.pdf" 1 1 " 65")" = 1
check "of a roll, in a file, in German" tests --test-page roll-62 --language de --offset 1,0.5 -o roll.pdf
check "with its offset" test "$(count "$scratch/roll.pdf" 1 1 "1 mm nach rechts, 0,5 mm nach unten")" = 1
check_status 2 "of no stock" tests --test-page nope
check_said "unknown label stock 'nope'" "says so"
check_said "roll-102x152" "names all there are"
check_status 2 "with a file" tests --test-page a4-8 "$own/small.xml"
check_said "takes no file" "says so"
check_status 2 "a test page of a slip" "$BURNSHEET" slip --test-page a4-8

# The names of templates that would do, and no others.
names() { "$BURNSHEET" "$1" --template nope -o "$own" "$own/small.xml" 2>&1 | sed -n 's/^ *there are: //p'; }
check "templates of labels" test "$(names labels)" = "label-front, label-second, label"
check "templates of a slip" test "$(names slip)" = "dust, slip"
check "templates of a sheet" test "$(names sheet)" = "desk, sheet"
check "the second label's own template" "$BURNSHEET" labels --template label-second -o "$own" "$own/small.xml"
check_status 1 "a slip's template for labels" "$BURNSHEET" labels --template slip -o "$own" "$own/small.xml"
check_end
