#!/bin/sh
# What the program says and prints for the samples is what was last accepted. After a wanted
# change: `make goldens`, look at the difference, commit it. A change of a word or of a line on the
# page shows, and only there.
. tests/support/check.sh
accepted=tests/goldens
export MARKS="${MARKS:-$PWD/.build/tests/tools/marks}"
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - goldens # SKIP the program is not built yet"
    exit 0
fi

in_both() { # every text made was accepted, every accepted one is still made
    ls "$accepted" >"$scratch/accepted" && ls "$scratch/made" >"$scratch/now" &&
        diff "$scratch/accepted" "$scratch/now"
}
all_samples() {
    for batch in samples/*.xml; do
        name=$(basename "$batch" .xml)
        [ "${name#workshop}" = "$name" ] || continue
        for kind in plan.txt en.marks de.marks pl.marks; do
            [ -s "$accepted/$name.$kind" ] || { echo "no $name.$kind"; return 1; }
        done
        grep -q '^==== sheet:' "$accepted/$name.en.marks" &&
            grep -q '^==== desk:' "$accepted/$name.en.marks" || return 1
        # labels for the US are in English alone
        grep -q 'workshop="workshop-us' "$batch" && labelled=en || labelled=pl
        ! grep -q '<bag ' "$batch" || grep -q '^==== labels:' "$accepted/$name.$labelled.marks" ||
            { echo "no labels of $name"; return 1; }
    done
}
keeps_old_ones() { # a program that fails takes nothing away
    mkdir -p "$scratch/old" && echo kept >"$scratch/old/a.txt"
    ! env "$1=false" tests/tools/goldens "$scratch/old" && [ -s "$scratch/old/a.txt" ]
}

# ---- with templates that differ a little
changed() { # FILE SED-COMMAND
    rm -rf "$scratch/data" "$scratch/changed"
    mkdir "$scratch/data" && cp -r templates "$scratch/data" && ln -s "$PWD/fonts" "$scratch/data"
    sed -i "$2" "$scratch/data/templates/$1"
    ! cmp "templates/$1" "$scratch/data/templates/$1" &&
        BURNSHEET_DATA=$scratch/data tests/tools/goldens "$scratch/changed"
}
differ() { # the names of the goldens that differ, and how many lines in each at most
    names=$(diff -q "$scratch/made" "$scratch/changed" | sed 's|.*/made/\([^ ]*\) .*|\1|')
    for name in $names; do
        lines=$(diff "$scratch/made/$name" "$scratch/changed/$name" | grep -c '^>')
        [ "$lines" -le "$1" ] || { echo "$name: $lines lines differ"; return 1; }
    done
    echo "$names"
}
only_german() {
    names=$(differ 2) && [ -n "$names" ] && ! echo "$names" | grep -v '\.de\.marks$'
}
only_desks() {
    names=$(differ 8) && [ "$(echo "$names" | wc -l)" -ge 6 ] &&
        ! echo "$names" | grep -v '\.en\.marks$'
}

check "goldens can be made" tests/tools/goldens "$scratch/made"
check "every sample has its goldens" all_samples
check "none is missing, none left over" in_both
check "a failing program keeps the old ones" keeps_old_ones BURNSHEET
check "failing marks keep the old ones" keeps_old_ones MARKS
check "with another word" changed words/de.xml "s|Alle Werte sind|Alle Zahlen sind|"
check "the sheets of that language differ, in a line or two" only_german
check "with a thicker line on the desk page" changed desk.xml \
    "s|<rule line=\"0.8 mm\"/>|<rule line=\"0.9 mm\"/>|"
check "the desk pages differ, in a line for each panel that moved" only_desks
for golden in "$accepted"/*; do
    check "$(basename "$golden")" diff -u "$golden" "$scratch/made/$(basename "$golden")"
done
check_end
