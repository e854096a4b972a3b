/* Learnt: what is told of before and now is what was learnt, and measuring more helps. */
#include "model/learnt.h"

#include "model/fire_constants.h"
#include "model/learning.h"
#include "model/past_night.h"
#include "model/quadrature.h"

#include "support/arena_case.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

enum { NIGHTS_MOST = 12 };

/* So many nights that went 0.8 times as fast as the model, each a day after the one before. */
static Learnt after(Smokehouse *house, int nights, Batch **past) {
    for (int i = 0; i < nights; i++) {
        past[i] = smokehouse_recorded(house, 0.8, 1);
        past[i]->blend.name = "Carrier alone";
        past[i]->record.lit += 86400 * i;
        past[i]->record.out += 86400 * i;
        past[i]->timing.at += 86400 * i;
    }
    return learnt_from(house->arena, &house->workshop, (const Batch *const *)past, (size_t)nights);
}

static bool holds(const LearntState *state, double truth) {
    return state->slow < truth && truth < state->fast;
}

static void the_truth_is_closed_in_on(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    double width = INFINITY;
    for (int nights = 1; nights <= NIGHTS_MOST; nights++) {
        Batch *past[NIGHTS_MOST];
        Learnt learnt = after(house, nights, past);
        assert_int_equal(learnt.nights, nights);
        assert_int_equal(learnt.dusts.count, 1);
        assert_int_equal(learnt.blends.count, 1);
        const LearntRow *dust = &learnt.dusts.items[0], *blend = &learnt.blends.items[0];
        assert_int_equal(dust->nights, nights);
        assert_int_equal(dust->lasted, nights);
        assert_close(dust->before.speed_factor, 1, 1e-12);
        assert_true(holds(&dust->now, 0.8) && holds(&blend->now, 0.8));
        assert_true(log(dust->now.fast / dust->now.slow) < width);
        width = log(dust->now.fast / dust->now.slow);
        assert_true(dust->now.chance > dust->before.chance);
        assert_true(blend->now.chance > blend->before.chance);
    }
    assert_true(width < 2 * 1.2816 * 0.15);
}

/* Of a dust alone: the stretch takes as long as it does at its speed, and the chance is that of a
 * normal offset at the margin; both as believed of the kind (closed form). */
static void a_dust_s_figures_are_those_of_its_kind(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *past[NIGHTS_MOST];
    Learnt learnt = after(house, 4, past);
    const Learning *learning = learning_of(arena, &house->workshop, (const Batch *const *)past, 4);
    BurnKind kind = past_night_kind_of_dust(&house->carrier, &house->fold);
    Belief belief = learning_of_kind(arena, learning, &kind, NULL);
    const LearntState *now = &learnt.dusts.items[0].now;
    assert_close(now->speed_factor, belief.speed.middle, 1e-12);
    assert_close(now->took_s * now->speed_factor, now->took_long_s * now->slow, 1e-6);
    assert_close(now->took_s * now->speed_factor, now->took_short_s * now->fast, 1e-6);
    double spread = hypot(belief.holding.common_spread, belief.holding.burn_spread);
    double chance = quadrature_normal((log(FIRE_MARGIN_GOOD) + belief.holding.log_mean) / spread);
    assert_close(now->chance, chance, 1e-12);
    assert_true(now->took_short_s < now->took_s && now->took_s < now->took_long_s);
}

static void a_blend_is_planned_as_of_its_latest_night(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *past[NIGHTS_MOST];
    after(house, 3, past);
    past[0]->file = "a.xml";
    past[1]->file = "c.xml";
    past[2]->file = "b.xml";
    past[1]->record.lit += 86400 * 7;
    past[1]->record.out += 86400 * 7;
    past[2]->record.went_out_early = true;
    past[2]->record.burnt_m = 0.4;
    Learnt learnt = learnt_from(arena, &house->workshop, (const Batch *const *)past, 3);
    assert_string_equal(learnt.blends.items[0].example, "c.xml");
    assert_int_equal(learnt.blends.items[0].lasted, 2);
}

/* Each measurement named helps, the best first; none is said to help more than it would. */
static void what_to_measure_next_helps(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *past[NIGHTS_MOST];
    Learnt learnt = after(house, 2, past), more = after(house, 3, past);
    assert_true(learnt.steps.count == 2); /* a trial and a night */
    assert_false(learnt.steps.items[0].trial);
    for (size_t i = 0; i < learnt.steps.count; i++) {
        const LearntStep *step = &learnt.steps.items[i];
        assert_true(step->off_then < step->off_now);
        assert_true(i == 0 || step->off_then >= step[-1].off_then);
    }
    /* a third night just like the two narrows it as was foretold */
    assert_close(more.steps.items[0].off_now, learnt.steps.items[0].off_then, 0.01);
}

static void assumed_moisture_and_what_was_left_out_are_named(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *past[NIGHTS_MOST];
    Learnt learnt = after(house, 4, past);
    assert_int_equal(learnt.assumed.count, 0);
    assert_int_equal(learnt.aside.count, 0);
    house->carrier.moisture = NOT_STATED;
    past[3]->record.out += 40 * 3600;
    learnt = learnt_from(arena, &house->workshop, (const Batch *const *)past, 4);
    assert_int_equal(learnt.assumed.count, 1);
    assert_int_equal(learnt.aside.count, 1);
    assert_string_equal(learnt.aside.items[0].key, "night_aside");
}

static void without_nights_nothing_is_told(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Learnt learnt = learnt_from(arena, &house->workshop, NULL, 0);
    assert_int_equal(learnt.nights + learnt.trials, 0);
    assert_int_equal(learnt.dusts.count + learnt.blends.count + learnt.steps.count, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(the_truth_is_closed_in_on),
        CASE(a_dust_s_figures_are_those_of_its_kind),
        CASE(a_blend_is_planned_as_of_its_latest_night),
        CASE(what_to_measure_next_helps),
        CASE(assumed_moisture_and_what_was_left_out_are_named),
        CASE(without_nights_nothing_is_told),
    };
    return cmocka_run_group_tests_name("learnt: before and now", tests, NULL, NULL);
}
