/* Verdict and cautions: each reason alone, the gravest first, and nothing unknown that passes. */
#include "model/caution.h"
#include "model/verdict.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

static const Dust dust = {.id = "beech", .stock_kg = 2};

/* A plan that nothing speaks against. */
static Plan good_plan(Arena *arena) {
    Plan plan = {0};
    plan.burn = (PlanBurn){.chance = 0.93,
                           .chance_good = 0.90,
                           .chance_tend = 0.65,
                           .smoking_s = 8 * 3600,
                           .light_at = 1000,
                           .out_at = 30000,
                           .out_late = 40000,
                           .cause = CAUSE_DAMP_AIR};
    plan.room = (PlanRoom){.stated = true, .outdoors = true};
    plan.cabinet = (PlanCabinet){.stated = true};
    LIST_ADD(arena, &plan.blend.parts, (PlanPart){.dust = &dust, .wet_kg = 0.5});
    return plan;
}

static Batch plain_batch(void) {
    return (Batch){.product = {.smoke_time_s = NOT_STATED}};
}

static void assert_judged(Arena *arena, const Batch *batch, Plan *plan, Verdict verdict,
                          Cause cause) {
    verdict_reach(arena, batch, plan);
    assert_int_equal(plan->verdict, verdict);
    assert_int_equal(plan->reasons.count, 1);
    assert_int_equal(plan->reasons.items[0].cause, cause);
    assert_int_equal(plan->reasons.items[0].verdict, verdict);
}

static void a_good_plan_has_no_reasons(void **state) {
    Arena *arena = *state;
    Plan plan = good_plan(arena);
    Batch batch = plain_batch();
    verdict_reach(arena, &batch, &plan);
    assert_int_equal(plan.verdict, VERDICT_GOOD);
    assert_int_equal(plan.reasons.count, 0);
}

static void the_chance_has_two_thresholds(void **state) {
    Arena *arena = *state;
    const struct {
        double chance;
        Verdict verdict;
    } cases[] = {{0.8999, VERDICT_TEND},
                 {0.65, VERDICT_TEND},
                 {0.6499, VERDICT_DO_NOT_LIGHT},
                 {0, VERDICT_DO_NOT_LIGHT},
                 {NAN, VERDICT_DO_NOT_LIGHT}};
    Batch batch = plain_batch();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Plan plan = good_plan(arena);
        plan.burn.chance = cases[i].chance;
        assert_judged(arena, &batch, &plan, cases[i].verdict, CAUSE_DAMP_AIR);
    }
    Plan edge = good_plan(arena);
    edge.burn.chance = 0.90;
    verdict_reach(arena, &batch, &edge);
    assert_int_equal(edge.verdict, VERDICT_GOOD);
}

static void room_and_cabinet_are_judged(void **state) {
    Arena *arena = *state;
    Batch batch = plain_batch();
    Plan plan = good_plan(arena);
    plan.room = (PlanRoom){0};
    assert_judged(arena, &batch, &plan, VERDICT_TEND, CAUSE_ROOM_UNKNOWN);
    plan.room = (PlanRoom){.stated = true, .over_limit = true};
    assert_judged(arena, &batch, &plan, VERDICT_DO_NOT_LIGHT, CAUSE_ROOM_CO);
    plan = good_plan(arena);
    plan.cabinet.over_caution = true;
    assert_judged(arena, &batch, &plan, VERDICT_TEND, CAUSE_CABINET_WARM);
    plan.cabinet.over_limit = true;
    assert_judged(arena, &batch, &plan, VERDICT_DO_NOT_LIGHT, CAUSE_CABINET_WARM);
}

/* Rich smoke, a fast front and absence each cost the confidence that they ought to. */
static void what_may_come_worse_is_judged(void **state) {
    Arena *arena = *state;
    Batch batch = plain_batch();
    Plan plan = good_plan(arena);
    plan.room = (PlanRoom){.stated = true, .near_limit = true, .near_asleep = true};
    assert_judged(arena, &batch, &plan, VERDICT_DO_NOT_LIGHT, CAUSE_ROOM_CO_ASLEEP);
    plan.room = (PlanRoom){.stated = true, .near_limit = true};
    assert_judged(arena, &batch, &plan, VERDICT_TEND, CAUSE_ROOM_CO_NEAR);
    plan = good_plan(arena);
    plan.cabinet.over_away = true;
    plan.burn.alone_from = 1500;
    plan.burn.alone_to = 2500;
    assert_judged(arena, &batch, &plan, VERDICT_STAY, CAUSE_WARM_UNTENDED);
    assert_int_equal(plan.stay_from, 1500);
    assert_int_equal(plan.stay_to, 2500);
    plan = good_plan(arena);
    plan.burn.untended_from = 2000;
    plan.burn.untended_to = 3000;
    assert_judged(arena, &batch, &plan, VERDICT_STAY, CAUSE_UNTENDED);
    assert_int_equal(plan.stay_from, 2000);
    plan.cabinet.over_away = true; /* both: from the first to the last */
    plan.burn.alone_from = 1500;
    plan.burn.alone_to = 2500;
    verdict_reach(arena, &batch, &plan);
    assert_int_equal(plan.stay_from, 1500);
    assert_int_equal(plan.stay_to, 3000);
    plan = good_plan(arena);
    verdict_reach(arena, &batch, &plan);
    assert_true(plan.stay_from == 0 && plan.stay_to == 0);
}

/* To set a vent somebody has to be there: what begins before those hours are over is a reason to
 * stay through them, what begins after them is one to tend. */
static void air_that_wants_tending_wants_somebody_there(void **state) {
    Arena *arena = *state;
    Batch batch = plain_batch();
    Plan plan = good_plan(arena);
    plan.cabinet.condenses = true;
    plan.cabinet.condensing_from = 1800;
    assert_judged(arena, &batch, &plan, VERDICT_TEND, CAUSE_CONDENSATION);
    plan.burn.alone_from = 1500;
    plan.burn.alone_to = 2500;
    assert_judged(arena, &batch, &plan, VERDICT_STAY, CAUSE_CONDENSATION);
    assert_true(plan.stay_from == 1800 && plan.stay_to == 2500);
    plan.cabinet.condensing_from = 2500;
    assert_judged(arena, &batch, &plan, VERDICT_TEND, CAUSE_CONDENSATION);
    assert_true(plan.stay_from == 0);
    plan.cabinet.condenses = false;
    plan.cabinet.low_oxygen = true;
    assert_judged(arena, &batch, &plan, VERDICT_STAY, CAUSE_OXYGEN);
    assert_true(plan.stay_from == 1500 && plan.stay_to == 2500);
    plan.cabinet.low_oxygen = false;
    plan.cabinet.too_windy = true;
    assert_judged(arena, &batch, &plan, VERDICT_STAY, CAUSE_WIND);
    plan.cabinet.too_windy = false;
    plan.room = (PlanRoom){0};
    assert_judged(arena, &batch, &plan, VERDICT_DO_NOT_LIGHT, CAUSE_ROOM_UNKNOWN);
}

/* Whoever leaves before it is seen to catch stays until then; whoever leaves later has seen it. */
static void a_lighting_wants_somebody_to_see_it_catch(void **state) {
    Arena *arena = *state;
    Batch batch = plain_batch();
    Plan plan = good_plan(arena);
    plan.burn.first_look_in_at = 2200;
    plan.burn.alone_from = 2199;
    plan.burn.alone_to = 25000;
    assert_judged(arena, &batch, &plan, VERDICT_STAY, CAUSE_LIT_ALONE);
    assert_true(plan.stay_from == 1000 && plan.stay_to == 2200);
    plan.burn.alone_from = 2200;
    verdict_reach(arena, &batch, &plan);
    assert_int_equal(plan.verdict, VERDICT_GOOD);
}

static void food_blend_stock_and_time_are_judged(void **state) {
    Arena *arena = *state;
    Batch batch = plain_batch();
    Plan plan = good_plan(arena);
    LIST_ADD(arena, &plan.care, (Care){.key = "listeria", .level = CARE_CAUTION});
    verdict_reach(arena, &batch, &plan);
    assert_int_equal(plan.verdict, VERDICT_GOOD);
    LIST_ADD(arena, &plan.care, (Care){.key = "parasites_unstated", .level = CARE_CAUTION});
    assert_judged(arena, &batch, &plan, VERDICT_TEND, CAUSE_FOOD_UNKNOWN);
    LIST_ADD(arena, &plan.care, (Care){.key = "salt_low", .level = CARE_FORBIDS});
    assert_judged(arena, &batch, &plan, VERDICT_DO_NOT_LIGHT, CAUSE_FOOD);
    plan = good_plan(arena);
    plan.blend.solver = SOLVER_INFEASIBLE;
    assert_judged(arena, &batch, &plan, VERDICT_DO_NOT_LIGHT, CAUSE_NO_BLEND);
    plan = good_plan(arena);
    plan.blend.parts.items[0].short_of_stock = true; /* the bags take too much */
    assert_judged(arena, &batch, &plan, VERDICT_TEND, CAUSE_SHORT_OF_DUST);
    plan.blend.parts.items[0].wet_kg = 2.001;
    assert_judged(arena, &batch, &plan, VERDICT_DO_NOT_LIGHT, CAUSE_SHORT_OF_DUST);
    plan = good_plan(arena);
    plan.burn.wanted_s = plan.burn.smoking_s * 2;
    assert_judged(arena, &batch, &plan, VERDICT_TEND, CAUSE_TOO_SHORT);
}

static void the_gravest_reason_leads(void **state) {
    Arena *arena = *state;
    Batch batch = plain_batch();
    Plan plan = good_plan(arena);
    plan.burn.wanted_s = plan.burn.smoking_s * 2;
    plan.room = (PlanRoom){0};
    plan.burn.chance = 0.7;
    plan.cabinet.over_caution = plan.cabinet.over_limit = true;
    verdict_reach(arena, &batch, &plan);
    assert_int_equal(plan.verdict, VERDICT_DO_NOT_LIGHT);
    assert_int_equal(plan.reasons.count, 4);
    assert_int_equal(plan.reasons.items[0].cause, CAUSE_CABINET_WARM);
    assert_int_equal(plan.reasons.items[1].cause, CAUSE_ROOM_UNKNOWN);
    verdict_reach(arena, &batch, &plan); /* a second time is the same, not twice as much */
    assert_int_equal(plan.reasons.count, 4);
}

static bool cautioned(const Plan *plan, const char *key, const char *signal) {
    for (size_t i = 0; i < plan->cautions.count; i++) {
        if (strcmp(plan->cautions.items[i].key, key) == 0) {
            return strcmp(plan->cautions.items[i].signal, signal) == 0;
        }
    }
    return false;
}

/* Signal words: ANSI Z535.6 (WARNING could kill, CAUTION could hurt, NOTICE spoils things). */
static void cautions_have_the_signal_word_of_their_meaning(void **state) {
    Arena *arena = *state;
    Batch batch = plain_batch();
    Plan plan = good_plan(arena);
    caution_add(arena, &batch, &plan);
    assert_in_range(plan.cautions.count, 3, 6);
    assert_string_equal(plan.cautions.items[0].key, "carbon_monoxide_outdoors");
    assert_true(cautioned(&plan, "carbon_monoxide_outdoors", "warning"));
    assert_true(cautioned(&plan, "fire", "warning"));
    assert_true(cautioned(&plan, "hot", "caution"));
    assert_true(cautioned(&plan, "dust", "caution"));
    assert_false(cautioned(&plan, "food", "caution"));
    assert_false(cautioned(&plan, "fire_unattended", "warning"));
}

static void cautions_follow_the_night(void **state) {
    Arena *arena = *state;
    Batch batch = plain_batch();
    LIST_ADD(arena, &batch.timing.away, (Away){.from = 2000, .to = 3000});
    Plan plan = good_plan(arena);
    plan.room = (PlanRoom){0};
    plan.drying.asked = true;
    LIST_ADD(arena, &plan.care, (Care){.key = "listeria", .level = CARE_CAUTION});
    caution_add(arena, &batch, &plan);
    assert_int_equal(plan.cautions.count, 6);
    assert_true(cautioned(&plan, "carbon_monoxide_unknown", "warning"));
    assert_true(cautioned(&plan, "fire_unattended", "warning"));
    assert_true(cautioned(&plan, "food", "caution"));
    assert_true(cautioned(&plan, "damp", "notice"));
    plan.cautions.count = 0;
    plan.room = (PlanRoom){.stated = true, .over_limit = true};
    batch.timing.away.items[0] = (Away){.from = 50000, .to = 60000};
    caution_add(arena, &batch, &plan);
    assert_true(cautioned(&plan, "carbon_monoxide_over", "warning"));
    assert_true(cautioned(&plan, "fire", "warning"));
    size_t count = 0;
    caution_keys(&count);
    assert_int_equal(count, 15);
    plan.room = (PlanRoom){.stated = true, .peak_ppm = 0.9};
    plan.weather.beyond_forecast = true;
    caution_add(arena, &batch, &plan);
    assert_true(cautioned(&plan, "carbon_monoxide_low", "warning"));
    assert_false(cautioned(&plan, "carbon_monoxide", "warning"));
    assert_true(cautioned(&plan, "forecast", "notice"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(a_good_plan_has_no_reasons),
        CASE(the_chance_has_two_thresholds),
        CASE(room_and_cabinet_are_judged),
        CASE(what_may_come_worse_is_judged),
        CASE(air_that_wants_tending_wants_somebody_there),
        CASE(a_lighting_wants_somebody_to_see_it_catch),
        CASE(food_blend_stock_and_time_are_judged),
        CASE(the_gravest_reason_leads),
        CASE(cautions_have_the_signal_word_of_their_meaning),
        CASE(cautions_follow_the_night),
    };
    const char *against = "verdict and cautions: by hand, signal words of ANSI Z535.6";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
