/* Speed factor: closed forms against numerical integration, and simulated burns against the
 * band. */
#include "model/fire_constants.h"
#include "model/front.h"
#include "model/night.h"
#include "model/speed_factor.h"
#include "model/speed_constants.h"
#include "model/session.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

/* Standard normal quantiles as printed in every table (from memory). */
static void quantiles_as_printed(void **state) {
    (void)state;
    static const double rows[][2] = {{0.5, 0},
                                     {0.9, 1.2815515655},
                                     {0.975, 1.9599639845},
                                     {0.99, 2.3263478740},
                                     {0.999, 3.0902323062}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_close(speed_normal_quantile(rows[i][0]), rows[i][1], 1e-9);
        assert_close(speed_normal_quantile(1 - rows[i][0]), -rows[i][1], 1e-9);
    }
    for (double chance = 1e-6; chance < 1; chance *= 1.7) {
        assert_close_share(0.5 * erfc(-speed_normal_quantile(chance) / sqrt(2)), chance, 1e-9);
    }
}

static BurnKind kind_of(const Dust *dust, const Tray *tray) {
    return (BurnKind){.tray = tray, .count = 1, .dusts = {dust}, .dry_shares = {1}};
}

static void nothing_measured(void **state) {
    (void)state;
    SpeedObservations none = {0};
    Dust dust = smokehouse_dust("beech", 0.05, 1e-3, 2e-3);
    BurnKind kind = kind_of(&dust, NULL);
    SpeedFactor speed_factor = speed_factor_learnt(&none, &kind),
                unmeasured = speed_factor_unmeasured();
    assert_close(speed_factor.middle, 1, 0);
    assert_close(speed_factor.log_spread, SPEED_LOG_SPREAD, 0.002);
    assert_close(log(speed_factor_at(&speed_factor, 0.9)), 0.40 * 1.2815515655, 0.003);
    assert_close(speed_factor_at(&speed_factor, 0.9) * speed_factor_at(&speed_factor, 0.1), 1,
                 1e-9);
    assert_close(speed_factor_at(&speed_factor, 0.5), 1, 1e-9);
    assert_memory_equal(&speed_factor, &unmeasured, sizeof speed_factor);
}

/* Kim, Kim & Rie 2017 (looked up): 50.4–64.8 mm/h in beds of 204–234 kg/m³. The middle of it, in a
 * bed as dense, has to lie in the band of a burn of which nothing was measured. */
static void the_looked_up_speed_lies_in_the_band(void **state) {
    (void)state;
    Bed bed = bed_reference();
    bed.dry_kg_m3 = bed.fuel.bulk_dry_kg_m3 = (204 + 234) / 2.0;
    SpeedFactor speed_factor = speed_factor_unmeasured();
    double slow_mps = front_speed_mps(&bed, speed_factor_at(&speed_factor, 0.1), 0.04, 10);
    double fast_mps = front_speed_mps(&bed, speed_factor_at(&speed_factor, 0.9), 0.04, 10);
    double middle_mps = (50.4e-3 + 64.8e-3) / 2 / 3600;
    assert_true(slow_mps < middle_mps && middle_mps < fast_mps);
}

/* What is believed of the next burn on the same dust and tray after burns were seen, by brute
 * force: the common part theta is normal(0, v), each burn theta + normal(0, s²), s² inverse gamma.
 * Chance that the next lies under x; sums over a fine grid of theta and ln s. */
static double integrated_chance(const double *seen, int count, double x) {
    double v = 0.20 * 0.20 + 0.20 * 0.20 + SPEED_DUST_SPREAD * SPEED_DUST_SPREAD;
    double sum = 0, under = 0;
    for (int i = 0; i <= 400; i++) {
        double s = SPEED_BURN_LEAST * pow(SPEED_BURN_MOST / SPEED_BURN_LEAST, i / 400.0);
        double ratio = SPEED_BURN_SPREAD / s;
        double prior = pow(s, -2 * SPEED_BURN_SHAPE) * exp(-SPEED_BURN_SHAPE * ratio * ratio);
        for (int j = 0; j <= 1000; j++) {
            double theta = -1.5 + 3.0 * j / 1000;
            double weight = prior * exp(-theta * theta / 2 / v) * (i == 0 || i == 400 ? 0.5 : 1);
            for (int k = 0; k < count; k++) {
                weight *= exp(-(seen[k] - theta) * (seen[k] - theta) / 2 / s / s) / s;
            }
            sum += weight;
            under += weight * 0.5 * erfc(-(x - theta) / s / sqrt(2));
        }
    }
    return under / sum;
}

static void update_agrees_with_integration(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    BurnKind kind = kind_of(&house->carrier, &house->fold);
    static const double seen[] = {-0.25, -0.10, 0.05, -0.31};
    SpeedObservations observations = {0};
    for (int count = 1; count <= 4; count++) {
        LIST_ADD(arena, &observations, ((SpeedObservation){kind, seen[count - 1], false, 0}));
        SpeedFactor speed_factor = speed_factor_learnt(&observations, &kind);
        for (double chance = 0.02; chance < 1; chance += 0.16) {
            double x = log(speed_factor_at(&speed_factor, chance));
            assert_close(integrated_chance(seen, count, x), chance, 1e-3);
        }
        assert_close(speed_factor_at(&speed_factor, 0.5), speed_factor.middle, 1e-9);
        assert_int_equal(speed_factor.records, count);
        assert_int_equal(speed_factor.trials, 0);
    }
    arena_free(arena);
}

/* A dust shares the smokehouse with another, but not what is its own. By hand: one trial of y
 * tells of another dust in another tray shop²/(all of a trial) · y. */
static void other_dusts_learn_a_part(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    SpeedObservations observations = {0};
    SpeedObservation trial = {kind_of(&house->carrier, &house->fold), 0.4, true, 0};
    LIST_ADD(arena, &observations, trial);
    BurnKind own = kind_of(&house->carrier, &house->fold);
    BurnKind tray = kind_of(&house->carrier, &house->trough);
    BurnKind other = kind_of(&house->cherry, &house->trough);
    double dust = SPEED_DUST_SPREAD * SPEED_DUST_SPREAD;
    double all = 0.20 * 0.20 + 0.20 * 0.20 + dust + 0.15 * 0.15;
    double own_factor = log(speed_factor_learnt(&observations, &own).middle);
    double tray_factor = log(speed_factor_learnt(&observations, &tray).middle);
    double other_factor = log(speed_factor_learnt(&observations, &other).middle);
    assert_close(own_factor, 0.4 * (0.20 * 0.20 + 0.20 * 0.20 + dust) / all, 1e-9);
    assert_close(tray_factor, 0.4 * (0.20 * 0.20 + dust) / all, 1e-9);
    assert_close(other_factor, 0.4 * 0.20 * 0.20 / all, 1e-9);
    /* a blend of both lies between */
    BurnKind half = {&house->trough, 2, {&house->carrier, &house->cherry}, {0.5, 0.5}};
    double half_speed = log(speed_factor_learnt(&observations, &half).middle);
    assert_true(half_speed > other_factor && half_speed < tray_factor);
    /* the same dust and tray, read anew from a file */
    Dust again = house->carrier;
    Tray fold = house->fold;
    BurnKind reread = kind_of(&again, &fold);
    assert_close(log(speed_factor_learnt(&observations, &reread).middle), own_factor, 1e-12);
    arena_free(arena);
}

static void many_observations_keep_to_the_last(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    BurnKind kind = kind_of(&house->carrier, &house->fold);
    SpeedObservations observations = {0};
    for (int i = 0; i < 200; i++) {
        double seen = 0.2 + (i % 2 ? 0.12 : -0.12);
        LIST_ADD(arena, &observations, ((SpeedObservation){kind, i < 136 ? 9.0 : seen, false, 0}));
    }
    SpeedFactor speed_factor = speed_factor_learnt(&observations, &kind);
    assert_close(log(speed_factor.middle), 0.2, 0.002);
    assert_close(speed_factor.log_spread, 0.12, 0.005);
    assert_int_equal(speed_factor.records, SPEED_OBSERVATIONS_MAX);
    arena_free(arena);
}

/* Normal numbers from uniform ones (Box & Muller). */
static double normal(uint64_t *seed) {
    double a = close_random(seed, 1e-12, 1), b = close_random(seed, 0, 1);
    return sqrt(-2 * log(a)) * cos(6.283185307179586 * b);
}

static Plan plan_at(Arena *arena, const Batch *batch, const Belief *belief) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, belief, SMOKEHOUSE_EVENING, SESSION_WHOLE, &plan);
    return plan;
}

/* 20,000 burns, each run through the whole model with a speed drawn as the model believes. */
static void band_covers_eighty_percent_of_burns(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.78);
    smokehouse_part(house, batch, &house->carrier, 1);
    Plan plan = plan_at(arena, batch, NULL);
    uint64_t seed = 20261204;
    int inside = 0, burns = 20000;
    for (int i = 0; i < burns; i++) {
        Arena *own = arena_new();
        Fuel fuel = {plan.blend.bulk_density_kg_m3, 580, FIRE_REFERENCE_SAUTER_M,
                     plan.blend.grain.d50_m, 1};
        Belief drawn = belief_unmeasured();
        drawn.speed.middle = speed_factor_at(&drawn.speed, close_random(&seed, 1e-9, 1));
        const Night *night = night_of(own, batch, &fuel, plan.blend.moisture, &drawn,
                                      SMOKEHOUSE_EVENING, NIGHT_MIDDLE);
        double out = (double)SMOKEHOUSE_EVENING + night->lightings.items[0].middle.path.time_s;
        inside += out >= (double)plan.burn.out_early && out <= (double)plan.burn.out_late;
        arena_free(own);
    }
    double covered = (double)inside / burns;
    assert_true(covered > 0.78 && covered < 0.82);
    arena_free(arena);
}

/* Smokehouses drawn as believed, but for how much their burns truly differ: ten records each, then
 * the next burn. */
static double covered_after_ten(double burn_spread, int houses, double *width) {
    static const Dust dust;
    static const Tray tray;
    BurnKind kind = kind_of(&dust, &tray);
    uint64_t seed = 77;
    int inside = 0;
    for (int i = 0; i < houses; i++) {
        SpeedObservation seen[10];
        double theta = SPEED_SHOP_SPREAD * normal(&seed) + SPEED_TRAY_SPREAD * normal(&seed) +
                       SPEED_DUST_SPREAD * normal(&seed);
        for (int j = 0; j < 10; j++) {
            seen[j] = (SpeedObservation){kind, theta + burn_spread * normal(&seed), false, 0};
        }
        SpeedObservations observations = {seen, 10, 10};
        SpeedFactor speed_factor = speed_factor_learnt(&observations, &kind);
        double next = exp(theta + burn_spread * normal(&seed));
        inside += next > speed_factor_at(&speed_factor, 0.1) &&
                  next < speed_factor_at(&speed_factor, 0.9);
        *width += speed_factor.log_spread / houses;
    }
    return (double)inside / houses;
}

static void the_band_covers_eighty_percent_however_much_burns_differ(void **state) {
    (void)state;
    static const double spreads[] = {0.06, 0.12, 0.25};
    double before = 0;
    for (size_t i = 0; i < sizeof spreads / sizeof *spreads; i++) {
        double width = 0;
        double covered = covered_after_ten(spreads[i], 4000, &width);
        assert_true(covered > 0.75 && covered < 0.85);
        assert_true(width > before && width < 1.3 * spreads[i]);
        before = width;
    }
}

/* Of ten burns one is far off: it is the most deviant and its tail is far out. Two such do not
 * excuse each other. Without it, or with what a smokehouse may do, none is. */
static void one_far_off_stands_out(void **state) {
    (void)state;
    static const Dust dust;
    static const double seen[] = {0.05, -0.08, 0.02, 0.1, -0.03, 0.07, -0.1, 0, 0.04, -0.02};
    static const Tray tray;
    BurnKind kind = kind_of(&dust, &tray);
    SpeedObservation items[10];
    SpeedDeviance deviances[10];
    SpeedObservations observations = {items, 10, 10};
    for (int wrong = 0; wrong <= 2; wrong++) {
        for (int i = 0; i < 10; i++) {
            items[i] = (SpeedObservation){kind, i < wrong ? -1.04 : seen[i], false, 0.02};
        }
        speed_deviances(&observations, deviances);
        for (int i = 0; i < 10; i++) {
            assert_true((deviances[i].tail < 0.00135) == (i < wrong));
            assert_true(deviances[i].expected_low < deviances[i].expected_high);
        }
    }
    /* two alone: nobody can say which of them is wrong */
    SpeedObservations two = {items, 3, 3};
    items[0].log_factor = -1.04, items[1].log_factor = 0.02, items[2].log_factor = -0.05;
    speed_deviances(&two, deviances);
    assert_true(deviances[1].tail > 0.00135 && deviances[2].tail > 0.00135);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quantiles_as_printed),
        cmocka_unit_test(nothing_measured),
        cmocka_unit_test(the_looked_up_speed_lies_in_the_band),
        cmocka_unit_test(update_agrees_with_integration),
        cmocka_unit_test(other_dusts_learn_a_part),
        cmocka_unit_test(many_observations_keep_to_the_last),
        cmocka_unit_test(band_covers_eighty_percent_of_burns),
        cmocka_unit_test(the_band_covers_eighty_percent_however_much_burns_differ),
        cmocka_unit_test(one_far_off_stands_out),
    };
    const char *against = "speed_factor: numerical integration, 32,000 simulated burns";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
