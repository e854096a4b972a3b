/* Trade: what people who smoke cold know to be so has to come out of the model. None of these
 * facts has a printed source: common practice, no source, throughout. */
#include "model/fire_constants.h"
#include "model/session.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

typedef struct Evening {
    Arena *arena;
    Smokehouse *house;
} Evening;

static int open_house(void **state) {
    static Evening evening;
    evening.arena = arena_new();
    evening.house = smokehouse_new(evening.arena);
    *state = &evening;
    return 0;
}

static int shut_house(void **state) {
    Evening *evening = *state;
    arena_free(evening->arena);
    return 0;
}

static Plan plan_of(Evening *evening, const Batch *batch) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(evening->arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_WHOLE, &plan);
    return plan;
}

/* The plan of one or two dusts in a tray, on an ordinary night of late autumn. */
static Plan ordinary(Evening *evening, const Tray *tray, const Dust *dust, const Dust *other,
                     double other_share) {
    Batch *batch = smokehouse_batch(evening->house, tray, 8, 0.75);
    smokehouse_part(evening->house, batch, dust, 1 - other_share);
    if (other) {
        smokehouse_part(evening->house, batch, other, other_share);
    }
    return plan_of(evening, batch);
}

static Plan in_maze(Evening *evening, const Dust *dust, const Dust *other, double other_share) {
    return ordinary(evening, &evening->house->fold, dust, other, other_share);
}

static void clean_carrier_below_five_percent_holds(void **state) {
    Evening *evening = *state;
    Dust dust = evening->house->carrier;
    for (dust.moisture = 0.01; dust.moisture < 0.05; dust.moisture += 0.01) {
        Plan plan = in_maze(evening, &dust, NULL, 0);
        assert_true(plan.burn.margin_at_start > FIRE_MARGIN_GOOD);
        assert_true(plan.burn.chance > plan.burn.chance_good);
        assert_false(plan.burn.dies);
    }
}

static void grains_of_one_to_two_millimetres_are_the_coarsest_that_hold(void **state) {
    Evening *evening = *state;
    Dust fine = evening->house->carrier, chip = fine, coarse = fine;
    chip.grain_from_m = 1e-3;
    chip.grain_to_m = 2e-3;
    coarse.grain_from_m = 2e-3;
    coarse.grain_to_m = 4e-3;
    Plan held = in_maze(evening, &chip, NULL, 0);
    assert_true(held.burn.margin_least < in_maze(evening, &fine, NULL, 0).burn.margin_least);
    assert_true(held.burn.chance > held.burn.chance_tend);
    assert_true(held.burn.chance < held.burn.chance_good);
    Plan lost = in_maze(evening, &coarse, NULL, 0);
    assert_true(lost.burn.dies);
    assert_int_equal(lost.burn.cause, CAUSE_COARSE);
}

static void a_tenth_of_fines_is_the_edge_of_trouble_and_much_more_dies(void **state) {
    Evening *evening = *state;
    Dust *fines = ARENA_NEW(evening->arena, Dust);
    *fines = smokehouse_dust("beech", 0.04, 60e-6, 250e-6);
    const Dust *carrier = &evening->house->carrier;
    Plan clean = in_maze(evening, carrier, fines, 0.01);
    Plan edge = in_maze(evening, carrier, fines, 0.10);
    Plan lost = in_maze(evening, carrier, fines, 0.35);
    assert_true(clean.burn.chance > clean.burn.chance_good);
    assert_close(edge.blend.grain.fines_volume_share, 0.10, 0.01);
    assert_true(edge.burn.chance < edge.burn.chance_good);
    assert_true(edge.burn.chance > edge.burn.chance_tend);
    assert_true(lost.burn.dies);
    assert_int_equal(lost.burn.cause, CAUSE_FINES);
}

/* Eight hours in a channel of 2 mm plate. */
static Plan in_trough(Evening *evening, bool heaped) {
    Batch *batch = smokehouse_batch(evening->house, &evening->house->trough, 8, 0.75);
    smokehouse_part(evening->house, batch, &evening->house->carrier, 1);
    batch->fills.items[0].heaped = heaped;
    batch->fills.items[0].burn_time_s = 8 * 3600;
    return plan_of(evening, batch);
}

static void a_heavy_channel_dies_level_and_is_saved_by_a_heap(void **state) {
    Evening *evening = *state;
    Plan level = in_trough(evening, false);
    Plan heap = in_trough(evening, true);
    assert_true(level.burn.dies);
    assert_int_equal(level.burn.cause, CAUSE_METAL);
    assert_false(heap.burn.dies);
    assert_true(heap.burn.chance > heap.burn.chance_tend);
    assert_true(heap.fills.items[0].dry_kg > level.fills.items[0].dry_kg);
}

static void charred_residue_dies_alone_and_holds_when_blended(void **state) {
    Evening *evening = *state;
    Plan alone = in_maze(evening, &evening->house->residue, NULL, 0);
    Plan blended = in_maze(evening, &evening->house->carrier, &evening->house->residue, 0.12);
    assert_true(alone.burn.dies);
    assert_int_equal(alone.burn.cause, CAUSE_FINES);
    assert_false(blended.burn.dies);
    assert_true(blended.burn.chance > blended.burn.chance_tend);
}

/* At one and the same grain the char alone tells. */
static void charred_dust_holds_worse_than_the_wood_it_was(void **state) {
    Evening *evening = *state;
    Dust oak = smokehouse_dust("oak", 0.04, 500e-6, 750e-6), charred = oak;
    charred.charred = true;
    Plan wood = in_maze(evening, &oak, NULL, 0);
    Plan black = in_maze(evening, &charred, NULL, 0);
    assert_true(black.burn.margin_least < 0.9 * wood.burn.margin_least);
}

static void a_sulky_species_holds_when_cut_with_the_carrier(void **state) {
    Evening *evening = *state;
    Plan alone = in_maze(evening, &evening->house->sulky, NULL, 0);
    Plan cut = in_maze(evening, &evening->house->carrier, &evening->house->sulky, 0.4);
    assert_true(alone.burn.dies);
    assert_int_equal(alone.burn.cause, CAUSE_SULKY);
    assert_true(cut.burn.chance > cut.burn.chance_tend);
}

/* By the same dust on two nights: what the damp one costs at the start and at the end. */
static void cold_damp_air_costs_margin_late_rather_than_early(void **state) {
    Evening *evening = *state;
    Batch *fair = smokehouse_batch(evening->house, &evening->house->fold, 8, 0.60);
    Batch *damp = smokehouse_batch(evening->house, &evening->house->fold, 2, 0.98);
    smokehouse_part(evening->house, fair, &evening->house->carrier, 1);
    smokehouse_part(evening->house, damp, &evening->house->carrier, 1);
    Plan fair_plan = plan_of(evening, fair);
    Plan damp_plan = plan_of(evening, damp);
    double early = fair_plan.burn.margin_at_start - damp_plan.burn.margin_at_start;
    double late = fair_plan.burn.margin_least - damp_plan.burn.margin_least;
    assert_true(early >= 0);
    assert_true(late > 3 * early);
    assert_int_equal(damp_plan.burn.cause, CAUSE_DAMP_AIR);
    assert_true(damp_plan.burn.margin_least_at == damp_plan.burn.out_at);
}

static void undried_dust_on_a_cold_damp_night_is_not_lit(void **state) {
    Evening *evening = *state;
    Dust dust = evening->house->carrier, cherry = evening->house->cherry;
    dust.moisture = cherry.moisture = 0.15;
    Batch *batch = smokehouse_batch(evening->house, &evening->house->fold, 2, 0.98);
    smokehouse_part(evening->house, batch, &dust, 0.7);
    smokehouse_part(evening->house, batch, &cherry, 0.3);
    Plan plan = plan_of(evening, batch);
    assert_true(plan.burn.chance < plan.burn.chance_tend);
    assert_int_equal(plan.burn.cause, CAUSE_DAMP_DUST);
}

static void an_ordinary_maze_takes_about_eight_hours_or_more(void **state) {
    Evening *evening = *state;
    Plan plan = in_maze(evening, &evening->house->carrier, NULL, 0);
    assert_true(plan.burn.duration_s > 8 * 3600);
    assert_true(plan.burn.duration_s < 12 * 3600);
}

static void oven_drying_a_filled_tray_restores_the_margin(void **state) {
    Evening *evening = *state;
    Dust dust = evening->house->carrier;
    dust.moisture = 0.14;
    Batch *batch = smokehouse_batch(evening->house, &evening->house->fold, 8, 0.75);
    smokehouse_part(evening->house, batch, &dust, 1);
    Plan damp = plan_of(evening, batch);
    smokehouse_dry_to(batch, 0.03);
    Plan dried = plan_of(evening, batch);
    assert_true(damp.burn.chance < damp.burn.chance_good);
    assert_true(dried.burn.chance > dried.burn.chance_good);
    Plan clean = in_maze(evening, &evening->house->carrier, NULL, 0);
    assert_true(dried.burn.margin_at_start >= clean.burn.margin_at_start);
}

/* From the moisture of a shed (9 %) to below 5 %. */
static void one_ordinary_tray_takes_ten_to_fifteen_minutes_in_the_oven(void **state) {
    Evening *evening = *state;
    Dust dust = evening->house->carrier;
    dust.moisture = 0.09;
    Batch *batch = smokehouse_batch(evening->house, &evening->house->fold, 8, 0.75);
    smokehouse_part(evening->house, batch, &dust, 1);
    smokehouse_dry_to(batch, 0.04);
    Plan plan = plan_of(evening, batch);
    assert_true(plan.drying.time_s > 10 * 60);
    assert_true(plan.drying.time_s < 15 * 60);
}

/* More grams last longer, a deeper fill is slower per millimetre, and the mass burnt per hour
 * hardly depends on how hard the dust is packed. */
static void packing_and_depth_change_the_time_and_not_the_rate(void **state) {
    Evening *evening = *state;
    Batch *batch = smokehouse_batch(evening->house, &evening->house->fold, 8, 0.75);
    smokehouse_part(evening->house, batch, &evening->house->carrier, 1);
    Plan level = plan_of(evening, batch);
    batch->fills.items[0].packing = PACKING_TAMPED;
    Plan tamped = plan_of(evening, batch);
    batch->fills.items[0].packing = PACKING_LEVELLED;
    batch->fills.items[0].level = 0.6;
    Plan shallow = plan_of(evening, batch);
    assert_close_share(tamped.burn.fuel_kg_per_h, level.burn.fuel_kg_per_h, 0.03);
    assert_true(tamped.burn.duration_s > 1.1 * level.burn.duration_s);
    assert_true(shallow.burn.speed_mps > 1.1 * level.burn.speed_mps);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(clean_carrier_below_five_percent_holds),
        cmocka_unit_test(grains_of_one_to_two_millimetres_are_the_coarsest_that_hold),
        cmocka_unit_test(a_tenth_of_fines_is_the_edge_of_trouble_and_much_more_dies),
        cmocka_unit_test(a_heavy_channel_dies_level_and_is_saved_by_a_heap),
        cmocka_unit_test(charred_residue_dies_alone_and_holds_when_blended),
        cmocka_unit_test(charred_dust_holds_worse_than_the_wood_it_was),
        cmocka_unit_test(a_sulky_species_holds_when_cut_with_the_carrier),
        cmocka_unit_test(cold_damp_air_costs_margin_late_rather_than_early),
        cmocka_unit_test(undried_dust_on_a_cold_damp_night_is_not_lit),
        cmocka_unit_test(an_ordinary_maze_takes_about_eight_hours_or_more),
        cmocka_unit_test(oven_drying_a_filled_tray_restores_the_margin),
        cmocka_unit_test(one_ordinary_tray_takes_ten_to_fifteen_minutes_in_the_oven),
        cmocka_unit_test(packing_and_depth_change_the_time_and_not_the_rate),
    };
    const char *against = "trade facts: common practice, no source";
    return cmocka_run_group_tests_name(against, tests, open_house, shut_house);
}
