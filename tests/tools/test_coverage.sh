#!/bin/sh
# The tool that adds up the lines run fails below what is wanted of the model, the input and the
# whole, and only then. What the compiler's own tool says is made up here.
. tests/support/check.sh
mkdir -p "$scratch/bin" "$scratch/build/obj/src"
touch "$scratch/build/obj/src/a.gcno"
printf '#!/bin/sh\ncat "%s/said"\n' "$scratch" >"$scratch/bin/gcov"
chmod +x "$scratch/bin/gcov"

ran() { # PERCENT of model/a.c, of input/b.c, of base/c.c, with 100, 100 and 200 lines
    for row in "model/a.c $1 100" "input/b.c $2 100" "base/c.c $3 200"; do
        set -- $row
        printf "File 'src/%s'\nLines executed:%s%% of %s\n\n" "$@"
    done >"$scratch/said"
}
added() { PATH="$scratch/bin:$PATH" tests/tools/coverage "$scratch/build" base input model; }

ran 97.00 95.00 95.00
check "as many as are wanted are enough" added
check_said "src/model       97.0 % of 100 lines, at least 97 wanted" "what is wanted is said"
check_said "src             95.5 % of 400 lines, at least 95 wanted" "the whole is the sum of all lines"
check_said "src/base        95.0 % of 200 lines" "folders without a bound are shown"
ran 96.90 99.00 99.00
check_status 1 "fewer of the model fail" added
check_said "src/model       96.9 % of 100 lines, at least 97 wanted: too few" "that says which"
ran 99.00 94.90 99.00
check_status 1 "fewer of the input fail" added
check_said "below 95: src/input/b.c" "the file is named"
ran 97.00 95.00 93.00
check_status 1 "fewer of the whole fail" added
printf "" >"$scratch/said"
check_status 1 "no data at all fail" added
check_end
