/* Timeline: order and clock of the steps, looks that avoid absent hours, dark hours on the wall
 * clock. The expected times are worked out by hand from the rules of model/timeline.h. */
#include "model/timeline.h"
#include "support/close.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>

enum { MINUTE_S = 60, HOUR_S = 3600 };

static const Tray fold = {.id = "fold",
                          .name = "Fold",
                          .path = PATH_LANES,
                          .lanes = 4,
                          .lane_length_m = 0.235,
                          .pitch_m = 0.02};
static const Tray trough = {.id = "trough", .name = "Trough", .path = PATH_STRAIGHT};

static Instant at(const char *text) {
    CivilTime civil = {0};
    assert_true(civil_parse(text, &civil));
    return civil_to_utc(civil);
}

static void add_fill(Arena *arena, Plan *plan, const Tray *tray, Instant light, Instant out) {
    PlanFill fill = {.tray = tray,
                     .number = (int)plan->fills.count + 1,
                     .channel_m = 1,
                     .filled_m = 1,
                     .whole = true,
                     .wet_kg = 0.1,
                     .light_at = light,
                     .out_at = out};
    LIST_ADD(arena, &plan->fills, fill);
    for (Instant now = light; now <= out; now += 10 * MINUTE_S) {
        PlanSample sample = {.at = now,
                             .fill = fill.number,
                             .cabinet_temp_c = 12,
                             .along_m = (double)(now - light) / (double)(out - light)};
        LIST_ADD(arena, &plan->samples, sample);
    }
}

/* Lit at 20:00 UTC for eight hours, weak from 02:00; dried for a quarter of an hour before. */
static Plan *night(Arena *arena, Batch *batch) {
    Workshop *workshop = ARENA_NEW(arena, Workshop);
    workshop->zone = zone_load(arena, "UTC");
    batch->workshop = workshop;
    batch->product = (Product){.kind = PRODUCT_CHEESE, .name = "Cheddar"};
    Plan *plan = ARENA_NEW(arena, Plan);
    plan->workshop = workshop;
    plan->batch = batch;
    plan->burn = (PlanBurn){.light_at = at("2026-12-04T20:00"),
                            .out_at = at("2026-12-05T04:00"),
                            .out_about = at("2026-12-05T04:00"),
                            .out_early = at("2026-12-05T02:30"),
                            .out_late = at("2026-12-05T06:30"),
                            .chance = 0.8,
                            .chance_good = 0.9,
                            .chance_tend = 0.65,
                            .likely_out_at = at("2026-12-05T03:00")};
    /* all of those that go out do so from two to four */
    const struct {
        const char *when;
        double lasting;
    } rows[] = {{"2026-12-04T20:00", 1},
                {"2026-12-05T02:00", 1},
                {"2026-12-05T04:00", 0.8},
                {"2026-12-05T06:30", 0.8}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        LIST_ADD(arena, &plan->survival, ((PlanLasting){at(rows[i].when), rows[i].lasting}));
    }
    batch->timing.look_ins = 5;
    plan->drying = (PlanDrying){.asked = true,
                                .needed = true,
                                .time_s = 15 * MINUTE_S,
                                .wait_s = 20 * MINUTE_S,
                                .scale_can_tell = true,
                                .wait_sealed = true,
                                .end_kg = 0.095,
                                .water_kg = 0.005};
    plan->blend.wet_kg = 0.1;
    add_fill(arena, plan, &fold, plan->burn.light_at, plan->burn.out_at);
    return plan;
}

static const PlanStep *step(const Plan *plan, const char *key) {
    for (size_t i = 0; i < plan->steps.count; i++) {
        if (strcmp(plan->steps.items[i].key, key) == 0) {
            return &plan->steps.items[i];
        }
    }
    return NULL;
}

static void assert_step_at(const Plan *plan, const char *key, const char *when) {
    if (!step(plan, key)) {
        fail_msg("step '%s' is missing", key);
    }
    assert_int_equal(step(plan, key)->at, at(when));
}

static void steps_run_backwards_from_lighting(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    timeline_add(arena, &batch, plan);
    assert_step_at(plan, "light", "2026-12-04T20:00");
    assert_step_at(plan, "hang", "2026-12-04T19:45");
    assert_step_at(plan, "check", "2026-12-04T19:40"); /* 20 min wait */
    assert_step_at(plan, "cool_sealed", "2026-12-04T19:40");
    assert_step_at(plan, "dry", "2026-12-04T19:25");
    assert_step_at(plan, "fill", "2026-12-04T19:10");
    assert_step_at(plan, "loosen", "2026-12-04T19:05");
    assert_step_at(plan, "weigh_tray", "2026-12-04T18:50");
    assert_step_at(plan, "prepare_cheese", "2026-12-04T19:00");
    assert_step_at(plan, "first_look_in", "2026-12-04T20:20");
    assert_step_at(plan, "worst_look_in", "2026-12-05T03:00");
    assert_step_at(plan, "take_out", "2026-12-05T04:00");
    assert_close(step(plan, "check")->amount.value, 0.095, 1e-12);
    assert_string_equal(step(plan, "hang")->name, "Cheddar");
}

static void steps_stand_in_the_order_of_the_clock_and_fit_a_page(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    timeline_add(arena, &batch, plan);
    for (size_t i = 1; i < plan->steps.count; i++) {
        const PlanStep *before = &plan->steps.items[i - 1];
        const PlanStep *now = &plan->steps.items[i];
        assert_true(now->at == 0 || before->at <= now->at);
    }
    assert_in_range(plan->steps.count, 10, 16);
    assert_string_equal(plan->steps.items[plan->steps.count - 1].key, "record");
}

static void without_an_oven_nothing_is_dried(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    plan->drying.needed = false;
    plan->fills.items[0].filled_m = 0.8;
    plan->fills.items[0].whole = false;
    plan->fills.items[0].both_ends = true;
    plan->burn.chance = 0.95;
    timeline_add(arena, &batch, plan);
    assert_null(step(plan, "dry"));
    assert_null(step(plan, "check"));
    assert_null(step(plan, "worst_look_in"));
    assert_step_at(plan, "fill_to_lane", "2026-12-04T19:30");
    assert_non_null(step(plan, "light_both"));
}

static void what_nobody_measured_is_weighed_until_it_stays_the_same(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    plan->drying.assumed = true;
    plan->drying.end_low_kg = 0.090;
    plan->drying.end_high_kg = 0.097;
    timeline_add(arena, &batch, plan);
    assert_null(step(plan, "check"));
    assert_step_at(plan, "cool_sealed", "2026-12-04T19:40");
    assert_step_at(plan, "check_again", "2026-12-04T19:25"); /* a quarter of an hour for it */
    assert_step_at(plan, "dry", "2026-12-04T19:10");
    assert_close(step(plan, "check_again")->amount.value, 0.090, 0);
    assert_close(step(plan, "check_again")->second.value, 0.097, 0);
}

static void a_scale_that_cannot_tell_is_not_asked(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    plan->drying.scale_can_tell = false;
    plan->drying.wait_sealed = false;
    timeline_add(arena, &batch, plan);
    assert_null(step(plan, "check"));
    assert_non_null(step(plan, "check_by_time"));
    assert_non_null(step(plan, "cool_open"));
}

static void further_fills_have_their_steps(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    add_fill(arena, plan, &fold, at("2026-12-05T04:00"), at("2026-12-05T08:00"));
    add_fill(arena, plan, &trough, at("2026-12-05T08:00"), at("2026-12-05T12:00"));
    plan->burn.out_at = at("2026-12-05T12:00");
    timeline_add(arena, &batch, plan);
    assert_step_at(plan, "refill", "2026-12-05T04:00");
    assert_step_at(plan, "next_tray", "2026-12-05T08:00");
    assert_int_equal(step(plan, "next_tray")->fill, 3);
    /* the second tray is filled before the night too, the refill of the first is not */
    int filled[4] = {0};
    for (size_t i = 0; i < plan->steps.count; i++) {
        if (strncmp(plan->steps.items[i].key, "fill", 4) == 0) {
            filled[plan->steps.items[i].fill]++;
            assert_true(plan->steps.items[i].at < plan->burn.light_at);
        }
    }
    assert_int_equal(filled[1], 1);
    assert_int_equal(filled[2], 0);
    assert_int_equal(filled[3], 1);
    plan->steps.count = plan->look_ins.count = 0;
    add_fill(arena, plan, &fold, at("2026-12-05T12:00"), at("2026-12-05T13:00"));
    add_fill(arena, plan, &fold, at("2026-12-05T13:00"), at("2026-12-05T14:00"));
    timeline_add(arena, &batch, plan);
    assert_null(step(plan, "next_tray"));
    assert_close(step(plan, "next_fills")->amount.value, 4, 0);
}

static const PlanLookIn *look_in(const Plan *plan, const char *when) {
    for (size_t i = 0; i < plan->look_ins.count; i++) {
        if (plan->look_ins.items[i].at == at(when)) {
            return &plan->look_ins.items[i];
        }
    }
    return NULL;
}

static void looks_come_when_and_where_they_should(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    timeline_add(arena, &batch, plan);
    assert_int_equal(plan->look_ins.count, 7); /* the first, five, and when it should be out */
    assert_non_null(look_in(plan, "2026-12-04T20:20"));
    assert_non_null(look_in(plan, "2026-12-05T02:30"));
    assert_true(look_in(plan, "2026-12-05T03:00")->worst);
    assert_non_null(look_in(plan, "2026-12-05T03:30"));
    assert_non_null(look_in(plan, "2026-12-05T04:00"));
    for (size_t i = 1; i + 1 < plan->look_ins.count; i++) {
        assert_int_equal(plan->look_ins.items[i].at % (30 * MINUTE_S), 0);
        assert_true(plan->look_ins.items[i].at - plan->look_ins.items[i - 1].at >= 30 * MINUTE_S);
    }
    /* 20 min in 8 h are 1/24; after six and a half hours 0.8125 m of 1 m. */
    assert_close(look_in(plan, "2026-12-04T20:20")->along_m, 1.0 / 24, 1e-9);
    assert_close(look_in(plan, "2026-12-04T20:20")->in_lane, 1.0 / 24 / 0.235, 1e-9);
    assert_close(look_in(plan, "2026-12-05T02:30")->along_m, 6.5 / 8, 1e-9);
    assert_int_equal(look_in(plan, "2026-12-05T02:30")->lane, 4);
    assert_int_equal(look_in(plan, "2026-12-05T04:00")->lane, 4);
    assert_close(look_in(plan, "2026-12-05T04:00")->in_lane, 1, 1e-9);
    batch.timing.look_ins = 0;
    plan->look_ins.count = 0;
    timeline_add_look_ins(arena, &batch, plan);
    assert_int_equal(plan->look_ins.count, 2);
}

static void looks_avoid_the_hours_when_nobody_is_there(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    LIST_ADD(arena, &batch.timing.away,
             (Away){.from = at("2026-12-04T23:00"), .to = at("2026-12-05T03:00")});
    timeline_add(arena, &batch, plan);
    for (size_t i = 0; i < plan->look_ins.count; i++) {
        assert_null(timeline_away_at(&batch, plan->look_ins.items[i].at));
    }
    assert_true(look_in(plan, "2026-12-05T03:00")->worst);
    assert_true(look_in(plan, "2026-12-05T03:00")->alone_since == at("2026-12-04T23:00"));
    size_t before = 0; /* the last before they go says for how long */
    while (plan->look_ins.items[before + 1].at <= at("2026-12-04T23:00")) {
        before++;
    }
    assert_true(plan->look_ins.items[before].alone_until == at("2026-12-05T03:00"));
}

/* The end falls into their hours: ash and product wait for them, and so does the look. */
static void who_sleeps_past_the_end_empties_it_when_back(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    LIST_ADD(arena, &batch.timing.away,
             (Away){.from = at("2026-12-04T23:10"), .to = at("2026-12-05T07:10")});
    timeline_add(arena, &batch, plan);
    assert_step_at(plan, "take_out", "2026-12-05T07:10");
    assert_step_at(plan, "ash", "2026-12-05T07:10");
    assert_true(look_in(plan, "2026-12-05T07:10")->away);
    assert_true(look_in(plan, "2026-12-05T07:10")->alone_since == at("2026-12-04T23:10"));
}

static void who_leaves_at_once_looks_when_back(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    LIST_ADD(arena, &batch.timing.away,
             (Away){.from = at("2026-12-04T20:02"), .to = at("2026-12-05T07:00")});
    timeline_add(arena, &batch, plan);
    assert_int_equal(plan->look_ins.count, 1);
    assert_true(look_in(plan, "2026-12-05T07:00")->away);
    assert_step_at(plan, "close", "2026-12-04T20:00");
    assert_step_at(plan, "first_look_in", "2026-12-05T07:00");
}

/* Out from six to half past seven: all that is to be weighed and dried is done before they go, and
 * the cheese is hung when they are back. Twenty minutes' wait would have had the oven at 19:25. */
static void what_is_to_be_done_before_lighting_is_done_before_they_go(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    LIST_ADD(arena, &batch.timing.away,
             (Away){.from = at("2026-12-04T18:00"), .to = at("2026-12-04T19:30")});
    timeline_add(arena, &batch, plan);
    assert_step_at(plan, "check", "2026-12-04T18:00");
    assert_step_at(plan, "dry", "2026-12-04T17:45");
    assert_step_at(plan, "fill", "2026-12-04T17:30");
    assert_step_at(plan, "weigh_tray", "2026-12-04T17:10");
    assert_step_at(plan, "prepare_cheese", "2026-12-04T19:30");
    assert_step_at(plan, "hang", "2026-12-04T19:45");
}

static void decisions_leave_out_a_ceiling_nobody_knows(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    plan->cabinet = (PlanCabinet){.stated = true, .caution_temp_c = 25, .limit_temp_c = 30};
    size_t count = 0;
    timeline_decision_keys(&count);
    timeline_add_decisions(arena, plan);
    assert_int_equal(plan->decisions.count, count);
    assert_string_equal(plan->decisions.items[0].key, "alarm");
    plan->decisions.count = 0;
    plan->cabinet.limit_temp_c = NOT_STATED;
    timeline_add_decisions(arena, plan);
    assert_int_equal(plan->decisions.count, count - 1);
}

/* In Dublin clocks go back on 25 October 2026 at 02:00 (Irish Summer Time): the night from 22:00
 * to 06:00 lasts nine hours. */
static void the_night_is_the_wall_clocks(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    Zone *dublin = zone_load(arena, "Europe/Dublin");
    assert_non_null(dublin);
    Workshop workshop = {.zone = dublin};
    plan->workshop = &workshop;
    plan->burn.light_at = at("2026-10-24T18:00");
    plan->burn.out_at = at("2026-10-25T08:00");
    plan->burn.out_late = at("2026-10-25T12:00");
    timeline_add_nights(arena, plan);
    assert_int_equal(plan->nights.count, 1);
    assert_int_equal(plan->nights.items[0].from, at("2026-10-24T21:00"));
    assert_int_equal(plan->nights.items[0].to - plan->nights.items[0].from, 9 * HOUR_S);
}

static void a_session_by_day_has_no_night_and_a_long_one_has_two(void **state) {
    Arena *arena = *state;
    Batch batch = {0};
    Plan *plan = night(arena, &batch);
    plan->burn.light_at = at("2026-12-04T07:00");
    plan->burn.out_at = plan->burn.out_late = at("2026-12-04T21:00");
    timeline_add_nights(arena, plan);
    assert_int_equal(plan->nights.count, 0);
    plan->burn.light_at = at("2026-12-04T02:00");
    plan->burn.out_late = at("2026-12-04T23:00");
    timeline_add_nights(arena, plan);
    assert_int_equal(plan->nights.count, 2);
    assert_int_equal(plan->nights.items[0].to, at("2026-12-04T06:00"));
    assert_int_equal(plan->nights.items[1].to, at("2026-12-04T23:00"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(steps_run_backwards_from_lighting),
        CASE(steps_stand_in_the_order_of_the_clock_and_fit_a_page),
        CASE(without_an_oven_nothing_is_dried),
        CASE(what_nobody_measured_is_weighed_until_it_stays_the_same),
        CASE(a_scale_that_cannot_tell_is_not_asked),
        CASE(further_fills_have_their_steps),
        CASE(looks_come_when_and_where_they_should),
        CASE(looks_avoid_the_hours_when_nobody_is_there),
        CASE(who_sleeps_past_the_end_empties_it_when_back),
        CASE(what_is_to_be_done_before_lighting_is_done_before_they_go),
        CASE(who_leaves_at_once_looks_when_back),
        CASE(decisions_leave_out_a_ceiling_nobody_knows),
        CASE(the_night_is_the_wall_clocks),
        CASE(a_session_by_day_has_no_night_and_a_long_one_has_two),
    };
    const char *against = "timeline: hours by hand";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
