/* Too little, too much, too big: by hand. */
#include "model/plausible.h"
#include "model/tray.h"
#include "model/session.h"
#include "model/verdict.h"

#include "support/arena_case.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

static Plan judged(Arena *arena, const Batch *batch) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, SESSION_FIGURES, &plan);
    verdict_reach(arena, batch, &plan);
    return plan;
}

/* The verdict that the cause alone gives; -1: it is not among the reasons. */
static int reason_of(const Plan *plan, Cause cause) {
    for (size_t i = 0; i < plan->reasons.count; i++)
        if (plan->reasons.items[i].cause == cause)
            return (int)plan->reasons.items[i].verdict;
    return -1;
}

static Batch *usual(Smokehouse *house) {
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.7);
    smokehouse_part(house, batch, &house->carrier, 1);
    return batch;
}

/* 20 mm of channel: 3 mm are 15 % of it (2 to 3 mm: Palmer & Skeet 1952). */
static void a_thin_layer_is_refused(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = usual(house);
    batch->fills.items[0].level = 0.149;
    Plan thin = judged(arena, batch);
    assert_close(thin.burn.thinnest_m, 0.149 * house->fold.channel_depth_m, 1e-9);
    assert_int_equal(reason_of(&thin, CAUSE_LAYER_THIN), VERDICT_DO_NOT_LIGHT);
    batch->fills.items[0].level = 0.151;
    Plan enough = judged(arena, batch);
    assert_int_equal(reason_of(&enough, CAUSE_LAYER_THIN), -1);
}

/* A quarter of eight hours is two. */
static void a_burn_far_from_what_was_asked_is_tended(void **state) {
    Arena *arena = *state;
    static const struct {
        double wanted_h, smoking_h;
        int is_short, is_long;
    } rows[] = {
        {8, 5.9, VERDICT_TEND, -1}, {8, 6.1, VERDICT_GOOD, -1},  {8, 7.99, -1, -1},
        {8, 9.9, -1, -1},           {8, 10.1, -1, VERDICT_TEND},
    };
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = usual(house);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        Plan plan = judged(arena, batch);
        plan.burn.wanted_s = rows[i].wanted_h * 3600;
        plan.burn.smoking_s = rows[i].smoking_h * 3600;
        verdict_reach(arena, batch, &plan);
        assert_int_equal(reason_of(&plan, CAUSE_TOO_SHORT), rows[i].is_short);
        assert_int_equal(reason_of(&plan, CAUSE_TOO_LONG), rows[i].is_long);
    }
    Plan plan = judged(arena, batch);
    assert_true(isnan(plan.burn.wanted_s));
    assert_int_equal(reason_of(&plan, CAUSE_TOO_LONG), -1);
}

/* What was measured lies between 50 and 250 mm/h. */
static void a_front_beyond_what_was_measured_is_tended(void **state) {
    Arena *arena = *state;
    static const double speeds_mm_h[] = {49, 51, 249, 251};
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = usual(house);
    for (int i = 0; i < 4; i++) {
        Plan plan = judged(arena, batch);
        plan.burn.slowest_mps = plan.burn.fastest_mps = speeds_mm_h[i] / 1000 / 3600;
        verdict_reach(arena, batch, &plan);
        assert_int_equal(reason_of(&plan, CAUSE_FRONT_SLOW), i == 0 ? VERDICT_TEND : -1);
        assert_int_equal(reason_of(&plan, CAUSE_FRONT_FAST), i == 3 ? VERDICT_TEND : -1);
    }
    /* the mean of the path that the session worked out */
    Plan plan = judged(arena, batch);
    assert_close_share(plan.burn.slowest_mps, plan.burn.speed_mps, 1e-3);
    batch->fills.items[0].both_ends = true;
    plan = judged(arena, batch);
    assert_close_share(plan.burn.fastest_mps, plan.burn.speed_mps, 1e-3);
}

/* A tray of lanes is as wide as a lane is long, or as deep as all lanes: either way round. */
static void a_tray_has_to_go_into_its_cabinet(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = usual(house);
    Cabinet cabinet = *batch->cabinet;
    batch->cabinet = &cabinet;
    cabinet.width_m = cabinet.depth_m = 0.01;
    Plan plan = judged(arena, batch);
    assert_int_equal(reason_of(&plan, CAUSE_TRAY_BIG), VERDICT_DO_NOT_LIGHT);
    assert_string_equal(plan.cabinet.tray_too_big, house->fold.id);
    double width_m = plan.cabinet.tray_width_m, depth_m = plan.cabinet.tray_depth_m;
    for (int turned = 0; turned < 2; turned++) {
        cabinet.width_m = (turned ? depth_m : width_m) + 0.001;
        cabinet.depth_m = (turned ? width_m : depth_m) + 0.001;
        plan = judged(arena, batch);
        assert_int_equal(reason_of(&plan, CAUSE_TRAY_BIG), -1);
        cabinet.depth_m -= 0.002;
        plan = judged(arena, batch);
        assert_int_equal(reason_of(&plan, CAUSE_TRAY_BIG), VERDICT_DO_NOT_LIGHT);
    }
    batch->cabinet = NULL;
    plan = judged(arena, batch);
    assert_null(plan.cabinet.tray_too_big);
}

/* Whichever way it is turned, it stays so far off a wall that can burn, or is watched. */
static void a_tray_stays_off_walls_that_burn(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = usual(house);
    Cabinet cabinet = *batch->cabinet;
    batch->cabinet = &cabinet;
    double width_m, depth_m;
    tray_map_size(&house->fold, &width_m, &depth_m);
    cabinet.wall = CABINET_CARDBOARD;
    cabinet.width_m = depth_m + 2 * PLAUSIBLE_WALL_CLEAR_M + 1e-6;
    cabinet.depth_m = width_m + 2 * PLAUSIBLE_WALL_CLEAR_M + 1e-6;
    Plan plan = judged(arena, batch);
    assert_int_equal(reason_of(&plan, CAUSE_TRAY_NEAR_WALL), -1);
    cabinet.width_m -= 1e-3;
    plan = judged(arena, batch);
    assert_int_equal(reason_of(&plan, CAUSE_TRAY_NEAR_WALL), VERDICT_TEND);
    Away away = {.from = SMOKEHOUSE_EVENING + 7200, .to = SMOKEHOUSE_EVENING + 14400};
    LIST_ADD(arena, &batch->timing.away, away);
    plan = judged(arena, batch);
    assert_int_equal(reason_of(&plan, CAUSE_TRAY_NEAR_WALL), VERDICT_STAY);
    cabinet.wall = CABINET_STEEL;
    plan = judged(arena, batch);
    assert_int_equal(reason_of(&plan, CAUSE_TRAY_NEAR_WALL), -1);
}

static void an_hour_that_is_past_is_refused(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = usual(house);
    static const int minutes_late[] = {-600, 0, 59, 61, 100000};
    for (int i = 0; i < 5; i++) {
        batch->planned_at = SMOKEHOUSE_EVENING + minutes_late[i] * 60;
        Plan plan = judged(arena, batch);
        int wanted = minutes_late[i] > 60 ? VERDICT_DO_NOT_LIGHT : -1;
        assert_int_equal(reason_of(&plan, CAUSE_HOUR_PAST), wanted);
    }
    batch->record.stated = true; /* then it is no order to light any more */
    Plan over = judged(arena, batch);
    assert_int_equal(reason_of(&over, CAUSE_HOUR_PAST), -1);
    batch->record.stated = false;
    batch->planned_at = 0;
    Plan untold = judged(arena, batch);
    assert_int_equal(reason_of(&untold, CAUSE_HOUR_PAST), -1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(a_thin_layer_is_refused),
        CASE(a_burn_far_from_what_was_asked_is_tended),
        CASE(a_front_beyond_what_was_measured_is_tended),
        CASE(a_tray_has_to_go_into_its_cabinet),
        CASE(a_tray_stays_off_walls_that_burn),
        CASE(an_hour_that_is_past_is_refused),
    };
    const char *against = "too little, too much, too big: by hand";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
