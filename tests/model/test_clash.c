/* Clash: who wants what when, against a walk over every minute of both nights, against the figures
 * of the plan that the sheet prints, and by hand. */
#include "model/clash.h"
#include "model/plan.h"

#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <string.h>

enum { MINUTE_S = 60, HOUR_S = 3600 };

static Batch *cheese(Smokehouse *house, const Tray *tray, Instant light_at) {
    Batch *batch = smokehouse_batch(house, tray, 5, 0.75);
    smokehouse_part(house, batch, &house->carrier, 1);
    batch->timing.at = light_at;
    batch->cabinet = NULL;
    house->workshop.file = "workshop.xml";
    return batch;
}

static ClashUse use_of(Arena *arena, const Batch *batch) {
    return clash_use(plan_make(arena, batch));
}

static bool in(ClashSpan span, Instant at) {
    return at >= span.from && at < span.to;
}

/* By its definition: some minute in which both want it. */
static bool both_want(ClashSpan a, ClashSpan b) {
    for (Instant at = a.from; at < a.to; at += MINUTE_S) {
        if (in(b, at)) {
            return true;
        }
    }
    for (Instant at = b.from; at < b.to; at += MINUTE_S) {
        if (in(a, at)) {
            return true;
        }
    }
    return false;
}

static void agrees_minute_by_minute_whichever_comes_first(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    int clashes = 0, together = 0;
    for (int hours = 0; hours < 48; hours++) {
        Batch *first = cheese(house, &house->fold, SMOKEHOUSE_EVENING);
        Batch *second = cheese(house, &house->fold, SMOKEHOUSE_EVENING + hours * HOUR_S);
        smokehouse_dry_for(first, 20);
        smokehouse_dry_for(second, 20);
        ClashUse a = use_of(arena, first), b = use_of(arena, second);
        Clash clash = clash_between(&a, &b), turned = clash_between(&b, &a);
        bool want = both_want(a.trays, b.trays) || both_want(a.oven, b.oven);
        assert_int_equal(clash.thing != CLASH_NONE, want);
        assert_int_equal(turned.thing, clash.thing);
        assert_int_equal(turned.from, clash.from);
        assert_int_equal(turned.to, clash.to);
        clashes += want;
        together += !want;
    }
    assert_true(clashes > 5 && together > 5);
    arena_free(arena);
}

/* The sheet tells when to weigh out and when nine in ten are out: a tray is never promised to
 * somebody else between the two, nor hot. */
static void holds_the_tray_for_all_that_the_sheet_does_with_it(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = cheese(house, &house->fold, SMOKEHOUSE_EVENING);
    smokehouse_dry_for(batch, 20);
    const Plan *plan = plan_make(arena, batch);
    ClashUse use = clash_use(plan);
    Instant weighed = 0, dried = 0;
    for (size_t i = 0; i < plan->steps.count; i++) {
        const PlanStep *step = &plan->steps.items[i];
        weighed = strncmp(step->key, "weigh", 5) == 0 ? step->at : weighed;
        dried = strcmp(step->key, "dry") == 0 ? step->at : dried;
    }
    assert_true(weighed && use.trays.from <= weighed);
    assert_true(dried && in(use.oven, dried));
    assert_true(use.trays.to >= plan->burn.out_late + HOUR_S);
    assert_true(use.trays.to <= plan->burn.out_late + 4 * HOUR_S);
    arena_free(arena);
}

static void shares_nothing_across_workshops_nor_between_two_trays(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Smokehouse *other = smokehouse_new(arena);
    const Batch *batch = cheese(house, &house->fold, SMOKEHOUSE_EVENING);
    const Batch *trough = cheese(house, &house->trough, SMOKEHOUSE_EVENING);
    Batch *elsewhere = cheese(other, &other->fold, SMOKEHOUSE_EVENING);
    const char *name = NULL;
    assert_int_equal(clash_shared(batch, batch, &name), CLASH_TRAY);
    assert_string_equal(name, "fold");
    assert_int_equal(clash_shared(batch, trough, NULL), CLASH_NONE);
    assert_int_equal(clash_shared(batch, elsewhere, NULL), CLASH_TRAY); /* one file, read twice */
    other->workshop.file = "other/workshop.xml";
    assert_int_equal(clash_shared(batch, elsewhere, NULL), CLASH_NONE);
    Batch *in_cabinet = cheese(house, &house->trough, SMOKEHOUSE_EVENING);
    Batch *also = cheese(house, &house->fold, SMOKEHOUSE_EVENING + 2 * HOUR_S);
    in_cabinet->cabinet = also->cabinet = &house->cabinet;
    ClashUse a = use_of(arena, in_cabinet), b = use_of(arena, also);
    assert_int_equal(clash_between(&a, &b).thing, CLASH_CABINET);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_minute_by_minute_whichever_comes_first),
        cmocka_unit_test(holds_the_tray_for_all_that_the_sheet_does_with_it),
        cmocka_unit_test(shares_nothing_across_workshops_nor_between_two_trays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
