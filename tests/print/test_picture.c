/* Pictures in the PDF, looked at from outside: poppler draws them at 300 dots an inch and the black
 * dots are counted against areas known in closed form; qpdf finds no fault. */
#include "print/pdf.h"

#include "base/pi.h"
#include "support/outside.h"
#include "support/shipped.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static Arena *arena;
static const FaceSet *faces;
static const char *folder;

enum { DOTS_AN_INCH = 300 };
static const double MM_AN_INCH = 25.4;

static int load(void **state) {
    (void)state;
    arena = arena_new();
    folder = outside_folder(arena);
    faces = shipped_faces(arena);
    return 0;
}

static int unload(void **state) {
    (void)state;
    outside_remove(folder);
    arena_free(arena);
    return 0;
}

static const char *saved(const Document *document) {
    const char *error = NULL;
    const char *path = arena_format(arena, "%s/picture.pdf", folder);
    Bytes bytes = shipped_pdf(arena, faces, document);
    if (!file_write(arena, path, bytes.data, bytes.length, &error))
        fail_msg("%s", error);
    return path;
}

static long read_whole(const uint8_t **at) {
    while (isspace(**at))
        ++*at;
    char *end;
    long value = strtol((const char *)*at, &end, 10);
    *at = (const uint8_t *)end;
    return value;
}

/* Square millimetres of black on a page, grey dots by their part. */
static double black_mm2(const Document *document, int page) {
    Bytes bytes;
    const char *error = NULL;
    const char *path = saved(document);
    outside_run(arena, NULL, "pdftoppm -gray -r %d -f %d -l %d -singlefile '%s' '%s/picture'",
                DOTS_AN_INCH, page, page, path, folder);
    const char *image = arena_format(arena, "%s/picture.pgm", folder);
    if (!file_read(arena, image, 100000000, &bytes, &error))
        fail_msg("%s", error);
    assert_true(bytes.length > 20 && !memcmp(bytes.data, "P5", 2));
    const uint8_t *at = bytes.data + 2;
    long width = read_whole(&at), height = read_whole(&at), most = read_whole(&at);
    at++;
    assert_true(most == 255 && at + width * height <= bytes.data + bytes.length);
    double dots = 0;
    for (long i = 0; i < width * height; i++)
        dots += (255 - at[i]) / 255.0;
    double dot_mm = MM_AN_INCH / DOTS_AN_INCH;
    return dots * dot_mm * dot_mm;
}

static Document *document_with(const Picture *picture, size_t times) {
    Document *document = document_new(arena, "Picture", "en");
    for (size_t i = 0; i < times; i++) {
        Page *page = document_page(document, 100, 100);
        mark_picture(page, picture, (Point){7.3 + (double)i, 11.9});
    }
    return document;
}

/* Two squares of 20 mm that share a quarter of each, both drawn the same way round. */
static Picture *two_squares(bool nonzero) {
    Picture *picture = picture_new(arena, 30, 30);
    Steps steps = {0};
    path_rectangle(arena, &steps, (Box){0, 0, 20, 20});
    path_rectangle(arena, &steps, (Box){10, 10, 20, 20});
    Style style = style_fill(ink_black());
    style.nonzero = nonzero;
    picture_path(picture, steps, style);
    return picture;
}

static void assert_black(const Picture *picture, double wanted_mm2) {
    double found_mm2 = black_mm2(document_with(picture, 1), 1);
    if (fabs(found_mm2 - wanted_mm2) > 0.01 * wanted_mm2)
        fail_msg("%.2f mm² black, not %.2f", found_mm2, wanted_mm2);
}

static void the_fill_rule_says_what_is_black_where_outlines_overlap(void **state) {
    (void)state;
    assert_black(two_squares(true), 700);
    assert_black(two_squares(false), 600);
}

static void curves_and_lines_are_as_large_as_they_were_drawn(void **state) {
    (void)state;
    Picture *disc = picture_new(arena, 40, 40);
    Steps circle = {0};
    path_circle(arena, &circle, (Point){20, 20}, 20);
    picture_path(disc, circle, style_fill(ink_black()));
    assert_black(disc, PI * 400);
    Picture *line = picture_new(arena, 40, 10);
    Steps level = {0};
    path_move(arena, &level, 0, 5);
    path_line(arena, &level, 40, 5);
    picture_path(line, level, style_line(2.54, ink_black()));
    assert_black(line, 40 * 2.54);
}

/* Where its corner is put: its left edge and top are black, what is beside it is not. */
static void a_picture_stands_where_it_is_put(void **state) {
    (void)state;
    Picture *square = picture_new(arena, 10, 10);
    Steps steps = {0};
    path_rectangle(arena, &steps, (Box){0, 0, 10, 10});
    picture_path(square, steps, style_fill(ink_black()));
    Document *document = document_with(square, 1);
    mark_rectangle(document->pages.items[0], (Box){7.3, 11.9, 10, 10}, style_fill(ink_white()));
    double left_mm2 = black_mm2(document, 1);
    if (left_mm2 > 0.4) /* the dots along its edges */
        fail_msg("%.2f mm² stand elsewhere", left_mm2);
}

/* An ink or a line of the picture does not stay for what comes after it. */
static void what_follows_a_picture_has_its_own_look(void **state) {
    (void)state;
    Picture *white = picture_new(arena, 10, 10);
    Steps steps = {0};
    path_rectangle(arena, &steps, (Box){0, 0, 10, 10});
    picture_path(white, steps, style_both(ink_white(), 0.5, ink_grey(0.9)));
    Document *document = document_new(arena, "Picture", "en");
    Page *page = document_page(document, 100, 100);
    mark_rectangle(page, (Box){50, 50, 10, 10}, style_fill(ink_black()));
    mark_picture(page, white, (Point){5, 5});
    mark_rectangle(page, (Box){70, 50, 10, 10}, style_fill(ink_black()));
    double black = black_mm2(document, 1);
    assert_true(black > 200 && black < 206);
}

static void a_picture_is_written_once(void **state) {
    (void)state;
    Picture *picture = picture_new(arena, 80, 80);
    Steps steps = {0};
    for (int i = 0; i < 400; i++)
        path_circle(arena, &steps, (Point){10 + i % 20 * 3.1, 10 + i / 20 * 2.9},
                    1 + (i * 37 % 11) * 0.07);
    picture_path(picture, steps, style_fill(ink_black()));
    Document *twenty = document_with(picture, 20);
    size_t one = shipped_pdf(arena, faces, document_with(picture, 1)).length;
    size_t many = shipped_pdf(arena, faces, twenty).length;
    assert_true(one > 4000);
    if (many > one + 20 * 700) /* of a page with all that belongs to it */
        fail_msg("%zu bytes for one page, %zu for 20", one, many);
    /* the same drawing made anew counts as the same */
    Picture *again = picture_new(arena, 80, 80);
    picture_path(again, steps, style_fill(ink_black()));
    mark_picture(twenty->pages.items[0], again, (Point){1, 1});
    assert_true(shipped_pdf(arena, faces, twenty).length < many + 100);
    int status = -1;
    const char *said = outside_run(arena, &status, "qpdf --check '%s'", saved(twenty));
    if (status != 0)
        fail_msg("%s", said);
    assert_non_null(strstr(said, "No syntax or stream encoding errors"));
}

static void a_picture_off_all_paper_is_refused(void **state) {
    (void)state;
    Bytes bytes;
    const char *error = NULL;
    Document *document = document_new(arena, "Picture", "en");
    Page *page = document_page(document, 100, 100);
    mark_picture(page, two_squares(true), (Point){NAN, 0});
    assert_false(pdf_write(document, faces, arena, &bytes, &error));
    assert_non_null(strstr(error, "no proper place"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_fill_rule_says_what_is_black_where_outlines_overlap),
        cmocka_unit_test(curves_and_lines_are_as_large_as_they_were_drawn),
        cmocka_unit_test(a_picture_stands_where_it_is_put),
        cmocka_unit_test(what_follows_a_picture_has_its_own_look),
        cmocka_unit_test(a_picture_is_written_once),
        cmocka_unit_test(a_picture_off_all_paper_is_refused),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
