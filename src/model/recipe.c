#include "model/recipe.h"

#include "model/bounds.h"
#include "model/weighing.h"

#include <math.h>

/* Fines by volume from which sieving is advised, and to which: about a tenth is the edge of
 * trouble (common practice, no source). */

/* A moisture that was measured too long ago counts as not measured. */
static DustFigures figures_of(const Store *store, Date on, const Dust *dust) {
    StoreMoisture kept = store_moisture(store);
    Dust known = *dust;
    if (dust->measured.year != 0 && store_measure_is_old(store, dust->measured, on)) {
        known.moisture = NOT_STATED;
    }
    DustFigures figures = blend_dust(&known, &kept);
    figures.dust = dust;
    return figures;
}

DustFigures *recipe_dusts(Arena *arena, const Blend *blend, const Store *store, Date on) {
    DustFigures *dusts = ARENA_ARRAY(arena, blend->parts.count, DustFigures);
    for (size_t i = 0; i < blend->parts.count; i++) {
        dusts[i] = figures_of(store, on, blend->parts.items[i].dust);
    }
    return dusts;
}

static double dry_total_kg(const Night *night) {
    double dry_kg = 0;
    for (size_t i = 0; i < night->lightings.count; i++) {
        dry_kg += night->lightings.items[i].dry_kg;
    }
    return dry_kg;
}

static void weigh_out(Arena *arena, const Night *night, PlanBlend *blend) {
    size_t count = blend->parts.count;
    double *shares = ARENA_ARRAY(arena, count, double);
    long long *steps = ARENA_ARRAY(arena, count, long long);
    double step_kg = weighing_step_kg(night->batch->workshop->scale.resolution_kg);
    for (size_t i = 0; i < count; i++) {
        shares[i] = blend->parts.items[i].wet_share;
    }
    double wet_kg = dry_total_kg(night) * (1 + blend->moisture);
    long long total = weighing_split(wet_kg, step_kg, shares, count, steps);
    long long running = 0;
    blend->wet_kg = (double)total * step_kg;
    blend->dry_kg = 0;
    for (size_t i = 0; i < count; i++) {
        PlanPart *part = &blend->parts.items[i];
        running += steps[i];
        part->wet_kg = (double)steps[i] * step_kg;
        part->running_kg = (double)running * step_kg;
        part->dry_kg = part->wet_kg / (1 + part->moisture);
        blend->dry_kg += part->dry_kg;
    }
}

static void add_parts(Arena *arena, const Blend *order, const DustFigures *dusts,
                      const double *dry_shares, const Mix *mix, PlanBlend *blend) {
    for (size_t i = 0; i < order->parts.count; i++) {
        double wet = dry_shares[i] * (1 + dusts[i].moisture) / (1 + mix->moisture);
        double volume = dry_shares[i] / dusts[i].bulk_dry_kg_m3 * mix->fuel.bulk_dry_kg_m3;
        LIST_ADD(arena, &blend->parts,
                 ((PlanPart){.dust = dusts[i].dust,
                             .carrier = order->parts.items[i].kind == SHARE_LEAST,
                             .dry_share = dry_shares[i],
                             .wet_share = wet,
                             .volume_share = volume,
                             .moisture = dusts[i].moisture,
                             .moisture_low = dusts[i].moisture_low,
                             .moisture_high = dusts[i].moisture_high,
                             .moisture_assumed = dusts[i].moisture_assumed}));
        blend->moisture_assumed = blend->moisture_assumed || dusts[i].moisture_assumed;
    }
}

static void solver_result(const CarrierFound *found, PlanBlend *blend) {
    blend->solver = found ? found->outcome : SOLVER_NOT_ASKED;
    blend->carrier_share = NOT_STATED;
    blend->best_chance = NOT_STATED;
    if (!found) {
        return;
    }
    blend->carrier_share = 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const PlanPart *part = &blend->parts.items[i];
        blend->carrier_share += part->carrier ? part->dry_share : 0;
    }
    if (found->outcome == SOLVER_INFEASIBLE) {
        blend->best_chance = found->chance;
    }
}

void recipe_mix(Arena *arena, const Blend *order, const DustFigures *dusts,
                const double *dry_shares, const Mix *mix, PlanBlend *blend) {
    *blend = (PlanBlend){.moisture = mix->moisture, .bulk_density_kg_m3 = mix->fuel.bulk_dry_kg_m3};
    blend->grain = blend_grain_figures(&mix->grain_by_mass, &mix->grain_by_volume);
    add_parts(arena, order, dusts, dry_shares, mix, blend);
}

void recipe_fill(Arena *arena, const Night *night, const DustFigures *dusts,
                 const double *dry_shares, const Mix *mix, const CarrierFound *found,
                 PlanBlend *blend) {
    recipe_mix(arena, &night->batch->blend, dusts, dry_shares, mix, blend);
    weigh_out(arena, night, blend);
    solver_result(found, blend);
}

void recipe_drying(const Night *night, PlanDrying *drying) {
    const NightDrying *dried = &night->drying;
    const Lighting *first = &night->lightings.items[0];
    double dry_kg = dry_total_kg(night);
    double from = night->batch->predry.stated ? dried->load.moisture : dried->moisture;
    double water_kg = dry_kg * (from - dried->moisture);
    double step_kg = weighing_step_kg(night->batch->workshop->scale.resolution_kg);
    *drying = (PlanDrying){
        .asked = night->batch->predry.stated,
        .needed = dried->time_s > 0,
        .oven_temp_c = night->batch->predry.stated ? night->batch->predry.oven_temp_c : NOT_STATED,
        .time_s = dried->time_s,
        .from_moisture = from,
        .to_moisture = dried->moisture,
        .start_kg = dry_kg * (1 + from),
        .end_kg = dry_kg * (1 + dried->moisture),
        .floor_moisture = dried->time_s > 0 ? drying_floor(&dried->load) : NOT_STATED,
        .water_kg = water_kg,
        .scale_step_kg = step_kg,
        .wait_s = dried->wait_s,
        .wait_sealed = night->batch->workshop->store.sealed,
        .lit_moisture = first->lit_moisture,
    };
}

static double whole_steps_kg(double mass_kg, double step_kg) {
    return round(mass_kg / step_kg) * step_kg;
}

static bool told(double loss_kg, double step_kg) {
    return loss_kg > (DRYING_STEPS_TOLD - 0.5) * step_kg;
}

/* What nobody measured: the dry dust in what was weighed out if all of it is as damp, or as dry, as
 * it may well be. */
static double dry_kg_if(const PlanBlend *blend, bool damp) {
    double dry_kg = 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const PlanPart *part = &blend->parts.items[i];
        dry_kg += part->wet_kg / (1 + (damp ? part->moisture_high : part->moisture_low));
    }
    return dry_kg;
}

/* From damp dust dried as far as the oven gets it to dry dust that only reaches the target. The
 * ends are rounded outwards. */
static void show_range_on_scale(Plan *plan) {
    PlanDrying *drying = &plan->drying;
    double step_kg = drying->scale_step_kg;
    double floor_moisture = fmin(drying->floor_moisture, drying->to_moisture);
    double low_kg = dry_kg_if(&plan->blend, true) * (1 + floor_moisture);
    double high_kg = dry_kg_if(&plan->blend, false) * (1 + drying->to_moisture);
    drying->end_low_kg = floor(low_kg / step_kg) * step_kg;
    drying->end_high_kg = fmin(ceil(high_kg / step_kg) * step_kg, drying->start_kg);
    drying->scale_can_tell = told(drying->start_kg - drying->end_low_kg, step_kg);
}

/* What is put into the oven is what was weighed out, rounding included; the loss is the difference
 * of two readings. */
static void show_drying_on_scale(Plan *plan) {
    PlanDrying *drying = &plan->drying;
    double step_kg = drying->scale_step_kg;
    double dried_kg = plan->blend.dry_kg * (1 + drying->to_moisture);
    drying->start_kg = plan->blend.wet_kg;
    drying->end_kg = fmin(whole_steps_kg(dried_kg, step_kg), drying->start_kg);
    drying->water_kg = drying->start_kg - drying->end_kg;
    drying->scale_can_tell = told(drying->water_kg, step_kg);
    drying->end_low_kg = drying->end_high_kg = drying->end_kg;
    if (drying->assumed) {
        show_range_on_scale(plan);
    }
}

/* What is left of each fill's dust when it is dry, rounded down to the scale: the last refill must
 * not be short of what the others took too much. */
static void weigh_dried(Plan *plan) {
    const PlanDrying *drying = &plan->drying;
    double left = drying->needed ? drying->end_kg / drying->start_kg : 1;
    for (size_t i = 0; i < plan->fills.count; i++) {
        PlanFill *fill = &plan->fills.items[i];
        double steps = floor(fill->wet_kg * left / drying->scale_step_kg + 1e-6);
        fill->ready_kg = left < 1 ? steps * drying->scale_step_kg : fill->wet_kg;
    }
}

void recipe_on_scale(Arena *arena, Plan *plan) {
    size_t count = plan->fills.count;
    double *shares = ARENA_ARRAY(arena, count, double);
    long long *steps = ARENA_ARRAY(arena, count, long long);
    double step_kg = plan->drying.scale_step_kg;
    plan->drying.assumed = plan->blend.moisture_assumed;
    for (size_t i = 0; i < count; i++) {
        shares[i] = plan->fills.items[i].wet_kg;
    }
    weighing_split(plan->blend.wet_kg, step_kg, shares, count, steps);
    for (size_t i = 0; i < count; i++) {
        plan->fills.items[i].wet_kg = (double)steps[i] * step_kg;
    }
    if (plan->drying.needed) {
        show_drying_on_scale(plan);
    }
    weigh_dried(plan);
}
