/* Dates: calendar arithmetic against the C library and against ISO 8601's own examples. */
#include "base/date.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>
#include <time.h>

/* ISO 8601:2000, 5.2.2 and 5.2.3: ordinal and week forms of the same day. */
static void ordinals_of_iso_examples(void **state) {
    (void)state;
    Date august = {1953, 8, 2};
    assert_int_equal(date_ordinal(august), 214);
    assert_int_equal(date_weekday(august), 7);
    assert_int_equal(date_ordinal((Date){1985, 4, 12}), 102);
}

/* Every day of eight centuries, against gmtime_r and strftime of the C library. */
static void every_day_agrees_with_the_c_library(void **state) {
    (void)state;
    int64_t first = date_to_days((Date){1700, 1, 1});
    int64_t last = date_to_days((Date){2500, 1, 1});
    for (int64_t day = first; day < last; day++) {
        time_t seconds = (time_t)(day * SECONDS_PER_DAY);
        struct tm tm;
        assert_non_null(gmtime_r(&seconds, &tm));
        Date date = date_from_days(day);
        assert_int_equal(date.year, tm.tm_year + 1900);
        assert_int_equal(date.month, tm.tm_mon + 1);
        assert_int_equal(date.day, tm.tm_mday);
        assert_int_equal(date_ordinal(date), tm.tm_yday + 1);
        assert_int_equal(date_weekday(date) % 7, tm.tm_wday);
        assert_int_equal(date_to_days(date), day);
    }
}

static void days_and_dates_round_trip_far_out(void **state) {
    (void)state;
    for (int64_t day = -800000000; day < 800000000; day += 999983)
        assert_int_equal(date_to_days(date_from_days(day)), day);
    assert_int_equal(date_to_days((Date){1970, 1, 1}), 0);
    assert_int_equal(date_to_days((Date){0, 3, 1}), -719468);
}

static void leap_years(void **state) {
    (void)state;
    assert_true(date_leap_year(2024));
    assert_true(date_leap_year(2000));
    assert_false(date_leap_year(1900));
    assert_false(date_leap_year(2026));
    assert_int_equal(date_days_in_month(2026, 2), 28);
    assert_int_equal(date_days_in_month(2028, 2), 29);
    assert_int_equal(date_days_in_month(2028, 13), 0);
    assert_int_equal(date_days_in_month(2028, 0), 0);
}

static void dates_are_read_strictly(void **state) {
    (void)state;
    Date date = {0};
    assert_true(date_parse("2026-12-05", &date));
    assert_int_equal(date_compare(date, (Date){2026, 12, 5}), 0);
    assert_true(date_parse("2028-02-29", &date));
    const char *refused[] = {
        "",           "2026-12-5",   "2026-12-005", "2026/12/05",      "2026-02-29",
        "2026-13-01", "2026-00-10",  "2026-04-31",  "0000-01-01",      "-026-01-01",
        "+026-01-01", " 2026-12-05", "2026-12-05 ", "2026-12-00",      "20261205",
        "2026-12-0x", "2026-339",    "2026-W49-6",  "2026-12-05T21:30"};
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        Date kept = {1, 2, 3};
        assert_false(date_parse(refused[i], &kept));
        assert_int_equal(date_compare(kept, (Date){1, 2, 3}), 0);
    }
}

static void clock_readings_are_read_strictly(void **state) {
    (void)state;
    CivilTime civil = {0};
    assert_true(civil_parse("2026-12-05T21:30", &civil));
    assert_int_equal(civil_to_utc(civil), civil_to_utc((CivilTime){{2026, 12, 5}, 21, 30, 0}));
    assert_true(civil_parse("2026-12-05T23:59:59", &civil));
    assert_int_equal(civil.second, 59);
    const char *refused[] = {"2026-12-05",
                             "2026-12-05T24:00",
                             "2026-12-05T21:60",
                             "2026-12-05T21:30:60",
                             "2026-12-05 21:30",
                             "2026-12-05t21:30",
                             "2026-12-05T21:30Z",
                             "2026-12-05T2130",
                             "2026-12-05T21:30:0",
                             "2026-12-05T-1:30",
                             "2026-02-30T21:30",
                             "2026-12-05T21.30",
                             "2026-12-05T21:30+01:00",
                             "2026-12-05T21:30-00",
                             "T21:30"};
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        assert_false(civil_parse(refused[i], &civil));
}

static void written_and_read_back(void **state) {
    (void)state;
    for (Instant instant = -60000000000; instant < 250000000000; instant += 86311999) {
        CivilTime civil = civil_from_utc(instant);
        assert_int_equal(civil_to_utc(civil), instant);
        char text[CIVIL_TEXT_SIZE];
        civil_format(civil, text);
        CivilTime read = {0};
        assert_true(civil_parse(text, &read));
        assert_int_equal(civil_to_utc(read), instant);
    }
    char date_text[DATE_TEXT_SIZE];
    date_format((Date){987, 6, 5}, date_text);
    assert_string_equal(date_text, "0987-06-05");
}

static void validity(void **state) {
    (void)state;
    assert_true(date_valid((Date){9999, 12, 31}));
    assert_false(date_valid((Date){10000, 1, 1}));
    assert_false(date_valid((Date){2026, 2, 0}));
    assert_false(civil_valid((CivilTime){{2026, 1, 1}, 24, 0, 0}));
    assert_false(civil_valid((CivilTime){{2026, 1, 1}, 0, -1, 0}));
    assert_false(civil_valid((CivilTime){{2026, 1, 1}, 0, 0, 60}));
    assert_true(date_compare((Date){2026, 1, 31}, (Date){2026, 2, 1}) < 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ordinals_of_iso_examples),
        cmocka_unit_test(every_day_agrees_with_the_c_library),
        cmocka_unit_test(days_and_dates_round_trip_far_out),
        cmocka_unit_test(leap_years),
        cmocka_unit_test(dates_are_read_strictly),
        cmocka_unit_test(clock_readings_are_read_strictly),
        cmocka_unit_test(written_and_read_back),
        cmocka_unit_test(validity),
    };
    return cmocka_run_group_tests_name("date", tests, NULL, NULL);
}
