/* Time zones: against the C library's own reading of the same database, and against the clock
 * changes of 2026 as the EU's and the United States' rules give them. */
#include "base/zone.h"
#include "base/zone_rule.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const char *const zone_names[] = {
    "Europe/Dublin",
    "Europe/Berlin",
    "Europe/Warsaw",
    "America/New_York",
    "Asia/Kolkata",
    "Australia/Sydney",
    "America/Santiago",
    "Pacific/Chatham",
    "Africa/Casablanca",
    "Asia/Kathmandu",
    "Atlantic/Azores",
    "Pacific/Apia",
    "Australia/Lord_Howe",
    "America/St_Johns",
    "UTC",
    "Etc/GMT+5",
    "Asia/Tehran",
    "Antarctica/Troll",
    "America/Argentina/Buenos_Aires",
};
enum { ZONE_NAMES = sizeof zone_names / sizeof *zone_names };

static uint64_t next_random(uint64_t *seed) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

static Instant utc(const char *text) {
    CivilTime civil = {0};
    assert_true(civil_parse(text, &civil));
    return civil_to_utc(civil);
}

static CivilTime civil(const char *text) {
    CivilTime read = {0};
    assert_true(civil_parse(text, &read));
    return read;
}

/* What the C library says under TZ. */
static int library_offset(Instant instant) {
    time_t seconds = (time_t)instant;
    struct tm tm;
    assert_non_null(localtime_r(&seconds, &tm));
    CivilTime shown = {
        {tm.tm_year + 1900, tm.tm_mon + 1, tm.tm_mday}, tm.tm_hour, tm.tm_min, tm.tm_sec};
    return (int)(civil_to_utc(shown) - instant);
}

/* The first change of the offset behind `after`, if there is one before `until`: no zone of the
 * list changes it twice in four days. */
static bool next_change(const Zone *zone, Instant after, Instant until, Instant *change) {
    const Instant step = 4 * SECONDS_PER_DAY;
    int offset = zone_offset(zone, after);
    while (zone_offset(zone, after + step) == offset)
        if ((after += step) >= until)
            return false;
    Instant low = after, high = after + step;
    while (high - low > 1) {
        Instant middle = low + (high - low) / 2;
        *(zone_offset(zone, middle) == offset ? &low : &high) = middle;
    }
    *change = high;
    return high < until;
}

static bool shows(const Zone *zone, Instant instant, CivilTime reading) {
    return instant + zone_offset(zone, instant) == civil_to_utc(reading);
}

/* Random instants from 1900 to 2200: listed changes as well as the rule of the footer. */
static void agrees_with_the_c_library(void **state) {
    (void)state;
    Arena *arena = arena_new();
    uint64_t seed = 20261205;
    for (size_t i = 0; i < ZONE_NAMES; i++) {
        Zone *zone = zone_load(arena, zone_names[i]);
        assert_non_null(zone);
        setenv("TZ", zone_names[i], 1);
        tzset();
        for (int n = 0; n < 4000; n++) {
            Instant instant = (Instant)(next_random(&seed) % 9467000000u) - 2208988800;
            int offset = library_offset(instant);
            assert_int_equal(zone_offset(zone, instant), offset);
            assert_int_equal(civil_to_utc(zone_civil(zone, instant)), instant + offset);
        }
    }
    unsetenv("TZ");
    tzset();
    arena_free(arena);
}

/* The second before and the second of every change from 2024 to 2045, against localtime_r. */
static void changes_agree_with_the_c_library(void **state) {
    (void)state;
    Arena *arena = arena_new();
    int changes = 0;
    for (size_t i = 0; i < ZONE_NAMES; i++) {
        Zone *zone = zone_load(arena, zone_names[i]);
        setenv("TZ", zone_names[i], 1);
        tzset();
        Instant at = utc("2024-01-01T00:00");
        while (next_change(zone, at, utc("2045-01-01T00:00"), &at)) {
            int before = library_offset(at - 1);
            int after = library_offset(at);
            assert_int_equal(zone_offset(zone, at - 1), before);
            assert_int_equal(zone_offset(zone, at), after);
            assert_int_not_equal(before, after);
            changes++;
        }
    }
    assert_true(changes > 10 * 42);
    unsetenv("TZ");
    tzset();
    arena_free(arena);
}

/* Directive 2000/84/EC: 01:00 UTC on the last Sundays of March and October; in the United
 * States (Energy Policy Act of 2005) 02:00 local on the second Sunday of March and the first
 * of November. New South Wales: first Sundays of April and October (from memory). */
static void changes_of_2026(void **state) {
    (void)state;
    const struct {
        const char *zone;
        const char *change;
        int before;
        int after;
    } cases[] = {
        {"Europe/Dublin", "2026-03-29T01:00", 0, 3600},
        {"Europe/Dublin", "2026-10-25T01:00", 3600, 0},
        {"Europe/Berlin", "2026-03-29T01:00", 3600, 7200},
        {"Europe/Berlin", "2026-10-25T01:00", 7200, 3600},
        {"America/New_York", "2026-03-08T07:00", -18000, -14400},
        {"America/New_York", "2026-11-01T06:00", -14400, -18000},
        {"Australia/Sydney", "2026-04-04T16:00", 39600, 36000},
        {"Australia/Sydney", "2026-10-03T16:00", 36000, 39600},
        {"Europe/Dublin", "2126-03-31T01:00", 0, 3600},
    };
    Arena *arena = arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Zone *zone = zone_load(arena, cases[i].zone);
        assert_non_null(zone);
        Instant change = utc(cases[i].change);
        assert_int_equal(zone_offset(zone, change - 1), cases[i].before);
        assert_int_equal(zone_offset(zone, change), cases[i].after);
        Instant found = 0;
        assert_true(next_change(zone, change - 86400, change + 86400, &found));
        assert_int_equal(found, change);
    }
    Zone *kolkata = zone_load(arena, "Asia/Kolkata");
    Instant none = 0;
    assert_int_equal(zone_offset(kolkata, utc("2026-07-01T00:00")), 19800);
    assert_false(next_change(kolkata, utc("2026-01-01T00:00"), utc("2036-01-01T00:00"), &none));
    arena_free(arena);
}

static void gap_and_overlap(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Zone *berlin = zone_load(arena, "Europe/Berlin");
    Instant first = 0;
    Instant second = 0;
    assert_int_equal(zone_local_to_instant(berlin, civil("2026-03-29T02:30"), &first, &second), 0);
    assert_int_equal(first, utc("2026-03-29T01:00"));
    assert_int_equal(second, first);
    Instant meant = zone_instant(berlin, civil("2026-03-29T02:30"), ZONE_EARLIER);
    assert_true(shows(berlin, meant, civil("2026-03-29T03:30")));

    assert_int_equal(zone_local_to_instant(berlin, civil("2026-10-25T02:30"), &first, &second), 2);
    assert_int_equal(first, utc("2026-10-25T00:30"));
    assert_int_equal(second, utc("2026-10-25T01:30"));
    assert_int_equal(zone_instant(berlin, civil("2026-10-25T02:30"), ZONE_EARLIER), first);
    assert_int_equal(zone_instant(berlin, civil("2026-10-25T02:30"), ZONE_LATER), second);

    /* The edges: 02:00 is jumped over and 03:00 is not; 02:00 comes twice and 03:00 once. */
    assert_int_equal(zone_local_to_instant(berlin, civil("2026-03-29T02:00"), NULL, NULL), 0);
    assert_int_equal(zone_local_to_instant(berlin, civil("2026-03-29T03:00"), &first, NULL), 1);
    assert_int_equal(first, utc("2026-03-29T01:00"));
    assert_int_equal(zone_local_to_instant(berlin, civil("2026-03-29T01:59:59"), NULL, NULL), 1);
    assert_int_equal(zone_local_to_instant(berlin, civil("2026-10-25T02:00"), NULL, NULL), 2);
    assert_int_equal(zone_local_to_instant(berlin, civil("2026-10-25T03:00"), NULL, NULL), 1);
    assert_int_equal(zone_local_to_instant(berlin, civil("2026-10-25T01:59:59"), NULL, NULL), 1);

    /* Samoa had no 30 December 2011 at all. */
    Zone *apia = zone_load(arena, "Pacific/Apia");
    assert_int_equal(zone_local_to_instant(apia, civil("2011-12-30T12:00"), &first, NULL), 0);
    assert_int_equal(first, utc("2011-12-30T10:00"));
    arena_free(arena);
}

/* Law: every instant is among the instants of its own clock reading, and each instant that is
 * given for a reading shows that reading. */
static void readings_and_instants_round_trip(void **state) {
    (void)state;
    Arena *arena = arena_new();
    uint64_t seed = 7;
    int twice = 0;
    for (size_t i = 0; i < ZONE_NAMES; i++) {
        Zone *zone = zone_load(arena, zone_names[i]);
        for (int n = 0; n < 3000; n++) {
            Instant instant = (Instant)(next_random(&seed) % 6000000000u) - 1000000000;
            Instant change = 0;
            if (n % 2 && next_change(zone, instant, instant + 400 * 86400, &change))
                instant = change - 3600 + (Instant)(next_random(&seed) % 7200);
            CivilTime local = zone_civil(zone, instant);
            Instant first = 0;
            Instant second = 0;
            int count = zone_local_to_instant(zone, local, &first, &second);
            assert_in_range(count, 1, 2);
            assert_true(instant == first || instant == second);
            assert_true(count == 1 ? first == second : first < second);
            assert_true(shows(zone, first, local));
            assert_true(shows(zone, second, local));
            twice += count == 2;
        }
    }
    assert_true(twice > 100);
    arena_free(arena);
}

static void names_cannot_leave_the_folder(void **state) {
    (void)state;
    Arena *arena = arena_new();
    const char *refused[] = {"",
                             "../etc/passwd",
                             "/etc/localtime",
                             "Europe/../UTC",
                             "Europe/",
                             "Europe//Berlin",
                             "Europe",
                             "Europe/Atlantis",
                             "tzdata.zi",
                             "Europe/Berlin\n",
                             "zone1970.tab",
                             "leapseconds",
                             "right/Europe/Berlin",
                             "C:\\UTC"};
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        assert_null(zone_load(arena, refused[i]));
    assert_null(zone_load(arena, NULL));
    char longest[400];
    memset(longest, 'A', sizeof longest - 1);
    longest[sizeof longest - 1] = '\0';
    assert_null(zone_load(arena, longest));
    assert_string_equal(zone_name(zone_load(arena, "Europe/Dublin")), "Europe/Dublin");
    arena_free(arena);
}

/* A file in memory, made by hand after RFC 9636 section 3: one type, one change, the version
 * wanted, and a footer from version 2 on. */
static size_t small_file(unsigned char *bytes, char version, const char *footer) {
    size_t size = 0;
    for (int block = 0; block < (version ? 2 : 1); block++) {
        memset(bytes + size, 0, 44);
        memcpy(bytes + size, "TZif", 4);
        bytes[size + 4] = (unsigned char)version;
        bytes[size + 35] = 1; /* changes */
        bytes[size + 39] = 2; /* types */
        bytes[size + 43] = 8; /* letters */
        size += 44;
        size_t time_bytes = block ? 8 : 4;
        memset(bytes + size, 0, time_bytes);
        bytes[size + time_bytes - 1] = 100; /* the change is at 100 s */
        size += time_bytes;
        bytes[size++] = 1; /* to the second type */
        const unsigned char types[] = {0, 0, 0x0E, 0x10, 0, 0, 0xFF, 0xFF, 0xF1, 0xF0, 0, 4};
        memcpy(bytes + size, types, sizeof types);
        size += sizeof types;
        memcpy(bytes + size, "ONE\0TWO", 8);
        size += 8;
    }
    if (version)
        size += (size_t)sprintf((char *)bytes + size, "\n%s\n", footer);
    return size;
}

static void files_of_all_versions(void **state) {
    (void)state;
    Arena *arena = arena_new();
    unsigned char bytes[512];
    for (int i = 0; i < 4; i++) {
        const char versions[] = {'\0', '2', '3', '4'};
        size_t size = small_file(bytes, versions[i], "");
        Zone *zone = zone_parse(arena, "made", bytes, size);
        assert_non_null(zone);
        assert_int_equal(zone_offset(zone, 99), 3600);
        assert_int_equal(zone_offset(zone, 100), -3600);
        assert_int_equal(zone_offset(zone, INT32_MAX), -3600);
        assert_int_equal(zone_offset(zone, INT32_MIN), 3600);
    }
    size_t size = small_file(bytes, '3', "TWO1");
    assert_int_equal(zone_offset(zone_parse(arena, "made", bytes, size), 1000), -3600);
    size = small_file(bytes, '2', "nonsense");
    assert_null(zone_parse(arena, "made", bytes, size));
    arena_free(arena);
}

static void damaged_files_are_refused(void **state) {
    (void)state;
    Arena *arena = arena_new();
    unsigned char whole[512];
    unsigned char bytes[512];
    size_t size = small_file(whole, '2', "TWO1");
    for (size_t cut = 0; cut < size; cut++)
        assert_null(zone_parse(arena, "cut", whole, cut));
    /* Any other byte changed: refused or read, but never a crash and never an absurd offset. */
    for (size_t i = 0; i < size; i++) {
        for (int value = 0; value < 256; value += 5) {
            memcpy(bytes, whole, size);
            bytes[i] = (unsigned char)value;
            Zone *zone = zone_parse(arena, "bent", bytes, size);
            for (Instant at = 50; zone && at < 10000000; at += 999950)
                assert_in_range(zone_offset(zone, at) + 168 * 3600, 0, 2 * 168 * 3600);
        }
    }
    arena_free(arena);
}

static bool is_summer(const ZoneRule *rule, Instant instant) {
    int offset = zone_rule_offset(rule, instant);
    assert_true(offset == rule->standard_offset || offset == rule->summer_offset);
    return offset == rule->summer_offset;
}

/* POSIX.1-2017 section 8.3 and RFC 9636 section 3.3.1 give the forms. */
static void rules_are_read(void **state) {
    (void)state;
    ZoneRule rule;
    assert_true(zone_rule_parse("EST5EDT,M3.2.0,M11.1.0", &rule));
    assert_int_equal(rule.standard_offset, -18000);
    assert_int_equal(rule.summer_offset, -14400);
    assert_true(is_summer(&rule, utc("2040-07-01T00:00")));
    assert_false(is_summer(&rule, utc("2040-01-01T00:00")));
    assert_true(zone_rule_parse("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", &rule));
    assert_int_equal(rule.standard_offset, 37800);
    assert_true(is_summer(&rule, utc("2040-01-01T00:00")));
    assert_true(zone_rule_parse("<-02>2<-01>,M3.5.0/-1,M10.5.0/0", &rule));
    assert_int_equal(rule.summer_start.seconds, -3600);
    /* RFC 9636: summer time all the year. */
    assert_true(zone_rule_parse("XXX3EDT4,0/0,J365/23", &rule));
    for (int day = 0; day < 800; day++)
        assert_true(is_summer(&rule, utc("2039-06-01T04:00") + day * 86400));
    /* Jn never counts 29 February; n does. */
    assert_true(zone_rule_parse("AAA0BBB,J60/0,J61/0", &rule));
    assert_true(is_summer(&rule, utc("2040-03-01T12:00")));
    assert_false(is_summer(&rule, utc("2040-02-29T12:00")));
    assert_true(zone_rule_parse("AAA0BBB,59/0,60/1", &rule));
    assert_true(is_summer(&rule, utc("2040-02-29T12:00")));
    /* Dublin's own time until 1916, 25 min 21 s behind (IANA database, file europe) */
    assert_true(zone_rule_parse("DMT0:25:21", &rule));
    assert_int_equal(rule.standard_offset, -(25 * 60 + 21));
    assert_true(zone_rule_parse("JST-9", &rule));
    assert_int_equal(zone_rule_offset(&rule, utc("2040-07-01T00:00")), 9 * 3600);
    const char *refused[] = {"",
                             "AB3",
                             "EST",
                             "EST5EDT",
                             "EST5EDT,M3.2.0",
                             "EST5EDT,M13.2.0,M11.1.0",
                             "EST168",
                             "EST5EDT,M3.6.0,M11.1.0",
                             "EST5EDT,M3.2.7,M11.1.0",
                             "<EST5",
                             "EST5EDT,J0,J5",
                             "EST5EDT,366,5",
                             "EST5EDT,M3.2.0,M11.1.0x",
                             "EST5:60",
                             "ABCDEFGHIJKLMNOPQ5",
                             "EST5EDT,M3.2.0/,M11.1.0",
                             "EST5EDT,M3.2.0,M11.1.0/1234",
                             "EST5EDTX:"};
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        assert_false(zone_rule_parse(refused[i], &rule));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_the_c_library),
        cmocka_unit_test(changes_agree_with_the_c_library),
        cmocka_unit_test(changes_of_2026),
        cmocka_unit_test(gap_and_overlap),
        cmocka_unit_test(readings_and_instants_round_trip),
        cmocka_unit_test(names_cannot_leave_the_folder),
        cmocka_unit_test(files_of_all_versions),
        cmocka_unit_test(damaged_files_are_refused),
        cmocka_unit_test(rules_are_read),
    };
    return cmocka_run_group_tests_name("zone", tests, NULL, NULL);
}
