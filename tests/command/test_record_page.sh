#!/bin/sh
# The record of a night that is over, as a page to be filed: what it says is written in the batch
# itself; what nobody wrote down is a line, never the planned figure; and on pages of random nights
# nothing lies on anything and nothing that was written is lost.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - record page # SKIP the program is not built yet"
    exit 0
fi
desk=$scratch/desk
mkdir "$desk"
cp samples/workshop.xml samples/workshop-us.xml samples/mark.svg "$desk"
sed '/<record/,/<\/record>/d' samples/cheese-last-week.xml >"$scratch/bare.xml"
page() { # RECORD
    { sed '/<\/batch>/d' "$scratch/bare.xml" && echo "$1</batch>"; } >"$desk/night.xml"
    "$BURNSHEET" record -o "$desk/night.pdf" "$desk/night.xml" &&
        pdftotext -layout "$desk/night.pdf" "$scratch/text" &&
        sed 's/\xc2\xa0/ /g; s/\xe2\x80\xaf/ /g' "$scratch/text" | tr -s ' ' >"$desk/night.txt"
}
says() { grep -q -- "$1" "$desk/night.txt"; }
silent() { ! says "$1"; }

# ---- Only lit ----
check "a night of which only the hour is known" page '<record lit="2026-11-27T21:05"/>'
check "says when it was lit" says 'Lit Fri 27 Nov 21:05'
check "planned, happened and difference" says '^ *Lit 21:00 21:05 5 min later'
check "an end that was planned and not written" says '^ *Out 05:..* – .* Sat$'
check "dust that nobody weighed" says '^ *Dust used 7[0-9] g$'
check "looks that nobody wrote down have their planned time and front alone" \
    says '^ *21:20 [0-9]* mm [0-9]* °C$'
check "no temperature: said" says 'Nobody wrote down how warm the cabinet was'
check "no yield" says '^ *Yield$'
check "no order to light" silent 'LIGHT'

# ---- All of it ----
check "a night of which all is known" page '<record lit="2026-11-27T21:05" out="2026-11-28T05:35"
 filled="821 mm" used="72 g" ash="4 g" after="5.7 kg" by="Jo" remark="Calm."><reading
 at="2026-11-27T23:30" front="250 mm" cabinet="31 °C" humidity="81 %"/><reading
 at="2026-11-28T00:30" front="340 mm" cabinet="32 °C"/><reading at="2026-11-28T02:00"
 cabinet="12 °C" remark="Damp"/></record>'
check "out" says '^ *Out 05:20 Sat 02:45 Sat – 09:00 Sat 05:35 Sat 15 min later'
check "burn time" says '^ *Burn time 8 h 20 min 8 h 30 min 10 min longer'
check "filled as planned" says '^ *Filled to 821 mm 821 mm as planned'
check "dust" says '^ *Dust used 75 g 72 g 3 g less'
check "what was left has no plan" says '^ *What was left 4 *g'
check "yield: 5.7 of 6 kg" says 'Yield 95.0 %'
check "lots of the dust" says 'B-2611'
check "warmest, with its hour, against the ceiling" says '30 °C; warmest reading 32 °C, 00:30 Sat'
check "so many readings over it" says 'readings over it: 2 of 3'
check "an hour at least, from lighting to the third at most" says 'between 1 h and 4 h 55 min'
check "a reading beside the look it was" says '^ *23:30 23:30 [0-9]* mm 250 mm .* 31 °C 81 %'
check "a remark" says 'Damp'
check "who" says 'Run by Jo'

# ---- Of several nights, and where it goes ----
check "in a folder" "$BURNSHEET" record -o "$scratch" "$desk/night.xml"
check "under its name" [ -s "$scratch/night.record.pdf" ]
both() {
    cp "$scratch/bare.xml" "$desk/bare.xml"
    "$BURNSHEET" record -o "$scratch" "$desk/bare.xml" "$desk/night.xml" >"$scratch/form"
}
check "one that is over and one that is not" both
check "the form on the terminal" grep -q '^<record lit="? 2026-11-27T21:00"' "$scratch/form"
check_status 1 "a record is not written over" "$BURNSHEET" record --write "$desk/night.xml"
check_said "there is a record already" "it is said why"
sed -i 's/out="2026-11-28T05:35"/out="?"/' "$desk/night.xml"
check "an answer that is still open" "$BURNSHEET" record -o "$desk/night.pdf" "$desk/night.xml"

# ---- Random nights ----
/usr/bin/python3 - "$desk" "$scratch/bare.xml" <<'END'
import datetime, random, sys
folder, bare = sys.argv[1], open(sys.argv[2]).read()
words = 'steady glow at the turn, lane four a little white ash wind from the north '.split()
def chance(share): return random.random() < share
for seed in range(12):
    random.seed(seed)
    light = datetime.datetime(2026, 11, 27, 21, 0) + datetime.timedelta(minutes=random.randint(-30, 90))
    stamp = lambda minutes: (light + datetime.timedelta(minutes=minutes)).strftime('%Y-%m-%dT%H:%M')
    def remark(most): return ' '.join(random.choice(words) for _ in range(random.randint(1, most)))
    several = seed % 6 == 5
    minutes, front, looks = 0, 0, ''
    for number in range(random.choice([0, 1, 3, 8, 20, 90])):
        minutes += random.randint(4, 9 if number < 30 else 5)
        front = min(front + random.randint(2, 8), 780)
        looks += f'<reading at="{stamp(minutes)}"'
        if chance(.8): looks += f' front="{front} mm"'
        if chance(.7): looks += f' cabinet="{random.randint(4, 40)} °C"'
        if chance(.4): looks += f' humidity="{random.randint(40, 99)} %"'
        if chance(.3): looks += f' remark="{remark(20)} n{number}n"'
        looks += '/>'
    record = f'<record lit="{stamp(0)}"'
    if chance(.8): record += f' out="{stamp(minutes + random.randint(30, 90))}"'
    if chance(.3): record += ' died="yes"'
    if chance(.7) and not several: record += f' filled="{random.randint(790, 821)} mm" used="{random.randint(55, 90)} g"'
    if chance(.5): record += f' ash="{random.randint(1, 9)} g"'
    if chance(.6): record += f' after="{random.uniform(5, 6):.2f} kg"'
    if chance(.6): record += f' by="{remark(6)}"'
    if chance(.6): record += f' remark="{remark(50)}"'
    record += '>' + looks
    batch = bare.replace('</batch>', record + '</record></batch>')
    if several: batch = batch.replace('channel="whole"/>', 'channel="whole" repeat="3"/>')
    if seed % 3 == 1: batch = batch.replace('"Farmhouse cheddar, quarters"', '"' + remark(30) + '"')
    open(f'{folder}/random-{seed:02}.xml', 'w').write(batch)
END
cat >"$scratch/looks.py" <<'END'
# Every word within the margins, none on another; every remark of the batch on its pages; and at
# most as many pages as its looks need.
import re, sys, xml.etree.ElementTree as tree
def boxes(path):
    for page in tree.parse(path).getroot().iter('{http://www.w3.org/1999/xhtml}page'):
        yield page, [(float(w.get('xMin')), float(w.get('yMin')), float(w.get('xMax')),
                      float(w.get('yMax')), w.text)
                     for w in page.iter('{http://www.w3.org/1999/xhtml}word')]
batch = tree.parse(sys.argv[1]).getroot()
said, pages, margin = set(), 0, 9 / 25.4 * 72 - 1
for page, words in boxes(sys.argv[2]):
    pages += 1
    width, height = float(page.get('width')), float(page.get('height'))
    for i, one in enumerate(words):
        said.add(one[4])
        assert one[0] > margin and one[2] < width - margin and one[3] < height - margin, one
        for other in words[i + 1:]:
            across = min(one[2], other[2]) - max(one[0], other[0])
            down = min(one[3], other[3]) - max(one[1], other[1])
            # poppler's boxes reach from ascent to descent, which lines share
            least = min(one[3] - one[1], other[3] - other[1])
            assert across < 0.6 or down < 0.3 * least, (one, other)
readings = batch.findall('record/reading')
for reading in readings:
    mark = re.search(r'n\d+n', reading.get('remark', ''))
    assert not mark or mark.group() in said, mark.group()
assert pages <= 1 + len(readings) // 12, (pages, len(readings))
END
good_pages() { # LANGUAGE PAPER UNITS
    "$BURNSHEET" record --language "$1" --paper "$2" --units "$3" -o "$scratch/random" \
        "$desk"/random-*.xml 2>"$scratch/said" || { grep -A3 error: "$scratch/said"; return 1; }
    for batch in "$desk"/random-*.xml; do
        pdftotext -bbox "$scratch/random/$(basename "$batch" .xml).record.pdf" "$scratch/boxes.html"
        /usr/bin/python3 "$scratch/looks.py" "$batch" "$scratch/boxes.html" || { echo "$batch"; return 1; }
    done
}
for language in en de pl; do
    check "random nights in $language, A4" good_pages $language A4 metric
    check "random nights in $language, Letter, US units" good_pages $language Letter us
done
check_end
