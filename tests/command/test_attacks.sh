#!/bin/sh
# Command lines and files that are out to do harm: to other files, to the terminal, to what another
# file keeps for itself, to time and memory. RFC 20 and ECMA-48 name the control characters: C0,
# DEL, and C1 from U+0080 to U+009F, of which U+009B starts what steers a terminal.
. tests/support/check.sh
export SOURCE_DATE_EPOCH=1780000000
desk=$scratch/desk
mkdir "$desk"
cp samples/workshop.xml samples/mark.svg samples/cheese-overnight.xml "$desk"
cp "$desk/cheese-overnight.xml" "$desk/night.xml"
here() { (cd "$desk" && "$BURNSHEET" "$@"); }
csi=$(printf '\302\233')
# whatever was said last holds no control character but line ends
no_control() { ! LC_ALL=C grep -q "$(printf '[\001-\011\013-\037\177]')" "$scratch/.check" &&
    ! LC_ALL=C grep -q "$(printf '\302[\200-\237]')" "$scratch/.check"; }
check_calm() { no_control && echo "ok - $1" || { echo "not ok - $1"; sed 's/^/# /' "$scratch/.check" | cat -v; check_failures=$((check_failures + 1)); }; }
is_pdf() { [ "$(head -c 5 "$1")" = %PDF- ]; }

# ---- Output over what is there
cp "$desk/night.xml" "$desk/x.pdf"
check_status 3 "a page over its own input" here sheet -o x.pdf x.pdf
check_said "x.pdf" "that is named"
check "which stays" cmp "$desk/night.xml" "$desk/x.pdf"
ln -s x.pdf "$desk/linked.pdf"
check_status 3 "over its input through a link" here sheet -o linked.pdf night.xml
check_status 3 "over its input by another name" here sheet -o ../desk/x.pdf x.pdf
check "which stays, too" cmp "$desk/night.xml" "$desk/x.pdf"
check "and so does the link" [ "$(readlink "$desk/linked.pdf")" = x.pdf ]
: >"$desk/empty.pdf"
check_status 1 "over an input that is empty" here sheet -o empty.pdf night.xml empty.pdf
check "which stays empty" [ ! -s "$desk/empty.pdf" ]
mkdir "$desk/pages"
here sheet -o pages night.xml
cp "$desk/pages/night.sheet.pdf" "$desk/real.pdf"
check_status 3 "over an input that is a PDF" here sheet -o pages night.xml pages/night.sheet.pdf
check_said "is read in this run" "saying why"
echo 'my letter' >"$desk/letter.pdf"
check_status 3 "over a file that is no PDF" here labels -o letter.pdf night.xml
check_said "'letter.pdf' is there and is no PDF" "saying so"
check "which stays as it was" grep -q 'my letter' "$desk/letter.pdf"
mkdir "$desk/out"
echo 'my letter' >"$desk/out/night.sheet.pdf"
check_status 3 "over a file that is no PDF in the folder for pages" here sheet night.xml
check_said "night.sheet.pdf' is there and is no PDF" "saying so, too"
rm "$desk/out/night.sheet.pdf" && ln -s ../letter.pdf "$desk/out/night.sheet.pdf"
check_status 3 "through a link there" here sheet night.xml
check "which leaves the letter" grep -q 'my letter' "$desk/letter.pdf"
ln -s nowhere "$desk/lost.pdf"
check_status 3 "through a link that leads nowhere" here sheet -o lost.pdf night.xml
check_said "a link that leads nowhere" "saying so in turn"
check_status 0 "over an earlier PDF" here sheet -o real.pdf night.xml
ln -s real.pdf "$desk/today.pdf"
check_status 0 "over an earlier PDF through a link" here labels -o today.pdf night.xml
check "the link stays" [ "$(readlink "$desk/today.pdf")" = real.pdf ]
check "and leads to a PDF" is_pdf "$desk/real.pdf"
: >"$desk/fresh.pdf"
check_status 0 "over an empty file, which loses nothing" here sheet -o fresh.pdf night.xml
check "that is a PDF then" is_pdf "$desk/fresh.pdf"
check_status 3 "into /dev/full" here sheet -o /dev/full night.xml
check_said "cannot write '/dev/full': No space left on device" "which is no folder"
check_status 3 "into a file that is no folder" here sheet -o workshop.xml night.xml
check_said "'workshop.xml' is there and is no PDF" "which is no folder either"
into_pipe() { here sheet -o /dev/stdout night.xml | head -c 5 | grep -q %PDF-; }
check "into a pipe" into_pipe

# ---- The terminal
sed "s/Farmhouse/Farm${csi}31mhouse/" "$desk/night.xml" >"$desk/steer.xml"
for command in sheet labels plan check; do
    check_status 1 "$command: U+009B in a name" here $command steer.xml
    check_said "control character U+009B" "$command: is refused"
    check_calm "$command: and does not reach the terminal"
done
sed 's/Farmhouse/Farm\&#x9B;31mhouse/' "$desk/night.xml" >"$desk/steer.xml"
check_status 1 "U+009B written as a number" here sheet steer.xml
check_said "control character U+009B" "is refused"
check_said "steer.xml:3:" "in its place"
check_calm "and does not reach the terminal"
sed 's/Farmhouse/Farm\&#x7F;house/' "$desk/night.xml" >"$desk/steer.xml"
check_status 1 "DEL written as a number" here plan steer.xml
check_calm "does not reach the terminal"
odd="$desk/odd${csi}2J$(printf '\033')[2J"
mkdir "$odd" && cp "$desk/workshop.xml" "$odd"
sed 's/<bag .*//' "$desk/night.xml" >"$odd/a.xml"
sed 's/Farmhouse/\&#x5976;/' "$desk/night.xml" >"$odd/b.xml"
tried=0
for words in "labels $odd/a.xml" "sheet -o $scratch/odd $odd/b.xml" "plan $odd/none.xml" \
    "sheet -o $odd/no/no $odd/a.xml" "sheet -o $odd/a.xml $odd/a.xml" "plan --$csi $odd/a.xml" \
    "plan --as $csi $odd/a.xml" "plan --language $csi $odd/a.xml" "sheet --template $csi $odd/a.xml" \
    "bake$csi"; do
    "$BURNSHEET" $words >"$scratch/.check" 2>&1
    tried=$((tried + 1))
    check_calm "names on the command line, $tried"
done

# ---- What another file keeps for itself
printf 'root:secret-of-the-house:1:0\nmore: secret\n' >"$desk/shadow"
printf 'key\377secret-of-the-house\n' >"$desk/binary"
silent_on_secret() { ! grep -q secret "$scratch/.check"; }
for foreign in shadow binary; do
    sed "s/workshop=\"workshop.xml\"/workshop=\"$foreign\"/" "$desk/night.xml" >"$desk/curious.xml"
    check_status 1 "a workshop that is another's file: $foreign" here plan curious.xml
    check_said "$foreign: error: the file is no XML" "is said to be no XML"
    check "and none of its lines is shown" silent_on_secret
    sed "s/<weather.*/<weather from=\"$foreign\"\/>/" "$desk/night.xml" >"$desk/curious.xml"
    check_status 1 "a forecast that is another's file: $foreign" here plan curious.xml
    check_said "$foreign: error: the file is no forecast" "is said to be none"
    check "and none of its lines is shown" silent_on_secret
done
check_status 1 "a template that is another's file" here sheet --template ./shadow night.xml
check "is not shown either" silent_on_secret

# ---- Time and memory
sed 's/count="6"/count="10000"/' "$desk/night.xml" >"$desk/many.xml"
check_status 1 "labels of a huge count" timeout 5 "$BURNSHEET" labels -o "$desk" "$desk/many.xml"
check_said "10000 labels" "are counted"
check_said "at most 1000" "and bounded"
check_said "many.xml:14:" "at their place"
sed 's/\(<bag .*\)count="6"\(.*\)/\1count="600"\2\1count="600"\2/' "$desk/night.xml" >"$desk/many.xml"
check_status 1 "so are those of several orders together" here labels -o . many.xml
check_said "1200 labels" "with their sum"
sed 's/count="6"/count="1000"/' "$desk/night.xml" >"$desk/many.xml"
# Sanitizers lay claim to more addresses than any limit leaves them.
case $BURNSHEET in */.build/burnsheet) most_kb=400000 ;; *) most_kb=unlimited ;; esac
little() { (cd "$desk" && ulimit -v $most_kb && exec "$BURNSHEET" labels -o . many.xml); }
check "a thousand are made, with little memory" little
check "on 125 sheets of eight" [ "$(pdfinfo "$desk/many.labels.pdf" | sed -n 's/^Pages: *//p')" = 125 ]
check_status 0 "and a plan may hold any count" here plan many.xml
check_end
