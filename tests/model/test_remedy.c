/* When a remedy is worth offering: by hand, on plans that differ in one figure. How much is worth
 * the trouble is judgement: one night in fifty, a kelvin of the cabinet. */
#include "model/remedy.h"

#include "input/reader.h"
#include "model/plan.h"
#include "model/remedy_trial.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

/* Whether a change is offered that turns these figures of a night to tend into others. */
static bool helps(double chance, double chance_after, double peak_c, double peak_after_c) {
    Plan before = {.verdict = VERDICT_TEND};
    before.burn.chance_good = 0.90;
    before.burn.chance = chance;
    before.cabinet.over_caution = peak_c > 30;
    before.cabinet.peak_temp_c = peak_c;
    Plan after = before;
    after.burn.chance = chance_after;
    after.cabinet.peak_temp_c = peak_after_c;
    return remedy_helps(&before, &after);
}

static void a_weak_burn_must_last_clearly_oftener(void **state) {
    (void)state;
    assert_true(helps(0.70, 0.725, 20, 20));
    assert_false(helps(0.70, 0.715, 20, 20));
    assert_false(helps(0.70, 0.66, 20, 20));
    /* one that lasts needs no help */
    assert_false(helps(0.91, 0.99, 20, 20));
}

static void a_warm_cabinet_must_be_clearly_cooler(void **state) {
    (void)state;
    assert_true(helps(0.91, 0.91, 32, 30.9));
    assert_false(helps(0.91, 0.91, 32, 31.1));
    assert_false(helps(0.91, 0.91, 32, 34));
    /* one that is cool enough needs no help */
    assert_false(helps(0.91, 0.91, 20, 15));
}

static void a_better_verdict_beats_all_figures(void **state) {
    (void)state;
    Plan before = {.verdict = VERDICT_DO_NOT_LIGHT};
    Plan after = {.verdict = VERDICT_TEND};
    before.burn.chance = 0.95;
    assert_true(remedy_helps(&before, &after));
    assert_false(remedy_helps(&after, &before));
    assert_true(remedy_better(&after, &before));
    assert_false(remedy_better(&before, &after));
}

/* Only what helps is kept; how cool the cabinet gets is said only where that is what is asked. */
static void only_what_helps_is_kept(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Plan before = {.verdict = VERDICT_TEND};
    before.burn.chance_good = 0.90;
    before.burn.chance = 0.70;
    Plan better = before, alike = before;
    better.burn.chance = 0.80;
    better.cabinet.peak_temp_c = 21;
    RemedyTries tries = {0};
    RemedyAsk ask = {.arena = arena, .plan = &before, .tries = &tries};
    remedy_keep(&ask, NULL, (Remedy){.kind = REMEDY_DRY});
    remedy_keep(&ask, &alike, (Remedy){.kind = REMEDY_DRY});
    assert_int_equal(tries.count, 0);
    remedy_keep(&ask, &better, (Remedy){.kind = REMEDY_DRY});
    remedy_keep(&ask, &better, (Remedy){.kind = REMEDY_WIDER_VENT});
    assert_int_equal(tries.count, 2);
    assert_ptr_equal(tries.items[0].after, &better);
    assert_true(isnan(tries.items[0].remedy.temp_after_c));
    assert_true(tries.items[1].remedy.temp_after_c == 21);
    arena_free(arena);
}

static Dust dust_called(const Workshop *workshop, const char *id) {
    const Dust *found = NULL;
    for (size_t i = 0; i < workshop->dusts.count; i++) {
        const Dust *dust = &workshop->dusts.items[i];
        found = strcmp(dust->id, id) == 0 ? dust : found;
    }
    assert_non_null(found);
    return *found;
}

static const char *carrier_offered(const Plan *plan) {
    const char *name = NULL;
    for (size_t i = 0; i < plan->remedies.count; i++) {
        const Remedy *remedy = &plan->remedies.items[i];
        name = remedy->kind == REMEDY_CARRIER ? remedy->name : name;
    }
    assert_non_null(name);
    return name;
}

/* Charred fines alone, and two dusts that would hold them: the steadier one, of which less is
 * wanted, is offered, wherever they are written. */
static void the_better_carrier_is_offered_first_or_last(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Reader reader = reader_new(arena);
    const Batch *sample = read_batch(&reader, "samples/charred-oak-blend.xml");
    assert_non_null(sample);
    Dust charred = dust_called(sample->workshop, "charred-oak");
    Dust beech = dust_called(sample->workshop, "beech"), steady = beech;
    steady.id = "steady";
    steady.name = "Steadier beech";
    steady.steadiness = 1.15;
    BlendPart part = {.dust = &charred, .kind = SHARE_FIXED, .share = 1};
    for (int last = 0; last < 2; last++) {
        Workshop workshop = *sample->workshop;
        memset(&workshop.dusts, 0, sizeof workshop.dusts);
        LIST_ADD(arena, &workshop.dusts, last ? beech : steady);
        LIST_ADD(arena, &workshop.dusts, last ? steady : beech);
        Batch batch = *sample;
        batch.workshop = &workshop;
        memset(&batch.blend.parts, 0, sizeof batch.blend.parts);
        LIST_ADD(arena, &batch.blend.parts, part);
        assert_string_equal(carrier_offered(plan_make(arena, &batch)), steady.name);
    }
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_weak_burn_must_last_clearly_oftener),
        cmocka_unit_test(a_warm_cabinet_must_be_clearly_cooler),
        cmocka_unit_test(a_better_verdict_beats_all_figures),
        cmocka_unit_test(only_what_helps_is_kept),
        cmocka_unit_test(the_better_carrier_is_offered_first_or_last),
    };
    return cmocka_run_group_tests_name("remedies: by hand", tests, NULL, NULL);
}
