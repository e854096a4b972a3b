#!/bin/sh
# What the machine refuses in the middle of a run: the n-th allocation, write, flush or renaming
# fails, for many n. The program then ends with exit status 3 and leaves the earlier page whole and
# nothing beside it; or the failure did not matter, and the page is to the byte what it should be.
# It never dies of a signal.
#
# FAULT_EVERY=1 tries every allocation there is (`make check`); otherwise every 97th, and all of
# the first and last few. The failing is done by tests/fault/failing_calls.c, loaded before the
# program; sanitizers and coverage bring allocations of their own, so they are left out.
. tests/support/check.sh
shim=$PWD/.build/tests/fault/failing_calls.so
every=${FAULT_EVERY:-97}
case $BURNSHEET in
*/.build/burnsheet) ;;
*)
    echo "not ok - failing calls # SKIP only with the plain build"
    exit 0
    ;;
esac
export SOURCE_DATE_EPOCH=1780000000

desk() { # FOLDER: a workshop and one batch of two fills with bags
    mkdir -p "$1"
    cp samples/workshop.xml samples/mark.svg "$1"
    cat >"$1/night.xml" <<'END'
<batch name="Night" workshop="workshop.xml" cabinet="larch">
  <product kind="cheese" name="Cheddar" mass="3 kg" smoke-time="8 h"/>
  <blend name="Beech and cherry">
    <part dust="beech" share="70 %"/>
    <part dust="cherry" share="30 %"/>
  </blend>
  <fill tray="folded" burn-time="3 h"/>
  <fill tray="folded" burn-time="2 h"/>
  <predry oven="100 °C" time="15 min"/>
  <weather temperature="6 °C" humidity="78 %"/>
  <timing light="2026-12-04T21:30"/>
  <bag net="250 g" count="3" stock="a4-8" packed="2026-12-04"/>
</batch>
END
}
# In the folder, since a page names its batch as the command line does.
run() { # FOLDER COMMAND KIND AT
    (cd "$1" && FAULT_CALL=$3 FAULT_AT=$4 FAULT_COUNT=count LD_PRELOAD=$shim \
        exec "$BURNSHEET" "$2" -o night.pdf night.xml >said 2>&1)
}
# One failing call: 0 when the program took it as it should.
taken_well() { # FOLDER COMMAND KIND AT
    cp "$scratch/earlier.pdf" "$1/night.pdf"
    run "$@"
    status=$?
    if [ $status -eq 0 ]; then
        cmp -s "$1/night.pdf" "$scratch/$2.pdf" && wrong= || wrong="done, but with another page"
    elif [ $status -ne 3 ]; then
        wrong="exit status $status"
    elif [ ! -s "$1/said" ]; then
        wrong="not a word"
    elif cmp -s "$1/night.pdf" "$scratch/earlier.pdf" ||
        { [ "$3" != memory ] && cmp -s "$1/night.pdf" "$scratch/$2.pdf"; }; then
        wrong=
    else
        wrong="the earlier page is spoilt"
    fi
    stray=$(find "$1" -type f ! -name night.pdf ! -name night.xml ! -name workshop.xml ! -name mark.svg \
        ! -name said ! -name count)
    [ -z "$stray" ] || wrong="left behind: $stray"
    [ -z "$wrong" ] || { echo "# $3 $4: $wrong: $(head -n 2 "$1/said" | tr '\n' ' ')"; return 1; }
}
# Every call from FIRST in steps of STEP to LAST, and what went wrong in at most ten of them.
sweep() { # FOLDER COMMAND KIND FIRST STEP LAST
    at=$4
    faults=0
    while [ "$at" -le "$6" ] && [ $faults -lt 10 ]; do
        taken_well "$1" "$2" "$3" "$at" || faults=$((faults + 1))
        at=$((at + $5))
    done
    [ $faults -eq 0 ]
}
calls() { # COMMAND KIND: how many there are; the page goes where it is compared with
    run "$scratch/one" "$1" "$2" 0 && cp "$scratch/one/night.pdf" "$scratch/$1.pdf" &&
        cat "$scratch/one/count"
}
# Two at once, each in a folder of its own.
both() { # COMMAND KIND FIRST STEP LAST
    sweep "$scratch/one" "$1" "$2" "$3" $((2 * $4)) "$5" >"$scratch/first" &
    sweep "$scratch/two" "$1" "$2" $(($3 + $4)) $((2 * $4)) "$5" >"$scratch/second"
    good=$?
    wait $! && [ $good -eq 0 ] || { cat "$scratch/first" "$scratch/second"; return 1; }
}

desk "$scratch/one"
desk "$scratch/two"
printf '%%PDF-1.6\nan earlier page\n' >"$scratch/earlier.pdf"
for command in sheet labels; do
    last=$(calls $command memory)
    check "$command: allocations are counted" [ "${last:-0}" -gt 1000 ]
    check "$command: none of the first allocations failing is taken for a fault of the batch" \
        both $command memory 1 1 40
    check "$command: nor is any later one, each $every." both $command memory 41 "$every" "$last"
    check "$command: nor one of the last" both $command memory $((last - 40)) 1 "$last"
    for kind in write fsync rename; do
        count=$(calls $command $kind)
        check "$command: every $kind failing" both $command $kind 1 1 "${count:-0}"
    done
done

# The record put into the batch's own file: written, or the file as it was.
mkdir "$scratch/file"
desk "$scratch/file"
cp "$scratch/file/night.xml" "$scratch/earlier.xml"
put() { # KIND AT
    (cd "$scratch/file" && FAULT_CALL=$1 FAULT_AT=$2 FAULT_COUNT=count LD_PRELOAD=$shim \
        exec "$BURNSHEET" record --write night.xml >said 2>&1)
}
put none 0 && cp "$scratch/file/night.xml" "$scratch/recorded.xml"
put_well() { # KIND AT
    cp "$scratch/earlier.xml" "$scratch/file/night.xml"
    put "$@"
    status=$?
    stray=$(find "$scratch/file" -name '*.part')
    if [ $status -eq 0 ]; then
        cmp -s "$scratch/file/night.xml" "$scratch/recorded.xml"
    else
        [ $status -eq 3 ] && [ -s "$scratch/file/said" ] &&
            cmp -s "$scratch/file/night.xml" "$scratch/earlier.xml"
    fi && [ -z "$stray" ] || { echo "# $1 $2: exit status $status $stray"; return 1; }
}
put_sweep() { # KIND FIRST STEP LAST
    at=$2
    while [ "$at" -le "$4" ]; do
        put_well "$1" "$at" || return 1
        at=$((at + $3))
    done
}
check "record: the file gets it" grep -q '<record ' "$scratch/recorded.xml"
for kind in write fsync rename; do
    cp "$scratch/earlier.xml" "$scratch/file/night.xml"
    put $kind 0
    count=$(cat "$scratch/file/count")
    check "record: every $kind is counted" [ "${count:-0}" -ge 1 ]
    # the last flush is that of the folder, after which the new file is in its place
    [ $kind = fsync ] && count=$((count - 1))
    check "record: every $kind failing" put_sweep $kind 1 1 "$count"
done
cp "$scratch/earlier.xml" "$scratch/file/night.xml"
put memory 0
last=$(cat "$scratch/file/count")
check "record: allocations failing, each $every." put_sweep memory 1 "$every" "$last"
check "record: and one of the last" put_sweep memory $((last - 40)) 1 "$last"
check_end
