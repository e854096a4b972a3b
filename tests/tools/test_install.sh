#!/bin/sh
# A staged installation is whole, and the installed program works where nobody sees the source
# tree: from a folder moved elsewhere, with its own templates and fonts.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - install # SKIP the program is not built yet"
    exit 0
fi
stage=$scratch/stage

make_quietly() { env -u MAKEFLAGS -u MFLAGS make VARIANT="${VARIANT-}" DESTDIR="$stage" PREFIX=/usr "$@"; }
has() { [ -s "$stage/usr/$1" ]; }
nothing_else() { [ "$(ls "$stage")" = usr ] && [ "$(ls "$stage/usr")" = "$(printf 'bin\nshare')" ]; }
moves() { mv "$stage/usr" "$scratch/moved" && mkdir "$stage/usr"; }
makes_pages() {
    (cd "$scratch" && moved/bin/burnsheet sheet -o . "$batch" && [ -s "$name.sheet.pdf" ])
}
# The program must not fall back on the source tree: its own templates are broken to see it fail.
reads_own_templates() {
    for template in "$scratch"/moved/share/burnsheet/templates/*.xml; do
        echo broken >"$template"
    done
    ! (cd "$scratch" && moved/bin/burnsheet sheet -o . "$batch")
}
left_nothing() { [ -z "$(find "$stage" -type f)" ]; }

batch=$PWD/$(find samples -name '*.xml' ! -name workshop.xml | sort | head -n 1)
name=$(basename "$batch" .xml)

check "make install" make_quietly install
check "the program" has bin/burnsheet
check "a face" has share/burnsheet/fonts/Roboto-Regular.ttf
check "the sheet template" has share/burnsheet/templates/sheet.xml
check "the licence" has share/doc/burnsheet/LICENSE
check "the man page" has share/man/man1/burnsheet.1
check "nothing outside bin and share" nothing_else
check "make uninstall takes it all away" make_quietly uninstall
check "no file is left" left_nothing
check "make install once more" make_quietly install
check "the installation moves" moves
check "the moved program makes a page" makes_pages
check "with its own templates" reads_own_templates
check_end
