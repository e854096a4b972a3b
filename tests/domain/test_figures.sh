#!/bin/sh
# Every plain member of a group of the plan has a row in the table beside it, or stands here with
# why nobody is owed it; and no name stands here that has a row or is no member any more.
. tests/support/check.sh

cat >"$scratch/unshown" <<'END'
PlanBurn.front_from_mps PlanBurn.front_to_mps         what verdict.c holds speeds against
PlanCabinet.over_caution PlanCabinet.over_limit       flags, of which the row `reason` tells
PlanCabinet.over_away PlanCabinet.over_wall           the same
PlanCabinet.low_oxygen PlanCabinet.no_oxygen          the same
PlanCabinet.condenses PlanCabinet.too_windy           the same
PlanRoom.over_limit PlanRoom.near_limit               the same
PlanRoom.near_asleep                                  the same
PlanCabinet.walls_burn                                of the cabinet's walls, as stated
PlanRoom.stated                                       is `indoors` or `outdoors`
PlanDrying.wait_sealed PlanFill.chosen                as stated in workshop or batch
PlanDrying.floor_moisture                             the remedy's concern
PlanPart.moisture_low PlanPart.moisture_high          the doubt of one part, in `chance` already
PlanFill.number                                       every row has one
MapPoint.x_m MapPoint.y_m MapPoint.along_m            how a map is drawn
HourMark.heading_rad                                  the same
PlanFill.map_width_m PlanFill.map_height_m            the same
PlanSample.second_m                                   the second front, drawn from the look-ins
PlanWith.words                                        becomes `text`
Care.key LearningNote.key PlanStep.key Decision.key   become `text`
PlanCompared.key                                      the same
Caution.key Caution.signal PlanRoomWindow.edition     become words
LearningNote.file LearningNote.dust                   become `name`
PlanBag.numbered_before PlanBag.numbered_in_all       on each label, as `label_number`
BagPart.name BagPart.species BagPart.charred          become words, or the owner's
PlanPreparation.late PlanPreparation.not_ready        flags, of which the row `reason` tells
PlanPreparation.odd_at PlanPreparation.kept_s         of which the row `care` tells
PlanTask.key                                          becomes `text`
PlanVent.area_m2 PlanVent.share                       named after their vent, by plan_vent.c
END
tr ' ' '\n' <"$scratch/unshown" | grep '^[A-Z][A-Za-z]*\.[a-z]' | sort >"$scratch/listed"

# "Struct.member" for each double, int, bool, Instant, Quantity, Date and text of the headers
members() {
    cat "$@" | sed 's|/\*[^*]*\*/||g; s|/\*.*||; s|^ \* .*||' | awk '
        /^typedef struct [A-Za-z]+ \{/ { name = $3 }
        /^}/ { name = "" }
        name != "" { body = body " " $0; if ($0 ~ /;/) { print name, body; body = "" } }' |
        sed -n 's/^\([A-Za-z]*\) .*[ {]\(double\|int\|bool\|Instant\|Quantity\|Date\|const char \*\) *\([a-z][a-z0-9_, ]*\);.*/\1 \3/p' |
        awk '{ name = $1; $1 = ""; count = split($0, parts, /[ ,]+/)
               for (i = 1; i <= count; i++) if (parts[i] != "") print name "." parts[i] }'
}

# "Struct.member" for each row of the tables
rows() {
    cat "$@" | tr -d '\n' | grep -oE '(MEMBER|MEMBER_AS|MEASURED)\([^)]*\)' |
        sed 's/.*[(,] *\([A-Za-z]*\), *\([a-z_0-9.]*\))/\1.\2/'
}

members src/domain/plan_*.h | sort >"$scratch/members"
rows src/domain/plan_*.c | sort >"$scratch/rows"
comm -23 "$scratch/members" "$scratch/rows" >"$scratch/without"

many() { [ "$(wc -l <"$scratch/members")" -gt 150 ] && [ "$(wc -l <"$scratch/rows")" -gt 150 ]; }
check "members and rows are found" many
check "a member of the plan has a row or a reason" diff "$scratch/listed" "$scratch/without"
check_end
