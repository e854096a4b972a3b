#!/bin/sh
# A night whose record is there is over: page, plan and desk page say what happened and order
# nothing. What they say is written in the batch itself.
. tests/support/check.sh
desk=$scratch/desk
mkdir "$desk"
cp samples/workshop.xml samples/mark.svg "$desk"
night() { # RECORD
    sed "s|<record .*||; /<record/,/<\/record>/d; s|</batch>|$1</batch>|" \
        samples/cheese-last-week.xml | sed '/^ *<reading/d; /^ *remark=/d; /^ *<\/record>/d' \
        >"$desk/night.xml"
    "$BURNSHEET" plan "$desk/night.xml" >"$desk/night.txt" &&
        "$BURNSHEET" sheet -o "$desk/night.pdf" "$desk/night.xml" &&
        pdftotext -layout "$desk/night.pdf" - >>"$desk/night.txt"
}
says() { sed 's/\xc2\xa0/ /g; s/\xe2\x80\xaf/ /g' "$desk/night.txt" | tr -s '[:space:]' ' ' | grep -qF "$1"; }
silent() { ! says "$1"; }

check "a night that lasted" night '<record lit="2026-11-27T21:05" out="2026-11-28T06:20"/>'
check "says when it was lit" says "Lit Fri 27 Nov 21:05, out 06:20"
for order in "LIGHT" "Light at" "Light Mesh" "Weigh into" "Mask on" "TO LIGHT"; do
    check "does not say '$order'" silent "$order"
done
check "says what was planned" says "It was planned to be lit Fri 27 Nov 21:00"
check "one that died" night \
    '<record lit="2026-11-27T21:05" out="2026-11-28T01:10" died="yes" burnt="300 mm"/>'
check "says that it died" says "It went out before the end"
check "says where" says "300 mm had burnt"
check "one that was relit" night \
    '<record lit="2026-11-27T21:05" out="2026-11-28T06:20"><relit at="2026-11-28T02:30"/></record>'
check "says so" says "Relit 1×, first at 02:30"
check "one that nobody saw out" night '<record lit="2026-11-27T21:05" remark="Asleep."/>'
check "says when it was lit, and no more" says "Lit Fri 27 Nov 21:05"
check "does not say when it was out" silent "21:05, out"
check "says the remark" says "Asleep."
for language in de pl; do
    check "in $language" "$BURNSHEET" sheet --language $language -o "$desk" "$desk/night.xml"
done
check "no record: an order" night ''
check "says when to light" says "LIGHT 21:00"
check_end
