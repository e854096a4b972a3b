#!/bin/sh
# No test file is lost or forgotten unnoticed: tests/list names them all, and the tool that compares
# tells a loss from an addition, says how to mend either, and renews the list.
. tests/support/check.sh
tool=$PWD/tests/tools/kept
tree=$scratch/tree

fresh() {
    rm -rf "$tree"
    mkdir -p "$tree/tests/base" "$tree/tests/command" "$tree/tests/unsafe"
    touch "$tree/tests/base/test_one.c" "$tree/tests/command/test_two.sh" \
        "$tree/tests/unsafe/tight.xml" "$tree/tests/base/helper.c"
    renewed >/dev/null
}
kept() { (cd "$tree" && "$tool"); }
renewed() { (cd "$tree" && "$tool" --renew); }
lines() { [ "$(wc -l <"$tree/tests/list")" -eq "$1" ]; }

check "tests/list names every test file that is there, and no other" "$tool"
fresh
check "a whole tree is silent" kept
check "the list has tests and no helper" lines 3
rm "$tree/tests/base/test_one.c"
check_status 1 "a lost test is an error" kept
check_said "error: tests/base/test_one.c is in tests/list but not there" "that names the file"
check_said "make tests-list" "and the way to mean it"
check "the list is renewed" renewed
check_said "taken from the list: tests/base/test_one.c" "saying what went"
check "and then agrees" kept
rm "$tree/tests/unsafe/tight.xml"
check_status 1 "a lost unsafe night is an error" kept
fresh
touch "$tree/tests/command/test_three.sh"
check_status 1 "a test that is not in the list is an error" kept
check_said "error: tests/command/test_three.sh is not in tests/list" "that names it too"
check "the list is renewed with it" renewed
check_said "added to the list: tests/command/test_three.sh" "saying what came"
rm "$tree/tests/list"
check_status 1 "no list at all is an error" kept
check_end
