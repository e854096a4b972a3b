#!/bin/sh
# Files to begin from: unchanged they have no fault and print a page that rests on nothing unsaid,
# for every kind, month, language and unit; they follow the schema for editors (xmllint); what is
# there is never written over; a mistake is answered with what would be right.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - new files # SKIP the program is not built yet"
    exit 0
fi
export SOURCE_DATE_EPOCH=1796335200 # 2026-12-03 22:00 UTC
export TZ=Europe/Warsaw
kinds="cheese butter fish salt meat other"
place=$PWD
desk=$scratch/desk

fresh() { rm -rf "$desk" && mkdir "$desk"; }
new() { (cd "$desk" && "$BURNSHEET" new "$@"); }
on_desk() { (cd "$desk" && "$@"); }
wants() { # STATUS TEXT NAME ARGUMENT...
    wanted=$1 text=$2 name=$3
    shift 3
    check_status "$wanted" "$name" new "$@"
    check_said "$text" "$name: says '$text'"
}
schema() { # ROOT FILE
    xmllint --noout --schema "$place/templates/$1.xsd" "$desk/$2" >"$scratch/schema" 2>&1 ||
        { cat "$scratch/schema"; return 1; }
}
quiet() { # no error, and not a word
    on_desk "$BURNSHEET" check "$@" >"$scratch/said" 2>&1 && [ ! -s "$scratch/said" ]
}

# ---- In an empty folder, as a newcomer
fresh
check "a workshop" new workshop
check "a batch" new batch cheese
check "a day of packing" new bagging
check "all without fault and remark" quiet workshop.xml cheese.xml bagging.xml
check "the sheet" on_desk "$BURNSHEET" sheet cheese.xml
check "the slip" on_desk "$BURNSHEET" slip bagging.xml
check "the labels" on_desk "$BURNSHEET" labels bagging.xml
check "the sheet of the dust" on_desk "$BURNSHEET" slip workshop.xml
for page in cheese.sheet bagging.slip bagging.labels; do
    check "$page: what is made up is seen on it" \
        sh -c "pdftotext '$desk/out/$page.pdf' - | grep -q 'YOUR '"
done
commented() { # every element that is written has a comment on the line above, for each attribute one
    awk '/<!--/ { inside = 1; seen = "" } inside { seen = seen "\n" $0 } /-->/ { inside = 0 }
         /^ *<[a-z]/ { if (seen == "") { print FILENAME ": " $0; bad = 1 }
                       tag = $0; above = seen; seen = "" }
         /^ *(<[a-z]|[a-z-]+="[^>]*$)/ && !inside {
             line = $0
             while (match(line, /[a-z-]+="/)) {
                 name = substr(line, RSTART, RLENGTH - 2)
                 if (above !~ "\n *" name "  ") { print FILENAME ": no word of " name; bad = 1 }
                 line = substr(line, RSTART + RLENGTH)
                 sub(/^[^"]*"/, "", line)
             }
         }
         length > 120 { print FILENAME ": a long line"; bad = 1 }
         END { exit bad }' "$desk/$1"
}
for file in workshop cheese bagging; do
    check "$file.xml: a comment for every element and attribute" commented $file.xml
done
check "the machine's time zone" grep -q 'timezone="Europe/Warsaw"' "$desk/workshop.xml"
# 23:00 in Warsaw: that evening is over.
check "the evening is the next one" grep -q 'light="2026-12-04T21:00"' "$desk/cheese.xml"

# ---- Nothing is confident that rests on what nobody stated
plan() { on_desk "$BURNSHEET" plan "$1"; }
not_good() { ! plan "$1" | grep -q "GOOD TO LIGHT"; }
check "unchanged it is not simply good to light" not_good cheese.xml
says() { plan "$1" | grep -qF "$2"; }
check "it says that the room is not known" says cheese.xml "Nothing is known of the room"
check "that the moisture is assumed" says cheese.xml "(assumed"
check "that the weather is no forecast" says cheese.xml "No forecast"
check "that grain and metal are judged" says cheese.xml "judged, not measured"
unlabelled() { ! pdftotext "$desk/out/bagging.labels.pdf" - | grep -q "Grain"; }
check "the label says nothing of a grain that nobody measured" unlabelled
check "that nobody declared the dust untreated" says cheese.xml "Not every dust is declared untreated"

quiet_month() { # NUMBER
    (cd "$desk" && "$BURNSHEET" check "$1"-*.xml) >"$scratch/said" 2>&1 && [ ! -s "$scratch/said" ]
}

# ---- Filled in by somebody who measured, it is good to light: nothing of the starter stands in the way
sed -i -e 's/<!-- <room outdoors="yes"\/> -->/<room outdoors="yes"\/>/' -e 's/metal="mesh"/metal="0.9 kg\/m2"/' \
    -e 's/material="beech"/material="beech" untreated="yes" moisture="8 %" basis="dry"/' \
    -e 's/from="tea-strainer" to="kitchen-sieve"/from="500 µm" to="900 µm"/' "$desk/workshop.xml"
sed -i 's/<weather [^>]*>/<weather temperature="4 °C" humidity="70 %"\/>/' "$desk/cheese.xml"
good() { plan "$1" | grep -q "GOOD TO LIGHT"; }
check "filled in it is good to light" good cheese.xml
check "and without fault" quiet workshop.xml cheese.xml

# ---- Every kind, month, language and unit
everything() { # LANGUAGE UNITS
    fresh
    new workshop --language "$1" --units "$2" >/dev/null || return 1
    schema workshop workshop.xml && quiet workshop.xml || return 1
    for month in 01 02 03 04 05 06 07 08 09 10 11 12; do
        SOURCE_DATE_EPOCH=$(date -u -d "2027-$month-15 09:00" +%s)
        for kind in $kinds; do
            new batch "$kind" "$month $kind" >/dev/null && schema batch "$month-$kind.xml" || return 1
        done
        quiet_month "$month" || { echo "# month $month"; cat "$scratch/said"; return 1; }
        grep -qF "light=\"2027-$month-15T21:00\"" "$desk/$month-fish.xml" || return 1
    done
    new bagging >/dev/null && schema bagging bagging.xml && quiet bagging.xml || return 1
    (cd "$desk" && "$BURNSHEET" sheet -o all.pdf 0[17]-*.xml) &&
        on_desk "$BURNSHEET" labels bagging.xml && on_desk "$BURNSHEET" slip bagging.xml
}
for language in en de pl; do
    for units in metric us; do
        check "every kind and month, $language $units" everything $language $units
        check "none is good to light as it is" \
            sh -c "! '$BURNSHEET' plan '$desk'/[01]*.xml 2>/dev/null |
                   grep -E '^(GOOD TO LIGHT|ANZÜNDEN MÖGLICH|MOŻNA ROZPALAĆ)'"
        cat "$desk"/*.xml >"$scratch/first"
        export SOURCE_DATE_EPOCH=1796335200
        everything $language $units >/dev/null 2>&1
        cat "$desk"/*.xml >"$scratch/second"
        export SOURCE_DATE_EPOCH=1796335200
        check "the same bytes again, $language $units" cmp "$scratch/first" "$scratch/second"
    done
done
check "every kind of the schema was tried" \
    [ "$(sed -n 's/.*what is smoked (\(.*\))\..*/\1/p' "$desk/01-fish.xml" | tr -d ,)" = "$kinds" ]

# ---- Where it stands decides the season (latitudes of zone.tab)
season() { # ZONE TEMPERATURE
    fresh
    TZ=$1 new workshop >/dev/null && new batch cheese >/dev/null &&
        grep -qF "<weather temperature=\"$2\"" "$desk/cheese.xml"
}
check "December in Europe" season Europe/Dublin "3 °C"
check "December south of the equator" season Pacific/Auckland "15 °C"
check "near the equator there is no winter" season Asia/Singapore "22 °C"
market() { # ZONE MARKET
    fresh
    TZ=$1 new workshop >/dev/null && grep -qF "market=\"$2\"" "$desk/workshop.xml"
}
check "the emergency number of Europe" market Europe/Warsaw EU
check "of Britain" market Europe/London UK
check "of America, in metric units too" market America/Toronto US
check "of Australia" market Australia/Perth AU
check "a zone that is none" market Nowhere/Else EU

# ---- Names
named() { # KIND NAME FILE
    new batch "$1" "$2" >/dev/null && [ -f "$desk/$3" ] && quiet "$3"
}
fresh
new workshop "Farm & \"Sons\" <1>" >/dev/null
check "a workshop's name with signs of XML" quiet workshop.xml
check "it is kept" grep -qF 'name="Farm &amp; &quot;Sons&quot; &lt;1>"' "$desk/workshop.xml"
check "a name of two words" named cheese "Monday Cheese" monday-cheese.xml
check "on paper as written" grep -q 'name="Monday Cheese"' "$desk/monday-cheese.xml"
check "German letters" named cheese "Räucherkäse, süß" raeucherkaese-suess.xml
check "Polish letters" named fish "Łosoś żółty" losos-zolty.xml
check "no way out of the folder" named salt "..\\..\\x" x.xml
check "a file" named salt tuesday.xml tuesday.xml
check "a folder with a slash is made" new workshop other/
check "a batch in it" new batch salt other/
check "they are there" [ -s "$desk/other/salt.xml" ]
check "a name in a folder" new batch fish "other/Sunday Trout"
check "is that of the file and on paper" grep -q 'name="Sunday Trout"' "$desk/other/sunday-trout.xml"
mkdir "$desk/third"
check "a folder that is there" new workshop third
check "is used" [ -s "$desk/third/workshop.xml" ]
wants 2 "no file can be called" "a name without letters" batch salt "…"
wants 1 "longer than" "a name that no page can hold" batch salt "$(printf 'x%.0s' $(seq 400))"
check "leaves nothing" [ -z "$(ls "$desk" | grep xxxx)" ]

# ---- Mistakes
fresh
wants 3 "burnsheet new workshop" "no workshop beside it" batch cheese
wants 3 "burnsheet new workshop far/" "nor in another folder" batch cheese far/
check "no folder is made for that" [ ! -e "$desk/far" ]
wants 2 "workshop, batch or bagging" "nothing named"
wants 2 "did you mean 'batch'" "a wrong word" bach cheese
new workshop >/dev/null
wants 2 "did you mean 'cheese'" "a wrong kind" batch chese
wants 2 "there are: cheese, butter, fish, salt, meat, other" "a far kind" batch gravel
wants 2 "there are: cheese" "no kind" batch
wants 2 "quotation marks" "a name without its marks" batch cheese Monday cheese
wants 3 "no language 'xx'" "a language without words" bagging --language xx
wants 3 "left as it is" "a workshop that is there" workshop "Other name"
new batch cheese >/dev/null
echo "mine" >"$desk/cheese.xml"
wants 3 "give another name: burnsheet new batch cheese 'Another name'" "a batch that is there" \
    batch cheese
check "it is as it was" [ "$(cat "$desk/cheese.xml")" = mine ]
ln -s nowhere "$desk/salt.xml"
wants 3 "left as it is" "a link that leads nowhere" batch salt
check "and leads nowhere still" [ ! -e "$desk/nowhere" ]
sed -i 's/<scale/<scales/' "$desk/workshop.xml"
wants 1 "did you mean" "a workshop with faults" batch butter
check "nothing is written beside it" [ ! -e "$desk/butter.xml" ]
fresh && new workshop >/dev/null && chmod 555 "$desk"
if ! touch "$desk/may" 2>/dev/null; then
    wants 3 "Permission denied" "a folder that can not be written" batch cheese
fi
chmod 755 "$desk"

# ---- What the machine refuses: nothing half, nothing left, nothing written over
shim=$place/.build/tests/fault/failing_calls.so
case $BURNSHEET in
*/.build/burnsheet)
    failing() { # KIND AT
        (cd "$desk" && FAULT_CALL=$1 FAULT_AT=$2 LD_PRELOAD=$shim "$BURNSHEET" new batch cheese)
    }
    clean() { [ "$(ls -A "$desk" | tr '\n' ' ')" = "workshop.xml " ]; }
    for kind in write fsync link; do
        fresh && new workshop >/dev/null
        check_status 3 "$kind fails" failing $kind 1
        check "$kind fails: nothing is left" clean
    done
    check "a file system without second names" failing no-links 1
    check "has it whole" quiet cheese.xml
    check "and nothing beside it" [ "$(ls -A "$desk" | wc -l)" -eq 2 ]
    ;;
esac
both() { # eight at once: one of them has it
    fresh && new workshop >/dev/null
    for turn in 1 2 3 4 5 6 7 8; do
        new batch cheese >/dev/null 2>&1 && echo won &
    done >"$scratch/won"
    wait
    [ "$(grep -c won "$scratch/won")" -eq 1 ] && quiet cheese.xml
}
check "eight at once: one writes" both
check_end
