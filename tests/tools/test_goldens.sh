#!/bin/sh
# What the program says and prints for the samples is what was last accepted. After a wanted
# change: `make goldens`, look at the difference, commit it.
. tests/support/check.sh
accepted=tests/goldens
if [ ! -d $accepted ]; then
    echo "not ok - goldens # SKIP none accepted yet"
    exit 0
fi

all_samples() {
    for batch in samples/*.xml; do
        name=$(basename "$batch" .xml)
        [ "$name" = workshop ] || [ -s "$accepted/$name.sheet.txt" ] || return 1
    done
}

check "goldens can be made" tests/tools/goldens "$scratch/made"
check "every sample has its goldens" all_samples
for golden in "$accepted"/*.txt; do
    check "$(basename "$golden")" diff -u "$golden" "$scratch/made/$(basename "$golden")"
done
check_end
