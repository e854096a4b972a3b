/* When a remedy is worth offering: by hand, on plans that differ in one figure. How much is worth
 * the trouble is judgement: one night in fifty, a kelvin of the cabinet. */
#include "model/remedy.h"

#include "model/remedy_trial.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

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

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_weak_burn_must_last_clearly_oftener),
        cmocka_unit_test(a_warm_cabinet_must_be_clearly_cooler),
        cmocka_unit_test(a_better_verdict_beats_all_figures),
    };
    return cmocka_run_group_tests_name("remedies: by hand", tests, NULL, NULL);
}
