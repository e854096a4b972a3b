/* Attendance, and what may come worse than the middle estimate: against the samples of the same
 * night, against a second run of the model with the fast front, and by hand. */
#include "model/care.h"
#include "model/belief.h"
#include "model/session.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

enum { HOUR_S = 3600 };

static Plan plan_with(Arena *arena, const Batch *batch, const Belief *belief) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, belief, SMOKEHOUSE_EVENING, SESSION_WHOLE, &plan);
    return plan;
}

static Batch *damp_night(Smokehouse *house) {
    Batch *batch = smokehouse_batch(house, &house->maze, 6, 0.88);
    smokehouse_part(house, batch, &house->carrier, 0.6);
    smokehouse_part(house, batch, &house->cherry, 0.4);
    return batch;
}

static void be_away(Arena *arena, Batch *batch, double from_h, double to_h) {
    Away away = {.from = SMOKEHOUSE_EVENING + (Instant)(from_h * HOUR_S),
                 .to = SMOKEHOUSE_EVENING + (Instant)(to_h * HOUR_S)};
    LIST_ADD(arena, &batch->timing.away, away);
}

/* The samples inside the absence, on whole ten minutes as its ends are, hold the same figures. */
static void agrees_with_the_samples(const Plan *plan) {
    const PlanBurn *burn = &plan->burn;
    double least = INFINITY, warmest = -INFINITY;
    for (size_t i = 0; i < plan->samples.count; i++) {
        const PlanSample *sample = &plan->samples.items[i];
        if (sample->at >= burn->untended_from && sample->at <= burn->untended_to) {
            least = fmin(least, sample->margin);
            warmest = fmax(warmest, sample->cabinet_temp_c);
        }
    }
    assert_close(burn->untended_margin, least, 1e-4);
    assert_close(plan->cabinet.peak_away_c, warmest, 1e-3);
}

static void a_weak_burn_in_hours_of_absence_is_told(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = damp_night(house);
    Plan there = plan_with(arena, batch, NULL);
    assert_true(there.burn.margin_least < 1.35 && there.burn.margin_at_start > 1.35);
    assert_true(there.burn.untended_from == 0 && there.burn.untended_to == 0);
    assert_true(isnan(there.burn.untended_margin) && isnan(there.cabinet.peak_away_c));
    be_away(arena, batch, 6, 7.5);
    Plan away = plan_with(arena, batch, NULL);
    assert_int_equal(away.burn.untended_from, SMOKEHOUSE_EVENING + 6 * HOUR_S);
    assert_int_equal(away.burn.untended_to, SMOKEHOUSE_EVENING + 7 * HOUR_S + HOUR_S / 2);
    agrees_with_the_samples(&away);
    be_away(arena, batch, -5, -1); /* before it is lit: nothing to tend */
    assert_int_equal(plan_with(arena, batch, NULL).burn.untended_from, away.burn.untended_from);
    arena_free(arena);
}

static void a_sound_burn_may_be_left_alone(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->maze, 8, 0.6);
    smokehouse_part(house, batch, &house->carrier, 1);
    be_away(arena, batch, 2, 6);
    Plan plan = plan_with(arena, batch, NULL);
    assert_true(plan.burn.margin_least >= 1.35);
    assert_int_equal(plan.burn.untended_from, 0);
    assert_true(plan.cabinet.peak_away_c <= plan.cabinet.peak_temp_c);
    /* from beginning to end: the warmest hour of all is among them */
    be_away(arena, batch, -1, 48);
    plan = plan_with(arena, batch, NULL);
    assert_close(plan.cabinet.peak_away_c, plan.cabinet.peak_temp_c, 1e-9);
    arena_free(arena);
}

/* The model run anew with a front as fast as the early end of the band. Its dust is a little drier
 * at the same hour, so that it may get warmer by a trifle. */
static void the_fast_front_warms_as_a_run_of_its_own(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = damp_night(house);
    Plan middle = plan_with(arena, batch, NULL);
    Belief fast = belief_unmeasured();
    fast.speed.pace = exp(1.2815515655 * 0.30);
    Plan run = plan_with(arena, batch, &fast);
    double rise = run.cabinet.peak_temp_c - 6;
    assert_close_share(middle.cabinet.peak_fast_c - 6, rise, 0.01);
    assert_true(middle.cabinet.peak_fast_c > middle.cabinet.peak_temp_c + 0.3);
    arena_free(arena);
}

/* Limits of the kinds: model/care.c. */
static void a_cabinet_that_may_pass_its_limit_is_watched(void **state) {
    (void)state;
    Product cheese = {.kind = PRODUCT_CHEESE, .limit_temp_c = NOT_STATED};
    PlanCabinet cabinet = {.peak_temp_c = 24, .peak_fast_c = 29, .peak_away_c = 20};
    care_judge_cabinet(&cheese, &cabinet);
    assert_false(cabinet.over_caution || cabinet.over_limit || cabinet.over_away);
    cabinet.peak_fast_c = 31;
    care_judge_cabinet(&cheese, &cabinet);
    assert_true(cabinet.over_caution && !cabinet.over_limit);
    cabinet.peak_away_c = 26;
    care_judge_cabinet(&cheese, &cabinet);
    assert_true(cabinet.over_away);
    cabinet.peak_away_c = NAN;
    care_judge_cabinet(&cheese, &cabinet);
    assert_false(cabinet.over_away);
}

/* 250 against 160 g/kg (the range of smouldering peat and forest fires), 10 mg/m³ over 8 h and 100
 * for a quarter of an hour (WHO Europe 2000): a room between is near its limit. */
static void rich_smoke_counts_in_a_room(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = damp_night(house);
    int near = 0, over = 0, clear = 0;
    for (double changes = 0.5; changes < 100; changes *= 1.25) {
        house->workshop.room =
            (Room){.stated = true, .volume_m3 = 60, .air_changes_per_h = changes};
        PlanRoom room = plan_with(arena, batch, NULL).room;
        assert_close_share(room.rich_8h_mg_m3, room.mean_8h_mg_m3 * 250 / 160, 1e-12);
        assert_true(room.over_limit == (room.mean_8h_mg_m3 > 10 || room.peak_mg_m3 > 100));
        bool rich_over = room.mean_8h_mg_m3 > 6.4 || room.peak_mg_m3 > 64;
        assert_true(room.near_limit == (rich_over && !room.over_limit));
        near += room.near_limit;
        over += room.over_limit;
        clear += !room.near_limit && !room.over_limit;
    }
    assert_true(near >= 1 && over >= 3 && clear >= 3);
    arena_free(arena);
}

static void forecast_of(Arena *arena, Batch *batch, double from_h, double to_h) {
    batch->weather = (Weather){.place = {0}};
    for (int end = 0; end < 2; end++) {
        Instant at = SMOKEHOUSE_EVENING + (Instant)((end ? to_h : from_h) * HOUR_S);
        WeatherReading reading = {.at = at, .temp_c = 5, .humidity = 0.8};
        LIST_ADD(arena, &batch->weather.readings, reading);
    }
}

static void a_burn_beyond_the_forecast_is_told(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = damp_night(house);
    Plan steady = plan_with(arena, batch, NULL);
    assert_false(steady.weather.beyond_forecast);
    assert_true(steady.weather.known_from == 0 && steady.weather.known_to == 0);
    double late_h = (double)(steady.burn.out_late - SMOKEHOUSE_EVENING) / HOUR_S;
    const struct {
        double from_h, to_h;
        bool beyond;
    } cases[] = {{-1, late_h + 1, false},
                 {-1, late_h - 1, false},
                 {-1, late_h - 3, true},
                 {1, late_h + 1, false},
                 {3, late_h + 1, true}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        forecast_of(arena, batch, cases[i].from_h, cases[i].to_h);
        Plan plan = plan_with(arena, batch, NULL);
        assert_true(plan.weather.beyond_forecast == cases[i].beyond);
        assert_int_equal(plan.weather.known_from, batch->weather.readings.items[0].at);
        assert_int_equal(plan.weather.known_to, batch->weather.readings.items[1].at);
    }
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_weak_burn_in_hours_of_absence_is_told),
        cmocka_unit_test(a_sound_burn_may_be_left_alone),
        cmocka_unit_test(the_fast_front_warms_as_a_run_of_its_own),
        cmocka_unit_test(a_cabinet_that_may_pass_its_limit_is_watched),
        cmocka_unit_test(rich_smoke_counts_in_a_room),
        cmocka_unit_test(a_burn_beyond_the_forecast_is_told),
    };
    const char *against = "attendance: samples, a second run, WHO limits by hand";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
