/* What stands beside and below the strips of the curve: labels in the order of what they name, none
 * on another, each as near as that lets it be; the values of the samples at their heights. */
#include "layout/strip.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

enum { LABELS = 3 };

static Arena *arena;
static const FaceSet *faces;
static const TextStyle style = {FACE_REGULAR, 10, 1.2};
static const Box box = {100, 20, 30, 60};

static int set_up(void **state) {
    (void)state;
    const char *error = NULL;
    arena = arena_new();
    faces = faces_load(arena, "fonts", &error);
    return faces ? 0 : -1;
}

static int tear_down(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

/* The baselines of three labels "0", "1", "2" at these heights. */
static void set_labels(const double heights_mm[LABELS], double baselines_mm[LABELS]) {
    static const char *const texts[LABELS] = {"0", "1", "2"};
    Page *page = document_page(document_new(arena, "Strip", "en"), 200, 100);
    Pen pen = {.arena = arena, .faces = faces, .page = page};
    StripLabels labels = {0};
    for (int i = 0; i < LABELS; i++)
        LIST_ADD(arena, &labels, (StripLabel){heights_mm[i], texts[i]});
    strip_labels(&pen, box, style, &labels);
    assert_int_equal(page->marks.count, LABELS);
    for (int i = 0; i < LABELS; i++) {
        const TextMark *mark = &page->marks.items[i].as.text;
        assert_true(fabs(mark->baseline.x_mm - box.x_mm) < 1e-9);
        baselines_mm[mark->string[0] - '0'] = mark->baseline.y_mm;
    }
}

static void assert_tops(const double heights_mm[LABELS], const double tops_mm[LABELS]) {
    Pen pen = {.arena = arena, .faces = faces};
    double baselines_mm[LABELS];
    set_labels(heights_mm, baselines_mm);
    for (int i = 0; i < LABELS; i++)
        assert_true(fabs(baselines_mm[i] - pen_baseline_mm(&pen, style) - tops_mm[i]) < 1e-9);
}

/* In whatever order they come; a pitch is 10 pt by 1.2. */
static void labels_stand_beside_what_they_name(void **state) {
    (void)state;
    static const int orders[][LABELS] = {{0, 1, 2}, {0, 2, 1}, {1, 0, 2},
                                         {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    const double pitch_mm = 12 * 25.4 / 72;
    for (size_t i = 0; i < sizeof orders / sizeof *orders; i++) {
        double heights_mm[LABELS], tops_mm[LABELS];
        for (int j = 0; j < LABELS; j++) {
            heights_mm[j] = 30 + 10 * orders[i][j];
            tops_mm[j] = heights_mm[j] - pitch_mm / 2;
        }
        assert_tops(heights_mm, tops_mm);
        for (int j = 0; j < LABELS; j++) { /* too near: the highest stays, the others go down */
            heights_mm[j] = 30 + orders[i][j];
            tops_mm[j] = 30 - pitch_mm / 2 + pitch_mm * orders[i][j];
        }
        assert_tops(heights_mm, tops_mm);
    }
}

static void labels_stay_between_top_and_bottom(void **state) {
    (void)state;
    const double pitch_mm = 12 * 25.4 / 72;
    const double high_mm[LABELS] = {15, 20, 16};
    const double high_tops_mm[LABELS] = {20, 20 + 2 * pitch_mm, 20 + pitch_mm};
    assert_tops(high_mm, high_tops_mm);
    const double low_mm[LABELS] = {80, 79, 78};
    const double low_tops_mm[LABELS] = {80 - pitch_mm, 80 - 2 * pitch_mm, 80 - 3 * pitch_mm};
    assert_tops(low_mm, low_tops_mm);
}

static double margin_of(const PlanSample *sample) {
    return sample->margin;
}

/* Values outside of fills do not count; the range leaves 8 % free above and below. */
static void a_strip_goes_from_its_least_to_its_greatest_value(void **state) {
    (void)state;
    PlanSample samples[] = {{.fill = 0, .margin = 9},
                            {.fill = 1, .margin = 2},
                            {.fill = 1, .margin = NAN},
                            {.fill = 2, .margin = 4}};
    Plan plan = {0};
    plan.samples.items = samples;
    plan.samples.count = 4;
    Strip strip = {.y_mm = 10, .height_mm = 50};
    strip_range(&strip, &plan, margin_of);
    assert_true(strip.low == 2 && strip.high == 4);
    assert_true(strip_y_mm(&strip, 4) == 10 && strip_y_mm(&strip, 2) == 60);
    assert_true(strip_y_mm(&strip, 3.5) == 22.5);
    assert_true(strip_y_mm(&strip, 99) == 10 && strip_y_mm(&strip, -99) == 60);
    strip_widen(&strip, 3, 12);
    assert_true(strip.low == 2 && strip.high == 12);
    strip_clear(&strip);
    assert_true(fabs(strip.low - 1.2) < 1e-12 && fabs(strip.high - 12.8) < 1e-12);
    plan.samples.count = 1;
    strip_range(&strip, &plan, margin_of);
    assert_true(strip.low == 0 && strip.high == 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(labels_stand_beside_what_they_name),
        cmocka_unit_test(labels_stay_between_top_and_bottom),
        cmocka_unit_test(a_strip_goes_from_its_least_to_its_greatest_value),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
