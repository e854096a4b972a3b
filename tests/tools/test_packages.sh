#!/bin/sh
# The set-up asks apt only for what is missing, as root or through sudo, and says what it does.
# dpkg-query, apt-get, id and sudo are stand-ins here: no test changes the machine.
. tests/support/check.sh
tool=$PWD/tests/tools/packages

stand_in() {
    printf '#!/bin/sh\n%s\n' "$2" >"$scratch/bin/$1"
    chmod +x "$scratch/bin/$1"
}
# machine USER_ID INSTALLED... : a machine where just these packages are installed
machine() {
    rm -rf "$scratch/bin" "$scratch/calls"
    mkdir "$scratch/bin"
    : >"$scratch/calls"
    user=$1
    shift
    stand_in id "echo $user"
    stand_in dpkg-query "for p; do :; done; case ' $* ' in *\" \$p \"*) echo 'installed ' ;; esac"
    stand_in apt-get "echo \"apt-get \$*\" >>'$scratch/calls'"
    for command in sh env tr echo; do ln -s "$(command -v $command)" "$scratch/bin/$command"; done
}
with_sudo() {
    stand_in sudo "echo \"sudo \$1\" >>'$scratch/calls'; exec \"\$@\""
}
run_tool() {
    PATH=$scratch/bin "$tool" "$@" >"$scratch/said" 2>&1
    status=$?
    cat "$scratch/said" "$scratch/calls"
    return $status
}
silent() { run_tool "$@" && [ ! -s "$scratch/said" ] && [ ! -s "$scratch/calls" ]; }
installs() {
    wanted=$1
    shift
    run_tool "$@" && grep -q "^apt-get .*install .*-y $wanted\$" "$scratch/calls" &&
        grep -q '^apt-get .*update$' "$scratch/calls" && grep -q "^installing .* $wanted\$" "$scratch/said"
}
through_sudo() { grep -q '^sudo apt-get' "$scratch/calls" && grep -q '^sudo env' "$scratch/calls"; }
says() { grep -q -- "$1" "$scratch/said"; }
nothing_called() { [ ! -s "$scratch/calls" ]; }

machine 0 gcc tzdata
check "silent when all is there" silent gcc tzdata
check "companions are not asked for when the package is there" silent gcc+other tzdata

machine 0 gcc
check "as root installs what is missing and no more" installs "tzdata" gcc tzdata
check "companions come along with a missing package" installs "a b c" gcc a+b+c

machine 1000 gcc
with_sudo
check "as user installs through sudo" installs "tzdata" gcc tzdata
check "sudo was used" through_sudo

machine 1000 gcc
check_status 1 "neither root nor sudo is an error" run_tool gcc tzdata
check "that names the packages" says "not installed: tzdata"
check "that names the command to run" says "apt-get install"
check "and calls nothing" nothing_called

machine 0 gcc
check "--only-say succeeds" run_tool --only-say gcc tzdata
check "--only-say names the packages" says "not installed: tzdata"
check "--only-say calls nothing" nothing_called

machine 0
stand_in apt-get 'echo "E: no network" >&2; exit 100'
check_status 1 "a failing apt is an error" run_tool gcc
check "that says what could not be installed" says "could not install: gcc"

machine 0
rm "$scratch/bin/dpkg-query"
check "another system is told what to have" run_tool gcc
check "with its packages named" says "not a Debian system.*gcc"
check_end
