#!/bin/sh
# The days before a night: its salt and dates are the same on every form of the plan, and a night
# that can not be ready prints neither them nor a way out that would help nothing.
. tests/support/check.sh
sample=samples/trout-brined.xml

page() { # EPOCH OPTION...: the text of a sheet, every run of blanks as one
    epoch=$1
    shift
    SOURCE_DATE_EPOCH=$epoch "$BURNSHEET" sheet "$@" "$sample" -o "$scratch/page.pdf" 2>"$scratch/said" &&
        pdftotext "$scratch/page.pdf" - | sed 's/\xc2\xa0/ /g; s/\xe2\x80\xaf/ /g' | tr -s '[:space:]' ' '
}
holds() { # FILE TEXT
    grep -qF "$2" "$1"
}
lacks() { ! holds "$@"; }

# 3 and 14 December 2026; the fish had to be in the freezer by the 10th
in_time=1796335200 late=1797200000

for page in sheet desk; do
    page $in_time --template $page >"$scratch/$page"
    # 188.18 g a litre at 60 degrees, four of them (a brine table of seafood training)
    check "$page: grams of salt" holds "$scratch/$page" "753"
    check "$page: strength both ways" holds "$scratch/$page" "60 °SAL (15.8 %)"
    check "$page: first day" holds "$scratch/$page" "Thu 10 Dec 16:00"
    check "$page: last hour" holds "$scratch/$page" "Sat 19 Dec 19:45"
done
mkdir "$scratch/house" && cp samples/workshop.xml samples/mark.svg "$scratch/house"
sed 's/60 °SAL/15.837 %/' "$sample" >"$scratch/house/percent.xml"
SOURCE_DATE_EPOCH=$in_time "$BURNSHEET" plan "$scratch/house/percent.xml" | sed 's/\xe2\x80\xaf/ /g' >"$scratch/percent"
check "stated in per cent it is printed so first" holds "$scratch/percent" "brine of 15.8 %"
check "and the degrees beside it" holds "$scratch/percent" "15.8 % (60 °SAL)"

page $late >"$scratch/late"
check "too late: not lit" holds "$scratch/late" "DO NOT LIGHT"
check "too late: says by when" holds "$scratch/late" "taken in hand by Thu 10 Dec 16:00"
check "too late: no salt to weigh" lacks "$scratch/late" "753"
SOURCE_DATE_EPOCH=$late "$BURNSHEET" plan "$sample" >"$scratch/plan"
check "too late: nothing of tonight would make it good" lacks "$scratch/plan" "GOOD TO LIGHT"
check "too late: no dated steps" lacks "$scratch/plan" "The days before"

sed 's/planned="yes"/planned="yes" begun="2026-12-10T12:00"/; s/dry="12 h"/dry="12 h" begun="2026-12-18T14:00"/' \
    "$sample" >"$scratch/house/begun.xml"
SOURCE_DATE_EPOCH=1797678000 "$BURNSHEET" plan "$scratch/house/begun.xml" >"$scratch/begun"
check "begun in time it is good on the day itself" holds "$scratch/begun" "GOOD TO LIGHT"
check "with the hours it was begun at" holds "$scratch/begun" "Fri 18 Dec 14:00"

# every way of salting, in every language; 2.4 kg at 3 % are 72 g, 4 g of cure bring 3.98 g of them
way() { # NAME SALTING TEXT
    sed "s|<salting method.*|$2|; /rinse=\"15 min\"/d; s|kind=\"fish\"|kind=\"meat\"|" \
        "$sample" >"$scratch/house/way.xml"
    for language in en de pl; do
        SOURCE_DATE_EPOCH=$in_time "$BURNSHEET" sheet --language $language \
            -o "$scratch/way.pdf" "$scratch/house/way.xml" && pdftotext "$scratch/way.pdf" - |
            sed 's/\xc2\xa0/ /g; s/\xe2\x80\xaf/ /g' | tr -s '[:space:]' ' ' >"$scratch/way"
        check "$1 in $language" holds "$scratch/way" "$3"
    done
}
way "dry" '<salting method="dry" salt="3 %" time="2 d"/>' "72 g"
even='<salting method="equilibrium" salt="3 %" time="4 d"/>'
way "equilibrium" "$even" "72 g"
way "even brine" '<salting method="equilibrium" salt="3 %" water="2 kg" time="4 d"/>' "132 g"
way "with a cure" '<cure method="dry" mass="4 g" nitrite="0.6 %"/>'"$even" "68 g"
check_end
