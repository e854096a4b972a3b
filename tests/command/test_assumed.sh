#!/bin/sh
# Dust that nobody measured: what is assumed of it is said to be assumed in every language, is a
# range on the scale, does not follow one night's weather, and never stands on a label.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - assumed moisture # SKIP the program is not built yet"
    exit 0
fi
cp samples/*.xml samples/*.csv samples/*.svg "$scratch"
sed 's/moisture="8.2 %" basis="dry" measured="2026-11-19"//' samples/workshop.xml \
    >"$scratch/workshop.xml"
night=$scratch/cheese-overnight.xml

plan() { "$BURNSHEET" plan "$@" "$night"; }
says() { plan --language "$1" | grep -qE "$2"; }
silent() { ! says "$1" "$2"; }
check "the total is said to be assumed" says en '[0-9].{1,3}% of dry wood \(assumed\)'
check "in German" says de '\(angenommen\)'
check "in Polish" says pl '\(przyjęto\)'
check "it was not measured" says en 'assumed, not measured of late'
check "the mass to expect is a range" says en 'until two weighings agree, at [0-9]+.{1,3}g to [0-9]+.{1,3}g'
check "it is weighed, dried and weighed again" says en 'Weigh, dry 5 min more, weigh'
check "and not told to weigh one figure" silent en 'ready at'

moisture() { plan --as fields | sed -n 's/^blend.moisture\t\([^\t]*\).*/\1/p'; }
moisture >"$scratch/one"
sed -i 's/humidity="[0-9]* %"/humidity="99 %"/' "$night"
moisture >"$scratch/other"
check "it is known" test -s "$scratch/one"
check "a damp night does not make the dust in the store damp" cmp "$scratch/one" "$scratch/other"

label() { # LANGUAGE WORDS: whether the label of the night says the words
    "$BURNSHEET" labels --language "$1" -o "$scratch/label.pdf" "$night" &&
        pdftotext "$scratch/label.pdf" - | grep -qiE "$2"
}
unlabelled() { "$BURNSHEET" labels --language "$1" -o "$scratch/label.pdf" "$night" && ! label "$@"; }
check "the label has its grain" label en '^Grain'
check "and no moisture" unlabelled en 'moisture|basis'
check "in German neither" unlabelled de 'feuchte|trockenmasse'
check "in Polish neither" unlabelled pl 'wilgotność'
cp samples/workshop.xml "$scratch/workshop.xml"
check "measured, it has one" label en 'moisture'
check "measured, nothing is assumed" silent en 'assumed'

for language in en de pl; do
    sed 's/moisture="[0-9.]* %" basis="..." measured="[-0-9]*"//' samples/workshop.xml |
        sed 's/moisture="[0-9.]* %" basis="..."//' >"$scratch/workshop.xml"
    for sample in samples/*.xml; do
        name=$(basename "$sample")
        [ "${name#workshop}" != "$name" ] || check "$name fits a page in $language, nothing measured" \
            "$BURNSHEET" sheet --language $language -o "$scratch" "$scratch/$name"
    done
done

# Measured long ago and kept open since: as good as never measured.
sed -e 's/measured="2026-11-19"/measured="2024-11-19"/' -e 's/kept="sealed"/kept="open"/' \
    samples/workshop.xml >"$scratch/workshop.xml"
check "a measure of two years ago is no measure" says en 'assumed, not measured of late'
check "and does not come on the label" unlabelled en 'moisture|basis'
sed 's/kept="sealed"/kept="open"/' samples/workshop.xml >"$scratch/workshop.xml"
check "one of two weeks ago is" silent en 'assumed'
check_end
