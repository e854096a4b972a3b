#!/bin/sh
# The sheet of a dust that nobody measured: on one page in every language and paper, with the
# cautions of a trial; the lines on it, filled in and typed into the workshop, are read without fault.
. tests/support/check.sh
own=$scratch/own
mkdir "$own"
cp samples/workshop.xml samples/mark.svg samples/cheese-overnight.xml "$own"
shop=$own/workshop.xml
pages() { pdfinfo "$1" | sed -n 's/^Pages: *//p'; }
text() { pdftotext -raw "$1" - | tr -s '[:space:]' ' '; }
has() { text "$1" | grep -qF -- "$2"; }
hasnt() { ! has "$@"; }
slip() { "$BURNSHEET" slip "$@"; }

check "of every dust without a moisture" slip -o "$own" "$shop"
sheet=$own/workshop.slip.pdf
check "which is one" test "$(pages "$sheet")" = 1
check "its name" has "$sheet" "Measure Alder, new sack"
check "its lot" has "$sheet" "Lot A-2612"
check "monoxide" has "$sheet" "Carbon monoxide has no smell and kills"
check "fire" has "$sheet" "Stand it on stone or steel"
check "fine dust" has "$sheet" "mask on"
check "until it weighs the same" has "$sheet" "until two weighings 20"
for language in en de pl; do
    for paper in A4 Letter; do
        check "$language on $paper" slip -o "$own/one.pdf" --language $language --paper $paper "$shop"
        check "one page" test "$(pages "$own/one.pdf")" = 1
    done
done
check "in US units" slip -o "$own/one.pdf" --units us "$shop"
# 103 °C is 217.4 °F
check "the oven in °F" has "$own/one.pdf" "217"
# half a percent of the sample is a step of the scale: 200 times 5 g
sed 's/resolution="1 g"/resolution="5 g"/' "$shop" >"$own/coarse.xml"
check "with a coarse scale" slip -o "$own/one.pdf" "$own/coarse.xml"
text "$own/one.pdf" >"$own/one.txt"
check "more dust" grep -q "With 1[^0-9]*kg of dust or more" "$own/one.txt"

# The answers, as they are typed: alder of 100 × (262 − 252) : (252 − 152) = 10 % of dry wood.
pdftotext -raw "$sheet" "$own/sheet.txt"
line() { grep -F "<$1 " "$own/sheet.txt" | grep -F "____" | head -1; }
moisture=$(line dust | sed -e 's/.*… //' -e 's/____-__-__/2026-11-24/' -e 's/____ %/10 %/')
{
    sed '/<dust id="alder"/,$d' "$shop"
    sed -n '/<dust id="alder"/,/<\/dust>/p' "$shop" |
        sed -e "s/charred=\"no\" lot/charred=\"no\" $moisture lot/" -e '/<grain/d' -e '/<\/dust>/d'
    line sieve | sed -e 's/____ mm/0.5 mm/' -e 's/____/200/' -e 's/____/120/' -e 's/____/80/'
    line weighed | sed -e 's/____ ml/1004 ml/' -e 's/____/210/'
    line trial | sed -e 's/____ mm/100 mm/' -e 's/____ min/55 min/' -e 's/"____"/"folded"/' \
        -e 's/____ %/10 %/' -e 's/____/8/'
    echo "  </dust>"
    sed '1,/<dust id="alder"/d' "$shop" | sed '1,/<\/dust>/d'
} >"$own/typed.xml"
check "the lines are read when filled in" "$BURNSHEET" check "$own/typed.xml"
check "and no blank is left" sh -c "! grep -q ____ '$own/typed.xml'"
sed -e 's/workshop="workshop.xml"/workshop="typed.xml"/' -e 's/dust="beech"/dust="alder"/' \
    "$own/cheese-overnight.xml" >"$own/alder.xml"
check "a night counts the trial" "$BURNSHEET" plan "$own/alder.xml"
check_said "narrowed by trials" "as measured"
"$BURNSHEET" plan --as xml "$own/alder.xml" >"$own/plan.out"
check "and the moisture" grep -q 'moisture="0.1"' "$own/plan.out"
check "none is left to measure" slip -o "$own/none" "$own/typed.xml"
check_said "the moisture of every dust is stated" "which is said"
check "no file" test ! -e "$own/none/typed.slip.pdf"

check "of one dust" slip --dust cherry -o "$own/cherry.pdf" "$shop"
check "that one" has "$own/cherry.pdf" "Measure Cherry, unsieved"
check "no other" hasnt "$own/cherry.pdf" "Alder"
check_status 1 "an unknown dust" slip --dust chery -o "$own/no.pdf" "$shop"
check_said "unknown dust 'chery'" "says so"
check_said "did you mean 'cherry'?" "and the nearest"
check_status 2 "a dust of a batch" slip --dust cherry -o "$own" "$own/cheese-overnight.xml"
check_said "--dust is for a workshop file" "says where"
check "slip and dust sheet together" slip -o "$own/both.pdf" "$own/cheese-overnight.xml" "$shop"
check "two pages" test "$(pages "$own/both.pdf")" = 2
check "its template is checked" "$BURNSHEET" check templates/dust.xml
check "and may be named" slip --template dust -o "$own/one.pdf" "$shop"
check_status 1 "but not for a batch" slip --template dust -o "$own" "$own/cheese-overnight.xml"
check_said "is no template of a slip" "says so"
sed '/caution.carbon_monoxide_outdoors/d' templates/dust.xml >"$own/bare.xml"
check_status 1 "no template without monoxide" "$BURNSHEET" check "$own/bare.xml"
check_end
