#!/bin/sh
# Many batches in one run: by several processes as by one, whatever is said and written; and no
# page is written over another.
. tests/support/check.sh
folder=$scratch/many
mkdir "$folder"
cp samples/workshop.xml samples/mark.svg "$folder"
for number in $(seq 10 49); do
    sed "s/name=\"Butter/name=\"Butter $number/" samples/butter-short.xml >"$folder/b$number.xml"
done
sed 's/mass="[^"]*"/mass="3"/' samples/butter-short.xml >"$folder/b27.xml"
sed -e 's/out="2026-11-28T05:35"/out="2026-11-29T06:05"/' -e '/<reading/d' \
    samples/cheese-last-week.xml >"$folder/late.xml"
run() { # run COMMAND JOBS
    "$BURNSHEET" "$1" --jobs "$2" "$folder"/b*.xml >"$scratch/$1.$2.out" 2>"$scratch/$1.$2.err"
}
same() { run "$1" 1; run "$1" 3; cmp "$scratch/$1.1.out" "$scratch/$1.3.out" && cmp "$scratch/$1.1.err" "$scratch/$1.3.err"; }
check "plans by three as by one" same plan
faulty() { grep -q "^$folder/b27.xml:.*no unit" "$scratch/plan.3.err"; }
check "with the fault of one" faulty
once() { [ "$(grep -c "late.xml:.*: warning:" "$scratch/plan.3.err")" -eq 1 ]; }
check "what can not be learnt from is told once" once
check "and how many were done" grep -q "39 of 40 files done" "$scratch/plan.3.err"
check_status 1 "one has a fault" run plan 3

sheets() {
    SOURCE_DATE_EPOCH=1796335200 "$BURNSHEET" sheet --jobs "$1" -o "$scratch/jobs$1/" "$folder"/b*.xml 2>/dev/null
    [ "$(ls "$scratch/jobs$1" | wc -l)" -eq 39 ]
}
check "sheets by one" sheets 1
check "sheets by four" sheets 4
check "are the same" diff -r "$scratch/jobs1" "$scratch/jobs4"

# A worker that hangs at a pipe nobody reads from, and is killed there.
mkdir "$scratch/pipes"
mkfifo "$scratch/pipes/b13.sheet.pdf"
lost() {
    "$BURNSHEET" sheet --jobs 2 -o "$scratch/pipes/" "$folder"/b[13]*.xml 2>"$scratch/lost" &
    parent=$!
    for turn in $(seq 100); do
        workers=$(pgrep -P $parent) && [ "$(echo "$workers" | wc -l)" -eq 2 ] && break
        sleep 0.1
    done
    kill -9 $workers
    wait $parent
}
check_status 3 "workers that are killed" lost
check "are said to be" grep -q "a worker ended at" "$scratch/lost"

mkdir "$folder/other"
cp samples/workshop.xml samples/mark.svg "$folder/other"
cp "$folder/b10.xml" "$folder/other"
sheet() { "$BURNSHEET" sheet -o "$scratch/out/" "$@"; }
check_status 1 "two of one name" sheet "$folder/b10.xml" "$folder/other/b10.xml"
check_said "would stand in the place of that of '$folder/b10.xml'" "are refused"
check "one file given twice" sheet "$folder/b10.xml" "$folder/b10.xml"
check "two of one name in one PDF" "$BURNSHEET" sheet -o "$scratch/both.pdf" "$folder/b10.xml" "$folder/other/b10.xml"
for number in 0 65 1.5 x ''; do
    check_status 2 "--jobs '$number'" "$BURNSHEET" plan --jobs "$number" "$folder/b10.xml"
done
check_end
