#!/bin/sh
# Exit statuses, as the help and the manual page promise them: 0 done, 1 faults, 2 wrong usage,
# 3 something could not be read or written. And what is said with them.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - exit statuses # SKIP the program is not built yet"
    exit 0
fi
data=$scratch/data
good=samples/cheese-overnight.xml
broken=tests/broken/five-mistakes.xml

# wants STATUS TEXT NAME ARGUMENT...: ends with the status and says the text on standard error.
wants() {
    wanted=$1 text=$2 name=$3
    shift 3
    check_status "$wanted" "$name" "$BURNSHEET" "$@"
    check_said "$text" "$name: says '$text'"
}
fresh_data() {
    rm -rf "$data"
    mkdir "$data"
    cp -r templates fonts "$data"
}
# with_data STATUS TEXT NAME ARGUMENT...: the same with the program's own data taken from $data.
with_data() {
    export BURNSHEET_DATA="$data"
    wants "$@"
    unset BURNSHEET_DATA
}
nothing_in() { [ -z "$(find "$1" -type f)" ]; }

# ---- 0: done
wants 0 "usage:" "--help" --help
wants 0 "exit status:" "-h" -h
wants 0 "burnsheet " "--version" --version
for command in sheet labels plan check; do
    wants 0 "usage: burnsheet $command" "$command --help" $command --help
done
check_status 0 "sheet" "$BURNSHEET" sheet -o "$scratch" $good
check_status 0 "labels" "$BURNSHEET" labels -o "$scratch" $good
check_status 0 "plan" "$BURNSHEET" plan $good
check_status 0 "check" "$BURNSHEET" check $good samples/workshop.xml
wants 0 "no bags" "labels of a batch without bags" labels -o "$scratch" samples/cheese-last-week.xml
wants 0 "DO NOT LIGHT" "a plan that says not to light" plan samples/cold-damp-night.xml
not_told() { ! "$BURNSHEET" plan samples/cold-damp-night.xml | grep -q "step by step\|Weigh out"; }
check "it tells nobody to weigh or light" not_told
check_status 0 "its sheet is printed" "$BURNSHEET" sheet -o "$scratch" samples/cold-damp-night.xml
check_status 0 "a pinned date" env SOURCE_DATE_EPOCH=1 "$BURNSHEET" sheet -o "$scratch" $good
check_status 0 "a date that is no number is passed over" \
    env SOURCE_DATE_EPOCH=soon "$BURNSHEET" sheet -o "$scratch" $good
check_status 0 "a file name behind --" "$BURNSHEET" check -- $good
check_status 0 "an option shortened as far as it is clear" "$BURNSHEET" plan --lang de $good
check_status 0 "options behind the files" "$BURNSHEET" plan $good --as csv
for file in templates/sheet.xml templates/desk.xml templates/label.xml templates/label-front.xml \
    templates/label-second.xml templates/stock.xml \
    templates/words/en.xml templates/words/de.xml templates/words/pl.xml; do
    check_status 0 "check of $file" "$BURNSHEET" check $file
done

# ---- 1: faults
mkdir "$scratch/none"
for command in sheet labels; do
    wants 1 "5 errors in" "$command of a faulty batch" $command -o "$scratch/none" $broken
    check "$command of a faulty batch writes nothing" nothing_in "$scratch/none"
done
wants 1 "5 errors in" "plan of a faulty batch" plan $broken
wants 1 "5 errors in" "check of a faulty batch" check $broken
# Steps of this height can not stand on one page, whatever gives way.
sed 's/\(name="step".*\) size="[^"]*" then="[^"]*"/\1 size="20 mm"/' \
    templates/sheet.xml >"$scratch/huge.xml"
cp samples/workshop.xml samples/mark.svg "$scratch"
wants 1 "mm" "a page that can not fit" sheet --template "$scratch/huge.xml" -o "$scratch/none" $good
check "a page that can not fit is not written" nothing_in "$scratch/none"
sed 's/Farmhouse cheddar/Farmhouse 奶/' $good >"$scratch/sign.xml"
wants 1 "奶" "a character that no face has" sheet -o "$scratch/none" "$scratch/sign.xml"
check "a page with such a character is not written" nothing_in "$scratch/none"
sed 's/stock="a4-8"/stock="a4-9"/' $good >"$scratch/stock.xml"
wants 1 "a4-9" "a stock that nobody knows" labels -o "$scratch/none" "$scratch/stock.xml"
wants 1 "has no label 9" "a first label beyond the sheet" labels --first 9 -o "$scratch/none" $good

# ---- 2: wrong usage
wants 2 "usage:" "no command"
wants 2 "unknown command 'bake'" "an unknown command" bake $good
wants 2 "unknown command ''" "an empty command" "" $good
for command in sheet labels plan check; do
    wants 2 "no file given" "$command without a file" $command
    wants 2 "'--bake'" "$command with an unknown option" $command --bake $good
    wants 2 "'-z'" "$command with an unknown letter" $command -z $good
done
wants 2 "'--o'" "an ambiguous option" labels --o 5 $good
wants 2 "'--as'" "an option of another command" sheet --as xml $good
wants 2 "'-o'" "-o of another command" check -o "$scratch" $good
wants 2 "'--template'" "a template without a value" sheet $good --template
wants 2 "'-o'" "-o without a value" sheet $good -o
wants 2 "give a file or folder" "-o with an empty value" sheet -o "" $good
wants 2 "give text, xml, csv or fields" "a form that nobody knows" plan --as pdf $good
wants 2 "give metric or us" "units that nobody knows" plan --units imperial $good
wants 2 "give A4 or Letter" "a paper that nobody knows" sheet --paper A5 $good
wants 2 "give a number from 1 to 1000" "a first label of 0" labels --first 0 $good
wants 2 "give a number from 1 to 1000" "a first label of 2.5" labels --first 2.5 $good
wants 2 "give a number from 1 to 1000" "a first label beyond all numbers" \
    labels --first 99999999999999999999 $good
wants 2 "give two numbers" "an offset of one number" labels --offset 3 $good
wants 2 "give two numbers" "an offset too far" labels --offset 3,400 $good
wants 2 "give two numbers" "an offset that is no number" labels --offset nan,0 $good
wants 2 "'--outlines" "outlines with a value" labels --outlines=yes $good
wants 2 "one batch at a time" "csv of two batches" plan --as csv $good $good

# ---- 3: files
for command in "sheet -o $scratch/none" "labels -o $scratch/none" plan check; do
    wants 3 "missing.xml" "a missing file: ${command%% *}" $command samples/missing.xml
    wants 3 "samples" "a folder for a file: ${command%% *}" $command samples
done
sed 's/workshop="workshop.xml"/workshop="elsewhere.xml"/' $good >"$scratch/lost.xml"
wants 3 "elsewhere.xml" "a missing workshop" plan "$scratch/lost.xml"
sed 's/from="forecast.csv"/from="elsewhere.csv"/' samples/fish-long.xml >"$scratch/unforecast.xml"
wants 3 "elsewhere.csv" "a missing forecast" plan "$scratch/unforecast.xml"
if [ "$(id -u)" -ne 0 ]; then
    cp $good "$scratch/closed.xml" && chmod 0 "$scratch/closed.xml"
    wants 3 "closed.xml" "a file that may not be read" plan "$scratch/closed.xml"
fi
check_status 0 "a missing folder is made" "$BURNSHEET" sheet -o "$scratch/new" $good
check "the folder has the sheet" test -s "$scratch/new/cheese-overnight.sheet.pdf"
check_status 0 "a slash behind the folder" "$BURNSHEET" labels -o "$scratch/newer/" $good
check "that folder has the labels" test -s "$scratch/newer/cheese-overnight.labels.pdf"
wants 3 "$scratch/a/b" "a folder in a missing folder" sheet -o "$scratch/a/b" $good
wants 3 "$scratch/a/b" "a file two folders deep" sheet -o "$scratch/a/b/week.pdf" $good
check_status 0 "a file in a missing folder" "$BURNSHEET" sheet -o "$scratch/one/week.pdf" $good
wants 3 "workshop.xml" "a folder that is a file" sheet -o "$scratch/workshop.xml" $good

to_full() { "$BURNSHEET" "$@" >/dev/full; }
for arguments in --help --version "plan $good" "plan --as xml $good" "plan --as csv $good" \
    "sheet --help"; do
    check_status 3 "a full disk: $arguments" to_full $arguments
done
check_said "can not write to standard output" "a full disk is told"
# A limit of 4 kB for files written stands for a full disk; the signal that comes with it is ignored.
small_files() { (trap '' XFSZ && ulimit -f 8 && exec "$BURNSHEET" "$@"); }
mkdir "$scratch/small" && cp "$scratch/new/cheese-overnight.sheet.pdf" "$scratch/small"
check_status 3 "a disk that fills up" small_files sheet -o "$scratch/small" $good
check "the earlier page is as it was" cmp "$scratch/new/cheese-overnight.sheet.pdf" \
    "$scratch/small/cheese-overnight.sheet.pdf"
only_one() { [ "$(find "$scratch/small" -type f | wc -l)" -eq 1 ]; }
check "nothing half-written is left" only_one

# ---- The program's own data
rm -rf "$data" && mkdir "$data"
with_data 3 "$data" "no data at all: sheet" sheet -o "$scratch/none" $good
with_data 3 "$data" "no data at all: labels" labels -o "$scratch/none" $good
with_data 3 "$data" "no data at all: plan" plan $good
with_data 3 "BURNSHEET_DATA" "the remedy is said: sheet" sheet -o "$scratch/none" $good
with_data 3 "BURNSHEET_DATA" "the remedy is said: plan" plan $good
fresh_data && rm "$data/templates/sheet.xml"
with_data 3 "sheet.xml" "a missing template" sheet -o "$scratch/none" $good
fresh_data && rm "$data/templates/stock.xml"
with_data 3 "stock.xml" "missing stock" labels -o "$scratch/none" $good
fresh_data && rm "$data/templates/words/en.xml"
with_data 3 "en.xml" "missing words" sheet -o "$scratch/none" $good
fresh_data && rm "$data/fonts/Roboto-Bold.ttf"
with_data 3 "Roboto-Bold" "a missing face" sheet -o "$scratch/none" $good
fresh_data && head -c 3000 fonts/Roboto-Bold.ttf >"$data/fonts/Roboto-Bold.ttf"
with_data 3 "Roboto-Bold" "half a face" sheet -o "$scratch/none" $good
fresh_data && sed -i 's/kind="tray"/kind="try"/' "$data/templates/sheet.xml"
with_data 1 "sheet.xml:" "a faulty template" sheet -o "$scratch/none" $good
check_said "'tray'" "a near name is offered"
fresh_data && sed -i 's/width="42 %"/width="42 percent"/' "$data/templates/sheet.xml"
with_data 1 "sheet.xml:" "a width without a unit in a template" sheet -o "$scratch/none" $good
fresh_data && sed -i 's/{burn.out_about:clock}/{burn.out_abouts:clock}/' "$data/templates/words/en.xml"
with_data 1 "en.xml:" "words that name no field" sheet -o "$scratch/none" $good
fresh_data && sed -i '/word id="step.close"/d' "$data/templates/words/en.xml"
with_data 1 "step.close" "a missing word" sheet -o "$scratch/none" $good
fresh_data && sed -i 's/<words /<words /; s/<\/words>/<\/word>/' "$data/templates/words/en.xml"
with_data 1 "en.xml:" "words that are no XML" plan $good
fresh_data && sed -i '0,/columns="/s//colums="/' "$data/templates/stock.xml"
with_data 1 "stock.xml:" "faulty stock" labels -o "$scratch/none" $good
fresh_data && echo '<label>' >"$data/templates/label.xml"
with_data 1 "label.xml:" "a label template that is no XML" labels -o "$scratch/none" $good
check "nothing was written with faulty data" nothing_in "$scratch/none"
wants 3 "absent" "a template that is not there" sheet --template absent $good
wants 3 "xx" "a language that is not there" plan --language xx $good
wants 3 "there are: de, en, pl" "and those that are" sheet --language fr -o "$scratch" $good
wants 3 "there are: desk, sheet" "a template that is not there" sheet --template nope -o "$scratch" $good
check_end
