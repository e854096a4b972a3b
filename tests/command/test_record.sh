#!/bin/sh
# The record of a night: as a form to fill in, on the terminal and put into the batch's file.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - record # SKIP the program is not built yet"
    exit 0
fi
unset SOURCE_DATE_EPOCH
desk=$scratch/desk
night=$desk/night.xml
mkdir "$desk"
cp samples/workshop.xml samples/mark.svg samples/workshop-us.xml samples/forecast.csv "$desk"
fresh() { # [SAMPLE]
    cp "samples/${1:-cheese-overnight}.xml" "$night"
}
form() { "$BURNSHEET" record "$night" >"$scratch/form" 2>"$scratch/said"; }
paste() { # the form into the file, by hand
    sed -e '/<\/batch>/d' "$night" >"$scratch/pasted"
    cat "$scratch/form" >>"$scratch/pasted"
    echo '</batch>' >>"$scratch/pasted"
    cp "$scratch/pasted" "$night"
}
clean() { "$BURNSHEET" check "$night" >"$scratch/said" 2>&1 && [ ! -s "$scratch/said" ]; }
told() { grep -qF -- "$1" "$scratch/said"; }

# ---- The form ----
for sample in cheese-overnight salt-refills fish-long cheese-us loin-trough; do
    fresh "$sample"
    check "$sample: a form" form
    check "$sample: is well-formed" xmllint --noout "$scratch/form"
    paste
    check "$sample: passes the check as it is" clean
    check "$sample: fits the schema for editors" \
        xmllint --noout --schema templates/batch.xsd "$night"
    sed -i 's/="? /="/' "$night"
    answered() { clean || told 'is still open'; }
    check "$sample: and with what was planned confirmed" answered
    not_a_fault_more() { ! grep 'error:' "$scratch/said" | grep -v 'still open'; }
    check "$sample: without any other fault" not_a_fault_more
done
for language in en de pl; do
    fresh
    "$BURNSHEET" record --language $language "$night" >"$scratch/form"
    paste
    check "$language: a form that passes" clean
done

# ---- The night's sheet has the same blanks, in the same order (relit is an element of its own) ----
fresh
form
tr '\n' ' ' <"$scratch/form" | sed 's/.*<record //; s/>.*//' | grep -o '[a-z]*=' | tr -d '=' \
    >"$scratch/of_form"
grep -o 'words="record\.[a-z]*"' templates/sheet.xml | sed 's/.*\.//; s/"//' | grep -v relit \
    >"$scratch/of_sheet"
sed -n '/complexType name="record"/,/<\/xs:complexType/s/.*attribute name="\([a-z]*\)".*/\1/p' \
    templates/batch.xsd >"$scratch/of_rows"
check "a blank for each" [ "$(wc -l <"$scratch/of_sheet")" -gt 8 ]
check "the sheet's blanks are those of the form" diff "$scratch/of_form" "$scratch/of_sheet"
check "and of what a record may hold" diff "$scratch/of_rows" "$scratch/of_sheet"

# ---- Nobody filled it in: nothing happened, and nothing is learnt ----
fresh
"$BURNSHEET" plan "$night" >"$scratch/before" 2>&1
form
paste
"$BURNSHEET" plan "$night" >"$scratch/after" 2>&1
check "the plan is as it was" cmp "$scratch/before" "$scratch/after"
tonight() { "$BURNSHEET" plan "$desk/tonight.xml" 2>&1; }
sed 's/2026-12-04/2026-12-11/g; s/2026-12-05/2026-12-12/g' \
    samples/cheese-overnight.xml >"$desk/tonight.xml"
mv "$night" "$scratch/pasted"
tonight >"$scratch/alone"
cp "$scratch/pasted" "$night"
tonight >"$scratch/beside"
check "a later night learns nothing from it" cmp "$scratch/alone" "$scratch/beside"
check "of which it has none" grep -q 'records (0)' "$scratch/alone"

# ---- Filled in ----
sed -i -e 's/"? /"/g' -e 's/out="?"/out="2026-12-05T06:10"/' -e 's/died="?"/died="no"/' "$night"
check "filled in, it passes" clean
tonight >"$scratch/beside"
check "and teaches" grep -q 'records (1)' "$scratch/beside"
readings() { "$BURNSHEET" plan --as fields "$night" | grep -c 'happened.reading.*\.at'; }
none_read() { [ "$(readings)" -eq 0 ]; }
check "looks that nobody wrote down did not happen" none_read
sed -i '0,/front="?"/s//front="30 mm"/' "$night"
one_read() { [ "$(readings)" -eq 1 ]; }
check "one that was written down did" one_read

# ---- Half filled in ----
half() { # SED
    fresh
    form
    paste
    sed -i "$1" "$night"
    "$BURNSHEET" check "$night" >"$scratch/said" 2>&1
    [ $? -eq 1 ]
}
check "an end without an hour of lighting" half 's/out="?"/out="2026-12-05T05:10"/'
check "is named" told "'lit' is still open, though more is written"
check "a reading without one" half '0,/front="?"/s//front="30 mm"/'
check "is named too" told "'lit' is still open, though more is written"
check "out, and nobody says whether it died" \
    half 's/lit="? /lit="/; s/out="?"/out="2026-12-05T05:10"/'
check "is asked" told "'died' is still open, though it was out"

# ---- There is one already ----
fresh
form
paste
again() { "$BURNSHEET" record "$@" "$night" >"$scratch/form" 2>"$scratch/said"; }
refused() { again "$@"; [ $? -eq 1 ] && [ ! -s "$scratch/form" ]; }
check "no second form" refused
check "with its place" told 'night.xml:'
check "and what to do" told 'write into it when it was lit, or take it out'
cp "$night" "$scratch/same"
check "nor written" refused --write
check "the file is as it was" cmp "$night" "$scratch/same"

# ---- Into the file ----
put() { "$BURNSHEET" record --write "$night" >"$scratch/out" 2>"$scratch/said"; }
only_added() { # the old bytes are all there, around one piece
    same=$(cmp "$1" "$2" | sed 's/.* byte \([0-9]*\),.*/\1/')
    rest=$(($(wc -c <"$1") - same + 1))
    tail -c "$rest" "$1" >"$scratch/rest_old"
    tail -c "$rest" "$2" >"$scratch/rest_new"
    cmp "$scratch/rest_old" "$scratch/rest_new"
}
keeps() { # NAME: what was written stays to the byte
    cp "$night" "$scratch/old"
    check "$1: is put in" put
    check "$1: with all that was there" only_added "$scratch/old" "$night"
    check "$1: and passes" clean
}
fresh
keeps "plain"
check "indented like the rest" grep -q '^  <record lit=' "$night"
check "what stands in it deeper" grep -q '^    <reading at=' "$night"
check "what is to be done with it" grep -q "in place of each question mark" "$scratch/out"
fresh
sed -i 's/$/\r/' "$night"
keeps "CRLF"
no_bare() { [ "$(grep -c '' "$night")" -eq "$(grep -c "$(printf '\r')\$" "$night")" ]; }
check "CRLF: every line ends so" no_bare
fresh
printf '\357\273\277' | cat - "$night" >"$scratch/bom" && cp "$scratch/bom" "$night"
keeps "byte order mark"
fresh
sed -i 's/^  /\t/; s/^\t  /\t\t/' "$night"
keeps "tabs"
tabs() { grep -q "^$(printf '\t')<record " "$night" && grep -q "^$(printf '\t\t')<reading " "$night"; }
check "tabs: like the rest" tabs
fresh
tr -d '\n' <"$night" >"$scratch/one" && cp "$scratch/one" "$night"
keeps "one line"
fresh
sed -i 's|</batch>|<!-- </batch> -->\n</batch   >\n<!-- behind it: </batch> -->|' "$night"
keeps "comments that look like its end"
check "behind them" sh -c "tail -n 2 '$night' | grep -q 'behind it'"
fresh
chmod 640 "$night"
keeps "rights"
check "rights: as they were" [ "$(stat -c %a "$night")" = 640 ]
fresh
mv "$night" "$desk/real.xml" && ln -s real.xml "$night"
keeps "symbolic link"
check "symbolic link: stays one" [ -L "$night" ]
check "symbolic link: what it leads to has it" grep -q '<record ' "$desk/real.xml"
rm "$night" "$desk/real.xml"

# ---- What is left as it is ----
left() { # STATUS: refused with it, and nothing changed
    cp "$night" "$scratch/same"
    put
    status=$?
    [ $status -eq "$1" ] && cmp "$night" "$scratch/same" && [ -s "$scratch/said" ]
}
fresh cheese-last-week
check "a batch with a record" left 1
check "with its place" told 'night.xml:13:3: error:'
fresh
sed 's/UTF-8/ISO-8859-1/' "$night" >"$scratch/latin" && cp "$scratch/latin" "$night"
check "another encoding" left 1
fresh
sed 's/UTF-8/US-ASCII/' "$night" >"$scratch/ascii" && cp "$scratch/ascii" "$night"
check "signs that the encoding does not have" left 1
fresh
sed -i '/<timing/d' "$night"
check "a batch with faults" left 1
fresh
cp "$night" "$scratch/same"
"$BURNSHEET" record --write "$night" "$night" >/dev/null 2>"$scratch/said"
check "named twice: told" told 'there is a record already'
once() { [ "$(grep -c '<record ' "$night")" -eq 1 ]; }
check "named twice: once in it" once
if [ "$(id -u)" -ne 0 ]; then
    fresh
    chmod 444 "$night"
    check "a file that may not be written" left 3
    chmod 644 "$night"
fi
no_strays() { [ "$(find "$desk" -name '*.part' | wc -l)" -eq 0 ]; }
check "nothing is left beside them" no_strays
check_end
