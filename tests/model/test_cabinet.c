/* Cabinet: the balances written out again from the outside, and hand arithmetic. */
#include "model/air.h"
#include "model/cabinet.h"
#include "model/fire_constants.h"

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

static void model_by_hand(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    CabinetModel model = cabinet_model(&cabinet);
    double area_m2 = 2 * (0.6 * 0.5 + 0.6 * 1.4 + 0.5 * 1.4);
    assert_close(model.wall_w_per_k, 3.0 * area_m2, 1e-12);
    /* two equal openings in series let through 1/sqrt 2 of one */
    assert_close(model.stack_m3_per_s_sqrtk, 0.6 * 40e-4 / sqrt(2) * sqrt(2 * 9.81 * 1.2), 1e-12);
    cabinet.wall_w_m2k = 1.25;
    cabinet.outlet_m2 = 0;
    model = cabinet_model(&cabinet);
    assert_close(model.wall_w_per_k, 1.25 * area_m2, 1e-12);
    assert_close(model.stack_m3_per_s_sqrtk, 0, 0);
    assert_false(cabinet_model(NULL).stated);
}

/* Heat: what the fire gives is what walls and air take. Water: what goes out is what comes in and
 * what the fire makes. Flow: the stack formula. All from the answer's own figures. */
static void balances_close(void **state) {
    (void)state;
    uint64_t seed = 4711;
    for (int i = 0; i < 1000; i++) {
        Cabinet cabinet = tall_cabinet();
        cabinet.inlet_m2 = close_random(&seed, 0, 100e-4);
        cabinet.outlet_m2 = close_random(&seed, 0, 100e-4);
        cabinet.wall = (CabinetWall)(i % 5);
        CabinetModel model = cabinet_model(&cabinet);
        Bed bed = bed_reference();
        bed.section.air_m *= close_random(&seed, 0.2, 20);
        double moisture = close_random(&seed, 0, 0.3);
        CabinetFire fire = {&bed, close_random(&seed, 0.5, 2), {moisture, moisture}, 1 + i % 2};
        OutsideAir outside = {close_random(&seed, -20, 35), close_random(&seed, 0, 1)};
        CabinetAir air = cabinet_air(&model, outside, &fire);
        double rise_k = air.temp_c - outside.temp_c;
        double lost_w = (model.wall_w_per_k + air.flow_kg_per_s * 1006) * rise_k;
        assert_close_share(lost_w, air.power_w, 1e-7);
        assert_close_share(air.power_w, air.fuel_kg_per_s * 9e6, 1e-12);
        double dry_kg_per_s = air.flow_kg_per_s / (1 + air.water_in);
        assert_close_share(dry_kg_per_s * (air.water_out - air.water_in), air.water_kg_per_s, 1e-9);
        assert_close_share(air.water_kg_per_s, air.fuel_kg_per_s * (0.54 + moisture), 1e-9);
        double stack = model.stack_m3_per_s_sqrtk * sqrt(rise_k / (outside.temp_c + 273.15));
        assert_close_share(air.flow_m3_per_s, stack + model.leak_m3_per_s, 1e-9);
        assert_true(air.humidity >= 0 && air.humidity <= 1);
        assert_true(air.tray_humidity <= air.humidity + 1e-12);
    }
}

/* 100 g dry over 8 h at 9 MJ/kg: 31 W (arithmetic on the heat of smouldering, from memory). */
static void power_of_an_ordinary_burn(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    CabinetModel model = cabinet_model(&cabinet);
    Bed bed = bed_reference();
    CabinetFire fire = {&bed, 1, {0.04, 0.04}, 1};
    double wanted_kg_per_s = 0.1 / (8 * 3600);
    for (int turn = 0; turn < 20; turn++) {
        CabinetAir air = cabinet_air(&model, (OutsideAir){10, 0.7}, &fire);
        fire.pace *= wanted_kg_per_s / air.fuel_kg_per_s;
    }
    assert_close(cabinet_air(&model, (OutsideAir){10, 0.7}, &fire).power_w, 31.25, 0.01);
}

static void warmth_goes_the_right_way(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    Bed bed = bed_reference();
    CabinetFire fire = {&bed, 1, {0.04, 0.04}, 1};
    CabinetModel model = cabinet_model(&cabinet);
    OutsideAir outside = {6, 0.8};
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

static void without_fire_or_cabinet_it_is_the_outside_air(void **state) {
    (void)state;
    Cabinet cabinet = tall_cabinet();
    CabinetModel model = cabinet_model(&cabinet), none = cabinet_model(NULL);
    CabinetFire cold = {.bed = NULL};
    CabinetAir air = cabinet_air(&model, (OutsideAir){6, 0.8}, &cold);
    assert_close(air.temp_c, 6, 1e-8);
    assert_close(air.humidity, 0.8, 1e-6);
    Bed bed = bed_reference();
    CabinetFire fire = {&bed, 1, {0.04, 0.04}, 1};
    air = cabinet_air(&none, (OutsideAir){6, 0.8}, &fire);
    assert_close(air.temp_c, 6, 0);
    assert_close(air.tray_humidity, 0.8, 0);
    assert_true(air.power_w > 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(model_by_hand),
        cmocka_unit_test(balances_close),
        cmocka_unit_test(power_of_an_ordinary_burn),
        cmocka_unit_test(warmth_goes_the_right_way),
        cmocka_unit_test(without_fire_or_cabinet_it_is_the_outside_air),
    };
    const char *against = "cabinet: balances written out apart, by hand";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
