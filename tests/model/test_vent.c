/* How far a vent is to be opened, in words: by hand. A slide set by eye is good to a twentieth
 * (judgement), so the words must not be further from the area reckoned with than half of that. */
#include "model/vent.h"

#include "input/reader.h"
#include "model/plan.h"
#include "model/remedy_trial.h"
#include "support/arena_case.h"
#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <math.h>

static void assert_set(double area_cm2, double full_cm2, VentOpening opening, double share) {
    PlanVent vent = vent_set(area_cm2 * 1e-4, full_cm2 * 1e-4);
    assert_int_equal(vent.opening, opening);
    assert_close(vent.area_m2, area_cm2 * 1e-4, 1e-15);
    if (isnan(share)) {
        assert_true(isnan(vent.share));
    } else {
        assert_close(vent.share, share, 1e-12);
    }
}

static void words_for_quarters_else_per_cent(void **state) {
    (void)state;
    assert_set(20, 80, VENT_QUARTER, 0.25);
    assert_set(40, 80, VENT_HALF, 0.5);
    assert_set(60, 80, VENT_THREE_QUARTERS, 0.75);
    assert_set(80, 80, VENT_OPEN, 1);
    assert_set(41.9, 80, VENT_HALF, 0.5); /* 52.4 % */
    assert_set(42.1, 80, VENT_PART, 0.55);
    assert_set(78.1, 80, VENT_OPEN, 1); /* 97.6 % */
    assert_set(77.9, 80, VENT_PART, 0.95);
    assert_set(30, 80, VENT_PART, 0.4); /* 37.5 % */
    assert_set(2.4, 80, VENT_PART, 0.03);
}

static void without_the_full_area_the_area(void **state) {
    (void)state;
    assert_set(40, NAN, VENT_AREA, NAN);
    assert_set(0.3, 80, VENT_AREA, NAN); /* 0.4 %: no word says that */
    assert_set(0, 80, VENT_AREA, NAN);
}

static void the_words_are_near_what_is_reckoned_with(void **state) {
    (void)state;
    for (int i = 1; i <= 1000; i++) {
        PlanVent vent = vent_set(i * 1e-5, 1e-2);
        double share = i * 1e-3;
        double step = share < 0.1 ? 0.005 : 0.025;
        if (vent.opening == VENT_AREA) {
            assert_true(share < 0.005);
        } else {
            assert_true(fabs(vent.share - share) <= step + 1e-9);
        }
        assert_int_equal(vent.opening == VENT_HALF, share >= 0.475 && share < 0.525);
    }
}

/* Wider is wider, in quarters where they are known, and never more than there is. */
static void never_wider_than_full(void **state) {
    (void)state;
    assert_close(vent_widened_m2(40e-4, 60e-4, NAN), 60e-4, 1e-15);
    assert_close(vent_widened_m2(40e-4, 60e-4, 80e-4), 60e-4, 1e-15);
    assert_close(vent_widened_m2(40e-4, 61e-4, 80e-4), 80e-4, 1e-15);
    assert_close(vent_widened_m2(40e-4, 400e-4, 80e-4), 80e-4, 1e-15);
    assert_close(vent_widened_m2(80e-4, 120e-4, 80e-4), 80e-4, 1e-15);
    assert_close(vent_widened_m2(40e-4, 20e-4, 80e-4), 40e-4, 1e-15); /* the wider of two stays */
    uint64_t seed = 7;
    for (int i = 0; i < 500; i++) {
        double full = close_random(&seed, 1e-4, 400e-4);
        double now = close_random(&seed, 0.05, 1) * full;
        double wanted = close_random(&seed, 0.5, 9) * now;
        double area = vent_widened_m2(now, wanted, full);
        assert_true(area >= now && area <= full * (1 + 1e-12));
        assert_true(area >= fmin(wanted, full) * (1 - 1e-8));
    }
}

/* A cabinet that drips is to be opened further, as far as its vents go. */
static void a_remedy_asks_for_no_more_than_there_is(void **state) {
    Arena *arena = *state;
    static const double full_cm2[] = {5, 7, 10, 40, NAN};
    int offered = 0;
    for (size_t i = 0; i < sizeof full_cm2 / sizeof *full_cm2; i++) {
        Reader reader = reader_new(arena);
        const Batch *batch = read_batch(&reader, "tests/unsafe/condensing-cabinet.xml");
        assert_non_null(batch);
        Cabinet cabinet = *batch->cabinet;
        cabinet.inlet_full_m2 = cabinet.outlet_full_m2 = full_cm2[i] * 1e-4;
        Batch tonight = *batch;
        tonight.cabinet = &cabinet;
        const Plan *plan = plan_make(arena, &tonight);
        for (size_t k = 0; k < plan->remedies.count; k++) {
            const Remedy *remedy = &plan->remedies.items[k];
            if (remedy->kind != REMEDY_WIDER_VENT)
                continue;
            offered++;
            assert_int_not_equal(i, 0); /* they are open already */
            assert_true(remedy->amount.value > cabinet.inlet_m2);
            assert_false(remedy->amount.value > full_cm2[i] * 1e-4 * (1 + 1e-12));
            assert_int_equal(remedy->inlet.opening == VENT_AREA, i == 4);
        }
    }
    assert_true(offered >= 2);
}

static const Plan *with_vents(Arena *arena, const Batch *batch, double inlet_m2, double outlet_m2) {
    Cabinet *cabinet = ARENA_NEW(arena, Cabinet);
    Batch *tonight = ARENA_NEW(arena, Batch);
    *cabinet = *batch->cabinet;
    *tonight = *batch;
    cabinet->inlet_full_m2 = cabinet->outlet_full_m2 = NAN;
    cabinet->inlet_m2 = inlet_m2;
    cabinet->outlet_m2 = outlet_m2;
    tonight->cabinet = cabinet;
    return plan_make(arena, tonight);
}

static const Remedy *wider_vent(const Plan *plan) {
    for (size_t i = 0; i < plan->remedies.count; i++) {
        if (plan->remedies.items[i].kind == REMEDY_WIDER_VENT && !plan->remedies.items[i].with) {
            return &plan->remedies.items[i];
        }
    }
    return NULL;
}

/* What is asked for is so many times the wider vent, and none of the smaller openings of the row
 * helps: each is tried here by a plan of its own. */
static void no_narrower_opening_would_do(void **state) {
    Arena *arena = *state;
    static const double times[] = {1.5, 2, 3, 5, 8};
    enum { TIMES = sizeof times / sizeof *times };
    static const char *const files[] = {"tests/unsafe/condensing-cabinet.xml",
                                        "tests/unsafe/tight-vents.xml"};
    int asked[TIMES] = {0};
    for (int turn = 0; turn < 60; turn++) {
        Reader reader = reader_new(arena);
        const Batch *batch = read_batch(&reader, files[turn % 2]);
        double area_m2 = batch->cabinet->inlet_m2 * 4 * pow(0.87, turn / 2);
        const Plan *before = with_vents(arena, batch, area_m2, area_m2);
        const Remedy *remedy = wider_vent(before);
        int helping = 0;
        while (remedy && helping < TIMES &&
               !remedy_helps(before, with_vents(arena, batch, area_m2 * times[helping],
                                                area_m2 * times[helping]))) {
            helping++;
        }
        if (remedy && helping < TIMES) {
            assert_close_share(remedy->amount.value, area_m2 * times[helping], 1e-9);
            asked[helping]++;
        }
    }
    for (int i = 0; i < TIMES; i++) {
        assert_true(asked[i] > 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_for_quarters_else_per_cent),
        cmocka_unit_test(without_the_full_area_the_area),
        cmocka_unit_test(the_words_are_near_what_is_reckoned_with),
        cmocka_unit_test(never_wider_than_full),
        CASE(a_remedy_asks_for_no_more_than_there_is),
        CASE(no_narrower_opening_would_do),
    };
    return cmocka_run_group_tests_name("vents: by hand", tests, NULL, NULL);
}
