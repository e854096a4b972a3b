/* The fields of the fuel: blend with its parts and grain, drying, fills with their hours. */
#include "domain/field_member.h"
#include "domain/word.h"

#include <math.h>

static const Member dust_members[] = {
    {"name", MEMBER_TEXT, QUANTITY_NONE, offsetof(Dust, name)},
    {"dust", MEMBER_TEXT, QUANTITY_NONE, offsetof(Dust, id)},
    {"material", MEMBER_TEXT, QUANTITY_NONE, offsetof(Dust, material)},
    {"charred", MEMBER_YES, QUANTITY_NONE, offsetof(Dust, charred)},
    {"measured", MEMBER_DATE, QUANTITY_NONE, offsetof(Dust, measured)},
    {"lot", MEMBER_TEXT, QUANTITY_NONE, offsetof(Dust, lot)},
    {"received", MEMBER_DATE, QUANTITY_NONE, offsetof(Dust, received)},
    {"stock", MEMBER_NUMBER, QUANTITY_MASS, offsetof(Dust, stock_kg)},
    {"untreated", MEMBER_YES, QUANTITY_NONE, offsetof(Dust, untreated)},
};

static const Member part_members[] = {
    {"carrier", MEMBER_YES, QUANTITY_NONE, offsetof(PlanPart, carrier)},
    {"dry_share", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanPart, dry_share)},
    {"wet_share", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanPart, wet_share)},
    {"volume_share", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanPart, volume_share)},
    {"wet_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanPart, wet_kg)},
    {"dry_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanPart, dry_kg)},
    {"running_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanPart, running_kg)},
    {"moisture", MEMBER_NUMBER, QUANTITY_MOISTURE, offsetof(PlanPart, moisture)},
    {"moisture_assumed", MEMBER_YES, QUANTITY_NONE, offsetof(PlanPart, moisture_assumed)},
    {"packed_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanPart, packed_kg)},
    {"stock_left", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanPart, stock_left_kg)},
    {"short_of_stock", MEMBER_YES, QUANTITY_NONE, offsetof(PlanPart, short_of_stock)},
};

static const Member blend_members[] = {
    {"wet_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanBlend, wet_kg)},
    {"dry_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanBlend, dry_kg)},
    {"moisture", MEMBER_NUMBER, QUANTITY_MOISTURE, offsetof(PlanBlend, moisture)},
    {"moisture_assumed", MEMBER_YES, QUANTITY_NONE, offsetof(PlanBlend, moisture_assumed)},
    {"bulk_density", MEMBER_NUMBER, QUANTITY_DENSITY, offsetof(PlanBlend, bulk_density_kg_m3)},
    {"steadiness", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanBlend, steadiness)},
    {"carrier_share", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanBlend, carrier_share)},
    {"best_margin", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanBlend, best_margin)},
    {"best_chance", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanBlend, best_chance)},
    {"sieve_below", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(PlanBlend, sieve_below_m)},
    {"sieve_remove", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanBlend, sieve_remove_kg)},
    {"unfit_woods", MEMBER_TEXT, QUANTITY_NONE, offsetof(PlanBlend, unfit_woods)},
    {"treated_dusts", MEMBER_TEXT, QUANTITY_NONE, offsetof(PlanBlend, treated_dusts)},
    {"unknown_woods", MEMBER_TEXT, QUANTITY_NONE, offsetof(PlanBlend, unknown_woods)},
    {"strong_spices", MEMBER_TEXT, QUANTITY_NONE, offsetof(PlanBlend, strong_spices)},
};

static const Member grain_members[] = {
    {"d10", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(GrainFigures, d10_m)},
    {"d50", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(GrainFigures, d50_m)},
    {"d90", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(GrainFigures, d90_m)},
    {"geometric_mean", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(GrainFigures, geometric_mean_m)},
    {"geometric_deviation", MEMBER_NUMBER, QUANTITY_RATIO,
     offsetof(GrainFigures, geometric_deviation)},
    {"sauter", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(GrainFigures, sauter_m)},
    {"fines_mass_share", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(GrainFigures, fines_mass_share)},
    {"fines_volume_share", MEMBER_NUMBER, QUANTITY_SHARE,
     offsetof(GrainFigures, fines_volume_share)},
    {"fines_below", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(GrainFigures, fines_below_m)},
    {"coarse_share", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(GrainFigures, coarse_share)},
    {"coarse_above", MEMBER_NUMBER, QUANTITY_GRAIN, offsetof(GrainFigures, coarse_above_m)},
};

static const Member drying_members[] = {
    {"asked", MEMBER_YES, QUANTITY_NONE, offsetof(PlanDrying, asked)},
    {"needed", MEMBER_YES, QUANTITY_NONE, offsetof(PlanDrying, needed)},
    {"assumed", MEMBER_YES, QUANTITY_NONE, offsetof(PlanDrying, assumed)},
    {"oven_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanDrying, oven_temp_c)},
    {"time", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(PlanDrying, time_s)},
    {"from_moisture", MEMBER_NUMBER, QUANTITY_MOISTURE, offsetof(PlanDrying, from_moisture)},
    {"to_moisture", MEMBER_NUMBER, QUANTITY_MOISTURE, offsetof(PlanDrying, to_moisture)},
    {"start_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanDrying, start_kg)},
    {"end_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanDrying, end_kg)},
    {"end_low_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanDrying, end_low_kg)},
    {"end_high_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanDrying, end_high_kg)},
    {"water_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanDrying, water_kg)},
    {"scale_step", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanDrying, scale_step_kg)},
    {"scale_can_tell", MEMBER_YES, QUANTITY_NONE, offsetof(PlanDrying, scale_can_tell)},
    {"wait", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(PlanDrying, wait_s)},
    {"wait_sealed", MEMBER_YES, QUANTITY_NONE, offsetof(PlanDrying, wait_sealed)},
    {"lit_moisture", MEMBER_NUMBER, QUANTITY_MOISTURE, offsetof(PlanDrying, lit_moisture)},
};

static const Member tray_members[] = {
    {"tray", MEMBER_TEXT, QUANTITY_NONE, offsetof(Tray, name)},
    {"tray_id", MEMBER_TEXT, QUANTITY_NONE, offsetof(Tray, id)},
    {"lanes", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(Tray, lanes)},
    {"channel_width", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(Tray, channel_width_m)},
    {"channel_depth", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(Tray, channel_depth_m)},
};

static const Member asked_fill_members[] = {
    {"level", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(Fill, level)},
    {"heaped", MEMBER_YES, QUANTITY_NONE, offsetof(Fill, heaped)},
    {"wanted_burn_time", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(Fill, burn_time_s)},
};

static const Member fill_members[] = {
    {"channel_length", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanFill, channel_m)},
    {"filled_length", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanFill, filled_m)},
    {"whole", MEMBER_YES, QUANTITY_NONE, offsetof(PlanFill, whole)},
    {"chosen", MEMBER_YES, QUANTITY_NONE, offsetof(PlanFill, chosen)},
    {"end_lane", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanFill, end_lane)},
    {"end_in_lane", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanFill, end_in_lane)},
    {"depth", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanFill, depth_m)},
    {"section", MEMBER_NUMBER, QUANTITY_AREA, offsetof(PlanFill, section_m2)},
    {"volume", MEMBER_NUMBER, QUANTITY_VOLUME, offsetof(PlanFill, volume_m3)},
    {"dry_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanFill, dry_kg)},
    {"wet_mass", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanFill, wet_kg)},
    {"bulk_density", MEMBER_NUMBER, QUANTITY_DENSITY, offsetof(PlanFill, bulk_density_kg_m3)},
    {"metal_per_metre", MEMBER_NUMBER, QUANTITY_PER_METRE, offsetof(PlanFill, metal_kg_per_m)},
    {"metal_ratio", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanFill, metal_ratio)},
    {"both_ends", MEMBER_YES, QUANTITY_NONE, offsetof(PlanFill, both_ends)},
    {"light_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanFill, light_at)},
    {"out_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanFill, out_at)},
    {"out_about", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanFill, out_about)},
    {"out_early", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanFill, out_early)},
    {"out_late", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanFill, out_late)},
    {"margin_at_start", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanFill, margin_at_start)},
    {"margin_least", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanFill, margin_least)},
    {"margin_least_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanFill, margin_least_at)},
    {"margin_least_along", MEMBER_NUMBER, QUANTITY_LENGTH,
     offsetof(PlanFill, margin_least_along_m)},
    {"margin_least_lane", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanFill, margin_least_lane)},
    {"dies", MEMBER_YES, QUANTITY_NONE, offsetof(PlanFill, dies)},
    {"dies_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanFill, dies_at)},
    {"dies_along", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanFill, dies_along_m)},
    {"dies_lane", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanFill, dies_lane)},
    {"map_width", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanFill, map_width_m)},
    {"map_height", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanFill, map_height_m)},
};

static const Member point_members[] = {
    {"x", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(MapPoint, x_m)},
    {"y", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(MapPoint, y_m)},
    {"along", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(MapPoint, along_m)},
};

static const Member hour_members[] = {
    {"at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(HourMark, at)},
    {"x", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(HourMark, place.x_m)},
    {"y", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(HourMark, place.y_m)},
    {"along", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(HourMark, place.along_m)},
    {"heading", MEMBER_NUMBER, QUANTITY_ANGLE, offsetof(HourMark, heading_rad)},
    {"lane", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(HourMark, lane)},
    {"end", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(HourMark, end)},
};

static const Member weak_members[] = {
    {"from", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(WeakStretch, from_m)},
    {"to", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(WeakStretch, to_m)},
    {"least_margin", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(WeakStretch, least_margin)},
    {"from_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(WeakStretch, from_at)},
    {"to_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(WeakStretch, to_at)},
};

/* One mass to reach, or a range when nobody measured how damp the dust is. */
static void add_drying(Arena *arena, FieldGroup *root, const PlanDrying *drying) {
    FieldGroup *group = field_group_new(arena, root, "drying", 0);
    FIELD_ADD(arena, group, drying_members, drying);
    field_add_yes(arena, group, "to_mass", drying->needed && !drying->assumed);
    field_add_yes(arena, group, "to_range", drying->needed && drying->assumed);
}

static void add_blend(Arena *arena, FieldGroup *root, const Plan *plan) {
    FieldGroup *group = field_group_new(arena, root, "blend", 0);
    field_add_text(arena, group, "name", plan->batch->blend.name);
    field_add_yes(arena, group, "by_volume", plan->batch->blend.by_volume);
    field_add_number(arena, group, "part_count", QUANTITY_COUNT, (double)plan->blend.parts.count);
    field_add_number(arena, group, "target_margin", QUANTITY_RATIO,
                     plan->batch->blend.target_margin);
    field_add_word(arena, group, "solver", word_of_solver(plan->blend.solver));
    FIELD_ADD(arena, group, blend_members, &plan->blend);
    for (size_t i = 0; i < plan->blend.parts.count; i++) {
        const PlanPart *part = &plan->blend.parts.items[i];
        FieldGroup *row = field_group_new(arena, group, "part", (int)i + 1);
        FIELD_ADD(arena, row, dust_members, part->dust);
        field_add_word(arena, row, "form", word_of_form(part->dust->form));
        FIELD_ADD(arena, row, part_members, part);
    }
    FIELD_ADD(arena, field_group_new(arena, group, "grain", 0), grain_members, &plan->blend.grain);
}

static void add_point(Arena *arena, FieldGroup *fill, const char *name, const MapPoint *point) {
    FIELD_ADD(arena, field_group_new(arena, fill, name, 0), point_members, point);
}

static void add_fill_rows(Arena *arena, FieldGroup *group, const PlanFill *fill) {
    for (size_t i = 0; i < fill->hours.count; i++) {
        FIELD_ADD(arena, field_group_new(arena, group, "hour", (int)i + 1), hour_members,
                  &fill->hours.items[i]);
    }
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
    field_add_word(arena, group, "wall", word_of_wall(fill->tray->wall));
    FIELD_ADD(arena, group, asked_fill_members, fill->fill);
    field_add_word(arena, group, "packing", word_of_packing(fill->fill->packing));
    FIELD_ADD(arena, group, fill_members, fill);
    field_add_word(arena, group, "cause", word_of_cause(fill->cause));
    field_add_yes(arena, group, "lit_first", number == 1);
    field_add_yes(arena, group, "looks_new", looks_new(fill, number));
    field_add_yes(arena, group, "same_tray", number > 1 && fill[-1].tray == fill->tray);
    add_point(arena, group, "lit_end", &fill->lit_end);
    add_point(arena, group, "finish", &fill->finish);
    add_point(arena, group, "fill_mark", &fill->fill_mark);
    add_fill_rows(arena, group, fill);
}

void fields_of_fuel(Arena *arena, FieldGroup *root, const Plan *plan) {
    add_blend(arena, root, plan);
    add_drying(arena, root, &plan->drying);
    for (size_t i = 0; i < plan->fills.count; i++) {
        add_fill(arena, root, &plan->fills.items[i], (int)i + 1);
    }
}
