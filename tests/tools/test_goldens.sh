#!/bin/sh
# What the program says and prints for the samples is what was last accepted. After a wanted
# change: `make goldens`, look at the difference, commit it.
. tests/support/check.sh
accepted=tests/goldens
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
        [ "$name" = workshop ] || [ -s "$accepted/$name.sheet.txt" ] || return 1
    done
}
keeps_old_ones() { # a program that fails takes nothing away
    mkdir "$scratch/old" && echo kept >"$scratch/old/a.txt"
    ! BURNSHEET=false tests/tools/goldens "$scratch/old" && [ -s "$scratch/old/a.txt" ]
}

check "goldens can be made" tests/tools/goldens "$scratch/made"
check "every sample has its goldens" all_samples
check "none is missing, none left over" in_both
check "a failing run keeps the old ones" keeps_old_ones
for golden in "$accepted"/*.txt; do
    check "$(basename "$golden")" diff -u "$golden" "$scratch/made/$(basename "$golden")"
done
check_end
