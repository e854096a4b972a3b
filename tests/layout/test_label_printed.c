/* The net quantity as it comes out of a printer of 600 dots to the inch, measured in dots against
 * tests/reference/net_quantity_height.csv: in each band of each law, at its edges. */
#include "support/bag_maker.h"
#include "support/marks.h"
#include "support/outside.h"

#include "base/file.h"
#include "model/net_quantity.h"
#include "print/pdf.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <ctype.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DOTS_PER_MM (600 / 25.4)
#define INK 128
#define MOST_BYTES (64u * 1024 * 1024)

enum { ROWS_MOST = 40, GLYPHS_MOST = 64 };

/* A band of a law: what the height goes by, and the edges of it. */
typedef struct Band {
    Market market;
    char basis; /* n: quantity in g; p: face in sq in; m: longest side in mm */
    double lower, upper;
    double height_mm;
} Band;

static Band bands[ROWS_MOST];
static size_t band_count;
static const char *folder;

static void read_bands(void) {
    static const char *const names[] = {"EU", "UK", "US", "AU"};
    FILE *file = fopen("tests/reference/net_quantity_height.csv", "r");
    assert_non_null(file);
    char line[512];
    while (fgets(line, sizeof line, file)) {
        char region[16] = "", basis[32] = "";
        if (sscanf(line, "%15[^,],%31[^,],", region, basis) != 2)
            continue;
        bool wanted = !strcmp(basis, "nominal_quantity_g") || !strcmp(basis, "pdp_area_sq_in") ||
                      !strcmp(basis, "max_package_dimension_mm");
        for (int market = 0; wanted && market < 4; market++) {
            if (strcmp(region, names[market]) != 0)
                continue;
            char *at = strchr(strchr(line, ',') + 1, ',') + 1;
            Band band = {.market = (Market)market, .basis = basis[0]};
            band.lower = strtod(at, &at);
            band.upper = strtod(at + 1, &at);
            band.height_mm = strtod(at + 1, NULL);
            assert_true(band_count < ROWS_MOST);
            bands[band_count++] = band;
        }
    }
    fclose(file);
    assert_int_equal(band_count, 17);
}

/* ---- One label in a picture ---- */

typedef struct Raster {
    int width, height;
    const unsigned char *dots;
} Raster;

static Raster picture_of(BagMaker *maker, const char *path, Box part) {
    int status = -1;
    const char *error = NULL;
    Bytes bytes = {0};
    outside_run(maker->arena, &status,
                "pdftoppm -r 600 -gray -singlefile -x %d -y %d -W %d -H %d '%s' '%s/part'",
                (int)(part.x_mm * DOTS_PER_MM), (int)(part.y_mm * DOTS_PER_MM),
                (int)ceil(part.width_mm * DOTS_PER_MM), (int)ceil(part.height_mm * DOTS_PER_MM),
                path, folder);
    assert_int_equal(status, 0);
    const char *name = arena_format(maker->arena, "%s/part.pgm", folder);
    if (!file_read(maker->arena, name, MOST_BYTES, &bytes, &error))
        fail_msg("%s", error);
    char *at = (char *)bytes.data + 2;
    Raster picture = {0};
    picture.width = (int)strtol(at, &at, 10);
    picture.height = (int)strtol(at, &at, 10);
    assert_int_equal(strtol(at, &at, 10), 255);
    picture.dots = (const unsigned char *)at + 1;
    return picture;
}

/* The rows of ink of a column; `top` over `foot`: none. */
static bool column_ink(const Raster *picture, int column, int *top, int *foot) {
    bool ink = false;
    for (int row = 0; row < picture->height; row++)
        if (picture->dots[row * picture->width + column] < INK) {
            *top = row < *top ? row : *top;
            *foot = row > *foot ? row : *foot;
            ink = true;
        }
    return ink;
}

/* A letter's rows of ink. */
typedef struct Glyph {
    int top, foot;
} Glyph;

/* Letters stand apart, so that each is a run of columns with ink. */
static size_t glyphs_of(const Raster *picture, Glyph glyphs[GLYPHS_MOST]) {
    size_t count = 0;
    bool before = false;
    Glyph now = {INT32_MAX, -1};
    for (int column = 0; column <= picture->width; column++) {
        bool ink = column < picture->width && column_ink(picture, column, &now.top, &now.foot);
        if (before && !ink) {
            assert_true(count < GLYPHS_MOST);
            glyphs[count++] = now;
            now = (Glyph){INT32_MAX, -1};
        }
        before = ink;
    }
    return count;
}

/* Dots of a letter that the law counts; -1: it counts none of it. EU and UK count the figures, the
 * US small letters by their `o`, which is as high as a g above its line; Australia all. */
static int counted_dots(Market market, char letter, Glyph glyph, int baseline) {
    if (isdigit((unsigned char)letter))
        return glyph.foot - glyph.top + 1;
    if (market == MARKET_US && (isupper((unsigned char)letter) || letter == 'g'))
        return baseline - glyph.top + 1;
    bool all = market == MARKET_AU && isalpha((unsigned char)letter);
    return all ? glyph.foot - glyph.top + 1 : -1;
}

/* Measures a line of the quantity; returns how many letters counted. A dot more or less is the
 * drawing's. */
static int check_line(BagMaker *maker, const char *path, const TextMark *text, const char *stock,
                      double height_mm) {
    double size_mm = text->size_pt * 25.4 / 72;
    double width_mm =
        face_width_mm(maker->request.faces->faces[text->face], text->string, text->size_pt);
    /* from over the figures to under a g, and nothing of the lines above and below */
    Box part = {text->baseline.x_mm - 0.3, text->baseline.y_mm - 0.73 * size_mm, width_mm + 0.6,
                0.95 * size_mm};
    Raster picture = picture_of(maker, path, part);
    int baseline = (int)((text->baseline.y_mm - part.y_mm) * DOTS_PER_MM);
    Glyph glyphs[GLYPHS_MOST];
    size_t count = glyphs_of(&picture, glyphs);
    size_t found = 0;
    int counted = 0;
    for (const char *at = text->string; *at; at++) {
        if (*at == ' ' || (unsigned char)*at >= 0x80)
            continue;
        assert_true(found < count);
        int dots = counted_dots(maker->workshop->market, *at, glyphs[found++], baseline);
        if (dots >= 0 && dots + 1 < height_mm * DOTS_PER_MM)
            fail_msg("'%c' of '%s' on %s: %.2f mm, not %g mm", *at, text->string, stock,
                     dots / DOTS_PER_MM, height_mm);
        counted += dots >= 0 ? 1 : 0;
    }
    assert_int_equal(found, count);
    return counted;
}

static const char *write_pdf(BagMaker *maker) {
    Bytes bytes = {0};
    const char *error = NULL;
    const char *path = arena_format(maker->arena, "%s/label.pdf", folder);
    if (!pdf_write(maker->document, maker->request.faces, maker->arena, &bytes, &error))
        fail_msg("%s", error);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes.data, 1, bytes.length, file), bytes.length);
    assert_int_equal(fclose(file), 0);
    return path;
}

/* Prints a label of that band and measures it; false when the stock does not take it. */
static bool check_band(const Band *band, double value, const char *stock) {
    BagMaker *maker = bag_maker("en");
    maker->workshop->market = band->market;
    maker->batch->blend.name = "Oak"; /* the other text in bold */
    double net_kg = band->basis == 'n' ? value / 1000 : 0.25;
    double side_m = band->basis == 'p' ? sqrt(value) * 0.0254 : value / 1000;
    bag_maker_add(maker, stock, net_kg, 1, 1)->figure_height_m =
        net_quantity_figure_height_m(band->market, net_kg, side_m, side_m);
    bool good = bag_maker_lay_out(maker);
    int counted = 0;
    const char *path = good ? write_pdf(maker) : NULL;
    for (size_t i = 0; good && i < maker->document->pages.items[0]->marks.count; i++) {
        const Mark *mark = &maker->document->pages.items[0]->marks.items[i];
        bool quantity = mark->kind == MARK_TEXT && mark->as.text.face == FACE_BOLD &&
                        !strstr(mark->as.text.string, "Oak");
        if (quantity)
            counted += check_line(maker, path, &mark->as.text, stock, band->height_mm);
    }
    assert_true(!good || counted > 0);
    bag_maker_free(maker);
    return good;
}

/* From exactly 1 kg up one reading asks for 6 mm, which is what is printed; so below it is taken
 * here. A band without an end is tried at what a bag may be at most. */
static double upper_edge(const Band *band) {
    if (band->upper > 0)
        return band->basis == 'n' && band->upper == 1000 ? 999 : band->upper;
    return band->basis == 'n' ? 10000 : band->lower * 2;
}

/* A whole gram over the lower edge, or a hair of a face. */
static double lower_edge(const Band *band) {
    bool quantity = band->basis == 'n';
    return quantity ? band->lower + (band->lower > 5 ? 1 : 0) : band->lower * 1.001 + 1;
}

static void every_band_prints_high_enough_at_both_its_edges(void **state) {
    (void)state;
    int printed = 0;
    for (size_t i = 0; i < band_count; i++) {
        printed += check_band(&bands[i], lower_edge(&bands[i]), "a4-8");
        printed += check_band(&bands[i], upper_edge(&bands[i]), "letter-6");
    }
    assert_true(printed >= 32);
}

static void every_stock_prints_high_enough(void **state) {
    (void)state;
    BagMaker *all = bag_maker("en");
    size_t printed = 0;
    for (size_t n = 0; n < all->request.stocks->stocks.count; n++)
        for (size_t i = 0; i < band_count; i++)
            printed += check_band(&bands[i], upper_edge(&bands[i]),
                                  all->request.stocks->stocks.items[n].name);
    assert_true(printed >= 10 * all->request.stocks->stocks.count);
    bag_maker_free(all);
}

static int begin(void **state) {
    Arena *arena = arena_new();
    *state = arena;
    folder = outside_folder(arena);
    read_bands();
    return 0;
}

static int end(void **state) {
    outside_remove(folder);
    arena_free(*state);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_band_prints_high_enough_at_both_its_edges),
        cmocka_unit_test(every_stock_prints_high_enough),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
