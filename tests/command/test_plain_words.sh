#!/bin/sh
# What the assistant reads speaks of hours and of nights in ten: the engineers' words, and those
# that promise an end by a time, are on no sheet and in no plan on the terminal.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - plain words # SKIP the program is not built yet"
    exit 0
fi
engineers='hold margin|dry basis|wet basis|out by |Glimmreserve|aus bis|zapas żaru'

samples=$(ls samples/*.xml | grep -v workshop)
for language in en de pl; do
    "$BURNSHEET" plan --language $language $samples >"$scratch/plan.$language" 2>/dev/null
    "$BURNSHEET" sheet --language $language -o "$scratch/$language.pdf" $samples 2>/dev/null
    pdftotext "$scratch/$language.pdf" "$scratch/sheet.$language"
    for text in plan sheet; do
        check "$text $language: it was made" grep -qE '21:30' "$scratch/$text.$language"
        check "$text $language: no word of the engineers'" sh -c \
            "! grep -niE '$engineers' '$scratch/$text.$language'"
    done
done
for language in en de pl; do
    check "$language: nights in ten" grep -qE '(9|19) (in|von|na) (10|20)' "$scratch/sheet.$language"
done
check_end
