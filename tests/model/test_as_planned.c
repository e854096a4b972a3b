/* As planned: what a recorded night is held against, by plans of the same batch without its record
 * and with the past nights that were over by then. */
#include "model/as_planned.h"
#include "model/plan.h"

#include "support/arena_case.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

enum { DAY_S = 24 * 3600, HOUR_S = 3600 };

/* A night of the house, lit so many days after the smokehouse's evening and out as planned, times
 * a ratio. */
static Batch *night(Smokehouse *house, int days, double ratio) {
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.85);
    smokehouse_part(house, batch, &house->carrier, 1);
    batch->timing.at += days * DAY_S;
    const Plan *plan = plan_make(house->arena, batch);
    Instant lit = batch->timing.at;
    batch->record = (Record){.stated = true,
                             .lit = lit,
                             .out = lit + (Instant)(plan->burn.duration_s * ratio),
                             .burnt_m = NOT_STATED,
                             .ash_kg = NOT_STATED};
    return batch;
}

/* As planned, from those past nights. */
static const Plan *planned(Arena *arena, const Batch *batch, const Batch *const *past,
                           size_t count) {
    return as_planned(arena, batch, learning_of(arena, batch->workshop, past, count));
}

static void its_own_record_changes_nothing(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house, 0, 1.4);
    Batch bare = *batch;
    bare.record = (Record){0};
    const Batch *past[] = {batch};
    const Plan *plan = planned(house->arena, batch, past, 1);
    const Plan *expected = plan_make(house->arena, &bare);
    assert_false(plan->happened.over);
    assert_false(plan->batch->record.stated);
    assert_int_equal(plan->burn.out_at, expected->burn.out_at);
    assert_int_equal(plan->burn.records, 0);
    assert_true(batch->record.stated);
}

/* What is left on the shelf today was no reason against a night that is over. */
static void the_shelf_of_today_is_no_reason(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house, 0, 1);
    house->carrier.stock_kg = 0.001;
    assert_int_equal(plan_make(house->arena, batch)->verdict, VERDICT_DO_NOT_LIGHT);
    Verdict before = planned(house->arena, batch, NULL, 0)->verdict;
    house->carrier.stock_kg = NOT_STATED;
    assert_int_equal(before, plan_make(house->arena, batch)->verdict);
    assert_int_not_equal(before, VERDICT_DO_NOT_LIGHT);
}

/* A file that was read twice is two structs. */
static void a_second_copy_of_it_is_itself(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house, 0, 1.4);
    batch->file = "night.xml";
    Batch copy = *batch;
    copy.record.lit -= DAY_S;
    copy.record.out -= DAY_S;
    const Batch *past[] = {&copy};
    assert_int_equal(planned(house->arena, batch, past, 1)->burn.records, 0);
    copy.file = "other.xml";
    assert_int_equal(planned(house->arena, batch, past, 1)->burn.records, 1);
}

static void only_what_was_over_by_then_is_known(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house, 10, 1.0);
    Batch *before = night(house, 5, 1.3);
    Batch *after = night(house, 11, 0.7);
    Batch *burning = night(house, 10, 0.7);
    burning->record.lit -= HOUR_S;
    const Batch *past[] = {before, after, burning, batch};
    const Batch *known[] = {before};
    const Plan *plan = planned(house->arena, batch, past, 4);
    Batch bare = *batch;
    bare.record = (Record){0};
    const Plan *expected = plan_make_with_records(house->arena, &bare, known, 1);
    assert_int_equal(plan->burn.records, 1);
    assert_int_equal(plan->burn.out_at, expected->burn.out_at);
    assert_true(plan->burn.speed_factor < 0.95); /* the slower night before it was learnt from */
}

static void another_house_teaches_nothing(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Smokehouse *other = smokehouse_new(*state);
    const Batch *past[] = {night(other, 5, 1.3)};
    assert_int_equal(planned(*state, night(house, 10, 1), past, 1)->burn.records, 0);
}

/* Printed years afterwards, its date is no slip. */
static void it_is_not_judged_by_the_clock_of_today(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house, 0, 1);
    batch->planned_at = batch->timing.at + 1000 * (Instant)DAY_S;
    assert_true(batch->record.lit);
    assert_int_equal(as_planned_batch(*state, batch)->planned_at, 0);
    assert_int_equal(planned(*state, batch, NULL, 0)->verdict, VERDICT_GOOD);
}

/* What is still to come is: what had to begin before today is too late. */
static void a_night_to_come_is(void **state) {
    Smokehouse *house = smokehouse_new(*state);
    Batch *batch = night(house, 0, 1);
    batch->record = (Record){0};
    batch->planned_at = batch->timing.at - (Instant)DAY_S;
    assert_int_equal(as_planned_batch(*state, batch)->planned_at, batch->planned_at);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(its_own_record_changes_nothing),
        CASE(the_shelf_of_today_is_no_reason),
        CASE(a_second_copy_of_it_is_itself),
        CASE(only_what_was_over_by_then_is_known),
        CASE(another_house_teaches_nothing),
        CASE(it_is_not_judged_by_the_clock_of_today),
        CASE(a_night_to_come_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
