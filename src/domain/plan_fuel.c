/* The fields of a blend with its parts and grain, and of its drying. */
#include "domain/field_member.h"
#include "domain/word.h"

static const Member dust_members[] = {
    MEMBER(Dust, name),
    MEMBER_AS("dust", Dust, id),
    MEMBER(Dust, lot),
};

static const Member part_members[] = {
    MEMBER(PlanPart, carrier),
    MEASURED("dry_share", SHARE, PlanPart, dry_share),
    MEASURED("wet_share", SHARE, PlanPart, wet_share),
    MEASURED("volume_share", SHARE, PlanPart, volume_share),
    MEASURED("wet_mass", MASS, PlanPart, wet_kg),
    MEASURED("dry_mass", MASS, PlanPart, dry_kg),
    MEASURED("running_mass", MASS, PlanPart, running_kg),
    MEASURED("moisture", MOISTURE, PlanPart, moisture),
    MEMBER(PlanPart, moisture_assumed),
    MEASURED("packed_mass", MASS, PlanPart, packed_kg),
    MEASURED("stock_left", MASS, PlanPart, stock_left_kg),
    MEMBER(PlanPart, short_of_stock),
};

static const Member blend_members[] = {
    MEASURED("wet_mass", MASS, PlanBlend, wet_kg),
    MEASURED("dry_mass", MASS, PlanBlend, dry_kg),
    MEASURED("moisture", MOISTURE, PlanBlend, moisture),
    MEMBER(PlanBlend, moisture_assumed),
    MEASURED("bulk_density", DENSITY, PlanBlend, bulk_density_kg_m3),
    MEASURED("carrier_share", SHARE, PlanBlend, carrier_share),
    MEASURED("best_chance", SHARE, PlanBlend, best_chance),
    MEMBER(PlanBlend, unfit_woods),
    MEMBER(PlanBlend, treated_dusts),
    MEMBER(PlanBlend, unknown_woods),
    MEMBER(PlanBlend, strong_spices),
};

static const Member grain_members[] = {
    MEASURED("d10", GRAIN, GrainFigures, d10_m),
    MEASURED("d50", GRAIN, GrainFigures, d50_m),
    MEASURED("d90", GRAIN, GrainFigures, d90_m),
    MEASURED("geometric_mean", GRAIN, GrainFigures, geometric_mean_m),
    MEASURED("geometric_deviation", RATIO, GrainFigures, geometric_deviation),
    MEASURED("fines_mass_share", SHARE, GrainFigures, fines_mass_share),
    MEASURED("fines_volume_share", SHARE, GrainFigures, fines_volume_share),
    MEASURED("fines_below", GRAIN, GrainFigures, fines_below_m),
    MEASURED("coarse_share", SHARE, GrainFigures, coarse_share),
    MEASURED("coarse_above", GRAIN, GrainFigures, coarse_above_m),
};

static const Member drying_members[] = {
    MEMBER(PlanDrying, asked),
    MEMBER(PlanDrying, needed),
    MEMBER(PlanDrying, assumed),
    MEASURED("oven_temp", TEMPERATURE, PlanDrying, oven_temp_c),
    MEASURED("time", DURATION, PlanDrying, time_s),
    MEASURED("from_moisture", MOISTURE, PlanDrying, from_moisture),
    MEASURED("to_moisture", MOISTURE, PlanDrying, to_moisture),
    MEASURED("start_mass", MASS, PlanDrying, start_kg),
    MEASURED("end_mass", MASS, PlanDrying, end_kg),
    MEASURED("end_low_mass", MASS, PlanDrying, end_low_kg),
    MEASURED("end_high_mass", MASS, PlanDrying, end_high_kg),
    MEASURED("water_mass", MASS, PlanDrying, water_kg),
    MEASURED("scale_step", MASS, PlanDrying, scale_step_kg),
    MEMBER(PlanDrying, scale_can_tell),
    MEASURED("wait", DURATION, PlanDrying, wait_s),
    MEASURED("lit_moisture", MOISTURE, PlanDrying, lit_moisture),
};

/* One mass to reach, or a range when nobody measured how damp the dust is. */
static void add_drying(Arena *arena, FieldGroup *root, const PlanDrying *drying) {
    FieldGroup *group = field_group_new(arena, root, "drying", 0);
    FIELD_ADD(arena, group, drying_members, drying);
    field_add_yes(arena, group, "to_mass", drying->needed && !drying->assumed);
    field_add_yes(arena, group, "to_range", drying->needed && drying->assumed);
}

void fields_of_fuel(Arena *arena, FieldGroup *root, const Plan *plan) {
    const PlanBlend *blend = &plan->blend;
    FieldGroup *group = field_group_new(arena, root, "blend", 0);
    field_add_text(arena, group, "name", plan->batch->blend.name);
    FIELD_ADD(arena, group, blend_members, blend);
    for (size_t i = 0; i < blend->parts.count; i++) {
        FieldGroup *row = field_group_new(arena, group, "part", (int)i + 1);
        FIELD_ADD(arena, row, dust_members, blend->parts.items[i].dust);
        FIELD_ADD(arena, row, part_members, &blend->parts.items[i]);
    }
    FIELD_ADD(arena, field_group_new(arena, group, "grain", 0), grain_members, &blend->grain);
    add_drying(arena, root, &plan->drying);
}
