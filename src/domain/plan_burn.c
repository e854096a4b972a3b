/* The fields of the burn, of the night from sample to sample, and of the chance by time. */
#include "domain/field_member.h"
#include "domain/word.h"

static const Member burn_members[] = {
    MEMBER(PlanBurn, light_at),
    MEMBER(PlanBurn, out_at),
    MEMBER(PlanBurn, out_about),
    MEMBER(PlanBurn, out_early),
    MEMBER(PlanBurn, out_late),
    MEASURED("duration", DURATION, PlanBurn, duration_s),
    MEASURED("smoking_time", DURATION, PlanBurn, smoking_s),
    MEASURED("speed", SPEED, PlanBurn, speed_mps),
    MEASURED("fuel_rate", RATE, PlanBurn, fuel_kg_per_h),
    MEASURED("speed_factor", RATIO, PlanBurn, speed_factor),
    MEASURED("log_spread", RATIO, PlanBurn, log_spread),
    MEMBER(PlanBurn, trials),
    MEMBER(PlanBurn, records),
    MEASURED("margin_at_start", RATIO, PlanBurn, margin_at_start),
    MEASURED("margin_least", RATIO, PlanBurn, margin_least),
    MEMBER(PlanBurn, margin_least_at),
    MEMBER(PlanBurn, dies),
    MEMBER(PlanBurn, dies_at),
    MEMBER(PlanBurn, untended_from),
    MEMBER(PlanBurn, untended_to),
    MEASURED("untended_out", SHARE, PlanBurn, untended_out),
    MEMBER(PlanBurn, alone_from),
    MEMBER(PlanBurn, alone_to),
    MEMBER(PlanBurn, first_look_in_at),
    MEASURED("wanted", DURATION, PlanBurn, wanted_s),
    MEASURED("thinnest", LENGTH, PlanBurn, thinnest_m),
    MEASURED("slowest", SPEED, PlanBurn, slowest_mps),
    MEASURED("fastest", SPEED, PlanBurn, fastest_mps),
    MEASURED("least_layer", LENGTH, PlanBurn, least_layer_m),
    MEASURED("dry_burnt", MASS, PlanBurn, dry_burnt_kg),
    MEASURED("chance", SHARE, PlanBurn, chance),
    MEASURED("chance_good", SHARE, PlanBurn, chance_good),
    MEASURED("chance_tend", SHARE, PlanBurn, chance_tend),
    MEMBER(PlanBurn, chance_said_in),
    MEMBER(PlanBurn, chance_said_of),
    MEMBER(PlanBurn, nights),
    MEMBER(PlanBurn, nights_lasted),
    MEMBER(PlanBurn, likely_out_at),
    MEMBER(PlanBurn, likely_out_fill),
    MEMBER(PlanBurn, likely_out_lane),
    MEASURED("likely_out_along", LENGTH, PlanBurn, likely_out_along_m),
};

static const Member sample_members[] = {
    MEMBER(PlanSample, at),
    MEMBER(PlanSample, fill),
    MEMBER(PlanSample, lane),
    MEASURED("along", LENGTH, PlanSample, along_m),
    MEASURED("speed", SPEED, PlanSample, speed_mps),
    MEASURED("moisture", MOISTURE, PlanSample, moisture),
    MEASURED("margin", RATIO, PlanSample, margin),
    MEASURED("margin_low", RATIO, PlanSample, margin_low),
    MEASURED("power", POWER, PlanSample, power_w),
    MEASURED("outside_temp", TEMPERATURE, PlanSample, outside_temp_c),
    MEASURED("outside_humidity", HUMIDITY, PlanSample, outside_humidity),
    MEASURED("cabinet_temp", TEMPERATURE, PlanSample, cabinet_temp_c),
    MEASURED("cabinet_humidity", HUMIDITY, PlanSample, cabinet_humidity),
    MEASURED("co", CONCENTRATION, PlanSample, co_mg_m3),
    MEASURED("lasting", SHARE, PlanSample, lasting),
};

static const Member lasting_members[] = {
    MEMBER(PlanLasting, at),
    MEASURED("lasting", SHARE, PlanLasting, lasting),
};

void fields_of_burn(Arena *arena, FieldGroup *root, const Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    FieldGroup *group = field_group_new(arena, root, "burn", 0);
    FIELD_ADD(arena, group, burn_members, burn);
    field_add_word(arena, group, "cause", word_of_cause(burn->cause));
    field_add_yes(arena, group, "measured", burn->trials + burn->records > 0);
    field_add_word(arena, group, "lasts",
                   burn->chance_said_in > 0 ? "chance.lasts" : "chance.lasts_few");
    field_add_word(arena, group, "stands_on",
                   burn->nights > 0 ? "chance.nights" : "chance.no_night");
    FIELD_ADD_ROWS(arena, root, "sample", sample_members, plan->samples);
    FIELD_ADD_ROWS(arena, root, "survival", lasting_members, plan->survival);
}
