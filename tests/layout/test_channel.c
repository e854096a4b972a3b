/* Stretches of a channel, against lengths, directions and areas worked out by hand. */
#include "layout/channel.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

/* An L: 0.3 m to the right, then 0.4 m down. */
static MapPoints corner_line(Arena *arena) {
    MapPoints line = {0};
    LIST_ADD(arena, &line, (MapPoint){0.1, 0.1, 0});
    LIST_ADD(arena, &line, (MapPoint){0.4, 0.1, 0.3});
    LIST_ADD(arena, &line, (MapPoint){0.4, 0.5, 0.7});
    return line;
}

static const ChannelView VIEW = {10, 20, 100, 100};

static void assert_near(double found, double wanted) {
    assert_true(fabs(found - wanted) < 1e-9);
}

static void places_lie_along_the_line(void **state) {
    MapPoints line = corner_line(*state);
    MapPoint half = channel_at(&line, 0.35);
    assert_near(half.x_m, 0.4);
    assert_near(half.y_m, 0.15);
    assert_near(channel_at(&line, -1).x_m, 0.1);
    assert_near(channel_at(&line, 9).y_m, 0.5);
    assert_near(channel_point(VIEW, half).x_mm, 50);
    assert_near(channel_point(VIEW, half).y_mm, 35);
}

static void headings_turn_clockwise_from_the_right(void **state) {
    MapPoints line = corner_line(*state);
    assert_near(channel_heading(&line, 0.1), 0);
    assert_near(channel_heading(&line, 0.5), acos(0)); /* down the page: a quarter turn */
}

static double length_mm(const ChannelPoints *points) {
    double sum_mm = 0;
    for (size_t i = 1; i < points->count; i++)
        sum_mm += hypot(points->items[i].x_mm - points->items[i - 1].x_mm,
                        points->items[i].y_mm - points->items[i - 1].y_mm);
    return sum_mm;
}

static void stretches_have_the_length_asked_for(void **state) {
    MapPoints line = corner_line(*state);
    ChannelPoints part = channel_part(*state, &line, 0.2, 0.6, VIEW);
    assert_int_equal(part.count, 3);
    assert_near(length_mm(&part), 40);
    ChannelPoints whole = channel_part(*state, &line, 0, INFINITY, VIEW);
    assert_near(length_mm(&whole), 70);
    assert_int_equal(channel_part(*state, &line, 0.5, 0.5, VIEW).count, 0);
    assert_int_equal(channel_part(*state, &line, 0.5, NAN, VIEW).count, 0);
}

/* A view twice as wide as it is high: a lane is twice as long, the way down is not. */
static void a_stretched_view_lengthens_lanes_alone(void **state) {
    const ChannelView wide = {0, 0, 200, 100};
    MapPoints line = corner_line(*state);
    assert_near(channel_point(wide, line.items[1]).x_mm, 80);
    ChannelPoints whole = channel_part(*state, &line, 0, INFINITY, wide);
    assert_near(length_mm(&whole), 60 + 40);
}

/* 10 mm of paper back and on, within a lane, round the corner, and over the ends. */
static void millimetres_of_paper_are_counted_along_the_channel(void **state) {
    const ChannelView wide = {0, 0, 200, 100};
    MapPoints line = corner_line(*state);
    assert_near(channel_onward(&line, 0.2, -10, wide), 0.15);
    assert_near(channel_onward(&line, 0.2, 10, wide), 0.25);
    assert_near(channel_onward(&line, 0.35, -10, wide), 0.3 - 5.0 / 200);
    assert_near(channel_onward(&line, 0.28, 14, wide), 0.3 + 10.0 / 100);
    assert_near(channel_onward(&line, 0.01, -10, wide), 0);
    assert_near(channel_onward(&line, 0.69, 10, wide), 0.7);
}

/* Shoelace formula. */
static double area_mm2(const ChannelPoints *points) {
    double twice = 0;
    for (size_t i = 0; i < points->count; i++) {
        Point a = points->items[i];
        Point b = points->items[(i + 1) % points->count];
        twice += a.x_mm * b.y_mm - b.x_mm * a.y_mm;
    }
    return fabs(twice) / 2;
}

/* A mitred band has its width times the length of its centre line, round a square corner too. */
static void an_outline_has_the_area_of_its_band(void **state) {
    MapPoints line = corner_line(*state);
    ChannelPoints points = channel_part(*state, &line, 0, 0.7, VIEW);
    ChannelPoints outline = channel_outline(*state, &points, 4);
    assert_int_equal(outline.count, 6);
    assert_near(area_mm2(&outline), 4 * 70);
}

static void a_point_has_no_outline(void **state) {
    ChannelPoints none = {0};
    assert_int_equal(channel_outline(*state, &none, 4).count, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(places_lie_along_the_line),
        cmocka_unit_test(headings_turn_clockwise_from_the_right),
        cmocka_unit_test(stretches_have_the_length_asked_for),
        cmocka_unit_test(a_stretched_view_lengthens_lanes_alone),
        cmocka_unit_test(millimetres_of_paper_are_counted_along_the_channel),
        cmocka_unit_test(an_outline_has_the_area_of_its_band),
        cmocka_unit_test(a_point_has_no_outline),
    };
    return cmocka_run_group_tests(tests, arena_case_set_up, arena_case_tear_down);
}
