/* Compared: planned beside happened, by figures put together here by hand, and by nights that the
 * model made itself at a speed that is then found again. */
#include "model/compared.h"
#include "model/plan.h"
#include "model/session.h"
#include "model/timeline.h"

#include "support/arena_case.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

enum { HOUR_S = 3600, MINUTE_S = 60 };

static Batch *night(Smokehouse *house) {
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.85);
    smokehouse_part(house, batch, &house->carrier, 1);
    batch->timing.look_ins = 3;
    batch->product.limit_temp_c = 30;
    batch->product.mass_kg = 4;
    batch->record = (Record){.stated = true,
                             .lit = batch->timing.at,
                             .filled_m = NOT_STATED,
                             .used_kg = NOT_STATED,
                             .burnt_m = NOT_STATED,
                             .ash_kg = NOT_STATED,
                             .product_kg = NOT_STATED};
    return batch;
}

static void reads(Smokehouse *house, Batch *batch, int minutes, double front_m, double temp_c) {
    Reading reading = {.at = batch->record.lit + minutes * MINUTE_S,
                       .front_m = front_m,
                       .cabinet_temp_c = temp_c,
                       .humidity = NOT_STATED};
    LIST_ADD(house->arena, &batch->record.readings, reading);
}

static const PlanCompared *row_of(const Plan *plan, const char *key) {
    for (size_t i = 0; i < plan->compared.count; i++) {
        if (strcmp(plan->compared.items[i].key, key) == 0) {
            return &plan->compared.items[i];
        }
    }
    fail_msg("no row '%s'", key);
    return NULL;
}

/* ---- What nobody wrote down ------------------------------------------------------------------ */

static void what_nobody_wrote_down_is_not_stated(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    const Plan *plan = plan_make(*state, night(house));
    assert_true(plan->compared.count > 7);
    for (size_t i = 0; i < plan->compared.count; i++) {
        const PlanCompared *row = &plan->compared.items[i];
        bool lit = strcmp(row->key, "lit") == 0;
        assert_int_equal(is_stated(row->happened.value), lit);
        assert_int_equal(row->alike, lit);
        assert_false(is_stated(row->more.value) || is_stated(row->less.value) || row->outside);
    }
    assert_true(plan->checks.count >= 3);
    for (size_t i = 0; i < plan->checks.count; i++) {
        const PlanCheck *check = &plan->checks.items[i];
        assert_true(check->planned_at && !check->at && is_stated(check->planned_m));
        assert_false(is_stated(check->front_m) || is_stated(check->cabinet_temp_c));
    }
    assert_int_equal(plan->warmth.read, 0);
    assert_false(is_stated(plan->warmth.most_c) || is_stated(plan->warmth.yield));
}

static void before_a_record_nothing_is_compared(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house);
    batch->record.stated = false;
    const Plan *plan = plan_make(*state, batch);
    assert_int_equal(plan->compared.count + plan->checks.count, 0);
    assert_false(is_stated(plan->warmth.most_c) || is_stated(plan->warmth.yield));
}

/* ---- Differences ----------------------------------------------------------------------------- */

static void differences_are_said_as_they_are_shown(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house);
    const Plan *planned = plan_make(*state, batch);
    const PlanFill *fill = &planned->fills.items[0];
    Record *record = &batch->record;
    record->lit += 7 * MINUTE_S + 10;
    record->out = planned->burn.out_about - 12 * MINUTE_S;
    record->filled_m = fill->filled_m - 0.0401;
    record->used_kg = floor(fill->wet_kg * 1000 + 0.5) / 1000 + 0.003;
    record->ash_kg = 0.004;
    record->product_kg = 3.8;
    const Plan *plan = plan_make(*state, batch);
    assert_close(row_of(plan, "lit")->more.value, 7 * MINUTE_S, 1e-9);
    assert_int_equal(row_of(plan, "lit")->more.kind, QUANTITY_DURATION);
    assert_close(row_of(plan, "out")->less.value, 12 * MINUTE_S, 1e-9);
    assert_false(is_stated(row_of(plan, "out")->more.value) || row_of(plan, "out")->outside);
    assert_close(row_of(plan, "burn")->less.value, 19 * MINUTE_S, 1e-9);
    assert_close(row_of(plan, "filled")->less.value, 0.040, 0.0011);
    assert_close(row_of(plan, "burnt")->happened.value, record->filled_m, 1e-12); /* all of it */
    assert_close(row_of(plan, "used")->more.value, 0.003, 1e-9);
    assert_close(row_of(plan, "ash")->happened.value, 0.004, 1e-12);
    assert_false(is_stated(row_of(plan, "ash")->planned.value));
    assert_close(plan->warmth.yield, 0.95, 1e-12);
}

static void an_end_out_of_the_band_is_named(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house);
    batch->record.out = plan_make(*state, batch)->burn.out_late + MINUTE_S;
    assert_true(row_of(plan_make(*state, batch), "out")->outside);
    batch->record.out = plan_make(*state, batch)->burn.out_early - MINUTE_S;
    assert_true(row_of(plan_make(*state, batch), "out")->outside);
}

/* Nobody measured how much burns of a tray that died, unless it is written. */
static void what_had_burnt_is_only_what_was_written(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house);
    batch->record.out = batch->record.lit + 3 * HOUR_S;
    batch->record.filled_m = 0.5;
    batch->record.went_out_early = true;
    assert_false(is_stated(row_of(plan_make(*state, batch), "burnt")->happened.value));
    batch->record.burnt_m = 0.3;
    assert_close(row_of(plan_make(*state, batch), "burnt")->happened.value, 0.3, 1e-12);
}

/* A night that the model made at a speed factor has that one on its page, and at each reading the
 * front is as far ahead as it was made. */
static void a_made_night_is_found_again(void **state) {
    static const double factors[] = {0.7, 1.0, 1.3};
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        Smokehouse *house = smokehouse_new(*state);
        Batch *batch = night(house);
        Belief drawn = belief_unmeasured();
        drawn.speed.middle = factors[i];
        Plan made;
        memset(&made, 0, sizeof made);
        session_work_out(*state, batch, &drawn, batch->timing.at, SESSION_WHOLE, &made);
        batch->record.out = made.burn.out_at;
        batch->record.filled_m = made.fills.items[0].filled_m;
        const PlanSample *sample = &made.samples.items[18]; /* three hours after lighting */
        reads(house, batch, (int)((sample->at - batch->record.lit) / MINUTE_S), sample->along_m, 8);
        const Plan *plan = plan_make(*state, batch);
        assert_close(row_of(plan, "speed_factor")->happened.value, factors[i], 0.02);
        const PlanCheck *check = NULL;
        for (size_t k = 0; k < plan->checks.count; k++) {
            check = plan->checks.items[k].at ? &plan->checks.items[k] : check;
        }
        assert_non_null(check);
        assert_int_equal(is_stated(check->ahead_m), factors[i] > 1);
        assert_int_equal(is_stated(check->behind_m), factors[i] < 1);
    }
}

/* Lit an hour late, a front is held against where it was planned to be so long after lighting. */
static void a_front_is_held_against_the_time_since_lighting(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house);
    batch->record.lit += HOUR_S;
    reads(house, batch, 120, 0.2, NOT_STATED);
    const Plan *plan = plan_make(*state, batch);
    double expected_m = timeline_look_at(plan, plan->burn.light_at + 2 * HOUR_S).along_m;
    bool found = false;
    for (size_t i = 0; i < plan->checks.count; i++) {
        const PlanCheck *check = &plan->checks.items[i];
        if (check->at) {
            found = true;
            assert_close(check->planned_m, expected_m, 1e-9);
            assert_close(fmax(check->ahead_m, -check->behind_m), 0.2 - expected_m, 1e-9);
        }
    }
    assert_true(found);
}

/* ---- Looks ----------------------------------------------------------------------------------- */

static void a_look_and_its_reading_are_one_row(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house);
    size_t looks = plan_make(*state, batch)->look_ins.count;
    Instant second = plan_make(*state, batch)->look_ins.items[1].at;
    int minutes = (int)((second - batch->record.lit) / MINUTE_S);
    reads(house, batch, minutes - 20, 0.1, 9); /* both near the same look: the nearer is its own */
    reads(house, batch, minutes + 5, 0.12, 9);
    const Plan *plan = plan_make(*state, batch);
    assert_int_equal(plan->checks.count, looks + 1);
    size_t met = 0;
    for (size_t i = 0; i < plan->checks.count; i++) {
        const PlanCheck *check = &plan->checks.items[i];
        Instant at = check->at ? check->at : check->planned_at;
        const PlanCheck *before = i ? check - 1 : NULL;
        if (before) {
            assert_true(at >= (before->at ? before->at : before->planned_at));
        }
        if (check->at && check->planned_at) {
            met++;
            assert_int_equal(check->planned_at, second);
            assert_int_equal(check->at, second + 5 * MINUTE_S);
        }
    }
    assert_int_equal(met, 1);
}

/* ---- Warmth ---------------------------------------------------------------------------------- */

typedef struct WarmCase {
    double temps_c[6]; /* one an hour from an hour after lighting; NAN: none */
    int over;
    double least_h, most_h; /* most NAN: open */
} WarmCase;

static void time_over_the_ceiling_lies_between_its_readings(void **state) {
    static const WarmCase cases[] = {
        {{10, 20, 30, 10, 9, 8}, 0, 0, 0},     /* at the ceiling is not over it */
        {{10, 35, 10, 9, 9, 8}, 1, 0, 2},      /* one reading says nothing of how long */
        {{10, 35, 36, 10, 9, 8}, 2, 1, 3},     /* … */
        {{35, 10, 9, 35, 36, 8}, 3, 1, 5},     /* twice; the first since lighting at most */
        {{10, 10, 10, 10, 35, 36}, 2, 1, NAN}, /* nobody read that it fell */
        {{10, 35, NAN, 35, 10, 10}, 2, 2, 4},  /* one look without a thermometer */
        {{NAN, NAN, NAN, NAN, NAN, NAN}, 0, 0, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Smokehouse *house = smokehouse_new(*state);
        Batch *batch = night(house);
        for (int hour = 0; hour < 6; hour++) {
            reads(house, batch, 60 * (hour + 1), NOT_STATED, cases[i].temps_c[hour]);
        }
        const PlanWarmth *warmth = &plan_make(*state, batch)->warmth;
        assert_int_equal(warmth->over, cases[i].over);
        assert_close(warmth->over_least_s, cases[i].least_h * HOUR_S, 1e-9);
        if (isnan(cases[i].most_h)) {
            assert_false(is_stated(warmth->over_most_s));
        } else {
            assert_close(warmth->over_most_s, cases[i].most_h * HOUR_S, 1e-9);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(what_nobody_wrote_down_is_not_stated),
        CASE(before_a_record_nothing_is_compared),
        CASE(differences_are_said_as_they_are_shown),
        CASE(an_end_out_of_the_band_is_named),
        CASE(what_had_burnt_is_only_what_was_written),
        CASE(a_made_night_is_found_again),
        CASE(a_front_is_held_against_the_time_since_lighting),
        CASE(a_look_and_its_reading_are_one_row),
        CASE(time_over_the_ceiling_lies_between_its_readings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
