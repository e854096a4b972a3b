#!/bin/sh
# The Makefile: help names every verb, a breach of the include rule stops the build before anything
# is compiled, a touched header compiles again what includes it, and no more, and the demo is the
# same each time.
. tests/support/check.sh
tree=$scratch/tree
mkdir -p "$tree/src/base" "$tree/src/model" "$tree/tests/tools"
cp Makefile "$tree/"
cp tests/tools/includes tests/tools/packages "$tree/tests/tools/"
echo '#include "base/one.h"' >"$tree/src/base/one.c"
echo 'int one(void);' >"$tree/src/base/one.h"
echo 'int one(void) { return 1; }' >>"$tree/src/base/one.c"
echo 'int two(void);
int two(void) { return 2; }' >"$tree/src/model/two.c"

build() { (cd "$tree" && env -u MAKEFLAGS -u MFLAGS make -j2 VARIANT= .build/libburnsheet.a 2>&1); }
compiles() {
    wanted=$1
    [ "$(build | sed -n 's/^  compile //p' | sort | tr '\n' ' ')" = "$wanted" ]
}
stops_before_compiling() {
    said=$(build) && return 1
    echo "$said" | grep -q '^src/model/two.c:1: error: ' && ! echo "$said" | grep -q compile
}
help_names() {
    for verb in demo test check format install uninstall clean coverage bench goldens reference; do
        env -u MAKEFLAGS make help | grep -q "^  make $verb  *[a-z]" || { echo "$verb"; return 1; }
    done
}
later() { touch -d '+2 seconds' "$tree/$1"; }

check "help names the verbs" help_names
check "a new tree is compiled whole" compiles "src/base/one.c src/model/two.c "
check "a second run compiles nothing" compiles ""
later src/base/one.h
check "a touched header compiles what includes it" compiles "src/base/one.c "
echo '#include <libxml/tree.h>' >"$tree/src/model/two.c"
later src/model/two.c
check "a breach of the include rule stops the build" stops_before_compiling

# ---- make demo, with the program that is there, in a tree of its own
demo() { # EPOCH, FOLDER: the pages go to FOLDER
    (cd "$desk" && rm -rf out && env -u MAKEFLAGS -u MFLAGS SOURCE_DATE_EPOCH="$1" \
        make VARIANT= PROGRAM="$BURNSHEET" demo) && mv "$desk/out" "$2"
}
all_pages() {
    for batch in samples/*.xml; do
        name=$(basename "$batch" .xml)
        [ "${name#workshop}" != "$name" ] || [ -s "$scratch/first/$name.sheet.pdf" ] || return 1
    done
    [ "$(ls "$scratch"/first/*.labels.pdf | wc -l)" -ge 5 ] || return 1
    for page in market-day.labels market-day.slip december-stall.labels workshop.slip b-2611.trace; do
        [ -s "$scratch/first/$page.pdf" ] || return 1
    done
}
cleaned() { # nothing of the demo's is left, somebody's own page is
    mkdir -p "$desk/out" && cp "$scratch"/later/*.pdf "$desk/out" && touch "$desk/out/own.sheet.pdf" &&
        (cd "$desk" && env -u MAKEFLAGS -u MFLAGS make VARIANT= clean >/dev/null) &&
        [ "$(ls "$desk/out")" = own.sheet.pdf ]
}
others() { ! diff -rq "$scratch/first" "$scratch/later"; }
if [ -x "$BURNSHEET" ]; then
    desk=$scratch/desk
    mkdir -p "$desk/tests"
    cp -r Makefile fonts samples templates "$desk"
    cp -r tests/tools "$desk/tests"
    check "make demo" demo 1780000000 "$scratch/first"
    check "makes the pages of all samples" all_pages
    check "make demo once more" demo 1780000000 "$scratch/second"
    check "gives the same bytes" diff -r "$scratch/first" "$scratch/second"
    check "make demo at another time" demo 1780000001 "$scratch/later"
    check "gives others" others
    check "make clean takes them away again" cleaned
fi
check_end
