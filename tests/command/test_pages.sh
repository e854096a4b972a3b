#!/bin/sh
# The PDFs of all samples, both templates, languages, papers and units, as outside tools see them:
# qpdf (soundness, language, first view), pdffonts (embedding), pdfinfo (papers), pdftotext (words).
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - pages # SKIP the program is not built yet"
    exit 0
fi
export SOURCE_DATE_EPOCH=1780000000
unknown_sign=$(printf '\357\277\275') # U+FFFD
SIZE_MOST=61440 # bytes a sheet
samples=$(ls samples/*.xml | grep -v workshop)

info() { pdfinfo "$1" | sed -n "s/^$2: *//p"; }
each() { # COMMAND...: for every PDF of $folder
    for file in "$folder"/*.pdf; do
        "$@" "$file" || { echo "# $file"; return 1; }
    done
}
sound() { qpdf --check "$1" >"$scratch/qpdf" 2>&1 || { cat "$scratch/qpdf"; return 1; }; }
embedded() {
    pdffonts "$1" >"$scratch/fonts" 2>&1
    # two lines of headings; columns from the right: object (2), uni, sub, emb
    awk 'NR > 2 { if ($(NF - 4) != "yes" || $(NF - 3) != "yes" || $(NF - 2) != "yes" || $1 !~ /^[A-Z][A-Z][A-Z][A-Z][A-Z][A-Z]\+/) bad = 1 }
         END { exit bad || NR < 3 || NR > 7 }' "$scratch/fonts" || { cat "$scratch/fonts"; return 1; }
}
# One page, the maker as author, the paper asked for, small.
papers() { # PAPER, FILE
    case $2 in *-us.*) maker="Gravel Road" ;; *) maker="Dry Ditch" ;; esac
    pdfinfo "$2" >"$scratch/info" && awk -v paper="$1" -v most=$SIZE_MOST -v maker="$maker" '
        /^Pages: *1$/ || $0 ~ "^Author: *" maker " Smokehouse$" || $0 ~ "^Page size: *" paper { good++ }
        /^File size: / && $3 + 0 > 0 && $3 + 0 < most { good++ }
        END { exit good != 4 }' "$scratch/info" || { cat "$scratch/info"; return 1; }
}
catalog() { # Python expression over the catalogue, FILE
    qpdf --json=1 --json-key=objects "$2" | /usr/bin/python3 -c 'import json, sys
objects = json.load(sys.stdin)["objects"]
root = objects[objects["trailer"]["/Root"]]
def get(value): return objects.get(value, value) if isinstance(value, str) else value
sys.exit(not eval(sys.argv[1]))' "$1"
}
# Nothing to complain of, and no character without a shape.
clean_text() {
    pdftotext "$1" "$scratch/text" 2>"$scratch/complaints" && [ ! -s "$scratch/complaints" ] &&
        ! grep -q "$unknown_sign" "$scratch/text"
}
standard() { # NAME, PAPER
    check "$1: sound" each sound
    check "$1: faces embedded and subset" each embedded
    check "$1: one page, paper, author, under 60 kB" each papers "$2"
    check "$1: text can be taken out" each clean_text
}

for template in sheet desk; do
    for language in en de pl; do
        name="$template $language"
        folder=$scratch/$template-$language
        check_status 0 "$name" "$BURNSHEET" sheet -o "$folder" --template $template \
            --language $language --paper A4 $samples
        standard "$name" "595.[0-9]* x 841.[0-9]* pts [(]A4[)]"
        check "$name: its language is said" catalog "root['/Lang'] in ('$language', 'u:$language')" \
            "$folder/butter-short.sheet.pdf"
    done
    folder=$scratch/$template-us
    check_status 0 "$template us Letter" "$BURNSHEET" sheet -o "$folder" --template $template \
        --units us --paper Letter $samples
    standard "$template us Letter" "612 x 792 pts"
done
folder=$scratch/sheet-en
check "a viewer opens on the whole page" catalog "get(root['/OpenAction'])[1] == '/Fit'" \
    "$folder/butter-short.sheet.pdf"
folder=$scratch/labels
check_status 0 "labels" "$BURNSHEET" labels -o "$folder" $samples
check "labels: sound" each sound
check "labels: faces embedded and subset" each embedded
check "labels: no viewer scales them" catalog \
    "get(root['/ViewerPreferences'])['/PrintScaling'] == '/None'" "$folder/butter-short.labels.pdf"

# ---- Names
title() { [ "$(info "$scratch/sheet-en/$1.sheet.pdf" Title)" = "$2" ]; }
check "the title is the batch's name" title butter-short "Butter, short burn"
sed 's/name="Butter, short burn"/name="Łosoś – Δ 2 °C \&amp; \&lt;b\&gt;"/' samples/butter-short.xml \
    >"$scratch/signs.xml"
cp samples/workshop.xml samples/mark.svg "$scratch"
check_status 0 "a name with signs" "$BURNSHEET" sheet -o "$scratch/sheet-en" "$scratch/signs.xml"
check "is the title as it is written" title signs "Łosoś – Δ 2 °C & <b>"

# ---- Words of the pages
# In the order of writing: a phrase that takes two lines stands together, whatever is beside it.
text() { pdftotext -raw "$1" - | sed 's/\xc2\xa0\|\xe2\x80\xaf\|\xe2\x80\x89/ /g'; }
says() { text "$1" | tr -s ' \n\f' ' ' | grep -qF -- "$2"; }
field() { "$BURNSHEET" plan --as fields ${3-} "$1" | sed -n "s/^$2	[^	]*	//p"; }
says_verdict() { # FOLDER, LANGUAGE: a night that is over has none any more
    for batch in $samples; do
        grep -q '<record' "$batch" && continue
        says "$scratch/$1/$(basename "$batch" .xml).sheet.pdf" \
            "$(field "$batch" verdict "--language $2")" || return 1
    done
}
# A caution stands on the sheet word by word; columns beside it may cut into its lines.
says_cautions() { # FOLDER, LANGUAGE
    for batch in $samples; do
        pdftotext "$scratch/$1/$(basename "$batch" .xml).sheet.pdf" - |
            sed 's/\xc2\xa0\|\xe2\x80\xaf\|\xe2\x80\x89/ /g' | tr -s ' \n\f' ' ' >"$scratch/text"
        "$BURNSHEET" plan --as fields --language "$2" "$batch" |
            awk -F '\t' '/^caution\.[0-9]*\.text/ { print $3 }' |
            sed 's/\xc2\xa0\|\xe2\x80\xaf\|\xe2\x80\x89/ /g; s/{[^}]*}.*//' >"$scratch/cautions"
        awk -v batch="$batch" 'NR == FNR { page = page $0; next }
            { count++ }
            index(page, $0) == 0 { print "# " batch ": " $0; failed = 1 }
            END { exit failed || !count }' "$scratch/text" "$scratch/cautions" || return 1
    done
}
for language in en de pl; do
    for template in sheet desk; do
        check "$template $language: verdict" says_verdict $template-$language $language
    done
    check "$language: every caution" says_cautions sheet-$language $language
done
oz() { says "$scratch/sheet-us/cheese-overnight.sheet.pdf" "$1"; }
# 90 °C; 42 g and 65 g: 1 oz = 28.349523 g (NIST Handbook 44, appendix C)
check "us: Fahrenheit" oz "194 °F"
check "us: the mass of the first dust" oz "1.48 oz"
check "us: the mass in all" oz "2.29 oz"
check "us: a clock of twelve hours" oz "LIGHT 10:00 PM"
# Paragraph by paragraph: columns beside one another cut into each other's lines.
tells() { pdftotext "$1" - | sed 's/\xc2\xa0\|\xe2\x80\xaf/ /g' | tr -s ' \n\f' ' ' | grep -qF -- "$2"; }
of_its_own() { tells "$scratch/sheet-en/cheese-us.sheet.pdf" "$1"; }
check "a workshop of US units: its clock" of_its_own "LIGHT 8:30 PM"
check "its vents" of_its_own "lower vent 7.0 sq in open, upper vent 9.0 sq in open"
check "whom to call there" of_its_own "Night line 555-0142"
check "its emergency number" of_its_own "call 911"
at_home() { tells "$scratch/sheet-en/cheese-overnight.sheet.pdf" "$1"; }
check "vents to set, in words" at_home "lower vent half open, upper vent three quarters open"
check "whom to call" at_home "Maeve, next door 020 910 0117"
check "the lot on the labels is that of the sheet" says "$scratch/labels/cheese-overnight.labels.pdf" \
    "$(field samples/cheese-overnight.xml lot)"
check "the refused night has no steps" sh -c "! pdftotext $scratch/sheet-en/cold-damp-night.sheet.pdf - | grep -q 'Weigh into one bowl'"
check_end
