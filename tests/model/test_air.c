/* Air: against IAPWS's published verification values, tables made with iapws and psychrolib,
 * and the laws that moist air keeps. */
#include "model/air.h"

#include "support/close.h"
#include "support/table.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

static const double extremes[] = {-1e300, -274, -100,  -30, 0,        0.005,    0.01,
                                  120,    200,  1e300, NAN, INFINITY, -INFINITY};
enum { EXTREMES = sizeof extremes / sizeof *extremes };

/* IAPWS-IF97 (2007), table 35: 300 K gives 0.353658941e-2 MPa, to all nine digits. Its other two
 * values, 500 K and 600 K, lie above the range here. */
static void published_verification_values(void **state) {
    (void)state;
    assert_close_share(air_saturation_over_water_pa(300 - 273.15), 0.353658941e4, 2e-9);
}

/* Murphy & Koop 2005, appendix C, over liquid water, Pa (from memory). */
static void supercooled_water_as_printed(void **state) {
    (void)state;
    assert_close(air_saturation_over_water_pa(240 - 273.15), 37.667, 0.0005);
    assert_close(air_saturation_over_water_pa(180 - 273.15), 0.011239, 0.0000005);
    assert_close(air_saturation_over_water_pa(210 - 273.15), 1.2335, 0.00005);
}

/* tests/reference/saturation.csv. From 0 °C the same formula computed elsewhere;
 * below, another route to the vapour pressure of supercooled water, good to about 0.1 %. */
static void saturation_as_iapws_has_it(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Table table = table_read(arena, "tests/reference/saturation.csv");
    for (size_t i = 0; i < table.count; i++) {
        const double *cell = table.rows[i].cell;
        assert_close_share(air_saturation_over_water_pa(cell[0]), cell[1],
                           cell[0] < 0 ? 2e-3 : 1e-9);
    }
    arena_free(arena);
}

/* tests/reference/moist_air.csv. psychrolib's saturation curve is older (Hyland & Wexler): 0.1 %
 * apart; what follows from the vapour pressure by the same gas law agrees more closely. */
static void moist_air_as_psychrolib_has_it(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Table table = table_read(arena, "tests/reference/moist_air.csv");
    for (size_t i = 0; i < table.count; i++) {
        const double *cell = table.rows[i].cell;
        double temp_c = cell[0];
        double pressure_pa = cell[1];
        double vapour_pa = cell[2];
        double ratio = air_humidity_ratio(vapour_pa, pressure_pa);
        assert_close(ratio, cell[3], 1e-8 + 1e-4 * fabs(cell[3]));
        assert_close_share(air_density_kg_m3(temp_c, vapour_pa, pressure_pa), cell[4], 2e-5);
    }
    arena_free(arena);
}

/* Where the two formulas meet, at 0 °C, there must be no step. */
static void formulas_meet_without_a_step(void **state) {
    (void)state;
    assert_close_share(air_saturation_over_water_pa(-1e-9), air_saturation_over_water_pa(0), 2e-6);
}

static void saturation_rises(void **state) {
    (void)state;
    for (double temp_c = -99.9; temp_c <= 200; temp_c += 0.1) {
        assert_true(air_saturation_over_water_pa(temp_c) >
                    air_saturation_over_water_pa(temp_c - 0.1));
    }
}

static void there_and_back(void **state) {
    (void)state;
    uint64_t seed = 11;
    for (int i = 0; i < 5000; i++) {
        double temp_c = close_random(&seed, -30, 120);
        double humidity = close_random(&seed, 0.01, 1);
        double other_c = temp_c + close_random(&seed, 0, 80);
        double vapour_pa = air_vapour_pressure_pa(temp_c, humidity);
        assert_close(air_humidity(temp_c, vapour_pa), humidity, 1e-12);
        double warmed = air_humidity_at(temp_c, humidity, other_c);
        assert_true(warmed <= humidity);
        assert_close(air_humidity_at(other_c, warmed, temp_c), humidity, 1e-9);
        double pressure_pa = close_random(&seed, 7e4, 1.1e5);
        double ratio = air_humidity_ratio(vapour_pa, pressure_pa);
        if (vapour_pa < 0.9 * pressure_pa)
            assert_close_share(air_vapour_pressure_from_ratio_pa(ratio, pressure_pa), vapour_pa,
                               1e-12);
    }
}

/* Law: the vapour density over the density of the rest is the humidity ratio. */
static void densities_and_ratio_agree(void **state) {
    (void)state;
    uint64_t seed = 12;
    for (int i = 0; i < 1000; i++) {
        double temp_c = close_random(&seed, -30, 90);
        double vapour_pa = air_vapour_pressure_pa(temp_c, close_random(&seed, 0, 1));
        double whole = air_density_kg_m3(temp_c, vapour_pa, 101325);
        double vapour = air_vapour_density_kg_m3(temp_c, vapour_pa);
        assert_close(vapour / (whole - vapour), air_humidity_ratio(vapour_pa, 101325), 1e-9);
        assert_true(whole <= air_density_kg_m3(temp_c, 0, 101325));
    }
    /* Dry air at 20 °C and one atmosphere: 1.2041 kg/m³; saturated vapour there 17.3 g/m³
     * (handbook values, from memory). */
    assert_close(air_density_kg_m3(20, 0, 101325), 1.2041, 1e-4);
    assert_close(air_vapour_density_kg_m3(20, air_saturation_over_water_pa(20)), 17.3e-3, 5e-5);
}

static void assert_finite(double value) {
    assert_true(isfinite(value));
}

static void every_argument_gives_a_number(void **state) {
    (void)state;
    for (int i = 0; i < EXTREMES; i++) {
        double a = extremes[i];
        assert_finite(log(air_saturation_over_water_pa(a)));
        for (int j = 0; j < EXTREMES; j++) {
            double b = extremes[j];
            double humidity = air_humidity(a, b);
            assert_true(humidity >= 0 && humidity <= 1);
            assert_finite(air_vapour_pressure_pa(a, b));
            assert_finite(air_humidity_at(a, 0.5, b));
            assert_finite(air_humidity_ratio(a, b));
            assert_true(air_humidity_ratio(a, b) >= 0);
            assert_finite(air_vapour_pressure_from_ratio_pa(a, b));
            assert_finite(air_density_kg_m3(a, b, 101325));
            assert_finite(air_density_kg_m3(20, a, b));
            assert_finite(air_vapour_density_kg_m3(a, b));
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_verification_values),
        cmocka_unit_test(supercooled_water_as_printed),
        cmocka_unit_test(saturation_as_iapws_has_it),
        cmocka_unit_test(moist_air_as_psychrolib_has_it),
        cmocka_unit_test(formulas_meet_without_a_step),
        cmocka_unit_test(saturation_rises),
        cmocka_unit_test(there_and_back),
        cmocka_unit_test(densities_and_ratio_agree),
        cmocka_unit_test(every_argument_gives_a_number),
    };
    const char *against = "air: IAPWS-IF97, Murphy & Koop 2005, psychrolib";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
