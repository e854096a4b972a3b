/* Chance: against the normal distribution's closed forms, against dice, and against itself with
 * four times as many points. */
#include "model/chance.h"

#include "model/blend.h"
#include "model/quadrature.h"
#include "model/recipe.h"
#include "model/session.h"
#include "model/survival.h"

#include "support/arena_case.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

static const uint64_t SEED = 0xc4a2ce5;
static const double PI = 3.14159265358979323846;

/* Abramowitz & Stegun, Table 25.4 (from memory): n = 5 on −1…1. */
static void legendre_points_are_the_tables_and_exact_for_polynomials(void **state) {
    (void)state;
    double points[QUADRATURE_MOST], weights[QUADRATURE_MOST];
    quadrature_legendre(5, points, weights);
    assert_close(2 * points[4] - 1, 0.906179845938664, 1e-14);
    assert_close(2 * points[3] - 1, 0.538469310105683, 1e-14);
    assert_close(2 * weights[4], 0.236926885056189, 1e-14);
    assert_close(2 * weights[2], 0.568888888888889, 1e-14);
    for (int count = 1; count <= QUADRATURE_MOST; count++) {
        quadrature_legendre(count, points, weights);
        for (int power = 0; power < 2 * count; power++) {
            double sum = 0;
            for (int i = 0; i < count; i++) {
                sum += weights[i] * pow(points[i], power);
            }
            assert_close(sum, 1.0 / (power + 1), 1e-12);
        }
    }
}

/* A night of so many lightings whose margin never changes, at one speed. */
static Night *night_of_margin(Arena *arena, double margin, size_t lightings) {
    Night *night = ARENA_NEW(arena, Night);
    NightSpeed speed = {1, ARENA_ARRAY(arena, lightings, LightingRun)};
    memset(speed.runs, 0, lightings * sizeof *speed.runs);
    for (size_t i = 0; i < lightings; i++) {
        LightingRun *run = &speed.runs[i];
        BurnPoint lit = {
            .moisture = {0.05, 0.05},
            .air = {.temp_c = 10, .oxygen_factor = 1, .tray_humidity = 0.5, .humidity = 0.5}};
        BurnPoint out = lit;
        out.time_s = run->path.time_s = 3600;
        out.along_m[0] = 0.1;
        LIST_ADD(arena, &run->path.points, lit);
        LIST_ADD(arena, &run->path.points, out);
        run->setup.start = 3600.0 * (double)i;
        run->setup.fronts = 1;
        Lighting lighting = {.middle = *run, .factors = {.steadiness = 1, .air = 1, .keep = 1}};
        lighting.factors.steadiness = margin / lighting_margin(&lighting, &lit, &lit.air);
        LIST_ADD(arena, &night->lightings, lighting);
    }
    LIST_ADD(arena, &night->speeds, speed);
    return night;
}

static double lasts_at(Arena *arena, double margin, size_t lightings, Holding holding) {
    return chance_lasts(chance_of(arena, night_of_margin(arena, margin, lightings), &holding));
}

/* One lighting of one margin: the normal distribution itself. 1.35 about nine in ten and 1.10
 * about two in three is what the spreads were chosen for. */
static void a_constant_margin_lasts_as_the_normal_distribution_says(void **state) {
    Arena *arena = *state;
    Holding unmeasured = holding_unmeasured();
    double spread = hypot(unmeasured.common_spread, unmeasured.burn_spread);
    assert_close(spread, 0.22, 0.005);
    assert_close(lasts_at(arena, 1.35, 1, unmeasured), 0.91, 0.005);
    assert_close(lasts_at(arena, 1.10, 1, unmeasured), 0.67, 0.01);
    Holding known = {.log_mean = -0.1, .common_spread = 0.03, .burn_spread = 0.04};
    assert_close(lasts_at(arena, exp(0.2), 1, known), 0.5 * erfc(-2 / sqrt(2)), 1e-12);
    assert_close(lasts_at(arena, 1e-300, 1, unmeasured), 0, 1e-12);
    assert_close(lasts_at(arena, NAN, 1, unmeasured), 0, 1e-12);
}

/* Sheppard's formula for the quadrant of two normal values with correlation r, 1/4 + asin(r)/2π,
 * and 1/8 + 3 asin(r)/4π for the octant of three. */
static void several_lightings_share_what_they_have_in_common(void **state) {
    Arena *arena = *state;
    const double ratios[] = {0.3, 1, 1.5, 2.5};
    for (size_t i = 0; i < sizeof ratios / sizeof *ratios; i++) {
        Holding holding = {.common_spread = 0.1 * ratios[i], .burn_spread = 0.1};
        double r = ratios[i] * ratios[i] / (1 + ratios[i] * ratios[i]);
        assert_close(lasts_at(arena, 1, 2, holding), 0.25 + asin(r) / (2 * PI), 1e-4);
        assert_close(lasts_at(arena, 1, 3, holding), 0.125 + 3 * asin(r) / (4 * PI), 1e-4);
    }
}

/* A margin that stands at e until half way and then falls to 1: by quarters of the way its least is
 * 1, 1, 1/2 and 0 of a logarithm, and what goes out on each is a difference of two values of the
 * normal distribution, the greatest on the third. */
static void most_go_out_on_the_quarter_where_the_margin_falls_most(void **state) {
    Arena *arena = *state;
    Night *night = night_of_margin(arena, exp(1), 1);
    BurnPath *path = &night->speeds.items[0].runs[0].path;
    BurnPoint out = path->points.items[1];
    out.time_s = path->time_s = 7200;
    out.along_m[0] = 0.2;
    out.air.oxygen_factor = exp(-1);
    LIST_ADD(arena, &path->points, out);
    Holding holding = {.log_mean = -0.6, .common_spread = 0.12, .burn_spread = 0.16};
    ChancePlace worst = chance_worst_place(chance_of(arena, night, &holding));
    assert_int_equal(worst.lighting, 0);
    assert_close(worst.along_m, 0.125, 1e-12);
    double spreads = 0.2 * sqrt(2);
    assert_close(worst.share, 0.5 * (erfc(-0.4 / spreads) - erfc(0.1 / spreads)), 1e-12);
}

static Batch *damp_batch(Arena *arena, int repeat) {
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 3, 0.90);
    smokehouse_part(house, batch, &house->carrier, 0.6);
    smokehouse_part(house, batch, &house->sulky, 0.4);
    batch->fills.items[0].repeat = repeat;
    return batch;
}

static Night *night_at(Arena *arena, const Batch *batch, const Belief *belief, NightDepth depth) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_TIMES, &plan);
    const Blend *blend = &batch->blend;
    DustFigures *dusts = recipe_dusts(arena, &batch->blend, &batch->workshop->store, (Date){0});
    double *shares = ARENA_ARRAY(arena, blend->parts.count, double);
    for (size_t i = 0; i < blend->parts.count; i++) {
        shares[i] = plan.blend.parts.items[i].dry_share;
    }
    Mix mix = blend_mix(dusts, shares, blend->parts.count);
    return night_of(arena, batch, &mix.fuel, mix.moisture, belief, SMOKEHOUSE_EVENING, depth);
}

/* When a night whose margins are off by that much goes out, s since it was lit; INFINITY: never.
 * Looked at every two minutes. */
static double goes_out_s(const Night *night, const double *offsets) {
    for (size_t i = 0; i < night->lightings.count; i++) {
        const Lighting *lighting = &night->lightings.items[i];
        const LightingRun *run = &lighting->middle;
        for (double time_s = 0; time_s < run->path.time_s; time_s += 120) {
            BurnPoint point = burn_at(&run->path, time_s);
            OutsideAir outside;
            CabinetAir air = burn_air(&run->setup, &point, &outside);
            if (log(lighting_margin(lighting, &point, &air)) + offsets[i] < 0) {
                return run->setup.start - (double)night->light_at + time_s;
            }
        }
    }
    return INFINITY;
}

/* Dice: a thousand speeds, evenly over their probability, and offsets for each. The night's
 * survival at each quarter of its time, and in the end, within three standard errors. */
static void dice_agree(Arena *arena, int repeat) {
    enum { SPEEDS = 1000, TURNS = 10, TIMES = 5 };
    uint64_t seed = SEED;
    const Batch *batch = damp_batch(arena, repeat);
    Belief belief = belief_unmeasured();
    const Chance *chance =
        chance_of(arena, night_at(arena, batch, &belief, NIGHT_CHANCE), &belief.holding);
    double lasted[TIMES] = {0}, whole_s = chance_end_s(chance);
    for (int i = 0; i < SPEEDS; i++) {
        Arena *once = arena_new();
        Belief known = belief;
        known.speed.middle = speed_factor_at(&belief.speed, (i + 0.5) / SPEEDS);
        const Night *night = night_at(once, batch, &known, NIGHT_MIDDLE);
        for (int turn = 0; turn < TURNS; turn++) {
            double offsets[8];
            double common = belief.holding.common_spread *
                            speed_normal_quantile(close_random(&seed, 0, 1));
            for (int k = 0; k < repeat; k++) {
                offsets[k] = common + belief.holding.burn_spread *
                                          speed_normal_quantile(close_random(&seed, 0, 1));
            }
            double out_s = goes_out_s(night, offsets);
            for (int k = 0; k < TIMES; k++) {
                double by_s = k + 1 < TIMES ? whole_s * (k + 1) / 10 : INFINITY;
                lasted[k] += !(out_s <= by_s) || isinf(out_s) ? 1 : 0;
            }
        }
        arena_free(once);
    }
    for (int k = 0; k < TIMES; k++) {
        double by_s = k + 1 < TIMES ? whole_s * (k + 1) / 10 : INFINITY;
        assert_close(chance_lasting(chance, by_s), lasted[k] / (SPEEDS * TURNS), 0.015);
    }
    double in_the_end = lasted[TIMES - 1] / (SPEEDS * TURNS);
    assert_true(in_the_end > 0.3 && in_the_end < 0.9);
}

static void dice_agree_on_one_lighting(void **state) {
    dice_agree(*state, 1);
}

static void dice_agree_on_lightings_in_turn(void **state) {
    dice_agree(*state, 2);
}

static void four_times_the_speeds_move_the_chance_by_less_than_a_hair(void **state) {
    (void)state;
    uint64_t seed = SEED;
    double worst = 0;
    for (int i = 0; i < 300; i++) {
        Arena *arena = arena_new();
        const Batch *batch = smokehouse_random(arena, &seed);
        Belief belief = belief_unmeasured();
        Night *night = night_at(arena, batch, &belief, NIGHT_CHANCE);
        double usual = chance_lasts(chance_of(arena, night, &belief.holding));
        night_at_speeds(arena, night, &belief.speed, 4 * NIGHT_SPEEDS);
        double fine = chance_lasts(chance_of(arena, night, &belief.holding));
        if (fabs(usual - fine) > worst) {
            worst = fabs(usual - fine);
            print_message("# night %d: %.4f %.4f\n", i, usual, fine);
        }
        arena_free(arena);
    }
    assert_true(worst < 0.005);
}

static void survival_falls_to_the_chance(void **state) {
    (void)state;
    uint64_t seed = SEED;
    for (int i = 0; i < 200; i++) {
        Arena *arena = arena_new();
        const Batch *batch = smokehouse_random(arena, &seed);
        Plan plan;
        memset(&plan, 0, sizeof plan);
        session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_WHOLE, &plan);
        size_t count = plan.survival.count;
        assert_true(count >= 2);
        assert_int_equal(plan.survival.items[0].at, plan.burn.light_at);
        assert_true(plan.survival.items[count - 1].at >= plan.burn.out_late);
        assert_close(plan.survival.items[count - 1].lasting, plan.burn.chance, 1e-12);
        for (size_t k = 0; k < count; k++) {
            const PlanLasting *row = &plan.survival.items[k];
            assert_true(row->lasting >= 0 && row->lasting <= 1);
            assert_true(k == 0 || (row->lasting <= row[-1].lasting && row->at > row[-1].at));
        }
        for (size_t k = 0; k < plan.samples.count; k++) {
            const PlanSample *sample = &plan.samples.items[k];
            assert_true(sample->lasting >= plan.burn.chance - 1e-12);
            assert_true(k == 0 || sample->lasting <= sample[-1].lasting + 1e-12);
        }
        bool speaks = plan.burn.likely_out_at != 0;
        assert_true(speaks == (plan.burn.chance <= 0.99));
        assert_true(!speaks || (plan.burn.likely_out_at <= plan.burn.out_at &&
                                plan.burn.likely_out_at >= plan.burn.light_at));
        arena_free(arena);
    }
}

static Plan figures_of(Arena *arena, const Batch *batch) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_FIGURES, &plan);
    return plan;
}

/* What the trade knows: dry dust on a cold damp night waits and gets damp, and goes out late; dust
 * that is damp already does not even catch. */
static void a_damp_night_goes_out_late_and_damp_dust_at_once(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 2, 0.98);
    Dust dust = house->carrier;
    smokehouse_part(house, batch, &dust, 1);
    Plan late = figures_of(arena, batch);
    assert_true(late.burn.chance > 0.5 && late.burn.chance < 0.95);
    assert_true(late.burn.likely_out_along_m > late.fills.items[0].filled_m / 2);
    assert_true(late.burn.likely_out_lane >= 3);
    dust.moisture = 0.16;
    Plan early = figures_of(arena, batch);
    assert_true(early.burn.chance < late.burn.chance);
    assert_true(early.burn.likely_out_along_m == 0);
    assert_int_equal(early.burn.likely_out_lane, 1);
}

static void a_chance_is_said_in_tenths_and_no_finer_than_was_earned(void **state) {
    (void)state;
    const struct {
        double chance;
        int nights, in, of;
    } cases[] = {{0, 0, 0, 10},      {0.0999, 0, 0, 10}, {0.1, 0, 1, 10},     {0.6999, 0, 6, 10},
                 {0.7, 0, 7, 10},    {0.9, 0, 9, 10},    {0.9499, 0, 9, 10},  {0.95, 0, 19, 20},
                 {0.999, 0, 19, 20}, {1, 19, 19, 20},    {0.979, 20, 19, 20}, {0.98, 20, 49, 50},
                 {1, 20, 49, 50},    {NAN, 50, 0, 10}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ChanceSaid said = survival_said(cases[i].chance, cases[i].nights);
        assert_int_equal(said.in, cases[i].in);
        assert_int_equal(said.of, cases[i].of);
        assert_true(!(said.in > cases[i].chance * said.of + 1e-6));
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(legendre_points_are_the_tables_and_exact_for_polynomials),
        CASE(a_constant_margin_lasts_as_the_normal_distribution_says),
        CASE(several_lightings_share_what_they_have_in_common),
        CASE(most_go_out_on_the_quarter_where_the_margin_falls_most),
        CASE(dice_agree_on_one_lighting),
        CASE(dice_agree_on_lightings_in_turn),
        cmocka_unit_test(four_times_the_speeds_move_the_chance_by_less_than_a_hair),
        cmocka_unit_test(survival_falls_to_the_chance),
        CASE(a_damp_night_goes_out_late_and_damp_dust_at_once),
        cmocka_unit_test(a_chance_is_said_in_tenths_and_no_finer_than_was_earned),
    };
    const char *against = "chance: normal distribution, Sheppard's quadrants, dice, A&S 25.4";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
