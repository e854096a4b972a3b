/* Store: what is assumed of dust that nobody measured, against the Wood Handbook's table of
 * equilibrium moisture (tests/reference/equilibrium_moisture.csv holds more of it). */
#include "model/store.h"

#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>

static Store store_of(bool sealed, double temp_c, double humidity) {
    return (Store){.sealed = sealed, .temp_c = temp_c, .humidity = humidity};
}

/* Table 4-2 at 21.1 °C: 50 % 9.2, 60 % 11.0, 40 % 7.7. */
static void a_stated_air_gives_the_handbooks_moisture(void **state) {
    (void)state;
    Store store = store_of(true, 21.1, 0.50);
    StoreMoisture moisture = store_moisture(&store);
    assert_close(moisture.middle, 0.092, 0.0006);
    assert_close(moisture.low, 0.077, 0.0006);
    assert_close(moisture.high, 0.110, 0.0006);
}

/* Joiners reckon with 8 to 12 % for wood kept indoors and 12 to 19 % under an open roof (common
 * practice, no source; Wood Handbook, chapter 13, has 8 % as the mean of heated rooms). */
static void a_room_is_assumed_where_nothing_is_stated(void **state) {
    (void)state;
    Store sealed = store_of(true, NAN, NAN), open = store_of(false, NAN, NAN);
    StoreMoisture in_jar = store_moisture(&sealed), in_air = store_moisture(&open);
    assert_true(in_jar.middle > 0.08 && in_jar.middle < 0.12);
    assert_true(in_air.middle > in_jar.middle && in_air.high < 0.19);
    assert_true(in_jar.low < in_jar.middle && in_jar.middle < in_jar.high);
    assert_true(in_air.high - in_air.low > in_jar.high - in_jar.low);
}

static void ends_stay_in_order_at_the_ends_of_the_range(void **state) {
    (void)state;
    for (double humidity = 0; humidity <= 1.001; humidity += 0.01) {
        Store store = store_of(true, -30, humidity);
        StoreMoisture moisture = store_moisture(&store);
        assert_true(0 <= moisture.low && moisture.low <= moisture.middle);
        assert_true(moisture.middle <= moisture.high && moisture.high < 0.4);
    }
}

/* Two months in the open, a year sealed: the last day still counts (judgement). */
static void a_measure_gets_old(void **state) {
    (void)state;
    Store open = store_of(false, 18, 0.6), sealed = store_of(true, 18, 0.6);
    Date measured = {2026, 1, 1}, never = {0, 0, 0};
    assert_false(store_measure_is_old(&open, measured, (Date){2026, 3, 2}));
    assert_true(store_measure_is_old(&open, measured, (Date){2026, 3, 3}));
    assert_false(store_measure_is_old(&sealed, measured, (Date){2027, 1, 1}));
    assert_true(store_measure_is_old(&sealed, measured, (Date){2027, 1, 2}));
    assert_false(store_measure_is_old(&open, measured, (Date){2025, 12, 1}));
    assert_false(store_measure_is_old(&open, never, (Date){2027, 1, 1}));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_stated_air_gives_the_handbooks_moisture),
        cmocka_unit_test(a_room_is_assumed_where_nothing_is_stated),
        cmocka_unit_test(ends_stay_in_order_at_the_ends_of_the_range),
        cmocka_unit_test(a_measure_gets_old),
    };
    const char *against = "store: Wood Handbook table 4-2, common practice";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
