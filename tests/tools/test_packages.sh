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
through_sudo() { grep -q '^sudo env' "$scratch/calls"; }
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

# what apt-get says while `apt-get update` of an automatic update runs (apt 2.6, Debian 12)
locked() {
    stand_in apt-get "echo \"apt-get \$*\" >>'$scratch/calls'
case \"\$*\" in *update) ;; *) exit 0 ;; esac
echo >>'$scratch/tries'; read -r a b <<END
\$(wc -l '$scratch/tries')
END
[ \$a -gt $1 ] || { echo 'E: Could not get lock /var/lib/apt/lists/lock. It is held by' >&2; exit 100; }"
    stand_in sleep "echo sleep >>'$scratch/calls'"
    ln -s "$(command -v wc)" "$scratch/bin/wc"
    rm -f "$scratch/tries"
}
waits() { [ "$(grep -c '^sleep' "$scratch/calls")" -eq "$1" ]; }

machine 0
check "apt is told to wait for the lock on installing" installs "gcc" gcc
check "in both of its calls" [ "$(grep -c 'DPkg::Lock::Timeout=[1-9]' "$scratch/calls")" -eq 2 ]
machine 0
locked 3
check "a lock on the lists is waited for" installs "gcc" gcc
check "from one try to the next" waits 3
check "and said once" [ "$(grep -c 'Could not get lock' "$scratch/said")" -eq 1 ]
machine 0
locked 100000
check "a lock that stays is not waited for without end" installs "gcc" gcc
check "and the lists at hand are taken" says "going on with the lists at hand"
machine 0
stand_in sleep "echo sleep >>'$scratch/calls'"
stand_in apt-get 'case "$*" in *update) echo "E: no network" >&2; exit 100 ;; esac'
check "another fault of the lists is not waited for" run_tool gcc
check "not once" waits 0

machine 0
rm "$scratch/bin/dpkg-query"
check "another system is told what to have" run_tool gcc
check "with its packages named" says "not a Debian system.*gcc"
check_end
