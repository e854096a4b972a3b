/* Uptake: against an independent estimate of the time constant, and steady and limiting cases. */
#include "model/fire_constants.h"
#include "model/uptake.h"
#include "model/wood.h"

#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

static void humidity_is_the_inverse_of_the_equilibrium(void **state) {
    (void)state;
    for (double temp_c = -20; temp_c <= 50; temp_c += 7) {
        for (double humidity = 0.01; humidity < 1; humidity += 0.07) {
            double moisture = wood_equilibrium_moisture(temp_c, humidity);
            assert_close(uptake_bed_humidity(temp_c, moisture), humidity, 1e-8);
        }
        assert_close(uptake_bed_humidity(temp_c, 0.9), 1, 0);
        assert_close(uptake_bed_humidity(temp_c, 0), 0, 0);
        assert_close(uptake_bed_humidity(temp_c, NAN), 0, 0);
    }
}

/* Own estimate beside the sorption figures: with dM/dRH 0.17, 220 kg/m³, 15 °C, a bed open on top
 * only takes 7 h when 15 mm deep, 21 h when 25 mm, and 5 h when 25 mm deep and open on both sides.
 * Saturation vapour at 15 °C: 12.8 g/m³ (steam tables, from memory). 0.17 is the mean slope of
 * the sorption curve between 49 and 75 % humidity. */
static void time_constants_as_estimated(void **state) {
    (void)state;
    double moisture = wood_equilibrium_moisture(15, 0.49);
    double slope = (wood_equilibrium_moisture(15, 0.75) - moisture) / 0.26;
    assert_close(slope, 0.20, 0.04);
    static const struct { double depth_m, hours; } rows[] = {{0.015, 7}, {0.025, 21}, {0.0125, 5}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        WaitingBed bed = {rows[i].depth_m, 220};
        double tau_s = uptake_time_s(&bed, moisture, 15, 0.75) - FIRE_GRAIN_LAG_S;
        assert_close_share(tau_s / 3600 * 0.17 / slope, rows[i].hours, 0.06);
    }
}

/* With the mean slope the rate is that of diffusion by the difference of vapour density. */
static void rate_is_driven_by_vapour(void **state) {
    (void)state;
    WaitingBed bed = {0.02, 200};
    double moisture = wood_equilibrium_moisture(10, 0.3);
    double tau_s = uptake_time_s(&bed, moisture, 10, 0.9) - FIRE_GRAIN_LAG_S;
    double saturation_kg_m3 = 9.40e-3; /* steam tables, 10 °C, from memory */
    double flux = 2.4674011 * 1e-5 * (0.9 - 0.3) * saturation_kg_m3 / (0.02 * 0.02 * 200);
    double rate = (wood_equilibrium_moisture(10, 0.9) - moisture) / tau_s;
    assert_close_share(rate, flux, 0.002);
}

static void goes_to_the_equilibrium_and_never_past_it(void **state) {
    (void)state;
    uint64_t seed = 99;
    for (int i = 0; i < 500; i++) {
        WaitingBed bed = {close_random(&seed, 0.002, 0.05), close_random(&seed, 60, 350)};
        double temp_c = close_random(&seed, -20, 40);
        double humidity = close_random(&seed, 0, 1);
        double moisture = close_random(&seed, 0, 0.4);
        double end = wood_equilibrium_moisture(temp_c, humidity);
        double before = moisture;
        for (double hours = 1; hours < 1e5; hours *= 4) {
            double now = uptake_after(&bed, moisture, temp_c, humidity, hours * 3600);
            assert_true(fabs(now - end) <= fabs(before - end) + 1e-9);
            assert_true((now - end) * (moisture - end) >= 0);
            before = now;
        }
        assert_close(before, end, 2e-3);
    }
    WaitingBed bed = {0.02, 200};
    assert_close(uptake_after(&bed, 0.07, 10, 0.9, 0), 0.07, 0);
    assert_close(uptake_after(&bed, 0.07, 10, 0.9, -5), 0.07, 0);
}

/* With steps of a hundredth of the time constant instead of a quarter. */
static void short_steps_give_the_same(void **state) {
    (void)state;
    WaitingBed bed = {0.013, 200};
    double now = 0.02;
    for (int i = 0; i < 3600; i++) {
        double half = now + 5 * uptake_rate_per_s(&bed, now, 6, 0.9, NULL);
        now += 10 * uptake_rate_per_s(&bed, half, 6, 0.9, NULL);
    }
    assert_close(uptake_after(&bed, 0.02, 6, 0.9, 36000), now, 1e-5);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(humidity_is_the_inverse_of_the_equilibrium),
        cmocka_unit_test(time_constants_as_estimated),
        cmocka_unit_test(rate_is_driven_by_vapour),
        cmocka_unit_test(goes_to_the_equilibrium_and_never_past_it),
        cmocka_unit_test(short_steps_give_the_same),
    };
    const char *against = "uptake: estimate worked apart, limiting cases";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
