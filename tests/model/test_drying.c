/* Drying: against a step-by-step simulation of the same balance, limits, and round trips. */
#include "model/air.h"
#include "model/drying.h"
#include "model/session.h"
#include "model/store.h"
#include "model/wood.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

static DryingLoad ordinary_load(void) {
    return (DryingLoad){.dry_kg = 0.085,
                        .moisture = 0.09,
                        .metal_kg = 0.05,
                        .area_m2 = 0.03,
                        .start_c = 20,
                        .air_vapour_pa = 1170,
                        .oven_c = 100,
                        .transfer_w_m2k = 18};
}

/* Heat that must go in is a floor under the time: warming to 40 °C and evaporating at the whole
 * difference between oven and 40 °C; and the whole at a third of the difference is a ceiling. */
static void time_lies_between_plain_heat_balances(void **state) {
    (void)state;
    DryingLoad load = ordinary_load();
    double time_s = drying_time_s(&load, 0.04);
    double heat_j = 0.085 * (1500 + 0.09 * 4190) * 20 + 0.085 * 0.05 * 2.4e6;
    double feed = 18 * 0.03;
    assert_true(time_s > heat_j / (feed * 80));
    assert_true(time_s < (heat_j + 0.05 * 490 * 60 + 0.085 * 1600 * 40) / (feed * 80.0 / 3));
}

/* Bed temperature and moisture stepped in time by half-second Euler steps: heat in by convection,
 * heat out with the vapour, which leaves by the Lewis relation (h/66 Pa/K per latent heat). */
static double stepped_moisture(const DryingLoad *load, double time_s) {
    double bed_c = load->start_c, moisture = load->moisture, step_s = 0.25;
    for (double now_s = 0; now_s < time_s; now_s += step_s) {
        double low = 0, high = 1;
        for (int i = 0; i < 40; i++) {
            double middle = (low + high) / 2;
            bool over = wood_equilibrium_moisture(bed_c, middle) > moisture;
            *(over ? &high : &low) = middle;
        }
        double latent = 2.36e6 + 1.17e6 * exp(-14 * moisture);
        double drive_pa = high * air_saturation_over_water_pa(bed_c) - load->air_vapour_pa;
        double away_w = fmax(load->transfer_w_m2k * load->area_m2 / 66 * drive_pa, 0);
        double in_w = load->transfer_w_m2k * load->area_m2 * (load->oven_c - bed_c);
        double capacity = load->dry_kg * (1500 + moisture * 4190) + load->metal_kg * 490;
        moisture = fmax(moisture - away_w / latent / load->dry_kg * step_s, 0);
        bed_c += (in_w - away_w) / capacity * step_s;
    }
    return moisture;
}

static void agrees_with_a_simulation_in_time(void **state) {
    (void)state;
    DryingLoad load = ordinary_load();
    for (double minutes = 8; minutes <= 40; minutes += 8) {
        assert_close(drying_moisture_after(&load, minutes * 60),
                     stepped_moisture(&load, minutes * 60), 0.006);
    }
    load.moisture = 0.5;
    assert_close(drying_moisture_after(&load, 3600), stepped_moisture(&load, 3600), 0.02);
}

static void time_and_moisture_are_each_others_inverse(void **state) {
    (void)state;
    uint64_t seed = 8;
    for (int i = 0; i < 2000; i++) {
        DryingLoad load = {.dry_kg = close_random(&seed, 0.01, 2),
                           .moisture = close_random(&seed, 0.01, 0.8),
                           .metal_kg = close_random(&seed, 0, 3),
                           .area_m2 = close_random(&seed, 0.005, 0.5),
                           .start_c = close_random(&seed, -10, 30),
                           .air_vapour_pa = close_random(&seed, 200, 2500),
                           .oven_c = close_random(&seed, 40, 160),
                           .transfer_w_m2k = close_random(&seed, 5, 60)};
        double before = load.moisture;
        for (double hours = 0.1; hours < 40; hours *= 2) {
            double now = drying_moisture_after(&load, hours * 3600);
            assert_true(now >= 0 && now <= before + 1e-12);
            before = now;
        }
        double target = close_random(&seed, 0.005, load.moisture);
        double time_s = drying_time_s(&load, target);
        assert_true(time_s >= 0 && time_s <= 24 * 3600);
        if (time_s > 0 && time_s < 24 * 3600 && target > drying_floor(&load)) {
            assert_close(drying_moisture_after(&load, time_s), target, 1e-6);
        }
    }
}

static void warmer_and_faster_air_dries_sooner(void **state) {
    (void)state;
    DryingLoad load = ordinary_load();
    double plain_s = drying_time_s(&load, 0.04);
    load.oven_c = 80;
    assert_true(drying_time_s(&load, 0.04) > plain_s);
    load.oven_c = 100;
    load.transfer_w_m2k = 11;
    assert_close_share(drying_time_s(&load, 0.04), plain_s * 18 / 11, 1e-9);
}

static void dry_dust_has_nothing_to_do(void **state) {
    (void)state;
    DryingLoad load = ordinary_load();
    assert_close(drying_time_s(&load, 0.09), 0, 0);
    assert_close(drying_time_s(&load, 0.2), 0, 0);
}

static void ovens(void **state) {
    (void)state;
    Oven oven = {.fan = true, .heat_transfer_w_m2k = NAN};
    assert_close(drying_transfer_w_m2k(&oven), 18, 0);
    oven.fan = false;
    assert_close(drying_transfer_w_m2k(&oven), 11, 0);
    oven.heat_transfer_w_m2k = 25;
    assert_close(drying_transfer_w_m2k(&oven), 25, 0);
}

static Plan plan_of(Arena *arena, const Batch *batch) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_FIGURES, &plan);
    return plan;
}

/* Masses on the scale differ by the water, and the scale tells from two steps on. */
static void the_plan_says_what_to_see_on_the_scale(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    house->carrier.moisture = 0.09;
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.78);
    smokehouse_part(house, batch, &house->carrier, 1);
    smokehouse_dry_to(batch, 0.04);
    Plan plan = plan_of(arena, batch);
    const PlanDrying *drying = &plan.drying;
    assert_true(drying->asked && drying->needed && drying->scale_can_tell);
    assert_close(drying->start_kg - drying->end_kg, drying->water_kg, 1e-12);
    assert_close(drying->start_kg, plan.blend.wet_kg, 1e-12);
    assert_close(drying->start_kg, plan.fills.items[0].wet_kg, 1e-12);
    /* Each reading is off by less than a step of 1 g. */
    assert_close(drying->water_kg, plan.fills.items[0].dry_kg * 0.05, 0.0015);
    assert_close(drying->to_moisture, 0.04, 1e-12);
    assert_close(drying->lit_moisture, 0.04, 1e-12);
    house->workshop.scale.resolution_kg = 0.005;
    assert_false(plan_of(arena, batch).drying.scale_can_tell);
    batch->predry.target = 0.15;
    plan = plan_of(arena, batch);
    assert_true(plan.drying.asked);
    assert_false(plan.drying.needed);
    assert_close(plan.drying.time_s, 0, 0);
    assert_close(plan.drying.lit_moisture, 0.09, 1e-12);
    arena_free(arena);
}

/* A dust of 10 g water in 110 g is 0.1 on dry basis: W / (1 + M) dry. Whatever the dust's true
 * moisture is within the store's range, and however far the oven takes it beyond the target, its
 * mass falls inside what is printed; and the range is no wider than that by more than a step. */
static void dust_that_nobody_measured_gets_a_range(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    house->carrier.moisture = NAN;
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.9);
    smokehouse_part(house, batch, &house->carrier, 1);
    smokehouse_dry_to(batch, 0.03);
    Plan plan = plan_of(arena, batch);
    const PlanDrying *drying = &plan.drying;
    StoreMoisture kept = store_moisture(&house->workshop.store);
    double step_kg = drying->scale_step_kg;
    assert_true(drying->assumed);
    double least_kg = drying->start_kg / (1 + kept.high) * (1 + fmin(drying->floor_moisture, 0.03));
    double most_kg = drying->start_kg / (1 + kept.low) * 1.03;
    assert_true(drying->end_low_kg <= least_kg && least_kg < drying->end_low_kg + step_kg);
    assert_true(drying->end_high_kg >= most_kg && most_kg > drying->end_high_kg - step_kg);
    assert_true(drying->end_low_kg <= drying->end_kg && drying->end_kg <= drying->end_high_kg);
    house->carrier.moisture = 0.09;
    plan = plan_of(arena, batch);
    assert_false(plan.drying.assumed);
    assert_close(plan.drying.end_low_kg, plan.drying.end_kg, 0);
    assert_close(plan.drying.end_high_kg, plan.drying.end_kg, 0);
    arena_free(arena);
}

static void open_store_gives_back_water_and_a_sealed_one_does_not(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    house->carrier.moisture = 0.09;
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.9);
    smokehouse_part(house, batch, &house->carrier, 1);
    smokehouse_dry_to(batch, 0.03);
    batch->predry.wait_s = 4 * 3600;
    assert_close(plan_of(arena, batch).drying.lit_moisture, 0.03, 1e-12);
    house->workshop.store.sealed = false;
    Plan open = plan_of(arena, batch);
    assert_true(open.drying.lit_moisture > 0.05);
    assert_false(open.drying.wait_sealed);
    assert_close(open.drying.wait_s, 4 * 3600 + DRYING_COOLING_S, 0);
    /* Law: what is lit as soon as it has cooled has not waited, and took up nothing; and a little
     * waiting takes up a little. */
    batch->predry.wait_s = 0;
    assert_close(plan_of(arena, batch).drying.lit_moisture, 0.03, 1e-12);
    batch->predry.wait_s = NOT_STATED;
    assert_close(plan_of(arena, batch).drying.lit_moisture, 0.03, 1e-12);
    batch->predry.wait_s = 60;
    double soon = plan_of(arena, batch).drying.lit_moisture;
    assert_true(soon > 0.03 && soon < 0.0305);
    batch->predry.wait_s = 4 * 3600;
    house->workshop.store.humidity = 0.3; /* a dry kitchen instead of the night */
    house->workshop.store.temp_c = 20;
    assert_true(plan_of(arena, batch).drying.lit_moisture < open.drying.lit_moisture);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(time_lies_between_plain_heat_balances),
        cmocka_unit_test(agrees_with_a_simulation_in_time),
        cmocka_unit_test(time_and_moisture_are_each_others_inverse),
        cmocka_unit_test(warmer_and_faster_air_dries_sooner),
        cmocka_unit_test(dry_dust_has_nothing_to_do),
        cmocka_unit_test(ovens),
        cmocka_unit_test(the_plan_says_what_to_see_on_the_scale),
        cmocka_unit_test(dust_that_nobody_measured_gets_a_range),
        cmocka_unit_test(open_store_gives_back_water_and_a_sealed_one_does_not),
    };
    const char *against = "drying: plain heat balances, a simulation in time";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
