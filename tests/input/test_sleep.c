/* Sleep: hours of the wall clock made hours of absence, over both changes of the clock (EU
 * directive 2000/84/EC: the last Sundays of March and October, at one UTC), by hand. */
#include "input/sleep.h"

#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <string.h>

enum { HOUR_S = 3600 };

static Workshop house(Arena *arena, const char *from, const char *to) {
    Workshop workshop = {.zone = zone_load(arena, "Europe/Dublin"), .sleep = {.stated = true}};
    assert_true(sleep_clock(arena, from, &workshop.sleep.from));
    assert_true(sleep_clock(arena, to, &workshop.sleep.to));
    return workshop;
}

static Instant at(const Workshop *workshop, int month, int day, int hour) {
    CivilTime civil = {.date = {2026, month, day}, .hour = hour};
    return zone_instant(workshop->zone, civil, ZONE_EARLIER);
}

static const Away *night_with(const Timing *timing, Instant instant) {
    for (size_t i = 0; i < timing->away.count; i++) {
        const Away *away = &timing->away.items[i];
        if (away->from <= instant && instant < away->to) {
            return away;
        }
    }
    return NULL;
}

static void a_night_lasts_as_long_as_the_clocks_make_it(void **state) {
    static const struct { int month, day, hours; } nights[] = {{10, 24, 9}, {3, 28, 7}, {12, 4, 8}};
    for (size_t i = 0; i < sizeof nights / sizeof *nights; i++) {
        Workshop workshop = house(*state, "23:00", "07:00");
        Instant evening = at(&workshop, nights[i].month, nights[i].day, 20);
        Timing timing = {.kind = TIMING_LIGHT_AT, .at = evening};
        sleep_add(*state, &workshop, &timing);
        assert_null(night_with(&timing, evening));
        const Away *night = night_with(&timing, evening + 5 * HOUR_S);
        assert_non_null(night);
        assert_int_equal(night->from, evening + 3 * HOUR_S);
        assert_int_equal(night->to - night->from, nights[i].hours * HOUR_S);
    }
}

static void every_night_of_a_window_and_of_the_burn_after_it_is_there(void **state) {
    Workshop workshop = house(*state, "00:30", "06:00"); /* not over midnight */
    Timing timing = {.kind = TIMING_BEST, .at = at(&workshop, 12, 7, 18)};
    timing.to = timing.at + 14 * 24 * HOUR_S;
    sleep_add(*state, &workshop, &timing);
    for (int day = -7; day < 14 + 8; day++) {
        Instant midnight = timing.at + (Instant)day * 24 * HOUR_S + 6 * HOUR_S;
        assert_null(night_with(&timing, midnight));
        assert_non_null(night_with(&timing, midnight + HOUR_S));
    }
}

static void who_lights_at_night_is_up_till_it_has_caught(void **state) {
    Workshop workshop = house(*state, "22:00", "06:00");
    Instant lit = at(&workshop, 12, 4, 23);
    Timing timing = {.kind = TIMING_LIGHT_AT, .at = lit};
    sleep_add(*state, &workshop, &timing);
    assert_null(night_with(&timing, lit));
    assert_null(night_with(&timing, lit + 20 * 60)); /* the first look */
    assert_non_null(night_with(&timing, lit + HOUR_S));
}

static void reads_times_of_the_clock_and_nothing_else(void **state) {
    static const char *const wrong[] = {"24:00", "7:00", "07:60", "0700", "07:00:30", "07:00 ", ""};
    CivilTime clock;
    assert_true(sleep_clock(*state, "00:00", &clock));
    assert_true(sleep_clock(*state, "23:59", &clock));
    assert_int_equal(clock.hour * 60 + clock.minute, 23 * 60 + 59);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        assert_false(sleep_clock(*state, wrong[i], &clock));
    }
}

static void a_workshop_that_states_none_adds_none(void **state) {
    Workshop workshop = house(*state, "22:00", "06:00");
    workshop.sleep.stated = false;
    Timing timing = {.kind = TIMING_LIGHT_AT, .at = at(&workshop, 12, 4, 20)};
    sleep_add(*state, &workshop, &timing);
    assert_int_equal(timing.away.count, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(a_night_lasts_as_long_as_the_clocks_make_it),
        CASE(every_night_of_a_window_and_of_the_burn_after_it_is_there),
        CASE(who_lights_at_night_is_up_till_it_has_caught),
        CASE(reads_times_of_the_clock_and_nothing_else),
        CASE(a_workshop_that_states_none_adds_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
