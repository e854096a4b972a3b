/* Brine: every row of the seafood training table, both ways. */
#include "model/brine.h"
#include "support/arena_case.h"
#include "support/close.h"
#include "support/table.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>

/* deg_sal, pct_salt_ww, salt_g_per_litre_water, brine_g_per_litre */
static const char table_path[] = "tests/reference/brine_salometer.csv";

/* The table's litres of water are taken for kilograms: so it is met within its own rounding. */
static const double litre_kg = 1;
static const double rounding_g = 0.25;

static void degrees_and_percent_of_the_table(void **state) {
    Table table = table_read(*state, table_path);
    assert_int_equal(table.count, 5);
    for (size_t i = 0; i < table.count; i++) {
        const double *cell = table.rows[i].cell;
        /* printed to a hundredth of a percent, 0.04 degrees; that of 90 is cut, not rounded */
        assert_close(brine_strength(cell[0]) * 100, cell[1], 0.006);
        assert_close(brine_degrees(cell[1] / 100), cell[0], 0.023);
    }
}

static void salt_for_a_litre_of_the_table(void **state) {
    Table table = table_read(*state, table_path);
    for (size_t i = 0; i < table.count; i++) {
        const double *cell = table.rows[i].cell;
        double salt_g = brine_salt_per_water(brine_strength(cell[0])) * litre_kg * 1000;
        assert_close(salt_g, cell[2], rounding_g);
        assert_close(brine_strength_made(cell[2] / 1000, litre_kg), cell[1] / 100, 1e-4);
    }
}

static void density_of_the_table(void **state) {
    Table table = table_read(*state, table_path);
    for (size_t i = 0; i < table.count; i++) {
        const double *cell = table.rows[i].cell;
        assert_close(brine_density_kg_m3(brine_strength(cell[0])), cell[3], 0.6);
    }
    /* CRC Handbook, sodium chloride at 20 °C (from memory): the table was not fitted to these */
    assert_close(brine_density_kg_m3(0.10), 1070.7, 1);
    assert_close(brine_density_kg_m3(0.20), 1147.8, 1);
}

/* The cells of the reference's notes that the table leaves out: grams a litre at even degrees. */
static void salt_of_the_degrees_between(void **state) {
    (void)state;
    static const double cells[][2] = {
        {20, 55.66}, {40, 117.98}, {60, 188.18}, {80, 267.69}, {100, 358.82}};
    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
        double salt_g = brine_salt_per_water(brine_strength(cells[i][0])) * litre_kg * 1000;
        assert_close(salt_g, cells[i][1], rounding_g);
    }
}

static void there_and_back(void **state) {
    (void)state;
    uint64_t seed = 20261225;
    for (int i = 0; i < 1000; i++) {
        double degrees = close_random(&seed, 0.1, 100);
        double strength = brine_strength(degrees);
        assert_close(brine_degrees(strength), degrees, 1e-9);
        double water_kg = close_random(&seed, 0.1, 500);
        double salt_kg = brine_salt_per_water(strength) * water_kg;
        assert_close(brine_strength_made(salt_kg, water_kg), strength, 1e-12);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(degrees_and_percent_of_the_table), CASE(salt_for_a_litre_of_the_table),
        CASE(density_of_the_table), CASE(salt_of_the_degrees_between), CASE(there_and_back)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
