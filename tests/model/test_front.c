/* Front and margin: against arithmetic done apart and the published tables and ranges. */
#include "model/fire_constants.h"
#include "model/front.h"
#include "model/margin.h"

#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

/* By hand: 1.5 (500 − 10) + 0.04 [4.19 (100 − 10) + 2257 + 2.0 (500 − 100)] kJ/kg. */
static void heat_needed_by_hand(void **state) {
    (void)state;
    assert_close(front_heat_needed_j_per_kg(0.04, 10), 735000 + 0.04 * 3434100, 1e-6);
    assert_close(front_heat_needed_j_per_kg(0, 20), 720000, 1e-6);
    assert_close(front_heat_needed_j_per_kg(-1, 20), 720000, 1e-6);
    assert_true(front_heat_needed_j_per_kg(0.1, 400) > 0);
}

/* Relative speed v(M)/v(10 %) from the published form of the balance, 20 °C, c = 1.6 kJ/kg K,
 * peaks of 300 and 600 °C (arithmetic on it, by moisture 0, 5, 15, 20, 30 %): with its own 500 °C
 * and 1.5 kJ/kg K the model has to lie between the two. */
static void moisture_slows_as_much_as_the_balance_says(void **state) {
    (void)state;
    static const struct {
        double moisture, cool, hot;
    } rows[] = {{0, 1.668, 1.387},
                {0.05, 1.250, 1.162},
                {0.15, 0.833, 0.878},
                {0.20, 0.714, 0.782},
                {0.30, 0.555, 0.642}};
    Bed bed = bed_reference();
    double at_ten = front_speed_mps(&bed, 1, 0.10, 20);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double relative = front_speed_mps(&bed, 1, rows[i].moisture, 20) / at_ten;
        assert_true(relative > fmin(rows[i].cool, rows[i].hot));
        assert_true(relative < fmax(rows[i].cool, rows[i].hot));
    }
}

static void reference_burn_is_the_reference(void **state) {
    (void)state;
    Bed bed = bed_reference();
    assert_close(front_speed_mps(&bed, 1, 0.04, 10) * 3600, 0.100, 1e-15);
    assert_close(front_speed_mps(&bed, 1.5, 0.04, 10) * 3600, 0.150, 1e-15);
    assert_close(bed.section.air_m / bed.section.area_m2, 125, 1e-9);
    HoldFactors factors = margin_factors(&bed);
    assert_close(factors.air, 1, 1e-5);
    assert_close(factors.keep, 1, 1e-5);
    assert_close(factors.metal_j_per_kg, 0, 0);
    assert_close(margin_hold(&factors, 0.04, 10), 1.62e6 / (735000 + 0.04 * 3434100), 1e-4);
}

/* The published 50 to 250 mm/h for smoulder in still air (pine flour 50–65, Kim, Kim & Rie 2017;
 * incense stick 250) has to hold beds of 150–250 kg/m³, 4–12 %. */
static void speeds_lie_in_the_published_range(void **state) {
    (void)state;
    Bed bed = bed_reference();
    for (bed.dry_kg_m3 = 150; bed.dry_kg_m3 <= 250; bed.dry_kg_m3 += 50) {
        for (double moisture = 0.04; moisture <= 0.12; moisture += 0.04) {
            double mm_per_h = front_speed_mps(&bed, 1, moisture, 10) * 3.6e6;
            assert_true(mm_per_h > 50 && mm_per_h < 250);
        }
    }
}

static void mass_burnt_does_not_depend_on_packing(void **state) {
    (void)state;
    Bed loose = bed_reference(), tight = loose;
    tight.dry_kg_m3 *= 1.3;
    assert_close(tight.dry_kg_m3 * front_speed_mps(&tight, 1, 0.05, 5),
                 loose.dry_kg_m3 * front_speed_mps(&loose, 1, 0.05, 5), 1e-12);
}

/* The grain figures of 500–750 µm, spread evenly over the logarithm, by numerical integration. */
static void reference_grain_by_integration(void **state) {
    (void)state;
    double inverse = 0;
    int steps = 100000;
    for (int i = 0; i < steps; i++) {
        inverse += 1 / (0.5e-3 * pow(1.5, (i + 0.5) / steps)) / steps;
    }
    assert_close(FIRE_REFERENCE_SAUTER_M, 1 / inverse, 1e-9);
    assert_close(FIRE_REFERENCE_D50_M, 0.5e-3 * sqrt(1.5), 1e-9);
}

/* Kozeny–Carman by hand: half the Sauter mean is a quarter of the permeability. */
static void fines_choke_by_permeability(void **state) {
    (void)state;
    Bed bed = bed_reference();
    bed.fuel.sauter_m /= 2;
    assert_close(margin_factors(&bed).air, pow(0.25, 0.3), 1e-5);
    bed.fuel.sauter_m *= 4;
    assert_close(margin_factors(&bed).air, 1, 0);
    bed = bed_reference();
    bed.dry_kg_m3 *= 1.2; /* porosity 0.52 for 0.60 */
    double relative = (pow(0.52, 3) / pow(0.48, 2)) / (pow(0.60, 3) / pow(0.40, 2));
    assert_close(margin_factors(&bed).air, pow(relative, 0.3), 1e-5);
}

static void coarse_grain_by_hand(void **state) {
    (void)state;
    Bed bed = bed_reference();
    bed.fuel.d50_m = 2.8e-3;
    assert_close(margin_factors(&bed).keep, 0.5 * (1 + pow(0.612372 / 2.8, 2)), 1e-6);
    bed.fuel.d50_m = 0.1e-3;
    assert_close(margin_factors(&bed).keep, 1, 0);
}

/* 1 kg of metal to 1 kg of dust, all of whose outline but a quarter touches it. */
static void metal_by_hand(void **state) {
    (void)state;
    Bed bed = bed_reference();
    bed.section.metal_kg_per_m = bed.dry_kg_per_m;
    HoldFactors factors = margin_factors(&bed);
    assert_close(factors.metal_j_per_kg, 490 * FIRE_METAL_RISE_K * 0.75, 1e-6);
}

static void the_cause_is_what_costs_most(void **state) {
    (void)state;
    HoldFactors clean = {1, 1, 1, 0};
    assert_int_equal(margin_cause(&clean, 0.04, 0.04, 10, 1), CAUSE_NONE);
    assert_int_equal(margin_cause(&clean, 0.04, 0.05, 10, 0.8), CAUSE_OXYGEN);
    assert_int_equal(margin_cause(&clean, 0.12, 0.12, 10, 1), CAUSE_DAMP_DUST);
    assert_int_equal(margin_cause(&clean, 0.05, 0.12, 10, 1), CAUSE_DAMP_AIR);
    assert_int_equal(margin_cause(&clean, 0.12, 0.05, 10, 1), CAUSE_DAMP_DUST);
    HoldFactors fines = {0.95, 0.7, 1, 1000};
    assert_int_equal(margin_cause(&fines, 0.04, 0.05, 10, 1), CAUSE_FINES);
    HoldFactors coarse = {0.95, 0.9, 0.6, 1000};
    assert_int_equal(margin_cause(&coarse, 0.04, 0.05, 10, 1), CAUSE_COARSE);
    HoldFactors sulky = {0.6, 0.9, 0.9, 1000};
    assert_int_equal(margin_cause(&sulky, 0.04, 0.05, 10, 1), CAUSE_SULKY);
    HoldFactors metal = {0.9, 0.9, 1, 900000};
    assert_int_equal(margin_cause(&metal, 0.04, 0.05, 10, 1), CAUSE_METAL);
}

static void densest_bed_is_held(void **state) {
    (void)state;
    Bed bed = bed_reference();
    Tray tray = {.channel_width_m = 0.02, .channel_depth_m = 0.02, .bottom_width_m = 0.02};
    Fill fill = {.tray = &tray, .level = 1, .packing = PACKING_TAMPED};
    bed.fuel.bulk_dry_kg_m3 = 0.88 * bed.fuel.particle_kg_m3;
    Bed packed = bed_of(&bed.fuel, &tray, &fill);
    assert_close(packed.dry_kg_m3, 0.9 * bed.fuel.particle_kg_m3, 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(heat_needed_by_hand),
        cmocka_unit_test(moisture_slows_as_much_as_the_balance_says),
        cmocka_unit_test(reference_burn_is_the_reference),
        cmocka_unit_test(speeds_lie_in_the_published_range),
        cmocka_unit_test(mass_burnt_does_not_depend_on_packing),
        cmocka_unit_test(reference_grain_by_integration),
        cmocka_unit_test(fines_choke_by_permeability),
        cmocka_unit_test(coarse_grain_by_hand),
        cmocka_unit_test(metal_by_hand),
        cmocka_unit_test(the_cause_is_what_costs_most),
        cmocka_unit_test(densest_bed_is_held),
    };
    const char *against = "front and margin: published speeds, arithmetic done apart";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
