/* Doubt: what a moisture that nobody measured does to the chance, against the mean of the chances
 * over all moistures that it may be. */
#include "model/doubt.h"
#include "model/speed_factor.h"
#include "model/session.h"
#include "model/store.h"

#include "support/arena_case.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

static double chance_at(Smokehouse *house, double moisture, double dried_to, double grain_to_m) {
    Dust *dust = ARENA_NEW(house->arena, Dust);
    *dust = smokehouse_dust("beech", moisture, 0.5e-3, grain_to_m);
    Batch *batch = smokehouse_batch(house, &house->fold, 8, 0.75);
    smokehouse_part(house, batch, dust, 1);
    if (!isnan(dried_to)) {
        smokehouse_dry_to(batch, dried_to);
    }
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(house->arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_FIGURES, &plan);
    return plan.burn.chance;
}

/* The moisture is normal about the store's middle, with its ends as the 80 % band: forty equal
 * slices of it, each a night with a measured dust. By hand, no closed form. */
static void the_chance_is_the_mean_over_all_it_may_be(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    StoreMoisture store = store_moisture(&house->workshop.store);
    double spread = (store.high - store.low) / (2 * 1.2815515655446004);
    static const double grains_m[] = {0.75e-3, 1.5e-3, 2.5e-3, 4e-3};
    for (size_t i = 0; i < sizeof grains_m / sizeof *grains_m; i++) {
        double sum = 0;
        for (int slice = 0; slice < 40; slice++) {
            double z = speed_normal_quantile((slice + 0.5) / 40);
            sum += chance_at(house, store.middle + z * spread, NAN, grains_m[i]) / 40;
        }
        assert_close(chance_at(house, NAN, NAN, grains_m[i]), sum, 0.02);
    }
}

static void an_assumed_moisture_is_never_surer_than_a_measured_one(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    StoreMoisture store = store_moisture(&house->workshop.store);
    double measured = chance_at(house, store.middle, NAN, 1e-3);
    double assumed = chance_at(house, NAN, NAN, 1e-3);
    assert_true(measured > 0.6 && assumed < measured - 0.002);
}

/* Dried until it loses no more it is as good as measured. */
static void drying_takes_the_doubt_away(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    StoreMoisture store = store_moisture(&house->workshop.store);
    assert_close(chance_at(house, NAN, 0.04, 1e-3), chance_at(house, store.middle, 0.04, 1e-3),
                 1e-9);
}

/* Of a night in that tray with grains between these sizes. */
static PlanBurn burn_of(Smokehouse *house, const Tray *tray, const Dust *model, double dried_to) {
    Dust *dust = ARENA_NEW(house->arena, Dust);
    *dust = *model;
    Batch *batch = smokehouse_batch(house, tray, 8, 0.75);
    smokehouse_part(house, batch, dust, 1);
    smokehouse_dry_to(batch, dried_to);
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(house->arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_FIGURES, &plan);
    return plan.burn;
}

static void judged_grain_and_metal_are_never_surer_than_measured(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Dust dust = smokehouse_dust("beech", 0.08, 0.5e-3, 1.2e-3);
    Tray tray = house->fold;
    double measured = burn_of(house, &tray, &dust, 0.04).chance;
    dust.grain_judged = true;
    double grain = burn_of(house, &tray, &dust, 0.04).chance;
    tray.metal_judged = true;
    double both = burn_of(house, &tray, &dust, 0.04).chance;
    assert_true(measured > 0.8 && grain < measured - 0.01 && both < grain - 0.001);
    dust.grain_judged = false;
    assert_true(burn_of(house, &tray, &dust, 0.04).chance < measured - 0.001);
}

/* The spreads cover what the model itself makes of grains and metal that are off by as much as a
 * kitchen sieve and a kind of mesh may be: an end of an 80 % band is 1.28 spreads out. */
static void the_spreads_cover_what_may_be_off(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    static const double sieves_m[] = {0.5e-3, 0.8e-3, 1.2e-3, 3e-3};
    static const double metals_kg_m2[] = {0.6, 0.9, 1.6, 4.7};
    double widest = 0;
    for (size_t i = 0; i < 3; i++)
        for (int finer = 0; finer < 2; finer++) {
            double off = finer ? 1 / 1.5 : 1.5;
            Dust dust = smokehouse_dust("beech", 0.08, sieves_m[i], sieves_m[i + 1]);
            double middle = burn_of(house, &house->fold, &dust, 0.04).margin_at_start;
            dust.grain_from_m *= off;
            dust.grain_to_m *= off;
            double end = burn_of(house, &house->fold, &dust, 0.04).margin_at_start;
            widest = fmax(widest, log(middle / end));
        }
    assert_true(widest <= 1.2816 * DOUBT_GRAIN_SPREAD && widest > 0.8 * DOUBT_GRAIN_SPREAD);
    widest = 0;
    for (size_t i = 0; i < sizeof metals_kg_m2 / sizeof *metals_kg_m2; i++) {
        Dust dust = smokehouse_dust("beech", 0.08, 0.5e-3, 1.2e-3);
        Tray tray = house->fold;
        tray.metal_kg_m2 = metals_kg_m2[i];
        double middle = burn_of(house, &tray, &dust, 0.04).margin_at_start;
        tray.metal_kg_m2 *= 1.4;
        widest = fmax(widest, log(middle / burn_of(house, &tray, &dust, 0.04).margin_at_start));
    }
    assert_true(widest <= 1.2816 * DOUBT_METAL_SPREAD && widest > 0.8 * DOUBT_METAL_SPREAD);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(the_chance_is_the_mean_over_all_it_may_be),
        CASE(an_assumed_moisture_is_never_surer_than_a_measured_one),
        CASE(drying_takes_the_doubt_away),
        CASE(judged_grain_and_metal_are_never_surer_than_measured),
        CASE(the_spreads_cover_what_may_be_off),
    };
    const char *against = "doubt: the mean over forty measured moistures";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
