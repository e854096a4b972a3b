#!/bin/sh
# The step of the sheet and the map of the desk page never contradict each other on how far the
# channel is filled, also where a wanted burn time ends a hair before the channel does: every minute
# round the hour at which the whole tray is out, and half a minute's neighbours of it.
. tests/support/check.sh
desk=$scratch/desk
mkdir "$desk"
cp samples/workshop.xml samples/mark.svg "$desk"
batch() { # SECONDS: the burn time asked for; nothing: the whole channel
    filled=${1:+"burn-time=\"$1 s\""}
    filled=${filled:-'channel="whole"'}
    cat >"$desk/night.xml" <<END
<batch name="Night" workshop="workshop.xml">
  <product kind="cheese" name="Cheddar" mass="3 kg" smoke-time="8 h"/>
  <blend name="Beech"><part dust="beech" share="100 %"/></blend>
  <fill tray="folded" $filled/>
  <predry oven="100 °C" time="15 min"/>
  <weather temperature="6 °C" humidity="78 %"/>
  <timing light="2026-12-04T21:30"/>
</batch>
END
}
plan() { "$BURNSHEET" plan --as "$1" "$desk/night.xml"; }
seconds() { plan fields | sed -n 's/^burn.duration\t\([0-9]*\).*/\1/p'; }
# "whole" or "part", as the step, the map and the plan's own figure have it; one word when they agree
said() {
    for page in sheet desk; do
        "$BURNSHEET" sheet --template $page -o "$desk/$page.pdf" "$desk/night.xml" >&2 || return 1
        pdftotext -raw "$desk/$page.pdf" "$desk/$page.txt"
        tr -s '[:space:]' ' ' <"$desk/$page.txt" >"$desk/$page.line"
    done
    {
        grep -q 'Fill [^:]* to the end:' "$desk/sheet.line" && echo whole || echo part
        grep -q 'fill the whole channel' "$desk/desk.line" && echo whole || echo part
        plan fields | grep -q '^fill\.1\.whole	yes' && echo whole || echo part
    } | sort -u
}
agree() { # SECONDS WORD
    batch "$1"
    [ "$(said)" = "$2" ] || { echo "# burn-time $1 s: $(said | tr '\n' ' '), wanted $2"; return 1; }
}
batch ""
whole_s=$(seconds)
check "a tray of some hours" [ "$whole_s" -gt 18000 ]
check "the whole channel asked for" [ "$(said)" = whole ]
check "an hour less: a part" agree $((whole_s - 3600)) part
check "an hour more than there is: the whole" agree $((whole_s + 3600)) whole
hairs() {
    for less in 0 1 2 5 10 20 25 30 35 40 60 120 300; do
        batch $((whole_s - less))
        case $(said) in
        whole | part) ;;
        *) echo "# $less s less than $whole_s: $(said | tr '\n' ' ')"; return 1 ;;
        esac
    done
}
check "and step, map and figure agree however near the end" hairs
check_end
