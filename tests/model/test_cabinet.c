/* Cabinet: the balances written out again from the outside, and hand arithmetic; walls by ISO
 * 6946. */
#include "model/air.h"
#include "model/cabinet.h"
#include "model/fire_constants.h"
#include "model/wall.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

static Cabinet tall_cabinet(void) {
    return (Cabinet){.width_m = 0.6,
                     .depth_m = 0.5,
                     .height_m = 1.4,
                     .wall = CABINET_WOOD,
                     .wall_w_m2k = NAN,
                     .inlet_m2 = 40e-4,
                     .outlet_m2 = 40e-4,
                     .rise_m = 1.2};
}

static OutsideAir still(double temp_c, double humidity) {
    return (OutsideAir){.temp_c = temp_c, .humidity = humidity};
}

static CabinetFire fire_of(const Bed *bed, double moisture, int fronts) {
    return (CabinetFire){
        .bed = bed, .speed_factor = 1, .moistures = {moisture, moisture}, .fronts = fronts};
}

/* ISO 6946:2007, table A.2: the outer film at 1, 2, 3, 4, 5, 7 and 10 m/s, to its two decimals. */
static void outer_film_is_that_of_the_standard(void **state) {
    (void)state;
    const double rows[][2] = {{1, 0.08}, {2, 0.06}, {3, 0.05}, {4, 0.04},
                              {5, 0.04}, {7, 0.03}, {10, 0.02}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_close(wall_outside_film_m2k_w(rows[i][0]), rows[i][1], 0.0051);
    }
    /* and in still air close to the 0.13 of an inner face, which never feels a wind */
    assert_close(wall_outside_film_m2k_w(0), WALL_INSIDE_FILM_M2K_W, 0.02);
    assert_close(wall_outside_film_m2k_w(NAN), wall_outside_film_m2k_w(0), 0);
}

/* A worked wall of a public collection of condensation examples: half a brick 110 mm at 0.69,
 * mortar 10 mm at 0.41, polystyrene 30 mm at 0.037, hollow bricks 30 mm at 0.43, plaster 10 mm at
 * 0.57; with films 0.13 and 0.04 the sum is 1.25 m²K/W and U 0.80 W/m²K. */
static void layers_add_up_as_in_a_worked_wall(void **state) {
    (void)state;
    const WallLayer layers[] = {
        {0.11, 0.69}, {0.01, 0.41}, {0.03, 0.037}, {0.03, 0.43}, {0.01, 0.57}};
    double whole = WALL_INSIDE_FILM_M2K_W + wall_layers_m2k_w(layers, 5) +
                   wall_outside_film_m2k_w(4);
    assert_close(whole, 1.25, 0.005);
    assert_close(1 / whole, 0.80, 0.005);
}

/* By hand, at the 4 m/s of building tables: board 20 mm at 0.13, films 0.13 and 0.04: 3.1; a sheet
 * 5.9; 40 mm at 0.04 0.85; half a brick 3.1; 7 mm of board at 0.06 3.5 W/m²K. */
static void usual_walls_by_hand(void **state) {
    (void)state;
    const double u[] = {3.1, 5.9, 0.85, 3.1, 3.5};
    for (int wall = CABINET_WOOD; wall <= CABINET_CARDBOARD; wall++) {
        double whole = wall_m2k_w((CabinetWall)wall) + wall_outside_film_m2k_w(4);
        assert_close(1 / whole, u[wall], 0.06);
    }
}

static void model_by_hand(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    CabinetModel model = cabinet_model(&cabinet);
    double area_m2 = 2 * (0.6 * 0.5 + 0.6 * 1.4 + 0.5 * 1.4);
    double film = 1 / (4 + 0.9 * 5.1);
    assert_close(cabinet_wall_w_per_k(&model, 0), area_m2 / (0.13 + 0.020 / 0.13 + film), 1e-9);
    /* two equal openings in series let through 1/sqrt 2 of one */
    assert_close(model.opening_m2, 0.6 * 40e-4 / sqrt(2), 1e-12);
    assert_close(model.stack_m2_s2, 2 * 9.81 * 1.2, 1e-12);
    cabinet.wall_w_m2k = 1.25;
    cabinet.outlet_m2 = 0;
    model = cabinet_model(&cabinet);
    assert_close(cabinet_wall_w_per_k(&model, 0), 1.25 * area_m2, 1e-9);
    assert_close(cabinet_wall_w_per_k(&model, 8), 1.25 * area_m2, 1e-9);
    assert_close(model.opening_m2, 0, 0);
    assert_false(cabinet_model(NULL).stated);
}

static Cabinet any_cabinet(uint64_t *seed, int number) {
    Cabinet cabinet = tall_cabinet();
    cabinet.inlet_m2 = close_random(seed, 0, 100e-4);
    cabinet.outlet_m2 = close_random(seed, 0, 100e-4);
    cabinet.wall = (CabinetWall)(number % 5);
    cabinet.exposure = (CabinetExposure)(number % 3);
    return cabinet;
}

/* Heat: what the fire gives is what walls and air take. Oxygen: what the fire uses, at Huggett's
 * 13.1 MJ/kg, is what the flow brings less what it takes away. Water: what goes out is what comes
 * in, what the fire makes and what the product gives. Flow: stack and wind. All from the answer's
 * own figures. */
static void balances_close(void **state) {
    (void)state;
    uint64_t seed = 4711;
    for (int i = 0; i < 2000; i++) {
        Cabinet cabinet = any_cabinet(&seed, i);
        CabinetModel model = cabinet_model(&cabinet);
        model.product_kg_per_s = i % 4 ? 0 : close_random(&seed, 0, 1e-5);
        Bed bed = bed_reference();
        bed.section.air_m *= i % 5 ? close_random(&seed, 0.2, 20) : close_random(&seed, 20, 200);
        double moisture = close_random(&seed, 0, 0.3);
        CabinetFire fire = fire_of(&bed, moisture, 1 + i % 2);
        fire.rich = i % 7 == 0;
        OutsideAir outside = {close_random(&seed, -20, 35), close_random(&seed, 0, 1),
                              i % 3 ? 0 : close_random(&seed, 0, 20)};
        CabinetAir air = cabinet_air(&model, outside, &fire);
        double rise_k = air.temp_c - outside.temp_c;
        double walls = cabinet_wall_w_per_k(&model, outside.wind_mps);
        assert_close_share((walls + air.flow_kg_per_s * 1006) * rise_k, air.power_w, 1e-6);
        assert_close_share(air.power_w, air.fuel_kg_per_s * (fire.rich ? 12e6 : 9e6), 1e-12);
        double dry_kg_per_s = air.flow_kg_per_s / (1 + air.water_in);
        double used_mol = air.power_w / 13.1e6 / 0.032;
        assert_close(air.oxygen, 0.2095 - used_mol / (dry_kg_per_s / 0.028965), 2e-4);
        assert_close_share(dry_kg_per_s * (air.water_out - air.water_in),
                           air.water_kg_per_s + air.product_kg_per_s, 1e-9);
        assert_close_share(air.water_kg_per_s, air.fuel_kg_per_s * (0.34 + moisture), 1e-9);
        double blows_mps = 0.673 * outside.wind_mps;
        double head = 2 * 9.81 * 1.2 * rise_k / (outside.temp_c + 273.15) +
                      model.wind_pressure * blows_mps * blows_mps;
        double vents = model.opening_m2 * sqrt(head);
        assert_close_share(air.flow_m3_per_s, vents + model.leak_m3_per_s, 1e-9);
        assert_close(air.vent_mps * cabinet.inlet_m2, vents, 1e-12);
        assert_true(air.humidity >= 0 && air.humidity <= 1);
        assert_true(air.tray_humidity <= air.humidity + 1e-12);
        assert_true(air.oxygen > 0 && air.oxygen <= 0.2095);
    }
}

/* 100 g dry over 8 h at 9 MJ/kg: 31 W (arithmetic on the heat of smouldering, from memory). */
static void power_of_an_ordinary_burn(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    CabinetModel model = cabinet_model(&cabinet);
    Bed bed = bed_reference();
    CabinetFire fire = fire_of(&bed, 0.04, 1);
    double wanted_kg_per_s = 0.1 / (8 * 3600);
    for (int turn = 0; turn < 20; turn++) {
        CabinetAir air = cabinet_air(&model, still(10, 0.7), &fire);
        fire.speed_factor *= wanted_kg_per_s / air.fuel_kg_per_s;
    }
    assert_close(cabinet_air(&model, still(10, 0.7), &fire).power_w, 31.25, 0.01);
}

static void warmth_goes_the_right_way(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    Bed bed = bed_reference();
    CabinetFire fire = fire_of(&bed, 0.04, 1);
    CabinetModel model = cabinet_model(&cabinet);
    OutsideAir outside = still(6, 0.8);
    double plain = cabinet_air(&model, outside, &fire).temp_c;
    fire.fronts = 2;
    assert_true(cabinet_air(&model, outside, &fire).temp_c > plain);
    fire.fronts = 1;
    cabinet.inlet_m2 *= 3;
    cabinet.outlet_m2 *= 3;
    model = cabinet_model(&cabinet);
    assert_true(cabinet_air(&model, outside, &fire).temp_c < plain);
    cabinet.wall = CABINET_INSULATED;
    model = cabinet_model(&cabinet);
    assert_true(cabinet_air(&model, outside, &fire).temp_c > plain);
}

/* A hand-worked oxygen balance: 1 kW of glow and 10 m³/h of air of 20 °C, dry, 1.204 kg/m³. It
 * brings 3.344 g/s of air with 0.774 g/s of oxygen, and 1000/13.1e6 = 0.0763 g/s are used: a
 * tenth, so that 18.9 % are left. */
static void oxygen_by_hand(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    cabinet.inlet_m2 = cabinet.outlet_m2 = 0;
    CabinetModel model = cabinet_model(&cabinet);
    model.leak_m3_per_s = 10.0 / 3600;
    Bed bed = bed_reference();
    CabinetFire fire = fire_of(&bed, 0.04, 1);
    for (int turn = 0; turn < 60; turn++) {
        fire.speed_factor *= 1000 / cabinet_air(&model, still(20, 0), &fire).power_w;
    }
    assert_close(cabinet_air(&model, still(20, 0), &fire).oxygen, 0.1889, 2e-4);
}

/* From fresh air to none the glow's heat falls without a jump, always on, never past its air. */
static void less_air_is_less_fire(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    cabinet.inlet_m2 = cabinet.outlet_m2 = 0;
    CabinetModel model = cabinet_model(&cabinet);
    Bed bed = bed_reference();
    bed.section.air_m *= 40;
    CabinetFire fire = fire_of(&bed, 0.04, 1);
    double before = 1, power_w = INFINITY;
    for (double leak = 1; leak > 1e-7; leak *= 0.98) {
        model.leak_m3_per_s = leak;
        CabinetAir air = cabinet_air(&model, still(6, 0.8), &fire);
        assert_true(air.oxygen_factor < before && air.oxygen_factor > before - 0.02);
        assert_true(air.power_w > 0);
        assert_true(air.power_w < leak * 1.3 * 0.2315 * 13.1e6);
        before = air.oxygen_factor;
        power_w = air.power_w;
    }
    assert_true(before < 0.01 && power_w < 1);
    model.leak_m3_per_s = 1e3;
    assert_close(cabinet_air(&model, still(6, 0.8), &fire).oxygen_factor, 1, 1e-4);
}

/* Wind: none is none; more of it is more air, a cooler cabinet, more oxygen; without a jump. */
static void wind_drives_air_through(void **state) {
    (void)state;
    Bed bed = bed_reference();
    CabinetFire fire = fire_of(&bed, 0.04, 1);
    for (int exposure = EXPOSURE_SHELTERED; exposure <= EXPOSURE_OPEN; exposure++) {
        Cabinet cabinet = tall_cabinet();
        cabinet.exposure = (CabinetExposure)exposure;
        cabinet.wall_w_m2k = 2.5; /* so that no wall is cooled by the wind, and with it the stack */
        CabinetModel model = cabinet_model(&cabinet);
        CabinetAir before = cabinet_air(&model, still(6, 0.8), &fire);
        for (double wind = 0.01; wind < 20; wind += 0.01) {
            OutsideAir outside = {6, 0.8, wind};
            CabinetAir air = cabinet_air(&model, outside, &fire);
            assert_true(air.flow_m3_per_s > before.flow_m3_per_s);
            assert_true(air.temp_c < before.temp_c && air.temp_c > before.temp_c - 0.02);
            assert_true(air.oxygen > before.oxygen);
            assert_true(air.vent_mps < before.vent_mps + 0.005);
            before = air;
        }
    }
}

/* 5 m/s at 10 m in the open are 3.37 m/s at the vent: 0.5 × 1.2 × 0.9 × 3.37² = 6.1 Pa, and two
 * openings of 40 cm² in series let 0.6 × 28.3 cm² × sqrt(2 × 6.1/1.2) = 5.4 l/s through. */
static void wind_by_hand(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    cabinet.exposure = EXPOSURE_OPEN;
    CabinetModel model = cabinet_model(&cabinet);
    CabinetFire cold = {.bed = NULL};
    OutsideAir outside = {6, 0.8, 5};
    CabinetAir air = cabinet_air(&model, outside, &cold);
    assert_close(air.flow_m3_per_s - model.leak_m3_per_s, 5.4e-3, 0.05e-3);
}

/* A product gives its usual loss to air of 75 %, less to damper air, none to what is saturated, and
 * never saturates it. */
static void product_waters_the_air(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    CabinetModel model = cabinet_model(&cabinet);
    model.leak_m3_per_s = 100;
    model.product_kg_per_s = 1e-6;
    CabinetFire cold = {.bed = NULL};
    assert_close_share(cabinet_air(&model, still(10, 0.75), &cold).product_kg_per_s, 1e-6, 0.01);
    assert_close(cabinet_air(&model, still(10, 1), &cold).product_kg_per_s, 0, 1e-15);
    model.leak_m3_per_s = 1e-4;
    double before = 0;
    for (double loss = 0; loss < 1; loss = loss * 2 + 1e-9) {
        model.product_kg_per_s = loss;
        CabinetAir air = cabinet_air(&model, still(10, 0.6), &cold);
        assert_true(air.wetness > before && air.wetness < 1);
        before = air.wetness;
    }
}

static void without_fire_or_cabinet_it_is_the_outside_air(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    CabinetModel model = cabinet_model(&cabinet), none = cabinet_model(NULL);
    CabinetFire cold = {.bed = NULL};
    CabinetAir air = cabinet_air(&model, still(6, 0.8), &cold);
    assert_close(air.temp_c, 6, 1e-8);
    assert_close(air.humidity, 0.8, 1e-6);
    Bed bed = bed_reference();
    CabinetFire fire = fire_of(&bed, 0.04, 1);
    air = cabinet_air(&none, still(6, 0.8), &fire);
    assert_close(air.temp_c, 6, 0);
    assert_close(air.tray_humidity, 0.8, 0);
    assert_true(air.power_w > 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(outer_film_is_that_of_the_standard),
        cmocka_unit_test(layers_add_up_as_in_a_worked_wall),
        cmocka_unit_test(usual_walls_by_hand),
        cmocka_unit_test(model_by_hand),
        cmocka_unit_test(balances_close),
        cmocka_unit_test(power_of_an_ordinary_burn),
        cmocka_unit_test(warmth_goes_the_right_way),
        cmocka_unit_test(oxygen_by_hand),
        cmocka_unit_test(less_air_is_less_fire),
        cmocka_unit_test(wind_drives_air_through),
        cmocka_unit_test(wind_by_hand),
        cmocka_unit_test(product_waters_the_air),
        cmocka_unit_test(without_fire_or_cabinet_it_is_the_outside_air),
    };
    const char *against = "cabinet: balances written out apart, by hand, ISO 6946";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
