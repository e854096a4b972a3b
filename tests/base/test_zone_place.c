/* Where the places are that zones are named after. Latitudes: any atlas, to a tenth of a degree. */
#include "support/arena_case.h"

#include "base/zone.h"
#include "base/zone_place.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static void latitudes_are_those_of_the_atlas(void **state) {
    static const struct {
        const char *zone;
        double latitude_deg;
    } rows[] = {
        {"Europe/Dublin", 53.3},     {"Europe/Warsaw", 52.25},      {"Australia/Sydney", -33.9},
        {"Asia/Singapore", 1.3},     {"America/New_York", 40.7},    {"America/Sao_Paulo", -23.5},
        {"Pacific/Auckland", -36.9}, {"Antarctica/McMurdo", -77.8},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double found = zone_latitude_deg(*state, rows[i].zone);
        if (!(fabs(found - rows[i].latitude_deg) <= 0.1))
            fail_msg("%s: %g, not %g", rows[i].zone, found, rows[i].latitude_deg);
    }
}

static void a_zone_of_no_place_has_no_latitude(void **state) {
    assert_true(isnan(zone_latitude_deg(*state, "Etc/UTC")));
    assert_true(isnan(zone_latitude_deg(*state, "Europe/Dubli")));
    assert_true(isnan(zone_latitude_deg(*state, "Dublin")));
    assert_true(isnan(zone_latitude_deg(*state, "")));
}

static void the_zone_of_the_machine_can_be_loaded(void **state) {
    setenv("TZ", "Europe/Warsaw", 1);
    assert_string_equal(zone_of_machine(*state), "Europe/Warsaw");
    setenv("TZ", ":Asia/Tokyo", 1);
    assert_string_equal(zone_of_machine(*state), "Asia/Tokyo");
    const char *const none[] = {"", "Nowhere/Else", "../etc/passwd", "CET-1CEST"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        setenv("TZ", none[i], 1);
        assert_non_null(zone_load(*state, zone_of_machine(*state)));
    }
    unsetenv("TZ");
    assert_non_null(zone_load(*state, zone_of_machine(*state)));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(latitudes_are_those_of_the_atlas),
        CASE(a_zone_of_no_place_has_no_latitude),
        CASE(the_zone_of_the_machine_can_be_loaded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
