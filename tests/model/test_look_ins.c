/* Look-ins: against every way to choose them, and against an integral by hand. */
#include "model/look_ins.h"

#include "support/arena_case.h"
#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

enum { HOUR_S = 3600, HALF_S = 1800 };
static const Instant LIT = 1796414400;

static Plan *lit_plan(Arena *arena, double hours) {
    Plan *plan = ARENA_NEW(arena, Plan);
    plan->burn = (PlanBurn){.light_at = LIT,
                            .out_at = LIT + (Instant)(hours * HOUR_S),
                            .out_late = LIT + (Instant)(hours * HOUR_S)};
    return plan;
}

static void lasts(Arena *arena, Plan *plan, double hours, double lasting) {
    PlanLasting row = {LIT + (Instant)(hours * HOUR_S), lasting};
    LIST_ADD(arena, &plan->survival, row);
}

static void may_look_in(Arena *arena, LookInTimes *times, double hours, bool sure) {
    LIST_ADD(arena, times, ((LookInTime){LIT + (Instant)(hours * HOUR_S), sure}));
}

/* Half of all nights go out evenly over four hours, two in a hundred of the rest besides. Seen in
 * the end only they are out for 2 h on average, seen after two hours too for 1 h. */
static void time_unseen_is_that_of_the_integral(void **state) {
    Arena *arena = *state;
    Plan *plan = lit_plan(arena, 4);
    lasts(arena, plan, 0, 1);
    lasts(arena, plan, 4, 0.5);
    assert_close(look_ins_out_by(plan, LIT - 1), 0, 0);
    assert_close(look_ins_out_by(plan, LIT + 4 * HOUR_S), 0.5 + 0.02 * 0.5, 1e-12);
    LookInTimes times = {0};
    may_look_in(arena, &times, 2, false);
    may_look_in(arena, &times, 4, true);
    bool none[] = {false, true}, one[] = {true, true};
    assert_close(look_ins_unseen_s(arena, plan, &times, none), 0.5 * 2 * HOUR_S, 0.03 * HOUR_S);
    assert_close(look_ins_unseen_s(arena, plan, &times, one), 0.5 * 1 * HOUR_S, 0.03 * HOUR_S);
    /* what does not even catch is out from the start */
    plan->survival.items[0].lasting = 0.5;
    assert_close(look_ins_unseen_s(arena, plan, &times, one), 0.5 * 2 * HOUR_S, 0.03 * HOUR_S);
}

/* Where nothing burns no share of the night goes by: nothing goes out unforeseen, nor later. */
static void a_night_of_no_length_has_nothing_to_go_out(void **state) {
    Plan *plan = lit_plan(*state, 0);
    assert_close(look_ins_out_by(plan, LIT), 0, 0);
    assert_close(look_ins_out_by(plan, LIT + HOUR_S), 0, 0);
    plan->burn.out_at = plan->burn.out_late = 0;
    assert_close(look_ins_out_by(plan, LIT + HOUR_S), 0, 0);
}

/* A random survival, random times on half hours, some sure; some so near that they exclude each
 * other. */
static LookInTimes random_times(Arena *arena, uint64_t *seed, Plan *plan) {
    double lasting = 1;
    for (double hour = 0; hour < 8.01; hour += 1.0 / 6) {
        lasting *= 1 - fmax(close_random(seed, -0.05, 0.06), 0);
        lasts(arena, plan, hour, lasting);
    }
    LookInTimes times = {0};
    Instant at = LIT;
    while (times.count < 12) {
        at += close_random(seed, 0, 1) > 0.6 ? HALF_S / 2
                                             : HALF_S * (1 + (Instant)(times.count % 2));
        LIST_ADD(arena, &times, ((LookInTime){at, close_random(seed, 0, 1) > 0.85}));
    }
    LIST_ADD(arena, &times, ((LookInTime){at + HALF_S, true}));
    return times;
}

static bool allowed(const LookInTimes *times, const bool *chosen, int most) {
    Instant before = 0;
    int count = 0;
    for (size_t i = 0; i < times->count; i++) {
        if (times->items[i].sure) {
            before = 0;
        } else if (chosen[i]) {
            if (times->items[i].at - before < LOOK_INS_APART_S) {
                return false;
            }
            before = times->items[i].at;
            count++;
        }
    }
    return count <= most;
}

static double best_of_all_s(Arena *arena, const Plan *plan, const LookInTimes *times, int most) {
    double best = INFINITY;
    for (unsigned set = 0; set < 1u << 12; set++) {
        bool chosen[13] = {false};
        for (unsigned i = 0; i < 12; i++) {
            chosen[i] = !times->items[i].sure && (set >> i & 1);
        }
        if (allowed(times, chosen, most)) {
            best = fmin(best, look_ins_unseen_s(arena, plan, times, chosen));
        }
    }
    return best;
}

static void none_of_all_ways_sees_it_sooner(void **state) {
    (void)state;
    uint64_t seed = 0x100c;
    for (int turn = 0; turn < 24; turn++) {
        Arena *arena = arena_new();
        Plan *plan = lit_plan(arena, 8);
        LookInTimes times = random_times(arena, &seed, plan);
        int most = turn % 6;
        const bool *chosen = look_ins_choose(arena, plan, &times, most);
        assert_true(allowed(&times, chosen, most));
        assert_close(look_ins_unseen_s(arena, plan, &times, chosen),
                     best_of_all_s(arena, plan, &times, most), 1e-6);
        arena_free(arena);
    }
}

/* More looks never see it later, and a night that nothing is known against is looked at evenly. */
static void more_look_ins_see_it_sooner_and_a_sure_night_is_parted_evenly(void **state) {
    Arena *arena = *state;
    Plan *plan = lit_plan(arena, 8);
    lasts(arena, plan, 0, 1);
    lasts(arena, plan, 8, 1);
    LookInTimes times = {0};
    for (int half = 1; half < 16; half++) {
        may_look_in(arena, &times, half / 2.0, false);
    }
    may_look_in(arena, &times, 8, true);
    double before = INFINITY;
    for (int most = 0; most <= 12; most++) {
        const bool *chosen = look_ins_choose(arena, plan, &times, most);
        double unseen_s = look_ins_unseen_s(arena, plan, &times, chosen);
        assert_true(unseen_s < before);
        before = unseen_s;
        if (most == 3) {
            assert_true(chosen[3] && chosen[7] && chosen[11]); /* two, four and six hours in */
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(time_unseen_is_that_of_the_integral),
        CASE(a_night_of_no_length_has_nothing_to_go_out),
        CASE(none_of_all_ways_sees_it_sooner),
        CASE(more_look_ins_see_it_sooner_and_a_sure_night_is_parted_evenly),
    };
    const char *against = "look-ins: every way to choose them, an integral by hand";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
