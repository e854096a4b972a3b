/* The fields of the fills with their hours and weak stretches. */
#include "domain/field_member.h"
#include "domain/word.h"

#include <math.h>

static const Member tray_members[] = {
    MEMBER_AS("tray", Tray, name),
    MEMBER_AS("tray_id", Tray, id),
    MEMBER(Tray, lanes),
};

static const Member asked_fill_members[] = {
    MEASURED("level", SHARE, Fill, level),
    MEMBER(Fill, heaped),
};

static const Member fill_members[] = {
    MEASURED("channel_length", LENGTH, PlanFill, channel_m),
    MEASURED("filled_length", LENGTH, PlanFill, filled_m),
    MEMBER(PlanFill, whole),
    MEMBER(PlanFill, end_lane),
    MEASURED("end_in_lane", SHARE, PlanFill, end_in_lane),
    MEASURED("depth", LENGTH, PlanFill, depth_m),
    MEASURED("volume", VOLUME, PlanFill, volume_m3),
    MEASURED("dry_mass", MASS, PlanFill, dry_kg),
    MEASURED("wet_mass", MASS, PlanFill, wet_kg),
    MEASURED("ready_mass", MASS, PlanFill, ready_kg),
    MEASURED("bulk_density", DENSITY, PlanFill, bulk_density_kg_m3),
    MEMBER(PlanFill, both_ends),
    MEMBER(PlanFill, light_at),
    MEMBER(PlanFill, out_at),
    MEMBER(PlanFill, out_about),
    MEMBER(PlanFill, out_early),
    MEMBER(PlanFill, out_late),
    MEASURED("margin_at_start", RATIO, PlanFill, margin_at_start),
    MEASURED("margin_least", RATIO, PlanFill, margin_least),
    MEMBER(PlanFill, margin_least_at),
    MEASURED("margin_least_along", LENGTH, PlanFill, margin_least_along_m),
    MEMBER(PlanFill, dies),
    MEMBER(PlanFill, dies_at),
    MEASURED("dies_along", LENGTH, PlanFill, dies_along_m),
};

static const Member hour_members[] = {
    MEMBER(HourMark, at),
    MEASURED("along", LENGTH, HourMark, place.along_m),
    MEMBER(HourMark, lane),
};

static const Member weak_members[] = {
    MEASURED("from", LENGTH, WeakStretch, from_m),
    MEASURED("to", LENGTH, WeakStretch, to_m),
    MEASURED("least_margin", RATIO, WeakStretch, least_margin),
    MEMBER(WeakStretch, from_at),
    MEMBER(WeakStretch, to_at),
};

static void add_fill_rows(Arena *arena, FieldGroup *group, const PlanFill *fill) {
    FIELD_ADD_ROWS(arena, group, "hour", hour_members, fill->hours);
    for (size_t i = 0; i < fill->weak.count; i++) {
        FieldGroup *row = field_group_new(arena, group, "weak", (int)i + 1);
        FIELD_ADD(arena, row, weak_members, &fill->weak.items[i]);
        field_add_word(arena, row, "cause", word_of_cause(fill->weak.items[i].cause));
    }
}

/* Whether no fill before it would be drawn alike. */
static bool looks_new(const PlanFill *fill, int number) {
    for (int i = 1; i < number; i++) {
        const PlanFill *other = fill - i;
        if (other->tray == fill->tray && other->both_ends == fill->both_ends &&
            fabs(other->filled_m - fill->filled_m) < 1e-6) {
            return false;
        }
    }
    return true;
}

static void add_fill(Arena *arena, FieldGroup *root, const PlanFill *fill, int number) {
    FieldGroup *group = field_group_new(arena, root, "fill", number);
    FIELD_ADD(arena, group, tray_members, fill->tray);
    field_add_word(arena, group, "channel", word_of_channel(fill->tray->path));
    FIELD_ADD(arena, group, asked_fill_members, fill->fill);
    field_add_word(arena, group, "packing", word_of_packing(fill->fill->packing));
    FIELD_ADD(arena, group, fill_members, fill);
    field_add_word(arena, group, "cause", word_of_cause(fill->cause));
    field_add_yes(arena, group, "lit_first", number == 1);
    field_add_yes(arena, group, "looks_new", looks_new(fill, number));
    field_add_yes(arena, group, "same_tray", number > 1 && fill[-1].tray == fill->tray);
    add_fill_rows(arena, group, fill);
}

void fields_of_fills(Arena *arena, FieldGroup *root, const Plan *plan) {
    for (size_t i = 0; i < plan->fills.count; i++) {
        add_fill(arena, root, &plan->fills.items[i], (int)i + 1);
    }
}
