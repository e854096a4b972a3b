/* Preparation: dates worked back by hand from the rules of model/preparation.h, and over random
 * nights that no step overlaps, none is at an hour of sleep, and all ends before the lighting. */
#include "model/preparation.h"

#include "base/zone.h"
#include "support/arena_case.h"
#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

enum { MINUTE_S = 60, HOUR_S = 3600, DAY_S = 86400 };

typedef struct Kitchen {
    Workshop workshop;
    Batch batch;
    Plan plan;
} Kitchen;

static Kitchen *kitchen(Arena *arena, const char *zone) {
    Kitchen *made = ARENA_NEW(arena, Kitchen);
    made->workshop.zone = zone_load(arena, zone);
    assert_non_null(made->workshop.zone);
    made->batch.workshop = &made->workshop;
    made->batch.product = (Product){
        .kind = PRODUCT_FISH,
        .mass_kg = 2,
        .salt = NOT_STATED,
        .water = NOT_STATED,
        .freezing = {.temp_c = -20, .time_s = 7 * DAY_S, .thaw_s = DAY_S},
        .salting = {.stated = true,
                    .method = SALTING_BRINE,
                    .salt = NOT_STATED,
                    .strength = 0.16,
                    .water_kg = 4,
                    .time_s = 6 * HOUR_S,
                    .temp_c = 3,
                    .rinse_s = 15 * MINUTE_S,
                    .dry_s = 12 * HOUR_S},
    };
    return made;
}

static Instant local(const Kitchen *made, const char *text) {
    CivilTime civil = {0};
    assert_true(civil_parse(text, &civil));
    return zone_instant(made->workshop.zone, civil, ZONE_EARLIER);
}

static void assert_task(const Kitchen *made, size_t index, const char *key, const char *text) {
    assert_true(index < made->plan.preparation.tasks.count);
    const PlanTask *task = &made->plan.preparation.tasks.items[index];
    assert_string_equal(task->key, key);
    char shown[CIVIL_TEXT_SIZE];
    civil_format(zone_civil(made->workshop.zone, task->at), shown);
    shown[16] = '\0';
    assert_string_equal(shown, text);
}

static void plan_at(Arena *arena, Kitchen *made, const char *light) {
    preparation_plan(arena, &made->batch, local(made, light), &made->plan);
}

/* Hung at 20:45; 12 h of drying back it is 8:45, but six hours before 8:30 everybody sleeps. So
 * out of the brine the evening before, at ten at the latest. */
static void worked_back_to_waking_hours(void **state) {
    Kitchen *made = kitchen(*state, "Europe/Berlin");
    made->batch.product.freezing.stated = made->batch.product.freezing.planned = true;
    plan_at(*state, made, "2026-12-12T21:00");
    assert_int_equal(made->plan.preparation.tasks.count, 5);
    assert_task(made, 0, "freeze", "2026-12-03T16:00");
    assert_task(made, 1, "thaw", "2026-12-10T16:00");
    assert_task(made, 2, "brine_percent", "2026-12-11T16:00");
    assert_task(made, 3, "rinse", "2026-12-11T22:00");
    assert_task(made, 4, "dry", "2026-12-11T22:15");
    assert_true(made->plan.preparation.begin_by == local(made, "2026-12-03T16:00"));
    assert_true(made->plan.preparation.ready_at == local(made, "2026-12-12T20:45"));
    assert_int_equal(made->plan.preparation.odd_at, 0);
    assert_close(made->plan.preparation.length_s, 9 * DAY_S + 5 * HOUR_S, 0);
}

/* Clocks of Berlin go back on 25 October 2026 at three: the six hours of brine are six hours. */
static void real_hours_across_the_clocks(void **state) {
    Kitchen *made = kitchen(*state, "Europe/Berlin");
    made->batch.product.salting.time_s = 24 * HOUR_S;
    plan_at(*state, made, "2026-10-26T08:00");
    const PlanTask *brine = &made->plan.preparation.tasks.items[0];
    assert_task(made, 0, "brine_percent", "2026-10-24T20:30");
    assert_task(made, 1, "rinse", "2026-10-25T19:30");
    assert_int_equal(brine->until - brine->at, 24 * HOUR_S);
}

/* Nobody there all of the 11th: the brine moves to the day before, and the fish is kept cold until
 * it is dried. */
static void out_of_the_hours_of_nobody(void **state) {
    Kitchen *made = kitchen(*state, "Europe/Berlin");
    Away away = {.from = local(made, "2026-12-11T00:00"), .to = local(made, "2026-12-12T00:00")};
    LIST_ADD((Arena *)*state, &made->batch.timing.away, away);
    plan_at(*state, made, "2026-12-12T21:00");
    assert_task(made, 0, "brine_percent", "2026-12-10T16:00");
    assert_task(made, 1, "rinse", "2026-12-10T22:00");
    assert_task(made, 2, "dry", "2026-12-12T08:45");
    assert_close(made->plan.preparation.kept_s, 34.5 * HOUR_S, 0);
}

static void late_only_when_its_hour_is_over(void **state) {
    Kitchen *made = kitchen(*state, "Europe/Berlin");
    plan_at(*state, made, "2026-12-12T21:00");
    Instant begin_by = made->plan.preparation.begin_by;
    assert_true(begin_by > 0);
    for (int late = 0; late < 2; late++) {
        made->batch.planned_at = begin_by + late;
        plan_at(*state, made, "2026-12-12T21:00");
        assert_int_equal(made->plan.preparation.late, late);
    }
    made->batch.record.stated = true; /* it is over, and what happened is written down */
    plan_at(*state, made, "2026-12-12T21:00");
    assert_false(made->plan.preparation.late);
    made->batch.record.stated = false;
    made->batch.product.salting.begun = begin_by;
    plan_at(*state, made, "2026-12-12T21:00");
    assert_false(made->plan.preparation.late);
    assert_int_equal(made->plan.preparation.begin_by, 0);
}

/* Begun at ten it takes 18 h 15 min: ready at 4:15, hung a quarter of an hour before lighting. */
static void ready_or_not(void **state) {
    Kitchen *made = kitchen(*state, "Europe/Berlin");
    made->batch.product.salting.begun = local(made, "2026-12-11T10:00");
    plan_at(*state, made, "2026-12-12T04:15");
    assert_true(made->plan.preparation.not_ready);
    assert_int_equal(made->plan.preparation.tasks.count, 0);
    assert_true(made->plan.preparation.ready_at == local(made, "2026-12-12T04:15"));
    plan_at(*state, made, "2026-12-12T04:30");
    assert_false(made->plan.preparation.not_ready);
    assert_task(made, 0, "brine_percent", "2026-12-11T10:00");
    assert_task(made, 1, "rinse", "2026-12-11T16:00");
}

/* Frozen so late that the brine must follow the thawing at once. */
static void begun_freezing_drives_the_rest(void **state) {
    Kitchen *made = kitchen(*state, "Europe/Berlin");
    Freezing *freezing = &made->batch.product.freezing;
    freezing->stated = freezing->planned = true;
    freezing->begun = local(made, "2026-12-03T20:00");
    plan_at(*state, made, "2026-12-12T21:00");
    assert_false(made->plan.preparation.not_ready);
    assert_task(made, 0, "freeze", "2026-12-03T20:00");
    assert_task(made, 1, "thaw", "2026-12-10T20:00");
    assert_task(made, 2, "brine_percent", "2026-12-11T20:00");
    assert_task(made, 3, "rinse", "2026-12-12T02:00");
    assert_true(made->plan.preparation.odd_at == local(made, "2026-12-12T02:00"));
    freezing->begun += 7 * HOUR_S; /* and that is too late for twelve hours of drying */
    plan_at(*state, made, "2026-12-12T21:00");
    assert_true(made->plan.preparation.not_ready);
}

static void nothing_planned_is_nothing(void **state) {
    Kitchen *made = kitchen(*state, "Europe/Berlin");
    made->batch.product.salting.stated = false;
    made->batch.product.freezing.stated = true; /* done, not planned */
    plan_at(*state, made, "2026-12-12T21:00");
    assert_int_equal(made->plan.preparation.tasks.count, 0);
    assert_int_equal(made->plan.preparation.begin_by, 0);
    assert_false(made->plan.preparation.late || made->plan.preparation.not_ready);
}

static void randomize(Arena *arena, uint64_t *seed, Kitchen *made, Instant light_at) {
    Product *product = &made->batch.product;
    Salting *salting = &product->salting;
    salting->stated = close_random(seed, 0, 1) > 0.2;
    salting->method = (SaltingMethod)(int)close_random(seed, 0, 2.999);
    salting->time_s = floor(close_random(seed, 5, 20 * 24 * 60)) * MINUTE_S;
    salting->rinse_s = close_random(seed, 0, 1) > 0.3 ? floor(close_random(seed, 0, 600)) * 60 : 0;
    salting->dry_s = floor(close_random(seed, 1, 72)) * HOUR_S;
    product->freezing.stated = true;
    product->freezing.planned = !salting->stated || close_random(seed, 0, 1) > 0.5;
    product->freezing.time_s = floor(close_random(seed, 1, 240)) * HOUR_S;
    product->freezing.thaw_s = floor(close_random(seed, 0, 72)) * HOUR_S;
    double begun = close_random(seed, 0, 1);
    Instant ago = (Instant)(close_random(seed, 0, 40) * DAY_S);
    product->salting.begun = begun > 0.8 && !product->freezing.planned ? light_at - ago : 0;
    product->freezing.begun = begun > 0.8 && product->freezing.planned ? light_at - ago : 0;
    made->batch.timing.away.count = 0;
    for (int i = (int)close_random(seed, 0, 4); i > 0; i--) {
        Instant from = light_at - (Instant)(close_random(seed, 0, 20) * DAY_S);
        Away away = {.from = from, .to = from + (Instant)close_random(seed, HOUR_S, DAY_S)};
        LIST_ADD(arena, &made->batch.timing.away, away);
    }
}

static void assert_in_order(const Kitchen *made, Instant light_at) {
    const PlanPreparation *preparation = &made->plan.preparation;
    const PlanTask *tasks = preparation->tasks.items;
    for (size_t i = 0; i < preparation->tasks.count; i++) {
        const PlanTask *task = &tasks[i];
        Instant next = i + 1 < preparation->tasks.count ? task[1].at : light_at;
        assert_true(task->at <= task->until && task->until <= next);
        assert_true((double)(task->until - task->at) >= task->time_s);
    }
    assert_true(tasks[preparation->tasks.count - 1].until <= light_at);
    assert_true(preparation->kept_s >= 0);
}

static void assert_attended(const Kitchen *made) {
    const PlanPreparation *preparation = &made->plan.preparation;
    for (size_t i = 0; i < preparation->tasks.count; i++) {
        const PlanTask *task = &preparation->tasks.items[i];
        if (strcmp(task->key, "dry") == 0) {
            continue; /* whoever rinsed it lays it out */
        }
        CivilTime clock = zone_civil(made->workshop.zone, task->at);
        int minutes = clock.hour * 60 + clock.minute;
        assert_true(minutes >= 7 * 60 && minutes <= 22 * 60);
        for (size_t j = 0; j < made->batch.timing.away.count; j++) {
            const Away *away = &made->batch.timing.away.items[j];
            assert_false(task->at > away->from && task->at < away->to);
        }
    }
}

static void random_nights(void **state) {
    uint64_t seed = 20261210;
    static const char *const zones[] = {"Europe/Berlin", "America/New_York", "Australia/Lord_Howe",
                                        "Asia/Kathmandu"};
    int ready = 0, not_ready = 0, odd = 0;
    for (int i = 0; i < 4000; i++) {
        Arena *arena = arena_new();
        Kitchen *made = kitchen(arena, zones[i % 4]);
        Instant light_at = 1767225600 + (Instant)close_random(&seed, 0, 365) * DAY_S +
                           (Instant)close_random(&seed, 0, 288) * 5 * MINUTE_S;
        randomize(arena, &seed, made, light_at);
        preparation_plan(arena, &made->batch, light_at, &made->plan);
        const PlanPreparation *preparation = &made->plan.preparation;
        if (preparation->not_ready) {
            assert_int_equal(preparation->tasks.count, 0);
            assert_true(preparation->begun > 0);
            not_ready++;
        } else {
            assert_in_order(made, light_at);
            ready++;
            odd += preparation->odd_at != 0;
            if (!preparation->begun && !preparation->odd_at)
                assert_attended(made);
        }
        arena_free(arena);
    }
    (void)state;
    assert_true(ready > 3000 && not_ready > 20 && odd < 400);
}

int main(void) {
    const struct CMUnitTest tests[] = {CASE(worked_back_to_waking_hours),
                                       CASE(real_hours_across_the_clocks),
                                       CASE(out_of_the_hours_of_nobody),
                                       CASE(late_only_when_its_hour_is_over),
                                       CASE(ready_or_not),
                                       CASE(begun_freezing_drives_the_rest),
                                       CASE(nothing_planned_is_nothing),
                                       CASE(random_nights)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
