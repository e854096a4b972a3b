/* Room and weather: worked figures, and a fine numerical integration beside the exact steps. */
#include "model/air.h"
#include "model/room.h"
#include "model/weather.h"

#include "support/arena_case.h"
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

static const double HOUR = 3600;

/* A steady emission for some hours, in many points or few: the mean does not hang on them. */
static RoomTrace steady_for(Arena *arena, const Room *room, double hours, int points) {
    RoomTrace trace = {0};
    for (int i = 0; i <= points; i++) {
        double emission = i < points ? 5e-7 : 0;
        room_trace_add(arena, room, &trace, i * hours * HOUR / points, emission);
    }
    return trace;
}

/* The largest mean over a window w by integration on paper. While it burns, for T, the air holds
 * S (1 − e^(−nt)), after it S (1 − e^(−nT)) e^(−nx). The mean is largest where the window's two
 * ends hold the same: with a = e^(−nx) at its end, (1 − e^(−nT)) a = 1 − e^(−n(T−w)) a. */
static double closed_form(double steady, double n, double burn_h, double window_h) {
    double end = 1 - exp(-n * burn_h);
    double a = 1 / (end + exp(-n * (burn_h - window_h)));
    double start_h = burn_h - log(a) / n - window_h;
    double burning = burn_h - start_h - (exp(-n * start_h) - exp(-n * burn_h)) / n;
    return steady * (burning + end * (1 - a) / n) / window_h;
}

static void every_window_agrees_with_its_closed_form(void **state) {
    Arena *arena = *state;
    static const double changes[] = {0.3, 2, 12};
    static const double burns_h[] = {3, 8.5};
    size_t count = 0;
    const RoomLimit *limits = room_limits(&count);
    assert_int_equal(count, 5);
    for (size_t i = 0; i < count * 3 * 2 * 2; i++) {
        const RoomLimit *limit = &limits[i % count];
        double n = changes[i / count % 3], burn_h = burns_h[i / count / 3 % 2];
        Room room = room_of(30, n);
        RoomTrace trace = steady_for(arena, &room, burn_h, i / count / 6 ? 1 : 37);
        RoomMean worst = room_worst_mean(&room, &trace, limit->window_s);
        double steady = 5e-7 * 1e6 * HOUR / 30 / n;
        double window_h = limit->window_s / HOUR;
        assert_close_share(worst.mean_mg_m3, closed_form(steady, n, burn_h, window_h), 1e-5);
    }
}

/* Two burns with hours between them: every window by brute force over minutes. */
static void windows_over_two_burns_by_brute_force(void **state) {
    Arena *arena = *state;
    Room shed = room_of(30, 0.8);
    RoomTrace trace = {0};
    static const double times_min[] = {0, 100, 400, 700};
    static const double emissions[] = {5e-7, 0, 4e-7, 0};
    for (int i = 0; i < 4; i++)
        room_trace_add(arena, &shed, &trace, times_min[i] * 60, emissions[i]);
    enum { MINUTES = 2400 };
    RoomAir *minutes = ARENA_ARRAY(arena, MINUTES, RoomAir);
    for (int i = 1; i < MINUTES; i++) {
        bool burns = i <= 100 || (i > 400 && i <= 700);
        minutes[i] = room_after(&shed, minutes[i - 1], burns ? emissions[i > 400 ? 2 : 0] : 0, 60);
        RoomAir air = room_trace_air(&shed, &trace, i * 60);
        assert_close_share(air.dose_mg_h_m3, minutes[i].dose_mg_h_m3, 1e-9);
    }
    RoomTrace empty = {0};
    assert_true(room_trace_air(&shed, &empty, 60).dose_mg_h_m3 == 0);
    assert_true(room_trace_air(&shed, &trace, -60).dose_mg_h_m3 == 0);
    size_t count = 0;
    const RoomLimit *limits = room_limits(&count);
    for (size_t k = 0; k < count; k++) {
        int window = (int)(limits[k].window_s / 60);
        double worst = 0;
        for (int i = 1; i < MINUTES; i++) {
            double before = i > window ? minutes[i - window].dose_mg_h_m3 : 0;
            worst = fmax(worst, (minutes[i].dose_mg_h_m3 - before) * 60 / window);
        }
        double found = room_worst_mean(&shed, &trace, limits[k].window_s).mean_mg_m3;
        assert_close_share(found, worst, 1e-4);
        assert_true(found >= worst * (1 - 1e-9));
    }
    RoomTrace none = {0};
    assert_close(room_worst_mean(&shed, &none, HOUR).mean_mg_m3, 0, 0);
}

/* Each edition's table: WHO Europe 2000 (15 and 30 min, 1 and 8 h), WHO 2010 for indoor air
 * (15 min, 1, 8 and 24 h), WHO 2021 (24 h). The strictest of each window is the one that counts. */
static void the_strictest_limit_of_each_window_counts(void **state) {
    (void)state;
    static const double published[][2] = {
        {0.25, 100}, {0.5, 60}, {1, 30}, {8, 10}, /* 2000 */
        {0.25, 100}, {1, 35},   {8, 10}, {24, 7}, /* 2010 */
        {24, 4},                                  /* 2021 */
    };
    size_t count = 0;
    const RoomLimit *limits = room_limits(&count);
    for (size_t k = 0; k < count; k++) {
        double strictest = INFINITY;
        for (size_t i = 0; i < sizeof published / sizeof *published; i++)
            if (published[i][0] * HOUR == limits[k].window_s)
                strictest = fmin(strictest, published[i][1]);
        assert_close(limits[k].limit_mg_m3, strictest, 0);
        assert_true(k == 0 || limits[k].window_s > limits[k - 1].window_s);
    }
    assert_close(room_least_limit_mg_m3(), 4, 0);
}

static Weather three_readings(Arena *arena) {
    Weather weather = {.place = {0}};
    LIST_ADD(arena, &weather.readings, ((WeatherReading){1000, 8, 0.70, 0, {0}}));
    LIST_ADD(arena, &weather.readings, ((WeatherReading){2000, 4, 0.90, 6, {0}}));
    LIST_ADD(arena, &weather.readings, ((WeatherReading){4000, 2, 1.0, 2, {0}}));
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
    assert_close(weather_at(&weather, 1500).wind_mps, 3, 1e-12);
    arena_free(arena);
}

/* One reading of 6 °C and 78 % at nine in the evening of a day that starts at 0. */
static Weather evening_reading(Arena *arena, bool swings, bool clear) {
    Weather weather = {.swings = swings, .clear = clear, .read_at = 21 * 3600};
    weather.read_clock_s = 21 * 3600;
    LIST_ADD(arena, &weather.readings, ((WeatherReading){0, 6, 0.78, NAN, {0}}));
    return weather;
}

/* Judgement: 4 K from nine to six, 6 K under a clear sky. The vapour is
 * kept (Dalton), until the air is saturated. Nothing jumps, and a day later it is the same. */
static void one_reading_goes_on_as_a_day_does(void **state) {
    (void)state;
    Arena *arena = arena_new();
    for (int clear = 0; clear < 2; clear++) {
        Weather weather = evening_reading(arena, true, clear);
        double coldest_c = clear ? 0 : 2, before_c = 6;
        double vapour_pa = air_vapour_pressure_pa(6, 0.78);
        assert_close(weather_at(&weather, 21 * 3600).temp_c, 6, 1e-12);
        assert_close(weather_at(&weather, 21 * 3600).humidity, 0.78, 1e-12);
        assert_close(weather_at(&weather, 30 * 3600).temp_c, coldest_c, 1e-9);
        assert_close(weather_night_fall_k(&weather), 6 - coldest_c, 1e-12);
        for (int minute = 1; minute <= 24 * 60; minute++) {
            OutsideAir air = weather_at(&weather, 21 * 3600 + minute * 60);
            double now_pa = air_vapour_pressure_pa(air.temp_c, air.humidity);
            assert_true(fabs(air.temp_c - before_c) < 0.035);
            assert_true(air.temp_c > coldest_c - 1e-9);
            assert_close_share(now_pa, fmin(vapour_pa, air_saturation_over_water_pa(air.temp_c)),
                               1e-5);
            before_c = air.temp_c;
        }
        assert_close(before_c, 6, 1e-9);
        assert_true(weather_next_reading(&weather, 5) < 5 + 2 * 3600);
    }
    arena_free(arena);
}

/* Not asked to swing, it holds; and so it does when there are more readings than one. */
static void what_does_not_swing_holds(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Weather held = evening_reading(arena, false, true), forecast = three_readings(arena);
    forecast.swings = forecast.clear = true;
    for (int hour = 0; hour < 48; hour++) {
        assert_close(weather_at(&held, hour * 3600).temp_c, 6, 0);
    }
    assert_close(weather_night_fall_k(&held), 0, 0);
    assert_close(weather_at(&forecast, 9000).temp_c, 2, 1e-12);
    assert_true(isinf(weather_next_reading(&held, 0)));
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(worked_figures),
        cmocka_unit_test(steps_add_up_exactly),
        cmocka_unit_test(agrees_with_a_fine_integration),
        cmocka_unit_test(outdoors_and_unknown_rooms_hold_nothing),
        cmocka_unit_test(a_sealed_room_fills),
        CASE(every_window_agrees_with_its_closed_form),
        CASE(windows_over_two_burns_by_brute_force),
        cmocka_unit_test(the_strictest_limit_of_each_window_counts),
        cmocka_unit_test(weather_runs_straight_between_readings),
        cmocka_unit_test(one_reading_goes_on_as_a_day_does),
        cmocka_unit_test(what_does_not_swing_holds),
    };
    const char *against = "room and weather: worked figures, fine integration";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
