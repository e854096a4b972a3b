/* Lighting to be over by an hour: against trying every five minutes, one after the other. */
#include "model/finish.h"
#include "model/printed_times.h"
#include "model/session.h"

#include "support/arena_case.h"
#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { MINUTE_S = 60, STEP_S = 300, HOUR_S = 3600 };

static Instant hours(double count) {
    return SMOKEHOUSE_EVENING + (Instant)(count * HOUR_S);
}

static Plan night_at(Arena *arena, const Batch *batch, Instant light_at) {
    Plan plan;
    memset(&plan, 0, sizeof plan);
    session_work_out(arena, batch, NULL, light_at, SESSION_TIMES, &plan);
    printed_times_set(&plan);
    return plan;
}

static bool nobody_there(const Batch *batch, Instant at) {
    for (size_t i = 0; i < batch->timing.away.count; i++)
        if (at > batch->timing.away.items[i].from && at < batch->timing.away.items[i].to)
            return true;
    return false;
}

/* The latest five minutes of the four days before at which somebody is there and which ends in
 * time. */
static Instant by_trying(Arena *arena, const Batch *batch, Instant finish) {
    Instant at = finish - finish % STEP_S;
    for (; at > finish - 96 * HOUR_S; at -= STEP_S)
        if (!nobody_there(batch, at) && night_at(arena, batch, at).burn.out_late <= finish)
            return at;
    fail_msg("nothing ends in time");
    return 0;
}

/* Absences of random length anywhere in the two days before, which may touch and overlap. */
static void draw_absences(Arena *arena, Batch *batch, uint64_t *seed) {
    batch->timing.away.count = 0;
    int count = (int)close_random(seed, 1, 4);
    for (int i = 0; i < count; i++) {
        Instant from = hours(close_random(seed, -14, 8));
        Instant to = from + (Instant)(close_random(seed, 0.2, 12) * HOUR_S);
        LIST_ADD(arena, &batch->timing.away, (Away){.from = from, .to = to});
    }
}

static void draw_weather(Arena *arena, Batch *batch, uint64_t *seed) {
    batch->weather = (Weather){.place = {0}};
    for (int hour = -48; hour <= 24; hour += 6) {
        WeatherReading reading = {.at = hours(hour),
                                  .temp_c = close_random(seed, -5, 15),
                                  .humidity = close_random(seed, 0.4, 0.98)};
        LIST_ADD(arena, &batch->weather.readings, reading);
    }
}

static void the_hour_is_the_latest_whatever_the_absences(void **state) {
    Arena *arena = *state;
    uint64_t seed = 20261205;
    int moved = 0;
    for (int turn = 0; turn < 32; turn++) {
        Arena *own = arena_new();
        Smokehouse *house = smokehouse_new(arena);
        Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.8);
        smokehouse_part(house, batch, &house->carrier, 1);
        batch->fills.items[0].repeat = 1 + turn % 3;
        batch->fills.items[0].burn_time_s = close_random(&seed, 1, 6) * HOUR_S;
        if (turn % 2)
            draw_weather(arena, batch, &seed);
        draw_absences(arena, batch, &seed);
        Instant finish = hours(close_random(&seed, 8, 16));
        Instant found = finish_light_at(own, batch, NULL, finish);
        assert_int_equal(found, by_trying(own, batch, finish));
        batch->timing.away.count = 0;
        moved += found != finish_light_at(own, batch, NULL, finish);
        arena_free(own);
    }
    assert_true(moved > 10);
}

/* A minute more of absence moves the hour by as much, or to the other side of the absence, but
 * the night is over in time with either, and nothing later would be. */
static void a_little_more_absence_never_ends_late(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.8);
    smokehouse_part(house, batch, &house->carrier, 1);
    batch->fills.items[0].repeat = 2;
    batch->fills.items[0].burn_time_s = 3 * HOUR_S;
    Instant finish = hours(10);
    Instant before = 0;
    LIST_ADD(arena, &batch->timing.away, (Away){.from = hours(0), .to = hours(0)});
    for (int minutes = 0; minutes <= 8 * 60; minutes += 7) {
        Arena *own = arena_new();
        batch->timing.away.items[0].to = hours(0) + minutes * MINUTE_S;
        Instant found = finish_light_at(own, batch, NULL, finish);
        assert_true(night_at(own, batch, found).burn.out_late <= finish);
        assert_true(minutes == 0 || found <= before);
        before = found;
        arena_free(own);
    }
}

/* A carrier sought as well: in time with the share that is found for that hour. */
static void a_carrier_is_sought_for_the_hour(void **state) {
    Arena *arena = *state;
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.7);
    smokehouse_part(house, batch, &house->residue, 1);
    smokehouse_carrier(house, batch, &house->carrier, 1);
    batch->blend.target_margin = 1.2;
    for (int hour = 14; hour < 30; hour += 5) {
        Instant found = finish_light_at(arena, batch, NULL, hours(hour));
        Instant late = night_at(arena, batch, found).burn.out_late;
        assert_true(late <= hours(hour) && late > hours(hour) - 30 * MINUTE_S);
    }
}

/* By hand: 05:31 and 06:19 and 07:46 of a night with two records, and with three. */
static void bands_are_rounded_outwards(void **state) {
    (void)state;
    Instant six = 1796364000; /* 2026-12-04 06:00 UTC */
    assert_int_equal(printed_early(six - 29 * MINUTE_S, 2), six - 30 * MINUTE_S);
    assert_int_equal(printed_early(six - 29 * MINUTE_S, 3), six - 30 * MINUTE_S);
    assert_int_equal(printed_early(six - 31 * MINUTE_S, 2), six - 45 * MINUTE_S);
    assert_int_equal(printed_early(six - 31 * MINUTE_S, 3), six - 35 * MINUTE_S);
    assert_int_equal(printed_late(six + 106 * MINUTE_S, 0), six + 120 * MINUTE_S);
    assert_int_equal(printed_late(six + 106 * MINUTE_S, 7), six + 110 * MINUTE_S);
    assert_int_equal(printed_late(six + 105 * MINUTE_S, 0), six + 105 * MINUTE_S);
    assert_int_equal(printed_about(six + 19 * MINUTE_S), six + 20 * MINUTE_S);
    assert_int_equal(printed_about(six + 17 * MINUTE_S), six + 15 * MINUTE_S);
    assert_int_equal(printed_early(-1, 0), -900);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(the_hour_is_the_latest_whatever_the_absences),
        CASE(a_little_more_absence_never_ends_late),
        CASE(a_carrier_is_sought_for_the_hour),
        CASE(bands_are_rounded_outwards),
    };
    const char *against = "lighting to be over by an hour: every five minutes tried";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
