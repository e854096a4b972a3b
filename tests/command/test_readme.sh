#!/bin/sh
# What the README and the manual page tell people to type works as it stands there: the batch
# written from nothing, and every command line that starts with "burnsheet". Pictures and files
# they name are there.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - readme # SKIP the program is not built yet"
    exit 0
fi
desk=$scratch/desk
mkdir "$desk" "$scratch/bin"
ln -s "$BURNSHEET" "$scratch/bin/burnsheet"
cp -r samples "$desk"
cp samples/workshop.xml samples/mark.svg samples/forecast.csv "$desk"
cp -r samples/bagging "$desk"
cp samples/butter-short.xml "$desk/thursday.xml"

# The first <batch> of the README, from its line to </batch>.
sed -n '/^<batch /,/^<\/batch>/p' README.md >"$scratch/batch.all"
sed '/^<\/batch>/q' "$scratch/batch.all" >"$desk/monday.xml"
ten_lines() { [ "$(wc -l <"$desk/monday.xml")" -le 11 ] && [ -s "$desk/monday.xml" ]; }
check "the README has a batch of ten lines" ten_lines
on_desk() { (cd "$desk" && PATH="$scratch/bin:$PATH" sh -c "$1"); }
check_status 0 "it has no fault" on_desk "burnsheet check monday.xml"
check_status 0 "it gives a sheet" on_desk "burnsheet sheet monday.xml"
check "in out/" test -s "$desk/out/monday.sheet.pdf"
good() { on_desk "burnsheet plan monday.xml" | grep -q "GOOD TO LIGHT"; }
check "and is good to light" good

# Lines of code: four blanks or a fence in the README, .Dl in the manual page. A line that shows a
# fault may say so by what stands behind #.
sed -n 's/^ *\$\{0,1\} *\(burnsheet [a-z].*\)/\1/p' README.md >"$scratch/lines"
sed -n 's/^\.Dl *\(burnsheet .*\)/\1/p' templates/burnsheet.1 >>"$scratch/lines"
enough() { [ "$(wc -l <"$scratch/lines")" -ge 8 ]; }
check "eight lines and more to try" enough
while read -r line; do
    check_status 0 "$line" on_desk "$line" </dev/null
done <"$scratch/lines"

# What is linked or named in the README is there.
sed -n 's/.*](\([^)#:]*\)).*/\1/p' README.md DEVELOPERS.md >"$scratch/links"
while read -r link; do
    check "README: $link" test -e "$link"
done <"$scratch/links"
no_gaps() { ! grep -nE '@[A-Z]+@|TODO|FIXME' README.md DEVELOPERS.md; }
check "no gap left open in the papers" no_gaps
verbs() { # every make verb the papers name is one
    grep -ohE '^ +(sudo )?make [a-z-]+|`(sudo )?make [a-z-]+|&& make [a-z-]+' README.md DEVELOPERS.md | sed 's/.* //' | sort -u >"$scratch/verbs"
    while read -r verb; do
        grep -q "^$verb:" Makefile || grep -q "^ *$verb *&&" Makefile ||
            { echo "# make $verb"; return 1; }
    done <"$scratch/verbs"
}
check "the verbs of make" verbs

# ---- The manual page
lint() {
    sed 's/@VERSION@/1/' templates/burnsheet.1 >"$scratch/burnsheet.1"
    ! man --warnings=all -E UTF-8 -l "$scratch/burnsheet.1" 2>&1 >/dev/null | grep .
}
if command -v man >/dev/null; then
    check "the manual page is well made" lint
fi
# Every option of every command, as its own help names them.
commands=$("$BURNSHEET" --help | sed -n 's/^  burnsheet \([a-z]*\) .*/\1/p')
several() { [ "$(echo "$commands" | wc -l)" -ge 7 ]; }
check "the program's commands" several
for command in $commands; do
    "$BURNSHEET" $command --help | sed -n 's/^  .*--\([a-z]*\).*/\1/p' >"$scratch/options"
    while read -r option; do
        [ "$option" = help ] && continue
        check "manual page: --$option of $command" grep -q "^\.It Fl \(. , Fl \)\{0,1\}-$option" \
            templates/burnsheet.1
    done <"$scratch/options"
    check "manual page: $command" grep -q "^\.It Cm $command" templates/burnsheet.1
done
invented() { # and no option that the program does not have
    sed -n 's/^\.It .*Fl -\([a-z-]*\).*/\1/p' templates/burnsheet.1 | while read -r option; do
        for command in $commands; do
            "$BURNSHEET" $command --help
        done | grep -q -- "--$option" || echo "# --$option"
    done | grep .
}
none_invented() { ! invented; }
check "manual page: no option that there is not" none_invented
for variable in BURNSHEET_DATA SOURCE_DATE_EPOCH; do
    check "manual page: $variable" grep -q "$variable" templates/burnsheet.1
done
check_end
