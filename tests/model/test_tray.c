/* Tray: lengths and sections against school geometry and sums of short chords. */
#include "model/tray.h"

#include "support/close.h"
#include "support/smokehouse.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

static const double PI = 3.14159265358979323846;

static Tray spiral_tray(void) {
    return (Tray){.path = PATH_SPIRAL,
                  .turns = 3.5,
                  .pitch_m = 0.024,
                  .outer_m = 0.220,
                  .channel_width_m = 0.020,
                  .channel_depth_m = 0.015,
                  .bottom_width_m = 0.020,
                  .wall = WALL_MESH,
                  .metal_kg_m2 = 1};
}

static Fill fill_in(const Tray *tray) {
    return (Fill){.tray = tray, .level = 1, .heap_angle_rad = NAN, .repeat = 1};
}

static void lanes_and_straight_are_as_long_as_they_are_drawn(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    assert_close(tray_channel_m(&house->fold), 5 * 0.150 + 4 * 0.024, 1e-15);
    Tray straight = {.path = PATH_STRAIGHT, .lane_length_m = 0.3};
    assert_close(tray_channel_m(&straight), 0.3, 0);
    assert_int_equal(tray_lane_count(&house->fold), 5);
    assert_int_equal(tray_lane_count(&straight), 1);
    arena_free(arena);
}

/* By chords of a millionth of a turn's count; and a whole number of turns to the centre has the
 * textbook length pitch/(4 pi) [x sqrt(1 + x²) + asinh x], x = 2 pi turns. */
static void spiral_length_is_that_of_many_chords(void **state) {
    (void)state;
    Tray tray = spiral_tray();
    double length = 0;
    int chords = 200000;
    for (int i = 0; i < chords; i++) {
        double ends[2][2];
        for (int end = 0; end < 2; end++) {
            double turned = 2 * PI * tray.turns * (i + end) / chords;
            double radius = tray.outer_m / 2 - tray.pitch_m * turned / (2 * PI);
            ends[end][0] = radius * cos(turned);
            ends[end][1] = radius * sin(turned);
        }
        length += hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]);
    }
    assert_close_share(tray_channel_m(&tray), length, 1e-9);
    tray.turns = 4;
    tray.outer_m = 2 * 4 * tray.pitch_m;
    double x = 2 * PI * 4;
    assert_close(tray_channel_m(&tray), tray.pitch_m / (4 * PI) * (x * sqrt(1 + x * x) + asinh(x)),
                 1e-12);
    tray.turns = 9; /* more than there is room for: to the centre */
    assert_close(tray_channel_m(&tray), tray.pitch_m / (4 * PI) * (x * sqrt(1 + x * x) + asinh(x)),
                 1e-12);
}

static void sections_by_hand(void **state) {
    (void)state;
    Tray tray = {.channel_width_m = 0.030,
                 .channel_depth_m = 0.020,
                 .bottom_width_m = 0.014,
                 .wall = WALL_PLATE,
                 .metal_kg_m2 = 10};
    Fill fill = fill_in(&tray);
    Section level = tray_section(&tray, &fill);
    double slope = sqrt(0.020 * 0.020 + 0.008 * 0.008);
    assert_close(level.area_m2, 0.5 * (0.030 + 0.014) * 0.020, 1e-15);
    assert_close(level.top_m, 0.030, 1e-15);
    assert_close(level.wall_m, 0.014 + 2 * slope, 1e-15);
    assert_close(level.air_m, 0.030, 1e-15);
    assert_close(level.metal_kg_per_m, 10 * (0.014 + 2 * slope), 1e-15);
    assert_close(level.uptake_depth_m, 0.020, 1e-15);
    fill.level = 0.5;
    Section half = tray_section(&tray, &fill);
    assert_close(half.area_m2, 0.5 * (0.022 + 0.014) * 0.010, 1e-15);
    assert_close(half.wall_m, 0.014 + slope, 1e-15);
    assert_close(half.depth_m, 0.010, 1e-15);
    tray.wall = WALL_MESH;
    Section mesh = tray_section(&tray, &fill);
    assert_close(mesh.air_m, 0.022 + 0.5 * (0.014 + slope), 1e-15);
    assert_close(mesh.uptake_depth_m, 0.010 / 1.5, 1e-15);
}

/* A heap at 45 degrees is half as high as wide, holds a quarter of the width squared, and its
 * flanks are sqrt 2 times the width. */
static void heaps_by_hand(void **state) {
    (void)state;
    Tray tray = {.channel_width_m = 0.030, .channel_depth_m = 0.020, .bottom_width_m = 0.030};
    Fill fill = fill_in(&tray);
    fill.heaped = true;
    fill.heap_angle_rad = PI / 4;
    Section heap = tray_section(&tray, &fill);
    assert_close(heap.area_m2, 0.030 * 0.020 + 0.25 * 0.030 * 0.030, 1e-15);
    assert_close(heap.depth_m, 0.020 + 0.015, 1e-15);
    assert_close(heap.top_m, 0.030 * sqrt(2), 1e-15);
    assert_close(heap.wall_m, 0.070, 1e-15);
    fill.heap_angle_rad = NAN;
    assert_close(tray_section(&tray, &fill).depth_m, 0.020 + 0.015 * tan(40 * PI / 180), 1e-12);
    fill.heap_angle_rad = 3; /* kept within what dust can do */
    assert_close(tray_section(&tray, &fill).depth_m, 0.020 + 0.015 * tan(PI / 3), 1e-5);
}

/* Solid fractions 0.30, 0.40, 0.48: Briggs's 0.40 for sawdust, the others a judgement. */
static void packing(void **state) {
    (void)state;
    assert_close(tray_packing_factor(PACKING_SPRINKLED), 0.75, 1e-15);
    assert_close(tray_packing_factor(PACKING_LEVELLED), 1, 0);
    assert_close(tray_packing_factor(PACKING_TAMPED), 1.2, 1e-15);
}

static void lanes_are_counted_from_the_lit_end(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    double in_lane;
    assert_int_equal(tray_lane_at(&house->fold, 0, &in_lane), 1);
    assert_close(in_lane, 0, 0);
    assert_int_equal(tray_lane_at(&house->fold, 0.160, &in_lane), 1);
    assert_close(in_lane, 1, 0);
    assert_int_equal(tray_lane_at(&house->fold, 3 * 0.174 + 0.075, &in_lane), 4);
    assert_close(in_lane, 0.5, 1e-12);
    assert_int_equal(tray_lane_at(&house->fold, 99, &in_lane), 5);
    assert_close(in_lane, 1, 0);
    Tray spiral = spiral_tray();
    assert_int_equal(tray_lane_count(&spiral), 4);
    assert_int_equal(tray_lane_at(&spiral, 0, NULL), 1);
    assert_int_equal(tray_lane_at(&spiral, tray_channel_m(&spiral), &in_lane), 4);
    assert_close(in_lane, 0.5, 1e-9);
    arena_free(arena);
}

/* Steps along the channel are as long on the map as along it, stay on the map, and head where
 * they go. */
static void walk(const Tray *tray) {
    double width, height, heading;
    double channel = tray_channel_m(tray);
    double step = channel / 5000;
    tray_map_size(tray, &width, &height);
    MapPoint before = tray_point(tray, 0, &heading);
    double edge = tray->channel_width_m / 2;
    for (double along = step; along <= channel; along += step) {
        MapPoint here = tray_point(tray, along, NULL);
        double apart = hypot(here.x_m - before.x_m, here.y_m - before.y_m);
        assert_true(apart < step * (1 + 1e-9) && apart > step * 0.70);
        double dot = (here.x_m - before.x_m) * cos(heading) +
                     (here.y_m - before.y_m) * sin(heading);
        bool round_a_corner = apart < 0.999 * step;
        assert_true(dot > 0.999 * apart || round_a_corner);
        assert_true(here.x_m > edge - 1e-9 && here.x_m < width - edge + 1e-9);
        assert_true(here.y_m > edge - 1e-9 && here.y_m < height - edge + 1e-9);
        before = tray_point(tray, along, &heading);
    }
}

static void the_map_is_true_to_scale(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Tray spiral = spiral_tray();
    Tray straight = {.path = PATH_STRAIGHT, .lane_length_m = 0.3, .channel_width_m = 0.02};
    walk(&house->fold);
    walk(&spiral);
    walk(&straight);
    double width, height;
    tray_map_size(&house->fold, &width, &height);
    assert_close(width, 0.170, 1e-15);
    assert_close(height, 4 * 0.024 + 0.020, 1e-15);
    arena_free(arena);
}

static double line_length(const MapPoints *line) {
    double length = 0;
    for (size_t i = 1; i < line->count; i++) {
        length += hypot(line->items[i].x_m - line->items[i - 1].x_m,
                        line->items[i].y_m - line->items[i - 1].y_m);
        assert_true(line->items[i].along_m >= line->items[i - 1].along_m);
    }
    return length;
}

static void lines_are_as_long_as_their_stretch(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    MapPoints whole = tray_line(arena, &house->fold, 0, 9);
    assert_close(line_length(&whole), tray_channel_m(&house->fold), 1e-12);
    MapPoints part = tray_line(arena, &house->fold, 0.1, 0.4);
    assert_close(line_length(&part), 0.3, 1e-12);
    Tray spiral = spiral_tray();
    MapPoints coil = tray_line(arena, &spiral, 0.2, 1.0);
    assert_close_share(line_length(&coil), 0.8, 0.002);
    assert_close(coil.items[coil.count - 1].along_m, 1.0, 1e-12);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lanes_and_straight_are_as_long_as_they_are_drawn),
        cmocka_unit_test(spiral_length_is_that_of_many_chords),
        cmocka_unit_test(sections_by_hand),
        cmocka_unit_test(heaps_by_hand),
        cmocka_unit_test(packing),
        cmocka_unit_test(lanes_are_counted_from_the_lit_end),
        cmocka_unit_test(the_map_is_true_to_scale),
        cmocka_unit_test(lines_are_as_long_as_their_stretch),
    };
    const char *against = "tray: school geometry, sums of chords";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
