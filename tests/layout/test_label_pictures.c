/* The pictures on bag labels, measured on their marks: the bar's parts against the shares, the
 * grains against the curve they are drawn from, the logo against its drawing; and that none of them
 * takes anything from the words. */
#include "support/bag_maker.h"
#include "support/marks.h"

#include "base/pi.h"
#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BLENDS = 300, PARTS_MOST = 12, SWEEP = 720, HATCHES_OWN = 7 };

static const char *const languages[] = {"en", "de", "pl"};

static uint64_t state_of_chance = 2026;

static double chance(void) {
    state_of_chance = state_of_chance * 6364136223846793005U + 1442695040888963407U;
    return (double)(state_of_chance >> 11) / 9007199254740992.0;
}

static void assert_laid_out(BagMaker *maker) {
    if (!bag_maker_lay_out(maker))
        fail_msg("%s", bag_maker_reports(maker));
}

/* ---- Which picture is which ---- */

static const PictureMark *pictures(BagMaker *maker, size_t *at) {
    const Page *page = maker->document->pages.items[0];
    for (; *at < page->marks.count; ++*at)
        if (page->marks.items[*at].kind == MARK_PICTURE)
            return &page->marks.items[(*at)++].as.picture;
    return NULL;
}

static bool is_edge(const PathMark *path) {
    return !path->style.filled && path->steps.count == 5 && path->steps.items[4].kind == STEP_CLOSE;
}

static size_t edges(const Picture *picture) {
    size_t count = 0;
    for (size_t i = 0; i < picture->paths.count; i++)
        count += is_edge(&picture->paths.items[i]);
    return count;
}

static bool is_bar(const Picture *picture) {
    return edges(picture) > 1;
}

static bool is_swatch(const Picture *picture) {
    return edges(picture) == 1;
}

/* One black path of polygons with no curve. */
static bool is_grains(const Picture *picture) {
    const PathMark *path = picture->paths.count == 1 ? &picture->paths.items[0] : NULL;
    return path && path->style.filled && !path->style.nonzero && path->steps.count > 50 &&
           edges(picture) == 0;
}

static const PictureMark *find(BagMaker *maker, bool (*is_it)(const Picture *picture)) {
    size_t at = 0;
    const PictureMark *mark;
    while ((mark = pictures(maker, &at)) != NULL)
        if (is_it(mark->picture))
            return mark;
    return NULL;
}

/* ---- The bar ---- */

static PlanBag *bag_of_parts(BagMaker *maker, const char *stock, size_t count) {
    PlanBag *bag = bag_maker_add(maker, stock, 0.25, 1, 1);
    bag->parts.count = 0;
    double sum = 0;
    double shares[PARTS_MOST];
    for (size_t i = 0; i < count; i++)
        sum += shares[i] = 0.02 + chance() * chance();
    for (size_t i = 0; i < count; i++)
        for (size_t k = i; k > 0 && shares[k] > shares[k - 1]; k--) {
            double lesser = shares[k - 1];
            shares[k - 1] = shares[k];
            shares[k] = lesser;
        }
    for (size_t i = 0; i < count; i++)
        LIST_ADD(maker->arena, &bag->parts,
                 ((BagPart){.name = arena_format(maker->arena, "Wood %zu", i + 1),
                            .share = shares[i] / sum}));
    return bag;
}

/* The outer width of each part is its edge's and the line around it. */
static void check_bar(const Picture *bar, const PlanBag *bag) {
    double x_mm = 0, rest = 1;
    size_t part = 0, count = bag->parts.count;
    for (size_t i = 0; i < bar->paths.count; i++) {
        const PathMark *path = &bar->paths.items[i];
        if (!is_edge(path))
            continue;
        Box box = path_box(&path->steps);
        double share = part < HATCHES_OWN ? bag->parts.items[part].share : rest;
        double width_mm = box.width_mm + path->style.line_mm;
        assert_true(fabs(width_mm - share * bar->width_mm) < 1e-6);
        assert_true(fabs(box.x_mm - path->style.line_mm / 2 - x_mm) < 1e-6);
        x_mm += width_mm;
        rest -= share;
        part++;
    }
    assert_int_equal(part, count > HATCHES_OWN ? HATCHES_OWN + 1 : count);
    assert_true(fabs(x_mm - bar->width_mm) < 1e-6);
}

static void the_bar_is_in_proportion_to_the_shares(void **state) {
    (void)state;
    for (int i = 0; i < BLENDS; i++) {
        BagMaker *maker = bag_maker("en");
        const PlanBag *bag = bag_of_parts(maker, "a4-1", 2 + (size_t)(chance() * (PARTS_MOST - 1)));
        assert_laid_out(maker);
        const PictureMark *bar = find(maker, is_bar);
        assert_non_null(bar);
        check_bar(bar->picture, bag);
        bag_maker_free(maker);
    }
}

static void one_wood_alone_has_no_bar(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    bag_of_parts(maker, "a4-1", 1);
    assert_laid_out(maker);
    assert_null(find(maker, is_bar));
    assert_null(find(maker, is_swatch));
    bag_maker_free(maker);
}

/* How a swatch is hatched: each of its paths but the edge, by ink, width and slope. */
static const char *hatch_said(Arena *arena, const Picture *swatch) {
    Text text = text_new(arena);
    for (size_t i = 0; i < swatch->paths.count; i++) {
        const PathMark *path = &swatch->paths.items[i];
        if (is_edge(path))
            continue;
        Point from = path->steps.items[0].to, to = path->steps.items[1].to;
        double slope = fmod(atan2(to.y_mm - from.y_mm, to.x_mm - from.x_mm) + 2 * PI, PI);
        text_addf(&text, "%s %.2f %.1f %s;", path->style.filled ? "filled" : "line",
                  path->style.line_mm, path->style.filled ? 0 : slope,
                  path->style.filled && path->steps.count > 5 ? "dots" : "");
    }
    return text.bytes;
}

/* Seven of their own; the parts beyond share one. Pure black and white, no line under two dots of
 * a printer with 203 an inch, 0.25 mm. */
static void each_part_has_a_hatch_of_its_own_beside_its_name(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    bag_of_parts(maker, "a4-1", PARTS_MOST);
    assert_laid_out(maker);
    const char *said[PARTS_MOST];
    size_t count = 0, at = 0;
    const PictureMark *mark;
    while ((mark = pictures(maker, &at)) != NULL) {
        if (!is_swatch(mark->picture))
            continue;
        const Mark *name = &maker->document->pages.items[0]->marks.items[at];
        assert_int_equal(name->kind, MARK_TEXT);
        assert_non_null(strstr(name->as.text.string, "Wood"));
        assert_in_range(count, 0, PARTS_MOST - 1);
        said[count++] = hatch_said(maker->arena, mark->picture);
        for (size_t i = 0; i < mark->picture->paths.count; i++) {
            const Style *style = &mark->picture->paths.items[i].style;
            assert_true(style->line.grey == 0 && style->fill.grey == 0);
            assert_true(style->filled || style->line_mm >= 0.25 - 1e-9);
        }
    }
    assert_int_equal(count, PARTS_MOST);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < i; k++)
            if ((strcmp(said[i], said[k]) == 0) != (k >= HATCHES_OWN))
                fail_msg("parts %zu and %zu: '%s' and '%s'", k, i, said[k], said[i]);
    bag_maker_free(maker);
}

/* ---- The grains ---- */

typedef struct Polygon {
    size_t count;
    Point corners[20];
} Polygon;

/* The n-th outline of the strip; false: there are no more. */
static bool polygon_at(const Steps *steps, size_t *at, Polygon *polygon) {
    polygon->count = 0;
    while (*at < steps->count && steps->items[*at].kind != STEP_CLOSE && polygon->count < 20)
        polygon->corners[polygon->count++] = steps->items[(*at)++].to;
    ++*at;
    return polygon->count > 0;
}

/* The least distance of two parallel lines around it, by sweeping half a turn. */
static double breadth_mm(const Polygon *polygon) {
    double breadth = INFINITY;
    for (int n = 0; n < SWEEP; n++) {
        double angle = PI * n / SWEEP, least = INFINITY, most = -INFINITY;
        for (size_t i = 0; i < polygon->count; i++) {
            double along = polygon->corners[i].x_mm * cos(angle) +
                           polygon->corners[i].y_mm * sin(angle);
            least = fmin(least, along);
            most = fmax(most, along);
        }
        breadth = fmin(breadth, most - least);
    }
    return breadth;
}

static int ascending(const void *one, const void *other) {
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

static size_t breadths(const Picture *strip, double *sizes_mm, size_t most) {
    size_t count = 0, at = 0;
    Polygon polygon;
    while (count < most && polygon_at(&strip->paths.items[0].steps, &at, &polygon))
        sizes_mm[count++] = breadth_mm(&polygon);
    qsort(sizes_mm, count, sizeof *sizes_mm, ascending);
    return count;
}

/* The size at which the share of the mass between the two ends of a log-uniform curve lies. */
static void the_grains_have_the_sizes_of_the_curve(void **state) {
    (void)state;
    static const double ranges[][2] = {
        {0.31e-3, 1.1e-3}, {0.15e-3, 0.4e-3}, {0.5e-3, 0.75e-3}, {0.8e-3, 2.5e-3}, {1e-3, 4e-3}};
    for (size_t r = 0; r < sizeof ranges / sizeof *ranges; r++) {
        double from_mm = ranges[r][0] * 1000, to_mm = ranges[r][1] * 1000;
        double sizes_mm[200] = {0};
        BagMaker *maker = bag_maker("en");
        PlanBag *bag = bag_maker_add(maker, "a4-4", 0.25, 1, 1);
        bag_maker_grains(bag, ranges[r][0], ranges[r][1]);
        assert_laid_out(maker);
        const PictureMark *strip = find(maker, is_grains);
        assert_non_null(strip);
        size_t count = breadths(strip->picture, sizes_mm, 200);
        assert_true(count >= 20);
        for (size_t i = 0; i < count; i++) {
            double wanted_mm = from_mm * pow(to_mm / from_mm, ((double)i + 0.5) / (double)count);
            if (fabs(sizes_mm[i] - wanted_mm) > 0.01 * wanted_mm)
                fail_msg("grain %zu of %zu: %.3f mm, not %.3f", i, count, sizes_mm[i], wanted_mm);
        }
        bag_maker_free(maker);
    }
}

/* A curve with two humps is drawn with two humps: what lies between is not. */
static void a_curve_with_two_humps_is_drawn_so(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    PlanBag *bag = bag_maker_add(maker, "a4-4", 0.25, 1, 1);
    bag_maker_grains(bag, 0.3e-3, 2e-3);
    for (int i = 0; i < MIDDLE_SIZES; i++)
        bag->grain_sizes_m[i] = i <= MIDDLE_SIZES / 2 ? 0.3e-3 + i * 1e-6 : 1.96e-3 + i * 1e-6;
    assert_laid_out(maker);
    double sizes_mm[200] = {0};
    size_t count = breadths(find(maker, is_grains)->picture, sizes_mm, 200), coarse = 0, fine = 0;
    for (size_t i = 0; i < count; i++) {
        coarse += sizes_mm[i] > 1.9;
        fine += sizes_mm[i] < 0.35;
    }
    assert_true(coarse + fine + 3 >= count);
    assert_true(fabs((double)coarse - (double)fine) <= 2);
    bag_maker_free(maker);
}

static void grains_lie_apart_and_within_their_strip(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    bag_maker_add(maker, "a4-4", 0.25, 1, 1);
    assert_laid_out(maker);
    const Picture *strip = find(maker, is_grains)->picture;
    Box box = path_box(&strip->paths.items[0].steps);
    assert_true(box.x_mm >= 0 && box.y_mm >= 0 && box.x_mm + box.width_mm <= strip->width_mm &&
                box.y_mm + box.height_mm <= strip->height_mm);
    Polygon one, other;
    for (size_t at = 0; polygon_at(&strip->paths.items[0].steps, &at, &one);) {
        size_t next = at;
        while (polygon_at(&strip->paths.items[0].steps, &next, &other))
            for (size_t i = 0; i < one.count; i++)
                for (size_t k = 0; k < other.count; k++)
                    assert_true(hypot(one.corners[i].x_mm - other.corners[k].x_mm,
                                      one.corners[i].y_mm - other.corners[k].y_mm) > 0.1);
    }
    bag_maker_free(maker);
}

static const char *page_marks(BagMaker *maker) {
    Text text = text_new(maker->arena);
    marks_print(&text, maker->document->pages.items[0]);
    return text.bytes;
}

static void the_same_lot_has_the_same_grains_and_another_has_others(void **state) {
    (void)state;
    const char *marks[3];
    BagMaker *makers[3];
    for (int i = 0; i < 3; i++) {
        makers[i] = bag_maker("en");
        makers[i]->plan->lot = i == 2 ? "L26338-7W" : "L26338-7V";
        bag_maker_add(makers[i], "a4-4", 0.25, 1, 1);
        assert_laid_out(makers[i]);
        marks[i] = strstr(page_marks(makers[i]), "picture");
    }
    assert_string_equal(marks[0], marks[1]);
    assert_string_not_equal(marks[0], marks[2]);
    for (int i = 0; i < 3; i++)
        bag_maker_free(makers[i]);
}

static void grains_that_no_printer_shows_are_not_drawn(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    bag_maker_add(maker, "a4-4", 0.25, 1, 1)->grain_drawable = false;
    assert_laid_out(maker);
    assert_null(find(maker, is_grains));
    assert_null(strstr(page_marks(maker), "true size"));
    bag_maker_free(maker);
}

/* ---- The logo ---- */

/* A square page with a black square of half its side in its middle. */
static void give_logo(BagMaker *maker, double width, double height) {
    Logo *logo = &maker->workshop->maker.logo;
    *logo = (Logo){.width = width, .height = height, .nonzero = true};
    const double corners[][2] = {{0.25, 0.25}, {0.75, 0.25}, {0.75, 0.75}, {0.25, 0.75}};
    for (size_t i = 0; i < 4; i++)
        LIST_ADD(maker->arena, &logo->outlines,
                 ((OutlineStep){.kind = i ? OUTLINE_LINE : OUTLINE_MOVE,
                                .to = {corners[i][0] * width, corners[i][1] * height}}));
    LIST_ADD(maker->arena, &logo->outlines, ((OutlineStep){.kind = OUTLINE_CLOSE}));
}

static bool is_logo(const Picture *picture) {
    return picture->paths.count == 1 && picture->paths.items[0].style.nonzero;
}

static void the_logo_stands_at_the_top_right_unstretched(void **state) {
    (void)state;
    static const double sides[][2] = {{100, 100}, {300, 100}, {20, 100}, {500, 100}};
    for (size_t i = 0; i < sizeof sides / sizeof *sides; i++) {
        BagMaker *maker = bag_maker("en");
        give_logo(maker, sides[i][0], sides[i][1]);
        bag_maker_add(maker, "a4-8", 0.25, 1, 1);
        assert_laid_out(maker);
        const PictureMark *mark = find(maker, is_logo);
        assert_non_null(mark);
        const Picture *logo = mark->picture;
        Box box = path_box(&logo->paths.items[0].steps);
        assert_true(fabs(logo->width_mm / logo->height_mm - sides[i][0] / sides[i][1]) < 1e-9);
        assert_true(fabs(box.width_mm - logo->width_mm / 2) < 1e-9);
        assert_true(fabs(box.x_mm - logo->width_mm / 4) < 1e-9);
        assert_true(logo->height_mm <= 9 + 1e-9 && logo->width_mm <= 20 + 1e-9);
        const Stock *stock = stock_find(maker->request.stocks, "a4-8");
        Box inside =
            stock_inside(stock, stock_label(stock, 0), maker->request.patterns.whole->margin_mm);
        assert_true(fabs(mark->corner.x_mm + logo->width_mm - inside.x_mm - inside.width_mm) < 0.5);
        assert_true(fabs(mark->corner.y_mm - inside.y_mm) < 0.5);
        bag_maker_free(maker);
    }
}

/* 14 × 9 mm on the label the pattern is made for: nothing is printed there. */
static void a_blank_logo_leaves_its_place_free(void **state) {
    (void)state;
    BagMaker *maker = bag_maker("en");
    maker->workshop->maker.logo.blank = true;
    maker->batch->blend.name = "A name that would be longer than one line if it could";
    bag_maker_add(maker, "a4-8", 0.25, 1, 1);
    assert_laid_out(maker);
    const Stock *stock = stock_find(maker->request.stocks, "a4-8");
    Box inside =
        stock_inside(stock, stock_label(stock, 0), maker->request.patterns.whole->margin_mm);
    Box place = {inside.x_mm + inside.width_mm - 14, inside.y_mm, 14, 9};
    const Page *page = maker->document->pages.items[0];
    for (size_t i = 0; i < page->marks.count; i++)
        assert_true(boxes_apart(bag_maker_ink(maker, &page->marks.items[i]), place));
    bag_maker_free(maker);
}

/* ---- What the pictures may not take ---- */

/* The template as it would be without any picture. */
static void take_pictures_away(BagMaker *maker) {
    for (size_t i = 0; i < maker->request.patterns.whole->nodes.count; i++) {
        Node *node = maker->request.patterns.whole->nodes.items[i];
        if (node->drop && node->drop < STEP_TENTHS)
            node->condition = "!number"; /* each bag has one */
        if (node->from && node->from < STEP_TENTHS)
            node->from = 0;
    }
}

/* The size of the text that begins so; 0: it is not there. */
static double size_of(BagMaker *maker, const char *start, FaceRole face) {
    const Page *page = maker->document->pages.items[0];
    for (size_t i = 0; i < page->marks.count; i++) {
        const TextMark *text = &page->marks.items[i].as.text;
        if (page->marks.items[i].kind == MARK_TEXT && text->face == face &&
            strncmp(text->string, start, strlen(start)) == 0)
            return text->size_pt;
    }
    return 0;
}

static double style_size(BagMaker *maker, const char *name) {
    const Pattern *pattern = maker->request.patterns.whole;
    for (size_t i = 0; i < pattern->styles.count; i++)
        if (strcmp(pattern->styles.items[i].name, name) == 0)
            return pattern->styles.items[i].sizes_pt[0];
    fail_msg("no style '%s'", name);
    return 0;
}

static BagMaker *common_bag(const char *language, size_t stock, Market market, bool with,
                            bool *good) {
    BagMaker *maker = bag_maker(language);
    maker->workshop->market = market;
    if (with)
        give_logo(maker, 120, 100);
    else
        take_pictures_away(maker);
    bag_maker_add(maker, maker->request.stocks->stocks.items[stock].name, 0.25, 1, 1);
    *good = bag_maker_lay_out(maker);
    return maker;
}

/* On every stock: what fitted fits, and no text that law or safety wants is smaller than without
 * pictures, unless it is still no smaller than on a label of the pattern's own size. */
static void pictures_take_nothing_from_the_words(void **state) {
    (void)state;
    static const struct {
        const char *starts[3]; /* by language */
        FaceRole face;
        const char *style;
    } rows[] = {
        {{"WARNING", "WARNUNG", "OSTRZE"}, FACE_CONDENSED_BOLD, "caution"},
        {{"250", "250", "250"}, FACE_BOLD, "net"},
        {{"L26338", "L26338", "L26338"}, FACE_CONDENSED_BOLD, "fact"},
        {{"Toad Ditch", "Toad Ditch", "Toad Ditch"}, FACE_CONDENSED_BOLD, "maker"},
        {{"Beech", "Beech", "Beech"}, FACE_BOLD, "name"},
    };
    BagMaker *all = bag_maker("en");
    size_t drawn = 0, stocks = all->request.stocks->stocks.count;
    for (size_t n = 0; n < stocks * 3; n++) {
        size_t language = n % 3;
        bool good = false, good_without = false;
        BagMaker *with = common_bag(languages[language], n / 3, MARKET_EU, true, &good);
        BagMaker *without = common_bag(languages[language], n / 3, MARKET_EU, false, &good_without);
        assert_true(good == good_without);
        for (size_t i = 0; good && i < sizeof rows / sizeof *rows; i++) {
            double now = size_of(with, rows[i].starts[language], rows[i].face);
            double before = size_of(without, rows[i].starts[language], rows[i].face);
            if (now < fmin(before, style_size(with, rows[i].style)) - 1e-6)
                fail_msg("%s: '%s' %g pt, without pictures %g pt",
                         all->request.stocks->stocks.items[n / 3].name, rows[i].starts[language],
                         now, before);
        }
        size_t at = 0;
        drawn += good && pictures(with, &at) != NULL;
        bag_maker_free(with);
        bag_maker_free(without);
    }
    assert_true(drawn > stocks); /* else nothing was looked at */
    bag_maker_free(all);
}

/* Every picture lies on its label and apart from all texts, on every stock. */
static void pictures_cover_nothing(void **state) {
    (void)state;
    static const Market markets[] = {MARKET_EU, MARKET_US};
    BagMaker *all = bag_maker("en");
    for (size_t n = 0; n < all->request.stocks->stocks.count * 6; n++) {
        bool good = false;
        BagMaker *maker = common_bag(languages[n % 3], n / 6, markets[n / 3 % 2], true, &good);
        const Page *page = good ? maker->document->pages.items[0] : NULL;
        const Stock *stock = &maker->request.stocks->stocks.items[n / 6];
        for (size_t i = 0; page && i < page->marks.count; i++) {
            const Mark *mark = &page->marks.items[i];
            if (mark->kind != MARK_PICTURE)
                continue;
            Box box = mark_box(mark, maker->request.faces), label = stock_label(stock, 0);
            label.height_mm = stock->roll ? page->height_mm : label.height_mm;
            Box inside = stock_inside(stock, label, maker->request.patterns.whole->least_margin_mm);
            assert_true(box.x_mm >= inside.x_mm - 1e-6 && box.y_mm >= inside.y_mm - 1e-6 &&
                        box.x_mm + box.width_mm <= inside.x_mm + inside.width_mm + 1e-6 &&
                        box.y_mm + box.height_mm <= inside.y_mm + inside.height_mm + 1e-6);
            for (size_t k = 0; k < page->marks.count; k++)
                if (page->marks.items[k].kind != MARK_PATH && k != i)
                    assert_true(boxes_apart(bag_maker_ink(maker, &page->marks.items[k]), box));
        }
        bag_maker_free(maker);
    }
    bag_maker_free(all);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_bar_is_in_proportion_to_the_shares),
        cmocka_unit_test(one_wood_alone_has_no_bar),
        cmocka_unit_test(each_part_has_a_hatch_of_its_own_beside_its_name),
        cmocka_unit_test(the_grains_have_the_sizes_of_the_curve),
        cmocka_unit_test(a_curve_with_two_humps_is_drawn_so),
        cmocka_unit_test(grains_lie_apart_and_within_their_strip),
        cmocka_unit_test(the_same_lot_has_the_same_grains_and_another_has_others),
        cmocka_unit_test(grains_that_no_printer_shows_are_not_drawn),
        cmocka_unit_test(the_logo_stands_at_the_top_right_unstretched),
        cmocka_unit_test(a_blank_logo_leaves_its_place_free),
        cmocka_unit_test(pictures_take_nothing_from_the_words),
        cmocka_unit_test(pictures_cover_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
