/* Paths, hatches, marks and signs: lengths and places against plain geometry. */
#include "layout/mark.h"
#include "layout/sign.h"

#include "support/close.h"
#include "support/marks.h"
#include "support/outside.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

static Arena *arena;
static Page *page;

static int set_up(void **state) {
    (void)state;
    arena = arena_new();
    page = document_page(document_new(arena, "test", "en"), 210, 297);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static Point on_curve(Point from, const Step *step, double t) {
    double u = 1 - t;
    double weights[] = {u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t};
    Point points[] = {from, step->control[0], step->control[1], step->to};
    Point sum = {0, 0};
    for (int i = 0; i < 4; i++) {
        sum.x_mm += weights[i] * points[i].x_mm;
        sum.y_mm += weights[i] * points[i].y_mm;
    }
    return sum;
}

static void arcs_stay_on_their_circle(void **state) {
    (void)state;
    Point centre = {50, 60};
    static const double sweeps_deg[] = {10, 90, -90, 135, 360, -300};
    for (size_t i = 0; i < sizeof sweeps_deg / sizeof *sweeps_deg; i++) {
        Steps steps = {0};
        path_arc(arena, &steps, centre, 10, 20, sweeps_deg[i]);
        assert_int_equal(steps.items[0].kind, STEP_MOVE);
        for (size_t j = 1; j < steps.count; j++)
            for (double t = 0; t <= 1; t += 0.125) {
                Point at = on_curve(steps.items[j - 1].to, &steps.items[j], t);
                assert_close(hypot(at.x_mm - 50, at.y_mm - 60), 10, 10 * 3e-4);
            }
        double end = (20 + sweeps_deg[i]) * acos(-1) / 180;
        assert_close(steps.items[steps.count - 1].to.x_mm, 50 + 10 * cos(end), 1e-9);
        assert_close(steps.items[steps.count - 1].to.y_mm, 60 + 10 * sin(end), 1e-9);
    }
}

static void a_quarter_clockwise_goes_down_from_the_right(void **state) {
    (void)state;
    Steps steps = {0};
    path_arc(arena, &steps, (Point){0, 0}, 1, 0, 90);
    assert_close(steps.items[0].to.x_mm, 1, 1e-12);
    assert_close(steps.items[steps.count - 1].to.y_mm, 1, 1e-12); /* y is down */
}

static double hatch_length(const Steps *steps) {
    double sum = 0;
    for (size_t i = 0; i + 1 < steps->count; i += 2) {
        assert_int_equal(steps->items[i].kind, STEP_MOVE);
        assert_int_equal(steps->items[i + 1].kind, STEP_LINE);
        Point from = steps->items[i].to;
        Point to = steps->items[i + 1].to;
        sum += hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm);
    }
    return sum;
}

/* The lines' length times their spacing comes to the area (Cavalieri), whatever the slope. */
static void a_hatch_covers_the_area(void **state) {
    (void)state;
    static const Point ell[] = {{10, 10}, {50, 10}, {50, 20}, {20, 20}, {20, 40}, {10, 40}};
    static const Point bow[] = {{0, 0}, {20, 20}, {20, 0}, {0, 20}}; /* crosses itself */
    for (double angle = -90; angle <= 90; angle += 15) {
        Steps steps = {0};
        path_hatch(arena, &steps, ell, 6, angle, 0.05);
        assert_close(hatch_length(&steps) * 0.05, 600, 3);
        Steps crossed = {0};
        path_hatch(arena, &crossed, bow, 4, angle, 0.05);
        assert_close(hatch_length(&crossed) * 0.05, 200, 2);
    }
}

static void hatch_lines_stay_inside(void **state) {
    (void)state;
    Point square[] = {{10, 10}, {20, 10}, {20, 20}, {10, 20}};
    Steps steps = {0};
    path_hatch(arena, &steps, square, 4, 30, 0.7);
    assert_true(steps.count > 20);
    for (size_t i = 0; i < steps.count; i++) {
        assert_true(steps.items[i].to.x_mm >= 10 - 1e-9 && steps.items[i].to.x_mm <= 20 + 1e-9);
        assert_true(steps.items[i].to.y_mm >= 10 - 1e-9 && steps.items[i].to.y_mm <= 20 + 1e-9);
    }
}

static void odd_hatches_add_nothing(void **state) {
    (void)state;
    Point square[] = {{10.2, 10.2}, {10.4, 10.2}, {10.4, 10.4}, {10.2, 10.4}};
    Style style = style_line(0.1, ink_black());
    assert_null(mark_hatch(page, square, 4, 0, 5, style)); /* falls between two lines */
    assert_null(mark_hatch(page, square, 4, 0, 0, style));
    assert_null(mark_hatch(page, square, 4, 0, NAN, style));
    assert_null(mark_hatch(page, square, 2, 0, 0.01, style));
    assert_int_equal(page->marks.count, 0);
}

static void marks_are_printed(void **state) {
    (void)state;
    page->owner = "head";
    mark_text(page, 10, 20.004, FACE_BOLD, 12, ink_black(), "Łódź");
    page->owner = NULL;
    mark_text(page, -0.001, 5, FACE_REGULAR, 7.5, ink_grey(0.5), "up");
    mark_rectangle(page, (Box){1, 2, 3, 4}, style_both(ink_grey(0.9), 0.2, ink_black()));
    Style dashed = style_dashed(0.1, ink_grey(0.5), 1, 0.5);
    dashed.cap = CAP_ROUND;
    dashed.join = JOIN_ROUND;
    mark_line(page, (Point){0, 1}, (Point){2, 3}, dashed);
    Steps curve = {0};
    path_move(arena, &curve, 0, 0);
    path_curve(arena, &curve, (Point){1, 0}, (Point){2, 1}, (Point){2, 2});
    mark_path(page, &curve, style_fill(ink_white()));
    Text text = text_new(arena);
    marks_print(&text, page);
    assert_string_equal(
        text.bytes,
        "page 210.00 297.00\n"
        "text 10.00 20.00 bold 12.00pt ink 0.00 \"Łódź\" @head\n"
        "text 0.00 5.00 regular 7.50pt ink 0.50 \"up\"\n"
        "path M 1.00 2.00 L 4.00 2.00 L 4.00 6.00 L 1.00 6.00 Z fill 0.90 line 0.00 width 0.20\n"
        "path M 0.00 1.00 L 2.00 3.00 line 0.50 width 0.10 dash 1.00 0.50 round-cap round-join\n"
        "path M 0.00 0.00 C 1.00 0.00 2.00 1.00 2.00 2.00 fill 1.00\n");
}

static void strings_and_steps_are_copied(void **state) {
    (void)state;
    char string[] = "before";
    mark_text(page, 1, 1, FACE_REGULAR, 10, ink_black(), string);
    memcpy(string, "after!", 6);
    assert_string_equal(page->marks.items[0].as.text.string, "before");
    Steps steps = {0};
    path_rectangle(arena, &steps, (Box){1, 1, 1, 1});
    mark_path(page, &steps, style_fill(ink_black()));
    steps.items[0].to.x_mm = 99;
    assert_close(page->marks.items[1].as.path.steps.items[0].to.x_mm, 1, 0);
}

static void boxes_hold_their_marks(void **state) {
    (void)state;
    const char *error = NULL;
    const FaceSet *faces = faces_load(arena, OUTSIDE_FONTS, &error);
    assert_non_null(faces);
    Mark *line = mark_line(page, (Point){10, 20}, (Point){30, 20}, style_line(2, ink_black()));
    Box box = mark_box(line, faces);
    assert_close(box.x_mm, 9, 1e-9);
    assert_close(box.y_mm, 19, 1e-9);
    assert_close(box.width_mm, 22, 1e-9);
    assert_close(box.height_mm, 2, 1e-9);
    const Face *face = faces->faces[FACE_REGULAR];
    Mark *text = mark_text(page, 10, 20, FACE_REGULAR, 10, ink_black(), "four");
    box = mark_box(text, faces);
    assert_close(box.width_mm, face_width_mm(face, "four", 10), 1e-9);
    assert_close(box.y_mm, 20 - type_ascent_mm(face, 10), 1e-9);
    assert_close(box.y_mm + box.height_mm, 20 + type_descent_mm(face, 10), 1e-9);
}

/* Every sign stays within its square, at any size. */
static void signs_stay_in_their_square(void **state) {
    (void)state;
    for (int kind = 0; kind < SIGN_COUNT; kind++) {
        Page *own = document_page(document_new(arena, "sign", "en"), 100, 100);
        sign_draw(own, (SignKind)kind, (Point){40, 30}, 6, ink_black(), ink_white());
        assert_true(own->marks.count > 0);
        const FaceSet no_faces = {0}; /* a sign holds no text */
        for (size_t i = 0; i < own->marks.count; i++) {
            Box box = mark_box(&own->marks.items[i], &no_faces);
            double over_mm = 6 * 0.005;
            if (box.x_mm < 40 - over_mm || box.y_mm < 30 - over_mm ||
                box.x_mm + box.width_mm > 46 + over_mm || box.y_mm + box.height_mm > 36 + over_mm)
                fail_msg("sign '%s' reaches out: %g %g, %g by %g", sign_name((SignKind)kind),
                         box.x_mm, box.y_mm, box.width_mm, box.height_mm);
        }
    }
}

static void signs_have_names_of_their_own(void **state) {
    (void)state;
    for (int i = 0; i < SIGN_COUNT; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(sign_name((SignKind)i), sign_name((SignKind)k));
}

int main(void) {
#define CASE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        CASE(arcs_stay_on_their_circle),    CASE(a_quarter_clockwise_goes_down_from_the_right),
        CASE(a_hatch_covers_the_area),      CASE(hatch_lines_stay_inside),
        CASE(odd_hatches_add_nothing),      CASE(marks_are_printed),
        CASE(strings_and_steps_are_copied), CASE(boxes_hold_their_marks),
        CASE(signs_stay_in_their_square),   CASE(signs_have_names_of_their_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
