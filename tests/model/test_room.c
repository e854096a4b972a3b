/* Room and weather: worked figures, and a fine numerical integration beside the exact steps. */
#include "model/room.h"
#include "model/weather.h"

#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

static Room room_of(double volume_m3, double changes) {
    return (Room){.stated = true, .volume_m3 = volume_m3, .air_changes_per_h = changes};
}

/* Worked figures: 100 g dry at 160 g/kg over 8 h is 2 g/h. 30 m³ at 0.5 a hour gives 133 mg/m³
 * (116 ppm) steady and 131 after 8 h; at 5 a hour 13; 20 m³ at 1 a hour 100 mg/m³. */
static void worked_figures(void **state) {
    (void)state;
    double emission = 0.1 * 0.160 / (8 * 3600);
    Room shed = room_of(30, 0.5), aired = room_of(30, 5), small = room_of(20, 1);
    RoomAir none = {0};
    assert_close(room_after(&shed, none, emission, 8 * 3600).co_mg_m3, 131, 0.5);
    assert_close(room_after(&shed, none, emission, 100 * 3600).co_mg_m3, 133.3, 0.1);
    assert_close(room_ppm(133.3), 116, 0.5);
    assert_close(room_after(&aired, none, emission, 8 * 3600).co_mg_m3, 13.3, 0.05);
    assert_close(room_after(&small, none, emission, 99 * 3600).co_mg_m3, 100, 0.1);
    /* 1 ppm is 1.145 mg/m³ at 25 °C */
    assert_close(1 / room_ppm(1), 1.145, 0.0005);
}

static void steps_add_up_exactly(void **state) {
    (void)state;
    Room shed = room_of(30, 0.7);
    RoomAir air = {12, 3}, stepped = air;
    RoomAir once = room_after(&shed, air, 6e-7, 7200);
    for (int i = 0; i < 720; i++) {
        stepped = room_after(&shed, stepped, 6e-7, 10);
    }
    assert_close_share(stepped.co_mg_m3, once.co_mg_m3, 1e-10);
    assert_close_share(stepped.dose_mg_h_m3, once.dose_mg_h_m3, 1e-10);
}

/* Euler's method with steps of a second. */
static void agrees_with_a_fine_integration(void **state) {
    (void)state;
    Room shed = room_of(25, 1.3);
    shed.ducted_share = 0.4;
    double co = 0, dose = 0;
    for (int i = 0; i < 5 * 3600; i++) {
        dose += co / 3600;
        co += (5e-7 * 0.6 * 1e6 * 3600 / 25 - 1.3 * co) / 3600;
    }
    RoomAir air = room_after(&shed, (RoomAir){0}, 5e-7, 5 * 3600);
    assert_close_share(air.co_mg_m3, co, 1e-3);
    assert_close_share(air.dose_mg_h_m3, dose, 1e-3);
}

static void outdoors_and_unknown_rooms_hold_nothing(void **state) {
    (void)state;
    Room yard = {.stated = true, .outdoors = true, .volume_m3 = NAN, .air_changes_per_h = NAN};
    Room unknown = {.stated = false};
    assert_close(room_after(&yard, (RoomAir){0}, 1e-6, 3600).co_mg_m3, 0, 0);
    assert_close(room_after(&unknown, (RoomAir){0}, 1e-6, 3600).co_mg_m3, 0, 0);
}

/* Without air changes the gas piles up: E t/V. */
static void a_sealed_room_fills(void **state) {
    (void)state;
    Room sealed = room_of(40, 0);
    assert_close_share(room_after(&sealed, (RoomAir){0}, 1e-6, 36000).co_mg_m3,
                       1e-6 * 36000 * 1e6 / 40, 1e-4);
}

/* A steady emission for 3 h and airing: the window that begins with the fire, or a later one,
 * by brute force over minutes. */
static void worst_eight_hours_by_brute_force(void **state) {
    (void)state;
    Room shed = room_of(30, 0.8);
    double times_s[19];
    RoomAir airs[19] = {{0, 0}};
    times_s[0] = 0;
    for (int i = 1; i < 19; i++) {
        times_s[i] = i * 600;
        airs[i] = room_after(&shed, airs[i - 1], 5e-7, 600);
    }
    double worst = 0;
    RoomAir minutes[1400] = {{0, 0}};
    for (int i = 1; i < 1400; i++) {
        minutes[i] = room_after(&shed, minutes[i - 1], i <= 180 ? 5e-7 : 0, 60);
        double before = i > 480 ? minutes[i - 480].dose_mg_h_m3 : 0;
        worst = fmax(worst, (minutes[i].dose_mg_h_m3 - before) / 8);
    }
    assert_close_share(room_worst_8h_mg_m3(&shed, times_s, airs, 19), worst, 0.002);
    assert_close(room_worst_8h_mg_m3(&shed, times_s, airs, 1), 0, 1e-12);
}

static Weather three_readings(Arena *arena) {
    Weather weather = {.place = {0}};
    LIST_ADD(arena, &weather.readings, ((WeatherReading){1000, 8, 0.70, {0}}));
    LIST_ADD(arena, &weather.readings, ((WeatherReading){2000, 4, 0.90, {0}}));
    LIST_ADD(arena, &weather.readings, ((WeatherReading){4000, 2, 1.0, {0}}));
    return weather;
}

static void weather_runs_straight_between_readings(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Weather weather = three_readings(arena), none = {.place = {0}};
    static const double rows[][3] = {{0, 8, 0.7},     {1000, 8, 0.7}, {1500, 6, 0.8},
                                     {3000, 3, 0.95}, {4000, 2, 1},   {9000, 2, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        OutsideAir air = weather_at(&weather, rows[i][0]);
        assert_close(air.temp_c, rows[i][1], 1e-12);
        assert_close(air.humidity, rows[i][2], 1e-12);
    }
    assert_close(weather_next_reading(&weather, 0), 1000, 0);
    assert_close(weather_next_reading(&weather, 1000), 2000, 0);
    assert_true(isinf(weather_next_reading(&weather, 4000)));
    assert_close(weather_at(&none, 0).temp_c, 10, 0);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(worked_figures),
        cmocka_unit_test(steps_add_up_exactly),
        cmocka_unit_test(agrees_with_a_fine_integration),
        cmocka_unit_test(outdoors_and_unknown_rooms_hold_nothing),
        cmocka_unit_test(a_sealed_room_fills),
        cmocka_unit_test(worst_eight_hours_by_brute_force),
        cmocka_unit_test(weather_runs_straight_between_readings),
    };
    const char *against = "room and weather: worked figures, fine integration";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
