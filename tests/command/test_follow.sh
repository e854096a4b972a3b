#!/bin/sh
# A batch that begins from the last one: what stays is kept to the byte, hours move by whole days to
# an evening that leaves time, and what was true of that night and that product alone is left out,
# so that no page is confident of what nobody has done yet.
. tests/support/check.sh
if [ ! -x "$BURNSHEET" ]; then
    echo "not ok - the next batch # SKIP the program is not built yet"
    exit 0
fi
export SOURCE_DATE_EPOCH=1796335200 # 2026-12-03 22:00 in Dublin
desk=$scratch/desk
fresh() { rm -rf "$desk" && mkdir "$desk" && cp samples/workshop*.xml samples/*.csv samples/*.svg "$desk"; }
new() { (cd "$desk" && "$BURNSHEET" new batch "$@"); }
good() { (cd "$desk" && "$BURNSHEET" check "$1"); }
has() { grep -qF -- "$2" "$desk/$1"; }
hasnt() { ! has "$@"; }
wants() { # STATUS TEXT NAME ARGUMENT...
    wanted=$1 text=$2 name=$3
    shift 3
    check_status "$wanted" "$name" new "$@"
    check_said "$text" "$name: says '$text'"
}

fresh
cat >"$desk/monday.xml" <<'END'
<?xml version="1.0"?>
<!-- mine: > and "quotes" stay -->
<batch   name='Monday trout'
         lot="L1" workshop="workshop.xml">
  <product kind="fish" name="Trout" lot="T-7" mass="3 kg" cured="yes" salt="3.6 %" water="64 %"
           smoke-time="8 h"><!-- from the pond -->
    <freezing temperature="-20 °C" time="48 h"/>
  </product>
  <blend name="Beech"><part dust="beech" share="100 %"/></blend>
  <fill tray="folded" level="90 %"/>  <!-- not quite full -->
  <weather temperature="6 °C" humidity="70 %" wind="2 m/s"/>
  <timing light="2026-11-30T20:30:00">
    <away from="2026-11-30T23:00" to="2026-12-01T05:30"/>
  </timing>
  <bag net="250 g" count="2" stock="a4-8" packed="2026-11-30"/>
  <!-- what happened -->
  <record lit="2026-11-30T20:40" out="2026-12-01T04:30">
    <reading at="2026-11-30T22:00" front="100 mm"/>
  </record>
</batch>
END
check "what it starts from is sound" good monday.xml
cp "$desk/monday.xml" "$scratch/before"
check "the next one" new --after monday.xml "Friday's trout"
cat >"$scratch/wanted" <<'END'
<?xml version="1.0"?>
<!-- mine: > and "quotes" stay -->
<batch   name="Friday's trout" workshop="workshop.xml">
  <product kind="fish" name="Trout" mass="3 kg"
           smoke-time="8 h"><!-- from the pond -->
  </product>
  <blend name="Beech"><part dust="beech" share="100 %"/></blend>
  <fill tray="folded" level="90 %"/>  <!-- not quite full -->
  <weather temperature="3 °C" humidity="88 %" usual="yes"/>
  <timing light="2026-12-04T20:30:00">
    <away from="2026-12-04T23:00" to="2026-12-05T05:30"/>
  </timing>
  <bag net="250 g" count="2" stock="a4-8"/>
  <!-- what happened -->
</batch>
END
check "is the last one but for that night" diff "$scratch/wanted" "$desk/fridays-trout.xml"
check "has no fault" good fridays-trout.xml
check "the last one is as it was" cmp "$scratch/before" "$desk/monday.xml"
said_unknown() { (cd "$desk" && "$BURNSHEET" plan fridays-trout.xml) | grep -q "No forecast"; }
check "its page says that there is no forecast" said_unknown
not_good() { ! (cd "$desk" && "$BURNSHEET" plan fridays-trout.xml) | grep -q "GOOD TO LIGHT"; }
check "and is not confident" not_good

# ---- Names
check "without a name it has the day" new --after monday.xml
check "behind that of the last one" good monday-2026-12-04.xml
check "on paper it keeps its name" has monday-2026-12-04.xml "name='Monday trout'"
check "the next after that" new --after monday-2026-12-04.xml
check "has one day in its name" good monday-2026-12-05.xml
check "from outside the folder" sh -c "'$BURNSHEET' new batch --after '$desk/monday.xml' Saturday"
check "it goes beside the last one" good saturday.xml
wants 3 "new batch --after monday.xml 'Another name'" "a name that is taken" --after monday.xml Saturday
wants 2 "beside the last one" "another folder" --after monday.xml elsewhere/tuesday
wants 2 "the kind is that of the last one" "a kind" fish --after monday.xml
check_status 2 "a workshop after something" "$BURNSHEET" new workshop --after "$desk/monday.xml"
wants 3 "none.xml" "no such file" --after none.xml
wants 1 "not a batch file" "after a workshop" --after workshop.xml
sed 's/share="100 %"/share="90 %"/' "$desk/monday.xml" >"$desk/wrong.xml"
wants 1 "come to 90" "after one with faults" --after wrong.xml Next
check "nothing is written then" [ ! -e "$desk/next.xml" ]

# ---- Hours: at least one day later, never in the past, with time to prepare
hours() { # TIMING WANTED
    sed "s|<timing.*|<timing $1/>|; /<away/d; /<.timing/d; /<record/,/<.record/d" "$desk/monday.xml" \
        >"$desk/hour.xml"
    rm -f "$desk/hour-next.xml"
    new --after hour.xml hour-next.xml >/dev/null && has hour-next.xml "<timing $2/>" ||
        { grep timing "$desk/hour-next.xml"; return 1; }
}
check "a planned one that is still to come" hours 'light="2026-12-09T21:00"' 'light="2026-12-10T21:00"'
check "of years ago" hours 'light="2026-02-28T21:00"' 'light="2026-12-04T21:00"'
check "an hour too near" hours 'light="2026-12-01T01:00"' 'light="2026-12-05T01:00"'
check "a wanted end leaves a night before it" \
    hours 'finish-by="2026-12-01T06:00"' 'finish-by="2026-12-05T06:00"'
check "a window moves as a whole" hours 'best-from="2026-11-27T18:00" best-to="2026-11-29T23:00"' \
    'best-from="2026-12-04T18:00" best-to="2026-12-06T23:00"'

# ---- Samples: each gives one that is read, and none that is simply good to light
for sample in samples/*.xml; do
    name=$(basename "$sample" .xml)
    [ "${name#workshop}" = "$name" ] || continue
    cp "$sample" "$desk"
    rm -f "$desk/after.xml"
    check "after $name" new --after "$name.xml" after.xml
    check "after $name: no record" hasnt after.xml "<record"
    check "after $name: follows the schema" xmllint --noout --schema templates/batch.xsd "$desk/after.xml"
done
for ends in '\r\n' '\n'; do
    fresh && awk -v e="$ends" '{ printf "%s%s", $0, e }' "$scratch/before" >"$desk/ends.xml"
    new --after ends.xml next.xml >/dev/null
    awk -v e="$ends" '{ printf "%s%s", $0, e }' "$scratch/wanted" |
        sed "s/\"Friday's trout\"/'Monday trout'/" >"$scratch/ends"
    check "line ends stay ($ends)" cmp "$scratch/ends" "$desk/next.xml"
done
check_end
