/* What is drawn against the plan it is drawn from: how far the dust reaches, which way the arrows
 * point, how wide the band of the end is. Checked by lengths and directions on the paper, measured
 * along the drawn channel itself. */
#include "layout/sheet.h"

#include "support/language.h"
#include "support/marks.h"
#include "support/plan_maker.h"
#include "support/shipped.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

/* The channel is drawn this wide or wider; nothing else in the map is stroked so thick. */
#define CHANNEL_LEAST_MM 1.5

static Arena *arena;
static const FaceSet *faces;
static const Pattern *pattern;
static const Words *words;

static int set_up(void **state) {
    (void)state;
    arena = arena_new();
    faces = shipped_faces(arena);
    pattern = shipped_pattern(arena, faces, "desk");
    words = language_words(arena, "en");
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static const Page *page_of(const Plan *plan) {
    Locale locale = locale_of(plan->workshop, words);
    Document *document = document_new(arena, "Session sheet", words->language);
    Diagnostics diagnostics = diagnostics_new(arena);
    assert_true(sheet_lay_out(pattern, plan, plan_fields(arena, plan), &locale, faces, document,
                              &diagnostics));
    return document->pages.items[0];
}

/* The next path of a panel at or after *index; NULL: no more. */
static const PathMark *next_path(const Page *page, const char *owner, size_t *index) {
    for (; *index < page->marks.count; (*index)++) {
        const Mark *mark = &page->marks.items[*index];
        if (mark->kind == MARK_PATH && mark->owner && !strcmp(mark->owner, owner)) {
            (*index)++;
            return &mark->as.path;
        }
    }
    return NULL;
}

static double length_mm(const PathMark *path, size_t steps) {
    double sum_mm = 0;
    for (size_t i = 1; i < steps; i++)
        sum_mm += hypot(path->steps.items[i].to.x_mm - path->steps.items[i - 1].to.x_mm,
                        path->steps.items[i].to.y_mm - path->steps.items[i - 1].to.y_mm);
    return sum_mm;
}

/* The channel as it is drawn: its bed in grey, and in white over it the dust. */
static void find_channel(const Page *page, const PathMark **bed, const PathMark **dust) {
    *bed = *dust = NULL;
    size_t index = 0;
    const PathMark *path;
    while ((path = next_path(page, "maps", &index)) != NULL) {
        bool thick = path->style.line_mm > CHANNEL_LEAST_MM && !path->style.filled;
        double grey = path->style.line.grey;
        if (thick && grey > 0.99 && !*dust)
            *dust = path;
        else if (thick && grey > 0.3 && grey < 0.99 && !*bed)
            *bed = path;
    }
    assert_non_null(*bed);
    assert_non_null(*dust);
}

/* The dust is as long, against the whole channel, as the plan fills it, from the lit end on. */
static void dust_reaches_as_far_as_it_is_filled(void **state) {
    (void)state;
    const ChannelPath paths[] = {PATH_LANES, PATH_SPIRAL, PATH_STRAIGHT};
    for (size_t i = 0; i < sizeof paths / sizeof *paths; i++)
        for (int tenths = 2; tenths <= 10; tenths += 2) {
            PlanRecipe recipe = recipe_usual();
            recipe.path = paths[i];
            recipe.lanes = paths[i] == PATH_STRAIGHT ? 1 : 4;
            recipe.filled = tenths / 10.;
            const Plan *plan = plan_from_recipe(arena, &recipe);
            const PathMark *bed, *dust;
            find_channel(page_of(plan), &bed, &dust);
            double drawn = length_mm(dust, dust->steps.count) / length_mm(bed, bed->steps.count);
            double wanted = plan->fills.items[0].filled_m / plan->fills.items[0].channel_m;
            if (fabs(drawn - wanted) > 0.01)
                fail_msg("path %zu: dust over %.3f of the channel, filled %.3f", i, drawn, wanted);
            assert_true(fabs(dust->steps.items[0].to.x_mm - bed->steps.items[0].to.x_mm) < 0.01);
            assert_true(fabs(dust->steps.items[0].to.y_mm - bed->steps.items[0].to.y_mm) < 0.01);
        }
}

/* A filled triangle is an arrow head; its tip comes first. */
static bool is_arrow(const PathMark *path) {
    return path->style.filled && path->style.fill.grey < 0.01 && path->steps.count == 4 &&
           path->steps.items[3].kind == STEP_CLOSE && path->steps.items[2].kind == STEP_LINE;
}

/* How well an arrow points along the nearest stretch of the drawn channel, from the lit end on: 1
 * the same way, -1 against it. How far along it stands, as a share, goes to *share. */
static double along_channel(const PathMark *bed, const PathMark *arrow, double *share) {
    Point tip = arrow->steps.items[0].to;
    Point foot = {(arrow->steps.items[1].to.x_mm + arrow->steps.items[2].to.x_mm) / 2,
                  (arrow->steps.items[1].to.y_mm + arrow->steps.items[2].to.y_mm) / 2};
    Point middle = {(tip.x_mm + foot.x_mm) / 2, (tip.y_mm + foot.y_mm) / 2};
    double best_mm = INFINITY, cosine = 0;
    for (size_t i = 1; i < bed->steps.count; i++) {
        Point from = bed->steps.items[i - 1].to, to = bed->steps.items[i].to;
        double x = to.x_mm - from.x_mm, y = to.y_mm - from.y_mm, length = hypot(x, y);
        double part = length > 0 ? ((middle.x_mm - from.x_mm) * x + (middle.y_mm - from.y_mm) * y) /
                                       (length * length)
                                 : 0;
        part = fmin(fmax(part, 0), 1);
        double away_mm =
            hypot(from.x_mm + part * x - middle.x_mm, from.y_mm + part * y - middle.y_mm);
        if (length > 0 && away_mm < best_mm) {
            best_mm = away_mm;
            cosine = ((tip.x_mm - foot.x_mm) * x + (tip.y_mm - foot.y_mm) * y) /
                     (length * hypot(tip.x_mm - foot.x_mm, tip.y_mm - foot.y_mm));
            *share = (length_mm(bed, i) + part * length) / length_mm(bed, bed->steps.count);
        }
    }
    return cosine;
}

static void assert_arrows(const PlanRecipe *recipe) {
    const Plan *plan = plan_from_recipe(arena, recipe);
    const PlanFill *fill = &plan->fills.items[0];
    const Page *page = page_of(plan);
    const PathMark *bed, *dust, *path;
    find_channel(page, &bed, &dust);
    size_t index = 0, arrows = 0;
    while ((path = next_path(page, "maps", &index)) != NULL) {
        if (!is_arrow(path))
            continue;
        double share = 0;
        double cosine = along_channel(bed, path, &share);
        bool back = fill->both_ends && share > fill->finish.along_m / fill->channel_m;
        if (!((back ? -cosine : cosine) > 0.7))
            fail_msg("an arrow at %.2f of the channel points %.2f along it", share, cosine);
        arrows++;
    }
    assert_true(arrows >= 2);
}

static void arrows_point_where_the_glow_goes(void **state) {
    (void)state;
    PlanRecipe recipe = recipe_usual();
    assert_arrows(&recipe);
    recipe.both_ends = true;
    assert_arrows(&recipe);
    recipe.path = PATH_SPIRAL;
    recipe.lanes = 3;
    assert_arrows(&recipe);
}

/* The two ends of the band stand where their instants are on the axis, whose length the grey rules
 * under the strips have. */
static void the_band_of_the_end_is_as_wide_as_the_plan_says(void **state) {
    (void)state;
    PlanRecipe recipe = recipe_usual();
    const Plan *plan = plan_from_recipe(arena, &recipe);
    const PlanBurn *burn = &plan->burn;
    const Page *page = page_of(plan);
    double ends_mm[2] = {INFINITY, -INFINITY}, axis_mm[2] = {0, 0};
    size_t index = 0;
    const PathMark *path;
    while ((path = next_path(page, "curve", &index)) != NULL) {
        Box box = path_box(&path->steps);
        if (path->style.dash_mm > 0 && box.width_mm < 0.001 && box.height_mm > 5) {
            ends_mm[0] = fmin(ends_mm[0], box.x_mm);
            ends_mm[1] = fmax(ends_mm[1], box.x_mm);
        } else if (box.height_mm < 0.5 && fabs(path->style.line.grey - 0.5) < 0.3) {
            axis_mm[0] = box.x_mm;
            axis_mm[1] = box.width_mm;
        }
    }
    Instant from = plan->samples.items[0].at;
    Instant last = plan->samples.items[plan->samples.count - 1].at;
    double per_s = axis_mm[1] / (double)((burn->out_late > last ? burn->out_late : last) - from);
    assert_true(burn->out_late > burn->out_early && axis_mm[1] > 20);
    const Instant instants[] = {burn->out_early, burn->out_late};
    for (int i = 0; i < 2; i++) {
        double wanted_mm = axis_mm[0] + per_s * (double)(instants[i] - from);
        if (!(fabs(ends_mm[i] - wanted_mm) < 0.2))
            fail_msg("end %d of the band stands at %.1f mm, wanted %.1f", i, ends_mm[i], wanted_mm);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dust_reaches_as_far_as_it_is_filled),
        cmocka_unit_test(arrows_point_where_the_glow_goes),
        cmocka_unit_test(the_band_of_the_end_is_as_wide_as_the_plan_says),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
