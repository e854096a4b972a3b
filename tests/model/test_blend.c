/* Blend, weighing, recipe: mixing rules by hand, and rounding laws. */
#include "model/bag.h"
#include "model/blend.h"
#include "model/fire_constants.h"
#include "model/session.h"
#include "model/weighing.h"
#include "model/wood.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

static StoreMoisture kept_at(double moisture) {
    return (StoreMoisture){moisture, moisture, moisture};
}

/* Of a log-uniform curve the size at a share is known: from (to/from)^share. */
static void the_middle_sizes_are_those_of_the_curve(void **state) {
    (void)state;
    Grain grain;
    assert_int_equal(grain_from_range(2e-4, 2e-3, &grain), GRAIN_WHOLE);
    GrainFigures figures = blend_grain_figures(&grain, &grain);
    for (int i = 0; i < MIDDLE_SIZES; i++)
        assert_close(figures.middle_m[i], 2e-4 * pow(10, 0.1 + 0.02 * i), 1e-9);
    assert_close(figures.middle_m[0], figures.d10_m, 0);
    assert_close(figures.middle_m[MIDDLE_SIZES - 1], figures.d90_m, 1e-12);
}

static void a_dust_with_nothing_stated(void **state) {
    (void)state;
    StoreMoisture kept = kept_at(0.13), none = kept_at(0);
    Dust dust = smokehouse_dust("beech", NAN, NAN, NAN);
    DustFigures figures = blend_dust(&dust, &kept);
    assert_true(figures.moisture_assumed);
    assert_close(figures.moisture, 0.13, 0);
    /* Briggs' 0.40 of the specific gravity, 0.58 for European beech (from memory): 232 */
    assert_close(figures.bulk_dry_kg_m3, 232, 1e-9);
    assert_close(figures.particle_kg_m3, 580, 1e-9);
    assert_close(figures.steadiness, 1, 0);
    assert_close(grain_sauter_m(&figures.grain), FIRE_REFERENCE_SAUTER_M, 1e-8);
    Dust herb = smokehouse_dust("moonleaf", 0.1, 1e-3, 2e-3);
    herb.form = FORM_LEAF;
    assert_close(blend_dust(&herb, &none).steadiness, wood_unknown(true)->steadiness, 0);
    herb.material = NULL;
    assert_close(blend_dust(&herb, &none).steadiness, wood_unknown(true)->steadiness, 0);
}

static void what_was_weighed_and_stated_counts(void **state) {
    (void)state;
    StoreMoisture kept = kept_at(0.5);
    Dust dust = smokehouse_dust("beech", 0.16, 500e-6, 750e-6);
    dust.bulk_density_kg_m3 = 232;
    dust.steadiness = 0.8;
    DustFigures figures = blend_dust(&dust, &kept);
    assert_false(figures.moisture_assumed);
    assert_close(figures.bulk_dry_kg_m3, 200, 1e-9);
    assert_close(figures.steadiness, 0.8, 0);
    dust.bulk_density_kg_m3 = 900; /* heavier than the table's grains: then so are they */
    assert_true(blend_dust(&dust, &kept).particle_kg_m3 > 900 / 1.16);
}

/* It protects itself and goes out sooner, at the same grain: by 0.85 (common practice, no source).
 * A steadiness that was stated is that of the dust as it is. */
static void charred_dust_is_less_steady(void **state) {
    (void)state;
    StoreMoisture none = kept_at(0);
    Dust dust = smokehouse_dust("oak", 0.05, 500e-6, 750e-6), charred = dust;
    charred.charred = true;
    DustFigures plain = blend_dust(&dust, &none), black = blend_dust(&charred, &none);
    assert_close(black.steadiness, 0.85 * plain.steadiness, 1e-12);
    assert_close(grain_sauter_m(&black.grain), grain_sauter_m(&plain.grain), 0);
    charred.steadiness = 0.9;
    assert_close(blend_dust(&charred, &none).steadiness, 0.9, 0);
}

/* Two dusts, 3 : 1 dry; moistures 10 and 20 %; bulk 200 and 300: by hand. */
static void mixing_by_hand(void **state) {
    (void)state;
    Dust a = smokehouse_dust("beech", 0.10, 500e-6, 750e-6);
    Dust b = smokehouse_dust("cherry", 0.20, 1e-3, 2e-3);
    a.bulk_density_kg_m3 = 200 * 1.10;
    b.bulk_density_kg_m3 = 300 * 1.20;
    StoreMoisture none = kept_at(0);
    DustFigures dusts[2] = {blend_dust(&a, &none), blend_dust(&b, &none)};
    double dry[2] = {0.75, 0.25};
    Mix mix = blend_mix(dusts, dry, 2);
    assert_close(mix.moisture, 0.75 * 0.10 + 0.25 * 0.20, 1e-15);
    assert_close(mix.fuel.bulk_dry_kg_m3, 1 / (0.75 / 200 + 0.25 / 300), 1e-9);
    assert_close(mix.fuel.steadiness, 0.75 + 0.25 * 0.88, 1e-12);
    assert_close(mix.fuel.particle_kg_m3, 1 / (0.75 / 580 + 0.25 / 470), 1e-9);
    /* surface adds by grain volume: 1/d = sum of volume shares over d */
    double va = 0.75 / 580, vb = 0.25 / 470;
    double sauter_a = FIRE_REFERENCE_SAUTER_M, sauter_b = 1e-3 * log(2) / 0.5;
    double inverse = (va / sauter_a + vb / sauter_b) / (va + vb);
    assert_close_share(mix.fuel.sauter_m, 1 / inverse, 1e-6);
    assert_close(blend_fuel(dusts, dry, 2).sauter_m, mix.fuel.sauter_m, 1e-15);
    assert_close(grain_finer(&mix.grain_by_mass, 0.9e-3), 0.75, 1e-9);
}

static void shares_by_mass_and_by_volume(void **state) {
    (void)state;
    Dust a = smokehouse_dust("beech", 0.10, 500e-6, 750e-6);
    Dust b = smokehouse_dust("cherry", 0.20, 1e-3, 2e-3);
    a.bulk_density_kg_m3 = 200 * 1.10;
    b.bulk_density_kg_m3 = 300 * 1.20;
    StoreMoisture none = kept_at(0);
    DustFigures dusts[2] = {blend_dust(&a, &none), blend_dust(&b, &none)};
    double shares[2] = {50, 50}, dry[2];
    blend_dry_shares(dusts, shares, 2, false, dry);
    assert_close(dry[0], (1 / 1.1) / (1 / 1.1 + 1 / 1.2), 1e-15);
    blend_dry_shares(dusts, shares, 2, true, dry);
    assert_close(dry[0], 0.4, 1e-15);
    double nothing[2] = {0, 0};
    blend_dry_shares(dusts, nothing, 2, true, dry);
    assert_close(dry[0], 0.5, 0);
}

/* The total exact, each part off by less than a step, over random recipes. */
static void weighing_keeps_its_laws(void **state) {
    (void)state;
    uint64_t seed = 31;
    for (int i = 0; i < 5000; i++) {
        double shares[12], sum = 0;
        long long steps[12], given = 0;
        size_t count = 1 + (size_t)close_random(&seed, 0, 11.99);
        double step_kg = pow(10, floor(close_random(&seed, -4, -1)));
        double total_kg = close_random(&seed, step_kg, 3);
        for (size_t j = 0; j < count; j++) {
            shares[j] = close_random(&seed, 0, 1) < 0.1 ? 0 : close_random(&seed, 0, 1);
            sum += shares[j];
        }
        shares[0] += 0.01;
        sum += 0.01;
        long long total = weighing_split(total_kg, step_kg, shares, count, steps);
        assert_true((double)total * step_kg > total_kg * (1 - 1e-9));
        assert_true((double)total * step_kg < total_kg + step_kg);
        for (size_t j = 0; j < count; j++) {
            assert_true(steps[j] >= 0);
            assert_true(fabs((double)steps[j] - (double)total * shares[j] / sum) < 1);
            given += steps[j];
        }
        assert_true(given == total);
    }
}

/* Largest remainders by hand: 10 g in thirds of 1 : 1 : 1, and 7 g in 0.5 : 0.3 : 0.2. */
static void weighing_by_hand(void **state) {
    (void)state;
    long long steps[3];
    double thirds[3] = {1, 1, 1}, uneven[3] = {0.5, 0.3, 0.2};
    assert_true(weighing_split(0.010, 0.001, thirds, 3, steps) == 10);
    assert_true(steps[0] == 4 && steps[1] == 3 && steps[2] == 3);
    assert_true(weighing_split(0.007, 0.001, uneven, 3, steps) == 7);
    assert_true(steps[0] == 4 && steps[1] == 2 && steps[2] == 1);
    assert_true(weighing_split(0.0070000000001, 0.001, uneven, 3, steps) == 7);
    assert_true(weighing_split(0.00701, 0.001, uneven, 3, steps) == 8);
    assert_close(weighing_step_kg(0.005), 0.005, 0);
    assert_close(weighing_step_kg(0), 0.001, 0);
    assert_close(weighing_step_kg(NAN), 0.001, 0);
}

static Plan plan_of(Arena *arena, const Batch *batch) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_FIGURES, &plan);
    return plan;
}

static void stock_is_counted_once_for_a_dust_named_twice(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    house->carrier.stock_kg = 0.060;
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.7);
    smokehouse_part(house, batch, &house->carrier, 0.5);
    smokehouse_part(house, batch, &house->carrier, 0.3);
    smokehouse_part(house, batch, &house->cherry, 0.2);
    Plan plan = plan_of(arena, batch);
    bag_plan(arena, batch, (Date){0}, &plan);
    double used = plan.blend.parts.items[0].wet_kg + plan.blend.parts.items[1].wet_kg;
    assert_close(plan.blend.parts.items[0].stock_left_kg, 0.060 - used, 1e-12);
    assert_close(plan.blend.parts.items[1].stock_left_kg, 0.060 - used, 1e-12);
    assert_true(plan.blend.parts.items[0].short_of_stock);
    assert_true(isnan(plan.blend.parts.items[2].stock_left_kg));
    assert_false(plan.blend.parts.items[2].short_of_stock);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_middle_sizes_are_those_of_the_curve),
        cmocka_unit_test(a_dust_with_nothing_stated),
        cmocka_unit_test(what_was_weighed_and_stated_counts),
        cmocka_unit_test(charred_dust_is_less_steady),
        cmocka_unit_test(mixing_by_hand),
        cmocka_unit_test(shares_by_mass_and_by_volume),
        cmocka_unit_test(weighing_keeps_its_laws),
        cmocka_unit_test(weighing_by_hand),
        cmocka_unit_test(stock_is_counted_once_for_a_dust_named_twice),
    };
    const char *against = "blend: mixing by hand, laws of rounding";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
