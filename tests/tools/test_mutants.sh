#!/bin/sh
# The tool that changes src/ a little: it tells what tests see from what they do not, names each
# survivor, chooses the same changes by the same seed, and takes no entry of its list for granted.
. tests/support/check.sh
tool=$PWD/tests/tools/mutants
tree=$scratch/tree
mkdir -p "$tree/src/base" "$tree/src/command" "$tree/tests/base" "$tree/tests/tools" "$tree/fonts"
cp Makefile "$tree"
cp tests/run "$tree/tests"
cp tests/tools/includes tests/tools/packages "$tree/tests/tools"
cat >"$tree/src/base/door.h" <<'END'
int is_wide(int width);
int is_high(int height);
END
cat >"$tree/src/base/door.c" <<'END'
#include "base/door.h"
/* "1 > 2" is a remark, and so is `if (0) return 3 + 4;` */
static const char remark[] = "5 > 6 \" 7 + 8";
int is_wide(int width) {
    return width > 40 && remark[0] == '5';
}
int is_high(int height) {
    return height >
           90;
}
END
cat >"$tree/src/command/main.c" <<'END'
#include "base/door.h"
#include <stdlib.h>
int main(int count, char **words) {
    return count == 3 && is_wide(atoi(words[1])) && is_high(atoi(words[2])) ? 0 : 1;
}
END
cat >"$tree/tests/base/test_door.sh" <<'END'
"$BURNSHEET" 41 200 && ! "$BURNSHEET" 40 200 || exit 1
END
chmod +x "$tree/tests/base/test_door.sh"

equal() { # WHY FUNCTION OLD NEW
    printf '~ %s\n@ %s\n- %s\n+ %s\n\n' "$@" >>"$tree/list"
}
entry() { # TITLE FUNCTION OLD NEW
    printf '= %s\n@ %s\n- %s\n+ %s\n\n' "$@" >>"$tree/list"
}
tried() { "$tool" --root "$tree" --list list "$@"; }
shown() { tried --show --count 30 "$@"; }

touch "$tree/list"
shown >"$scratch/one" && shown >"$scratch/two" && shown --seed 2 >"$scratch/three"
check "a seed chooses the same changes each time" cmp "$scratch/one" "$scratch/two"
differs() { ! cmp "$scratch/one" "$scratch/three"; }
check "another seed chooses others" differs
check "a number is changed" grep -q '^    +.*width > 44 ' "$scratch/one"
check "a bound is moved" grep -q '^    +.*width >= 40 ' "$scratch/one"
remarks() { grep '^    +' "$scratch/one" | grep -v '5 > 6 \\" 7 + 8' | grep -q 'remark\[\] '; }
check_status 1 "nothing in a text is changed" remarks
check_status 1 "nothing in a remark is changed" grep -q 'is a remark' "$scratch/one"

entry "a wide door is any" is_wide "width > 40" "width > 0"
entry "a high door is any" is_high "height > 90" "height > 0"
entry "a wide door is no number" is_wide "width > 40" "width > (struct Door)"
entry "a door is as wide as wide" is_wide "width > 40" "(width > 40)"
check_status 1 "a named change that no test sees fails the run" tried --named
check_said "killed  src/base/door.c:5: is_wide: a wide door is any  by tests/base/test_door.sh" \
    "a change that a test sees is killed"
check_said "survived: src/base/door.c:8: is_high: a high door is any" "the survivor is named"
check_said "    +    return height > 0;" "and shown"
check_said "not built  src/base/door.c:5: is_wide: a wide door is no number" "what does not build"
check_said "same code  src/base/door.c:5: is_wide: a door is as wide as wide" "what changes nothing"
unchanged() { cmp "$tree/src/base/door.c" "$tree/.build/mutants/1/src/base/door.c"; }
check "the copy is as it was afterwards" unchanged

echo '! "$BURNSHEET" 41 90 || exit 1' >>"$tree/tests/base/test_door.sh"
check "with a test that sees it the run is good" tried --named
equal "a door of 40 is none" is_wide "width > 40" "width >= 40"
tried --count 30 >"$scratch/tried" 2>&1
known() { grep -q "^    equal  src/base/door.c:5: is_wide: boundary" "$scratch/tried"; }
check "a change that means the same is not tried" known
entry "a low door" is_low "height < 9" "height < 8"
check_status 1 "an entry whose place is gone fails the run" tried --named
check_said "'height < 9' stands 0 times in is_low, wanted once" "that says which"
echo false >>"$tree/tests/base/test_door.sh"
check_status 1 "a test that fails without any change fails the run" tried --named
check_said "tests/base/test_door.sh fails without any change" "that says which test"
check_end
