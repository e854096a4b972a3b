/* Pace: closed forms against numerical integration, and simulated burns against the band. */
#include "model/learning.h"
#include "model/night.h"
#include "model/pace.h"
#include "model/pace_constants.h"
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
        assert_close(pace_normal_quantile(rows[i][0]), rows[i][1], 1e-9);
        assert_close(pace_normal_quantile(1 - rows[i][0]), -rows[i][1], 1e-9);
    }
    for (double chance = 1e-6; chance < 1; chance *= 1.7) {
        assert_close_share(0.5 * erfc(-pace_normal_quantile(chance) / sqrt(2)), chance, 1e-9);
    }
}

static PaceKind kind_of(const Dust *dust, const Tray *tray) {
    return (PaceKind){.tray = tray, .count = 1, .dusts = {dust}, .dry_shares = {1}};
}

static void nothing_measured(void **state) {
    (void)state;
    PaceObservations none = {0};
    Dust dust = smokehouse_dust("beech", 0.05, 1e-3, 2e-3);
    PaceKind kind = kind_of(&dust, NULL);
    Pace pace = pace_learnt(&none, &kind);
    assert_close(pace.pace, 1, 0);
    assert_close(pace.log_spread, 0.30, 0);
    assert_close(pace_factor_at(&pace, 0.9), exp(0.30 * 1.2815515655), 1e-9);
    double parts = PACE_SHOP_SPREAD * PACE_SHOP_SPREAD + PACE_TRAY_SPREAD * PACE_TRAY_SPREAD +
                   PACE_DUST_VARIANCE + PACE_BURN_SPREAD * PACE_BURN_SPREAD;
    assert_close(parts, 0.30 * 0.30, 1e-15);
}

/* Mean and spread of the next burn on the same dust and tray after burns were seen: the common
 * part theta is normal(0, v), each burn theta + normal(0, s²); by Simpson over theta. */
static void integrate(const double *seen, int count, double *mean, double *spread) {
    double v = 0.30 * 0.30 - 0.12 * 0.12, s2 = 0.12 * 0.12;
    double sum = 0, first = 0, second = 0;
    for (int i = 0; i <= 20000; i++) {
        double theta = -2 + 4.0 * i / 20000;
        double weight = (i == 0 || i == 20000 ? 1 : i % 2 ? 4 : 2) * exp(-theta * theta / 2 / v);
        for (int j = 0; j < count; j++) {
            weight *= exp(-(seen[j] - theta) * (seen[j] - theta) / 2 / s2);
        }
        sum += weight;
        first += weight * theta;
        second += weight * theta * theta;
    }
    *mean = first / sum;
    *spread = sqrt(second / sum - *mean * *mean + s2);
}

static void update_agrees_with_integration(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    PaceKind kind = kind_of(&house->carrier, &house->maze);
    static const double seen[] = {-0.25, -0.10, 0.05, -0.31};
    PaceObservations observations = {0};
    for (int count = 1; count <= 4; count++) {
        LIST_ADD(arena, &observations, ((PaceObservation){kind, seen[count - 1], false}));
        Pace pace = pace_learnt(&observations, &kind);
        double mean, spread;
        integrate(seen, count, &mean, &spread);
        assert_close(log(pace.pace), mean, 1e-8);
        assert_close(pace.log_spread, spread, 1e-8);
        assert_int_equal(pace.records, count);
        assert_int_equal(pace.trials, 0);
    }
    arena_free(arena);
}

/* A dust shares the smokehouse with another, but not what is its own. By hand: one trial of y
 * tells of another dust in another tray shop²/(all of a trial) · y. */
static void other_dusts_learn_a_part(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    PaceObservations observations = {0};
    PaceObservation trial = {kind_of(&house->carrier, &house->maze), 0.4, true};
    LIST_ADD(arena, &observations, trial);
    PaceKind own = kind_of(&house->carrier, &house->maze);
    PaceKind tray = kind_of(&house->carrier, &house->trough);
    PaceKind other = kind_of(&house->cherry, &house->trough);
    double all = 0.30 * 0.30 - 0.12 * 0.12 + 0.15 * 0.15;
    double own_pace = log(pace_learnt(&observations, &own).pace);
    double tray_pace = log(pace_learnt(&observations, &tray).pace);
    double other_pace = log(pace_learnt(&observations, &other).pace);
    assert_close(own_pace, 0.4 * (0.30 * 0.30 - 0.12 * 0.12) / all, 1e-12);
    assert_close(tray_pace, 0.4 * (0.30 * 0.30 - 0.12 * 0.12 - 0.15 * 0.15) / all, 1e-12);
    assert_close(other_pace, 0.4 * 0.15 * 0.15 / all, 1e-12);
    /* a blend of both lies between */
    PaceKind half = {&house->trough, 2, {&house->carrier, &house->cherry}, {0.5, 0.5}};
    double half_pace = log(pace_learnt(&observations, &half).pace);
    assert_true(half_pace > other_pace && half_pace < tray_pace);
    /* the same dust and tray, read anew from a file */
    Dust again = house->carrier;
    Tray maze = house->maze;
    PaceKind reread = kind_of(&again, &maze);
    assert_close(log(pace_learnt(&observations, &reread).pace), own_pace, 1e-15);
    arena_free(arena);
}

static void many_observations_keep_to_the_last(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    PaceKind kind = kind_of(&house->carrier, &house->maze);
    PaceObservations observations = {0};
    for (int i = 0; i < 200; i++) {
        LIST_ADD(arena, &observations, ((PaceObservation){kind, i < 136 ? 9.0 : 0.2, false}));
    }
    Pace pace = pace_learnt(&observations, &kind);
    assert_close(log(pace.pace), 0.2, 0.002);
    assert_close(pace.log_spread, 0.12, 0.002);
    assert_int_equal(pace.records, PACE_OBSERVATIONS_MAX);
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
    Batch *batch = smokehouse_batch(house, &house->maze, 6, 0.78);
    smokehouse_part(house, batch, &house->carrier, 1);
    Plan plan = plan_at(arena, batch, NULL);
    uint64_t seed = 20261204;
    int inside = 0, burns = 20000;
    for (int i = 0; i < burns; i++) {
        Arena *own = arena_new();
        Fuel fuel = {plan.blend.bulk_density_kg_m3, 580, plan.blend.grain.sauter_m,
                     plan.blend.grain.d50_m, 1};
        Belief drawn = belief_unmeasured();
        drawn.speed.pace = exp(0.30 * normal(&seed));
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

/* Smokehouses drawn as believed: one trial and three burns each, then the next burn. */
static void learnt_band_covers_eighty_percent_and_is_narrower(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    PaceKind kind = kind_of(&house->carrier, &house->maze);
    uint64_t seed = 77;
    int inside = 0, houses = 20000;
    for (int i = 0; i < houses; i++) {
        double theta = 0.15 * normal(&seed) + 0.15 * normal(&seed) +
                       sqrt(PACE_DUST_VARIANCE) * normal(&seed);
        PaceObservation seen[4];
        for (int j = 0; j < 4; j++) {
            double spread = j == 0 ? 0.15 : 0.12;
            seen[j] = (PaceObservation){kind, theta + spread * normal(&seed), j == 0};
        }
        PaceObservations observations = {seen, 4, 4};
        Pace pace = pace_learnt(&observations, &kind);
        double next = theta + 0.12 * normal(&seed);
        inside += fabs(next - log(pace.pace)) < 1.2815515655 * pace.log_spread;
        assert_true(pace.log_spread < 0.15);
    }
    double covered = (double)inside / houses;
    assert_true(covered > 0.78 && covered < 0.82);
    arena_free(arena);
}

/* A trial made exactly as the model expects at twice its speed, in a channel and without one. */
static void trials_are_put_on_the_reference(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Dust dust = house->carrier;
    dust.bulk_density_kg_m3 = 208; /* 200 dry at 4 % */
    Trial trial = {.length_m = 0.1, .took_s = 0.1 / (0.220 / 3600), .moisture = 0.04, .temp_c = 10};
    LIST_ADD(arena, &dust.trials, trial);
    LIST_ADD(arena, &house->workshop.dusts, dust);
    LIST_ADD(arena, &house->workshop.trays, house->maze);
    PaceObservations observations = {0};
    learning_add_trials(arena, &house->workshop, &observations);
    assert_int_equal(observations.count, 1);
    assert_close(observations.items[0].log_pace, log(2), 1e-9);
    assert_true(observations.items[0].trial);
    house->workshop.dusts.items[0].trials.items[0].tray_id = "maze";
    learning_add_trials(arena, &house->workshop, &observations);
    assert_close(observations.items[1].log_pace, log(2), 1e-9); /* the same section */
    assert_ptr_equal(observations.items[1].kind.tray, &house->workshop.trays.items[0]);
    house->workshop.dusts.items[0].trials.items[0].took_s = 0;
    learning_add_trials(arena, &house->workshop, &observations);
    assert_int_equal(observations.count, 2);
    Pace learnt = learning_dust_pace(&observations, &house->carrier);
    assert_true(learnt.pace > 1.2 && learnt.log_spread < 0.3 && learnt.trials == 2);
    arena_free(arena);
}

static Batch *recorded(Smokehouse *house, double pace, double share) {
    Batch *batch = smokehouse_batch(house, &house->maze, 6, 0.85);
    smokehouse_part(house, batch, &house->carrier, 1);
    Belief drawn = belief_unmeasured();
    drawn.speed.pace = pace;
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(house->arena, batch, &drawn, SMOKEHOUSE_EVENING, SESSION_WHOLE, &plan);
    const PlanSample *end = &plan.samples.items[0];
    const PlanSample *last = end + plan.samples.count - 1;
    while (end < last && end->along_m < share * plan.fills.items[0].filled_m) {
        end++;
    }
    batch->record = (Record){.stated = true,
                             .lit = SMOKEHOUSE_EVENING,
                             .out = end->at,
                             .burnt_m = share < 1 ? end->along_m : NAN,
                             .went_out_early = share < 1};
    return batch;
}

/* The pace that a burn was made with is found again from its record, whole or cut short. */
static void records_give_their_pace_back(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    static const double paces[] = {0.6, 0.9, 1.0, 1.4};
    for (size_t i = 0; i < sizeof paces / sizeof *paces; i++) {
        for (double share = 0.5; share < 1.1; share += 0.5) {
            PaceObservations observations = {0};
            const Batch *batch = recorded(house, paces[i], share);
            assert_true(learning_add_record(arena, batch, &observations));
            assert_close(observations.items[0].log_pace, log(paces[i]), 2e-3);
            assert_false(observations.items[0].trial);
        }
    }
    arena_free(arena);
}

static void records_that_tell_no_speed_are_passed_over(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    PaceObservations observations = {0};
    Batch *batch = recorded(house, 1, 1);
    batch->record.out = 0;
    assert_false(learning_add_record(arena, batch, &observations));
    batch = recorded(house, 1, 0.5);
    batch->record.burnt_m = NAN;
    assert_false(learning_add_record(arena, batch, &observations));
    batch = recorded(house, 1, 1);
    LIST_ADD(arena, &batch->record.relit, SMOKEHOUSE_EVENING + 3600);
    assert_false(learning_add_record(arena, batch, &observations));
    batch->record.stated = false;
    assert_false(learning_add_record(arena, batch, &observations));
    assert_int_equal(observations.count, 0);
    arena_free(arena);
}

static void a_batch_learns_from_others_and_not_from_itself(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *tonight = smokehouse_batch(house, &house->maze, 6, 0.8);
    smokehouse_part(house, tonight, &house->carrier, 1);
    assert_close(learning_belief(arena, tonight, NULL, 0).speed.pace, 1, 0);
    Batch *slow = recorded(house, 0.7, 1);
    const Batch *past[] = {slow, tonight, slow};
    Belief belief = learning_belief(arena, tonight, past, 3);
    Pace pace = belief.speed;
    assert_int_equal(pace.records, 2);
    assert_true(pace.pace < 0.8 && pace.pace > 0.69);
    assert_true(pace.log_spread < 0.2);
    Plan before = plan_at(arena, tonight, NULL);
    Plan after = plan_at(arena, tonight, &belief);
    assert_true(after.burn.duration_s > 1.2 * before.burn.duration_s);
    assert_int_equal(after.burn.records, 2);
    assert_close(after.burn.pace, pace.pace, 0);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quantiles_as_printed),
        cmocka_unit_test(nothing_measured),
        cmocka_unit_test(update_agrees_with_integration),
        cmocka_unit_test(other_dusts_learn_a_part),
        cmocka_unit_test(many_observations_keep_to_the_last),
        cmocka_unit_test(band_covers_eighty_percent_of_burns),
        cmocka_unit_test(learnt_band_covers_eighty_percent_and_is_narrower),
        cmocka_unit_test(trials_are_put_on_the_reference),
        cmocka_unit_test(records_give_their_pace_back),
        cmocka_unit_test(records_that_tell_no_speed_are_passed_over),
        cmocka_unit_test(a_batch_learns_from_others_and_not_from_itself),
    };
    const char *against = "pace: numerical integration, 20,000 simulated burns";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
