#!/bin/sh
# What the records of a folder changed: as text in three languages, as XML, and where there is
# nothing to tell or it can not be told.
. tests/support/check.sh
folder=$scratch/nights
mkdir "$folder"
cp samples/workshop.xml samples/mark.svg samples/cheese-last-week.xml samples/cheese-overnight.xml "$folder"
last=$folder/cheese-last-week.xml
learn() { "$BURNSHEET" learn "$@"; }

check "one night" learn "$folder"
check_said "Nights written down: 1; timed trials: 1" "what it stands on"
check_said "  Beech and cherry, Folded-channel tray (nights: 1, burnt to the end: 1; $last)" "the blend"
check_said "    before: speed factor 1.11" "before"
check_said "    now: speed factor 1.09" "now"
check_said "write down one more night of Beech and cherry" "what to measure next"
for language in de pl; do
    check "in $language" learn --language "$language" "$folder"
done

# The same night again and again: each time the band of the blend is narrower.
widths() {
    learn --as xml "$folder" | tr '\n' ' ' | sed 's/.*<blend \(.*\)<\/blend>.*/\1/; s/.*<now//' |
        sed 's/.*slow="\([0-9.]*\)" fast="\([0-9.]*\)".*/\2 \1/' | awk '{ printf "%.6f\n", log($1 / $2) }'
}
narrower() {
    before=$(widths)
    for day in 20 21 22; do
        sed -e "s/2026-11-27/2026-11-$day/g; s/2026-11-28/2026-11-$((day + 1))/g" "$last" >"$folder/$day.xml"
        now=$(widths)
        awk "BEGIN { exit !($now < $before) }" || return 1
        before=$now
    done
}
check "each night narrows it" narrower
check "the files are as they were" cmp samples/cheese-last-week.xml "$last"
well_formed() { learn --as xml "$folder" | xmllint --noout -; }
check "the XML is well-formed" well_formed

sed -e 's/out="2026-11-28T05:35"/out="2026-11-29T06:05"/' -e '/<reading/d' "$last" >"$folder/late.xml"
check "a night that does not fit" learn "$folder"
check_said "  late.xml says 33" "is named as left out"

mkdir "$scratch/empty"
check_status 0 "a folder without records" learn "$scratch/empty"
check_said "no night was written down here" "says so"
check_status 3 "a file" learn "$last"
check_said "give the folder" "is no folder"
check_status 3 "a folder that is not there" learn "$scratch/nowhere"
check_status 2 "no table of it" learn --as csv "$folder"
sed 's/Dry Ditch Smokehouse/Wet Ditch Smokehouse/' samples/workshop.xml >"$folder/second.xml"
sed 's/workshop="workshop.xml"/workshop="second.xml"/' "$last" >"$folder/other.xml"
check "two houses in one folder" learn "$folder"
check_said "Wet Ditch Smokehouse" "are told one after the other"
check_status 2 "their XML" learn --as xml "$folder"
check_end
