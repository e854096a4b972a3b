#!/bin/sh
# The test runner counts right: good, failing, crashing, silent and empty programs.
. tests/support/check.sh
runner=$PWD/tests/run

make_program() {
    printf '#!/bin/sh\n%s\n' "$2" >"$scratch/$1"
    chmod +x "$scratch/$1"
}
# closes LAST STATUS PROGRAM...: the runner's last line and exit status
closes() {
    wanted_line=$1
    wanted_status=$2
    shift 2
    (cd "$scratch" && "$runner" "$@") >"$scratch/.run"
    got=$?
    cat "$scratch/.run"
    [ "$(tail -n 1 "$scratch/.run")" = "$wanted_line" ] && [ $got -eq "$wanted_status" ]
}

make_program good 'echo "1..2"; echo "ok 1 - a"; echo "ok 2 - b"'
make_program bad 'echo "ok 1 - a"; echo "not ok 2 - b"; echo "# not ok - group"; exit 1'
make_program crash 'echo "ok 1 - a"; kill -SEGV $$'
make_program crash_after_bad 'echo "not ok 1 - a"; kill -ABRT $$'
make_program leak 'echo "ok 1 - a"; exit 23'
make_program early 'echo "1..2"; echo "ok 1 - a"; exit 0'
make_program none 'echo "nothing to see"'
make_program skip 'echo "ok 1 - a"; echo "not ok 2 # SKIP b"'
make_program quiet.sh 'exit 0'
make_program quiet_bad.sh 'exit 1'

check "all good" closes "2 passed, 0 failed" 0 ./good
check "one bad case" closes "1 passed, 1 failed" 1 ./bad
check "sums over programs" closes "3 passed, 1 failed" 1 ./good ./bad
check "a crash is a failure" closes "1 passed, 1 failed" 1 ./crash
check "a crash after a failed case is one more" closes "0 passed, 2 failed" 1 ./crash_after_bad
check "an unexplained exit status is a failure" closes "1 passed, 1 failed" 1 ./leak
check "fewer cases than announced is a failure" closes "1 passed, 1 failed" 1 ./early
check "a program without cases is a failure" closes "0 passed, 1 failed" 1 ./none
check "a missing program is a failure" closes "0 passed, 1 failed" 1 ./missing
check "a skipped case is neither" closes "1 passed, 0 failed" 0 ./skip
check "a silent script goes by its status" closes "1 passed, 1 failed" 1 ./quiet.sh ./quiet_bad.sh
make_program named 'echo "ok 1 - a"; echo "# ok - air: the steam tables"'
check "says what a program is checked against" sh -c \
    "'$runner' '$scratch/named' | grep -q 'named: 1  (air: the steam tables)'"
make_program unnamed 'echo "ok 1 - a"; echo "# ok - tests"'
check "says nothing where nothing is said" sh -c "'$runner' '$scratch/unnamed' | grep -q 'unnamed: 1\$'"
check "no test at all is a failure" closes "0 passed, 0 failed" 1
check_end
