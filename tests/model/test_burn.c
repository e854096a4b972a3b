/* Burn: closed forms, halved steps, a fine integration by another method, both ends. */
#include "model/burn.h"
#include "model/front.h"
#include "model/uptake.h"
#include "model/wood.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

typedef struct Case {
    Arena *arena;
    Smokehouse *house;
    Bed bed;
    CabinetModel cabinet;
    Weather weather;
    BurnSetup setup;
} Case;

static Case *case_new(Arena *arena, double temp_c, double humidity, double moisture) {
    Case *burn = ARENA_NEW(arena, Case);
    burn->arena = arena;
    burn->house = smokehouse_new(arena);
    burn->bed = bed_reference();
    burn->cabinet = cabinet_model(&burn->house->cabinet);
    LIST_ADD(arena, &burn->weather.readings,
             ((WeatherReading){.temp_c = temp_c, .humidity = humidity}));
    burn->setup = (BurnSetup){.bed = &burn->bed,
                              .speed_factor = 1,
                              .length_m = 0.85,
                              .fronts = 1,
                              .moistures = {moisture, moisture},
                              .weather = &burn->weather,
                              .cabinet = &burn->cabinet,
                              .start = (double)SMOKEHOUSE_EVENING,
                              .step_share = 1};
    return burn;
}

static void change_weather(Case *burn) {
    burn->weather = (Weather){.place = {0}};
    for (int hour = -2; hour < 14; hour++) {
        WeatherReading reading = {.at = SMOKEHOUSE_EVENING + hour * 3600 + 1234,
                                  .temp_c = 9 - 0.8 * hour + (hour % 3),
                                  .humidity = 0.7 + 0.02 * hour};
        LIST_ADD(burn->arena, &burn->weather.readings, reading);
    }
}

/* Nothing changes: no cabinet, dust in balance with the air. Length over speed. */
static void constant_air_gives_length_over_speed(void **state) {
    (void)state;
    Arena *arena = arena_new();
    double moisture = wood_equilibrium_moisture(12, 0.65);
    Case *burn = case_new(arena, 12, 0.65, moisture);
    burn->cabinet = cabinet_model(NULL);
    double speed = front_speed_mps(&burn->bed, 1, moisture, 12);
    BurnPath path = burn_path(arena, &burn->setup);
    assert_close_share(path.time_s, burn->setup.length_m / speed, 1e-9);
    assert_close_share(burn_at(&path, path.time_s / 3).along_m[0], burn->setup.length_m / 3, 1e-9);
    assert_close_share(burn_time_at_s(&path, 0.2), 0.2 / speed, 1e-7);
    burn->setup.length_m = 400; /* far beyond any steps */
    path = burn_path(arena, &burn->setup);
    assert_close_share(path.time_s, 400 / speed, 1e-9);
    arena_free(arena);
}

/* The same in a cabinet whose tray air is in balance with the dust: the rise is a fixed point. */
static void steady_cabinet_gives_length_over_speed(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Case *burn = case_new(arena, 12, 0.65, 0.10);
    for (int i = 0; i < 200; i++) {
        BurnPoint point = {.moisture = {burn->setup.moistures[0]}};
        OutsideAir outside;
        CabinetAir air = burn_air(&burn->setup, &point, &outside);
        burn->setup.moistures[0] = wood_equilibrium_moisture(air.temp_c, air.tray_humidity);
    }
    BurnPoint point = {.moisture = {burn->setup.moistures[0]}};
    OutsideAir outside;
    CabinetAir air = burn_air(&burn->setup, &point, &outside);
    BurnPath path = burn_path(arena, &burn->setup);
    assert_close_share(path.time_s, 0.85 / air.speed_mps[0], 1e-9);
    arena_free(arena);
}

static void halving_the_step_moves_the_end_by_less_than_a_second(void **state) {
    (void)state;
    Arena *arena = arena_new();
    static const double moistures[] = {0.01, 0.04, 0.10, 0.20, 0.35};
    for (size_t i = 0; i < sizeof moistures / sizeof *moistures; i++) {
        for (int changing = 0; changing < 2; changing++) {
            Case *burn = case_new(arena, 3, 0.97, moistures[i]);
            if (changing) {
                change_weather(burn);
            }
            BurnPath usual = burn_path(arena, &burn->setup);
            burn->setup.step_share = 0.5;
            BurnPath half = burn_path(arena, &burn->setup);
            burn->setup.step_share = 0.05;
            BurnPath tiny = burn_path(arena, &burn->setup);
            assert_true(half.points.count > usual.points.count);
            assert_close(usual.time_s, half.time_s, 1);
            assert_close(usual.time_s, tiny.time_s, 1);
            double middle_s = usual.time_s * 0.513;
            assert_close(burn_at(&usual, middle_s).along_m[0], burn_at(&tiny, middle_s).along_m[0],
                         1e-5);
        }
    }
    arena_free(arena);
}

/* Euler's method with steps of five seconds, written out anew. */
static void agrees_with_a_fine_euler_integration(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Case *burn = case_new(arena, 3, 0.97, 0.03);
    change_weather(burn);
    WaitingBed waiting = {burn->bed.section.uptake_depth_m, burn->bed.dry_kg_m3};
    double moisture = 0.03, along = 0, now_s = 0, step_s = 5;
    while (along < burn->setup.length_m) {
        OutsideAir outside = weather_at(&burn->weather, burn->setup.start + now_s);
        CabinetFire fire = {&burn->bed, 1, {moisture, moisture}, 1, false};
        CabinetAir air = cabinet_air(&burn->cabinet, outside, &fire);
        moisture += step_s *
                    uptake_rate_per_s(&waiting, moisture, air.temp_c, air.tray_humidity, NULL);
        along += step_s * air.speed_mps[0];
        now_s += step_s;
    }
    BurnPath path = burn_path(arena, &burn->setup);
    assert_close(path.time_s, now_s, 10);
    assert_close(path.points.items[path.points.count - 1].moisture[0], moisture, 1e-4);
    arena_free(arena);
}

/* Alike, they meet in the middle in about half the time; with one bed damper, its front has come
 * less far when they meet: they meet in time, not in length. */
static void fronts_from_both_ends_meet_in_time(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Case *burn = case_new(arena, 8, 0.7, 0.03);
    BurnPath single = burn_path(arena, &burn->setup);
    burn->setup.fronts = 2;
    BurnPath both = burn_path(arena, &burn->setup);
    const BurnPoint *end = &both.points.items[both.points.count - 1];
    assert_close(end->along_m[0], 0.425, 1e-9);
    assert_close(end->along_m[1], 0.425, 1e-9);
    assert_true(both.time_s < single.time_s / 2);
    burn->setup.moistures[1] = 0.15;
    both = burn_path(arena, &burn->setup);
    end = &both.points.items[both.points.count - 1];
    assert_close(end->along_m[0] + end->along_m[1], 0.85, 1e-9);
    assert_true(end->along_m[0] > 1.1 * end->along_m[1]);
    arena_free(arena);
}

static void a_path_does_not_depend_on_what_lies_ahead(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Case *burn = case_new(arena, 4, 0.9, 0.03);
    change_weather(burn);
    BurnPath whole = burn_path(arena, &burn->setup);
    burn->setup.length_m = 0.5;
    BurnPath part = burn_path(arena, &burn->setup);
    assert_close(burn_time_at_s(&whole, 0.5), part.time_s, 0.5);
    arena_free(arena);
}

/* A night that cools all along: half the step moves its end by a few seconds at most, whether the
 * bed lags behind the air or follows it. The seconds are those of the kink where dew begins. */
static void the_step_does_not_matter_as_the_night_cools(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Case *burn = case_new(arena, 6, 0.7, 0.04);
    burn->weather.swings = burn->weather.clear = true;
    burn->weather.read_at = SMOKEHOUSE_EVENING;
    burn->weather.read_clock_s = 21 * 3600;
    double depth_m = burn->bed.section.uptake_depth_m;
    for (double share = 0.1; share < 3; share *= 1.5) {
        burn->bed.section.uptake_depth_m = depth_m * share;
        burn->setup.step_share = 1;
        double whole_s = burn_path(arena, &burn->setup).time_s;
        burn->setup.step_share = 0.5;
        assert_close(burn_path(arena, &burn->setup).time_s, whole_s, 5);
    }
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constant_air_gives_length_over_speed),
        cmocka_unit_test(steady_cabinet_gives_length_over_speed),
        cmocka_unit_test(halving_the_step_moves_the_end_by_less_than_a_second),
        cmocka_unit_test(the_step_does_not_matter_as_the_night_cools),
        cmocka_unit_test(agrees_with_a_fine_euler_integration),
        cmocka_unit_test(fronts_from_both_ends_meet_in_time),
        cmocka_unit_test(a_path_does_not_depend_on_what_lies_ahead),
    };
    const char *against = "burn: length over speed, fine Euler steps, halved steps";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
