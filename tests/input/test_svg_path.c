/* Path data against closed forms: areas and lengths of circles, ellipses and parabolas, and the
 * ways of writing that SVG 1.1, chapter 8.3 and appendix F.6, allow. */
#include "input/svg_path.h"

#include "base/pi.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { CHORDS = 400 };

typedef struct Measured {
    double area; /* with its sign: clockwise on the page (y down) is more than 0 */
    double length;
    size_t outlines;
} Measured;

static OutlinePoint on_step(OutlinePoint from, const OutlineStep *step, double part) {
    double rest = 1 - part;
    if (step->kind != OUTLINE_CURVE)
        return (OutlinePoint){from.x * rest + step->to.x * part, from.y * rest + step->to.y * part};
    double weights[] = {rest * rest * rest, 3 * rest * rest * part, 3 * rest * part * part,
                        part * part * part};
    const OutlinePoint points[] = {from, step->control[0], step->control[1], step->to};
    OutlinePoint at = {0};
    for (int i = 0; i < 4; i++) {
        at.x += weights[i] * points[i].x;
        at.y += weights[i] * points[i].y;
    }
    return at;
}

static void add_chord(Measured *measured, OutlinePoint from, OutlinePoint to) {
    measured->area += (from.x * to.y - to.x * from.y) / 2;
    measured->length += hypot(to.x - from.x, to.y - from.y);
}

static Measured measure(const Outlines *outlines) {
    Measured measured = {0};
    OutlinePoint now = {0}, start = {0};
    for (size_t i = 0; i < outlines->count; i++) {
        const OutlineStep *step = &outlines->items[i];
        if (step->kind == OUTLINE_MOVE) {
            now = start = step->to;
            measured.outlines++;
            continue;
        }
        OutlineStep back = {.kind = OUTLINE_LINE, .to = start};
        step = step->kind == OUTLINE_CLOSE ? &back : step;
        OutlinePoint from = now;
        for (int n = 1; n <= CHORDS; n++) {
            OutlinePoint to = on_step(from, step, (double)n / CHORDS);
            add_chord(&measured, now, to);
            now = to;
        }
    }
    return measured;
}

static Outlines read_data(Arena *arena, const char *data) {
    Outlines outlines;
    SvgFault fault = {0};
    if (!svg_path_read(arena, data, &outlines, &fault))
        fail_msg("'%s' at %zu: %s", data, fault.at, fault.problem);
    return outlines;
}

static Measured measured(Arena *arena, const char *data) {
    Outlines outlines = read_data(arena, data);
    return measure(&outlines);
}

/* Within a thousandth. */
static void assert_near(double value, double wanted) {
    if (!(fabs(value - wanted) <= 1e-3 * fmax(fabs(wanted), 1e-3)))
        fail_msg("%.6f, not %.6f", value, wanted);
}

static void a_circle_of_arcs_has_its_area_and_girth(void **state) {
    static const double radii[] = {0.5, 10, 2345};
    for (size_t i = 0; i < 3; i++) {
        double r = radii[i];
        const char *circle = arena_format(*state, "M%g 7a%g %g 0 1 1 %g 0a%g,%g,0,1,1,%g,0z", -r, r,
                                          r, 2 * r, r, r, -2 * r);
        Measured found = measured(*state, circle);
        assert_near(found.area, PI * r * r);
        assert_near(found.length, 2 * PI * r);
    }
}

/* Ramanujan's second approximation of the girth is good to 1e-9 at that ratio (handbooks; from
 * memory). */
static void an_ellipse_has_its_area_however_it_is_turned(void **state) {
    for (int turn = -90; turn <= 200; turn += 29) {
        double a = 8, b = 3, angle = turn * PI / 180;
        double x = a * cos(angle), y = a * sin(angle);
        Measured found = measured(*state, arena_format(*state,
                                                       "M %.12g %.12g A 8 3 %d 0 1 %.12g %.12g "
                                                       "A 8 3 %d 0 1 %.12g %.12g",
                                                       -x, -y, turn, x, y, turn, -x, -y));
        double h = (a - b) * (a - b) / ((a + b) * (a + b));
        assert_near(found.area, PI * a * b);
        assert_near(found.length, PI * (a + b) * (1 + 3 * h / (10 + sqrt(4 - 3 * h))));
    }
}

/* Of the four arcs of a radius through two points the flags choose one: the lesser or the greater
 * segment of the circle, to the one side or the other. A chord as long as the radius cuts off
 * r²/2 (π/3 − sin π/3). */
static void the_flags_choose_among_the_four_arcs(void **state) {
    double r = 5, lesser = r * r / 2 * (PI / 3 - sin(PI / 3)), greater = PI * r * r - lesser;
    static const struct {
        const char *flags;
        bool large;
        double sign;
    } rows[] = {{"0 0", false, -1}, {"0 1", false, 1}, {"1 0", true, -1}, {"1 1", true, 1}};
    for (size_t i = 0; i < 4; i++) {
        Measured found =
            measured(*state, arena_format(*state, "M0,0 A5,5 0 %s 5,0", rows[i].flags));
        assert_near(found.area, rows[i].sign * (rows[i].large ? greater : lesser));
        assert_near(found.length, r + (rows[i].large ? 5 : 1) * PI * r / 3);
    }
}

/* F.6.2 and F.6.6: no radius is a line, one too short is stretched to half a circle, its sign is
 * not heeded, and an arc to where it begins is left out. */
static void arcs_out_of_range_are_mended_as_the_standard_says(void **state) {
    assert_near(measured(*state, "M0 0A0 5 0 0 1 8 0V6").area, 24);
    assert_near(measured(*state, "M0 0A1 1 0 0 1 8 0").area, PI * 16 / 2);
    assert_near(measured(*state, "M0 0A-4 -4 0 0 1 8 0").area, PI * 16 / 2);
    assert_near(measured(*state, "M0 0L8 0A4 4 0 1 1 8 0V6").area, 24);
}

/* Archimedes: between a parabola and its chord lie two thirds of the triangle of its tangents. */
static void quadratic_curves_are_parabolas(void **state) {
    assert_near(measured(*state, "M0 0Q3 6 9 0").area, -2.0 / 3 * (9 * 6 / 2));
    assert_near(measured(*state, "M0 0q3-6 9 0").area, 2.0 / 3 * (9 * 6 / 2));
    /* T mirrors the handle: a second arch below, turned by half a turn */
    assert_near(measured(*state, "M0 0Q3 6 6 0T12 0").area, 0);
    assert_near(measured(*state, "M0 0Q3 6 6 0T12 0L6 0").area,
                measured(*state, "M0 0Q3 6 6 0M6 0Q9-6 12 0").area);
    /* with nothing to mirror it is a line */
    assert_near(measured(*state, "M0 0T6 0V4").area, 12);
}

/* A cubic with its handles at the third points of its chord is the chord; S mirrors the last. */
static void cubic_curves_and_their_mirrors(void **state) {
    assert_near(measured(*state, "M0 0C2 0 4 0 6 0V4").area, 12);
    assert_near(measured(*state, "M0 0C0 4 6 4 6 0S12-4 12 0").area, 0);
    double both = measured(*state, "M0 0c0 4 6 4 6 0s6-4 6 0").length;
    double one = measured(*state, "M0 0C0 4 6 4 6 0").length - 6;
    assert_near(both, 2 * one + 12);
    /* handles h upright over the ends of a chord c: 3/5 c h, by Green's theorem */
    assert_near(measured(*state, "M0 4C0 0 6 0 6 4").area, 3.0 / 5 * 6 * 4);
}

static void relative_is_as_absolute(void **state) {
    static const char *const pairs[][2] = {
        {"M1 2 L5 2 L5 9 Z", "m1 2l4 0l0 7z"},
        {"M1 2 H5 V9 Z", "m1 2h4v7z"},
        {"M1 2 5 2 5 9", "m1 2 4 0 0 7"},
        {"M1 2 C1 5 6 5 6 2 S 11-1 11 2", "m1 2c0 3 5 3 5 0s5-3 5 0"},
        {"M1 2 Q3 6 6 2 T 11 2", "m1 2q2 4 5 0t5 0"},
        {"M1 2 A3 2 20 1 0 5 4", "m1 2a3 2 20 1 0 4 2"},
        {"M1 1 H9 V9 Z L 1 20 H 4 Z", "m1 1h8v8zl0 19h3z"},
        {"M1 1 H9 V9 Z M2 2 H4 V4 Z", "m1 1h8v8zm1 1h2v2z"},
    };
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        Outlines one = read_data(*state, pairs[i][0]), other = read_data(*state, pairs[i][1]);
        assert_int_equal(one.count, other.count);
        for (size_t n = 0; n < one.count; n++) {
            assert_int_equal(one.items[n].kind, other.items[n].kind);
            if (one.items[n].kind != OUTLINE_CLOSE)
                assert_true(hypot(one.items[n].to.x - other.items[n].to.x,
                                  one.items[n].to.y - other.items[n].to.y) < 1e-9);
        }
    }
}

/* Chapter 8.3.9: as little between numbers as tells them apart. */
static void numbers_may_stand_close(void **state) {
    assert_near(measured(*state, "M.5.5L8.5.5V4.5H.5Z").area, 32);
    assert_near(measured(*state, "M-4-2L4-2 4+2-4+2Z").area, 32);
    assert_near(measured(*state, "M0,0h+1e1v4.E0h-100e-1").area, 40);
    assert_near(measured(*state, "\n M 0 0\t,8 0\r\n8,4 0 4 \n").area, 32);
    assert_near(measured(*state, "M0 0a4 4 0 018 0").area, PI * 16 / 2);
    assert_near(measured(*state, "M0 0a4 4 0 11.0001 0").area, PI * 16);
}

static void every_outline_is_closed(void **state) {
    Outlines outlines = read_data(*state, "M0 0H4V4M9 9h1v1zM20 20");
    size_t moves = 0, closes = 0;
    for (size_t i = 0; i < outlines.count; i++) {
        moves += outlines.items[i].kind == OUTLINE_MOVE;
        closes += outlines.items[i].kind == OUTLINE_CLOSE;
    }
    assert_int_equal(moves, 3);
    assert_int_equal(closes, 3);
    assert_int_equal(outlines.items[outlines.count - 1].kind, OUTLINE_CLOSE);
    assert_int_equal(read_data(*state, " ").count, 0);
}

static void what_is_no_path_is_refused_where_it_stands(void **state) {
    static const struct {
        const char *data;
        size_t at;
        const char *problem;
    } rows[] = {
        {"L0 0", 0, "begins with M"},
        {"5 5", 0, "no command"},
        {"M0 0 B4 4", 5, "no command"},
        {"M0 0 L4", 7, "at the end"},
        {"M0 0 L4 x", 8, "a number is missing here"},
        {"M0 0 L4 nan", 8, "a number is missing here"},
        {"M0 0 C1 1 2 2 3", 15, "at the end"},
        {"M0 0 A4 4 0 2 1 8 0", 12, "a flag is 0 or 1"},
        {"M0 0 L1e9 4", 6, "no drawing"},
        {"M0 0 L1e999 4", 6, "no drawing"},
        {"M0 0 H1234567890123456789012345678901234567890123", 6, "no drawing"},
        {"M900000 0 l900000 0", 11, "out of all bounds"},
        {"M0 0 Z 4", 7, "no command"},
        {"M0 0 L0x10 4", 7, "a number is missing"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        Outlines outlines;
        SvgFault fault = {0};
        if (svg_path_read(*state, rows[i].data, &outlines, &fault))
            fail_msg("'%s' is taken", rows[i].data);
        if (!strstr(fault.problem, rows[i].problem) || fault.at != rows[i].at)
            fail_msg("'%s': at %zu '%s'", rows[i].data, fault.at, fault.problem);
    }
}

static void a_path_has_an_end(void **state) {
    char data[30000] = "M0 0";
    size_t length = strlen(data);
    while (length + 10 < sizeof data)
        length += (size_t)snprintf(data + length, sizeof data - length, "h1v1");
    Outlines outlines;
    SvgFault fault = {0};
    assert_false(svg_path_read(*state, data, &outlines, &fault));
    assert_non_null(strstr(fault.problem, "more than 2000 steps"));
    assert_in_range(outlines.count, SVG_STEPS_MAX, SVG_STEPS_MAX + 8);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(a_circle_of_arcs_has_its_area_and_girth),
        CASE(an_ellipse_has_its_area_however_it_is_turned),
        CASE(the_flags_choose_among_the_four_arcs),
        CASE(arcs_out_of_range_are_mended_as_the_standard_says),
        CASE(quadratic_curves_are_parabolas),
        CASE(cubic_curves_and_their_mirrors),
        CASE(relative_is_as_absolute),
        CASE(numbers_may_stand_close),
        CASE(every_outline_is_closed),
        CASE(what_is_no_path_is_refused_where_it_stands),
        CASE(a_path_has_an_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
