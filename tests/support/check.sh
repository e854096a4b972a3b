# Sourced by test scripts: `. tests/support/check.sh`. Each check is one counted test case.
#
#   check NAME COMMAND...          passes when the command succeeds
#   check_status N NAME COMMAND... passes when the command ends with exit status N
#   check_said TEXT NAME           passes when what the last of those printed holds the text
#   check_end                      last line of the script: its exit status
#
# What a failing command printed is shown. $scratch is a folder that goes away at the end;
# $BURNSHEET is the program to test, from any folder.

BURNSHEET=${BURNSHEET:-$PWD/.build/burnsheet}
scratch=$(mktemp -d) || exit 1
trap 'rm -rf "$scratch"' EXIT
check_failures=0

check_status() {
    check_wanted=$1
    check_name=$2
    shift 2
    "$@" >"$scratch/.check" 2>&1
    check_got=$?
    if [ $check_got -eq "$check_wanted" ]; then
        echo "ok - $check_name"
    else
        echo "not ok - $check_name"
        echo "# exit status $check_got, wanted $check_wanted: $*"
        sed 's/^/# /' "$scratch/.check"
        check_failures=$((check_failures + 1))
    fi
}

check() {
    check_status 0 "$@"
}

check_said() {
    if grep -qF -- "$1" "$scratch/.check"; then
        echo "ok - $2"
    else
        echo "not ok - $2"
        echo "# not said: $1"
        sed 's/^/# /' "$scratch/.check"
        check_failures=$((check_failures + 1))
    fi
}

check_end() {
    [ $check_failures -eq 0 ]
}
