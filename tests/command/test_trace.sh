#!/bin/sh
# A lot followed both ways through a made-up chain: beech B-2611 is bagged as MIX-1, the bag stands
# as a dust on the shelf of a second smokehouse, and its night makes cheese.
. tests/support/check.sh
own=$scratch/own
mkdir "$own"
cp samples/workshop.xml samples/mark.svg "$own"
sed -e 's/id="beech" name="Beech, middle sieving"/id="mix" name="Mix from the stall"/' \
    -e 's/lot="B-2611"/lot="MIX-1"/' -e '/id="cherry"/s/lot="C-2609"//' \
    -e 's/lot="C-2609"//' samples/workshop.xml >"$own/guest.xml"
cat >"$own/day.xml" <<'END'
<bagging name="Day" packed="2026-11-30">
  <pack lot="MIX-1">
    <blend name="Stall mix">
      <part dust="beech" share="70 %"/>
      <part dust="cherry" share="30 %"/>
    </blend>
    <bag net="200 g" count="5" stock="a4-8"/>
  </pack>
</bagging>
END
cat >"$own/night.xml" <<'END'
<batch name="Guest night" workshop="guest.xml" cabinet="larch" lot="NIGHT-1">
  <product kind="cheese" name="Goat cheese" mass="3 kg" pieces="12" smoke-time="7 h"/>
  <blend name="Bought">
    <part dust="mix" share="80 %"/>
    <part dust="cherry" share="20 %"/>
  </blend>
  <fill tray="folded" level="100 %"/>
  <predry oven="90 °C" time="18 min"/>
  <weather temperature="5 °C" humidity="72 %" wind="2 m/s"/>
  <timing light="2026-12-04T22:00"/>
</batch>
END
trace() { "$BURNSHEET" trace "$@"; }
# A line of the last output that holds the first text is followed by one that holds the second.
then_said() {
    grep -A1 -F -- "$1" "$scratch/.check" | grep -qF -- "$2" ||
        { echo "not ok - $3"; sed 's/^/# /' "$scratch/.check"; check_failures=$((check_failures + 1)); return; }
    echo "ok - $3"
}

check "forward" trace B-2611 "$own/day.xml" "$own/night.xml"
# five bags of 200 g are 1 kg
check_said "  lot MIX-1, Stall mix, 5 bags, 1 kg, 30 Nov 2026, $own/day.xml" "into the bags"
then_said "  lot MIX-1," "      Beech, middle sieving, lot B-2611, 70" "with its share"
check_said "    lot NIGHT-1, Goat cheese, 12 pieces, 3 kg, 4 Dec 2026, $own/night.xml" \
    "through the bag into the night"
then_said "    lot NIGHT-1," "Mix from the stall, lot MIX-1, 80" "as a dust of that night"
check_said "planned" "says that nobody wrote it down"
check_said "do not say what is in it" "nothing is known to be in a dust"

check "back" trace NIGHT-1 "$own/day.xml" "$own/night.xml"
check_said "  Mix from the stall, lot MIX-1, 80" "the bag is in the cheese"
check_said "    Beech, middle sieving, lot B-2611, 70" "and the beech in the bag"
check_said "  Cherry, unsieved, no lot stated, 20" "a dust without a lot is said"
check_said "it went into nothing" "the cheese went nowhere"

check "a night that is over" trace B-2611 samples/cheese-last-week.xml
# 65 % of the 72 g of its record
check_said "lot B-2611, 65" "its share"
check_said "47 g, written down" "with the mass of the record, and that it is one"

check "in German" trace --language de MIX-1 "$own/day.xml" "$own/night.xml"
check_said "5 Beutel" "in German words"
check "in Polish" trace --language pl MIX-1 "$own/day.xml" "$own/night.xml"
check_said "5 torebek" "in Polish words"

check "as XML" trace --as xml MIX-1 "$own/day.xml" "$own/night.xml"
check_said '<trace lot="MIX-1"' "the root"
check_said '<into number="1"' "what it went into"
check_said '<of number="2"' "what is in it"
trace --as xml MIX-1 "$own/day.xml" "$own/night.xml" >"$scratch/trace.out"
check "well-formed" xmllint --noout "$scratch/trace.out"

page=$scratch/lot.pdf
check "a page" trace -o "$page" MIX-1 "$own/day.xml" "$own/night.xml"
pdftotext -layout "$page" "$scratch/page.txt"
check "with the night" grep -q "NIGHT-1" "$scratch/page.txt"
check "with the dust" grep -q "B-2611" "$scratch/page.txt"
check "into a folder" trace -o "$scratch" MIX-1 "$own/day.xml"
check "the template is checked" "$BURNSHEET" check templates/trace.xml

# thirty days of bagging the same dust
for day in $(seq 1 30); do
    sed "s/MIX-1/MIX-$day/" "$own/day.xml" >"$own/day-$day.xml"
done
check "a long way" trace -o "$page" B-2611 "$own"/day-*.xml
check "on two pages" test "$(pdfinfo "$page" | sed -n 's/^Pages: *//p')" = 2
check "to the last" sh -c "pdftotext -raw '$page' - | grep -o 'lot MIX-[0-9]*' | sort -u | wc -l |
    grep -qx 30"

# the shelf is emptier by now than what those bags took
sed 's/stock="12 kg"/stock="100 g"/' samples/workshop.xml >"$own/workshop.xml"
check_status 1 "no slip of what is no more there" "$BURNSHEET" slip -o "$own" "$own/day.xml"
check "but its trace" trace B-2611 "$own/day.xml"
check_said "MIX-1" "of the bags as packed"

check_status 1 "an unknown lot" trace B-2612 "$own/day.xml"
check_said "no lot 'B-2612' in the files given" "says so"
check_said "did you mean 'B-2611'?" "and the nearest"
check_status 1 "one that is like none" trace nothing-of-it "$own/day.xml"
check_said "there are: MIX-1, B-2611" "and those there are"
check "a lot on the shelf that went nowhere" trace O-2610 "$own/day.xml"
check_said "it went into nothing" "is known nevertheless"

echo "<bagging" >"$own/broken.xml"
check_status 1 "a faulty file among good ones" trace B-2611 "$own/broken.xml" "$own/day.xml"
check_said "lot MIX-1, Stall mix" "does not stop the rest"
check_status 3 "a file that is not there" trace B-2611 "$own/none.xml" "$own/day.xml"
check_said "lot MIX-1, Stall mix" "nor does it"
check "a workshop among the files" trace B-2611 "$own/day.xml" "$own/workshop.xml"
check_status 2 "no file" trace B-2611
check_said "first the lot, then the files" "says what comes first"
check_status 2 "no such form" trace --as csv B-2611 "$own/day.xml"
check_end
