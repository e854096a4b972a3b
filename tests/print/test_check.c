/* What is refused before it reaches the library, and how it is told. */
#include "print/check.h"
#include "print/pdf.h"

#include "support/outside.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

static Arena *arena;
static const FaceSet *faces;

static int load(void **state) {
    (void)state;
    const char *error = NULL;
    arena = arena_new();
    faces = faces_load(arena, OUTSIDE_FONTS, &error);
    return faces ? 0 : -1;
}

static int unload(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static Document *one_page(void) {
    Document *document = document_new(arena, "test", "en");
    document_page(document, 100, 80)->owner = "steps";
    return document;
}

/* The document is refused, with exactly this said, by the check and so by the writer. */
static void assert_refused(const Document *document, const char *said) {
    const char *error = NULL;
    Bytes bytes = {0};
    assert_false(document_check(arena, document, faces, &error));
    assert_string_equal(error, said);
    error = NULL;
    assert_false(pdf_write(document, faces, arena, &bytes, &error));
    assert_string_equal(error, said);
    assert_null(bytes.data);
}

static void texts_that_cannot_be_set_are_named(void **state) {
    (void)state;
    static const struct {
        const char *string;
        const char *said;
    } cases[] = {
        {"snow ☃",
         "page 1, panel 'steps': 'snow ☃' holds U+2603 '☃', which the bold typeface lacks"},
        {"שלום", "page 1, panel 'steps': 'שלום' holds U+05E9 'ש', which the bold typeface lacks"},
        {"two\nlines", "page 1, panel 'steps': 'two\nlines' holds the control character U+000A"},
        {"cut \xC5", "page 1, panel 'steps': a text is not valid UTF-8"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Document *document = one_page();
        mark_text(document->pages.items[0], 5, 20, FACE_BOLD, 10, ink_black(), cases[i].string);
        assert_refused(document, cases[i].said);
    }
}

static Mark *good_text(Document *document) {
    return mark_text(document->pages.items[0], 5, 20, FACE_REGULAR, 10, ink_black(), "good");
}

static void impossible_texts_are_refused(void **state) {
    (void)state;
    static const double not_finite[] = {NAN, INFINITY, -INFINITY, 1e9};
    for (size_t i = 0; i < 4; i++) {
        Document *document = one_page();
        good_text(document)->as.text.baseline.y_mm = not_finite[i];
        assert_refused(document, "page 1, panel 'steps': 'good' has no proper place");
        document = one_page();
        good_text(document)->as.text.baseline.x_mm = not_finite[i];
        assert_refused(document, "page 1, panel 'steps': 'good' has no proper place");
        const char *error = NULL;
        document = one_page();
        good_text(document)->as.text.size_pt = not_finite[i];
        assert_false(document_check(arena, document, faces, &error));
    }
    Document *document = one_page();
    good_text(document)->as.text.ink.grey = 1.5;
    assert_refused(document, "page 1, panel 'steps': 'good' has an ink outside 0 to 1");
}

/* A text that leaves the paper on any side would be cut without a word. */
static void texts_over_the_edge_are_refused(void **state) {
    (void)state;
    double width = face_width_mm(faces->faces[FACE_REGULAR], "good", 10);
    const struct {
        double x_mm;
        double y_mm;
        bool good;
    } cases[] = {
        {0, 20, true},
        {-1, 20, false},
        {100 - width, 20, true},
        {100.1 - width, 20, false},
        {5, 80, true},
        {5, 81, false},
        {5, 0, true},
        {5, -1, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Document *document = one_page();
        Mark *text = good_text(document);
        text->as.text.baseline = (Point){cases[i].x_mm, cases[i].y_mm};
        const char *error = NULL;
        if (document_check(arena, document, faces, &error) != cases[i].good)
            fail_msg("case %zu: %s", i, error ? error : "taken");
        if (!cases[i].good)
            assert_string_equal(error, "page 1, panel 'steps': 'good' reaches over the edge of "
                                       "the paper");
    }
}

static void impossible_paths_are_refused(void **state) {
    (void)state;
    Style thin = style_line(0.1, ink_black());
    Document *document = one_page();
    mark_line(document->pages.items[0], (Point){0, 0}, (Point){NAN, 1}, thin);
    assert_refused(document, "page 1, panel 'steps': a path has a point with no proper place");

    document = one_page();
    Steps steps = {0};
    path_move(arena, &steps, 0, 0);
    path_curve(arena, &steps, (Point){1, 1}, (Point){INFINITY, 1}, (Point){2, 2});
    mark_path(document->pages.items[0], &steps, thin);
    assert_refused(document, "page 1, panel 'steps': a path has a curve with no proper place");

    document = one_page();
    Steps headless = {0};
    path_line(arena, &headless, 1, 1);
    mark_path(document->pages.items[0], &headless, thin);
    assert_refused(document, "page 1, panel 'steps': a path does not begin with a move");

    document = one_page();
    mark_line(document->pages.items[0], (Point){0, 0}, (Point){1, 1}, style_line(-1, ink_black()));
    assert_refused(document, "page 1, panel 'steps': a path has an impossible line width");
}

static void impossible_documents_are_refused(void **state) {
    (void)state;
    Document *document = document_new(arena, "test", "en");
    assert_refused(document, "a document of 0 pages cannot be written");
    document_page(document, 0, 100);
    assert_refused(document, "page 1: impossible paper of 0 by 100 mm");
    document->pages.items[0]->width_mm = NAN;
    assert_refused(document, "page 1: impossible paper of nan by 100 mm");
    document = one_page();
    document->author = "\xFF";
    assert_refused(document, "the document's title, author, subject, creator or "
                             "language is too long or not valid UTF-8");
}

/* The limits of libharu 2.3.0 (hpdf_consts.h: HPDF_MIN_PAGE_HEIGHT 3, HPDF_MAX_PAGE_HEIGHT 14400,
 * HPDF_MAX_FONTSIZE 600, HPDF_MAX_LINEWIDTH 100) and of its arrays: what is just within is
 * taken. */
static void limits_are_where_the_library_has_them(void **state) {
    (void)state;
    const char *error = NULL;
    const struct {
        double side_pt, size_pt, line_pt;
        bool good;
    } cases[] = {{3, 1, 1, true},        {2.99, 1, 1, false},    {14400, 1, 1, true},
                 {14400.1, 1, 1, false}, {2000, 599.9, 1, true}, {2000, 600.1, 1, false},
                 {2000, 1, 99.9, true},  {2000, 1, 100.1, false}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double side_mm = cases[i].side_pt * MM_PER_PT;
        Document *document = document_new(arena, "limits", "en");
        Page *page = document_page(document, side_mm, side_mm);
        mark_text(page, 0, side_mm, FACE_REGULAR, cases[i].size_pt, ink_black(), "i");
        mark_line(page, (Point){0, 0}, (Point){1, 1},
                  style_line(cases[i].line_pt * MM_PER_PT, ink_black()));
        if (document_check(arena, document, faces, &error) != cases[i].good)
            fail_msg("case %zu: %s", i, error ? error : "taken");
    }
    Document *document = document_new(arena, "pages", "en");
    for (int i = 0; i < 32767; i++)
        document_page(document, 10, 10);
    assert_true(document_check(arena, document, faces, &error));
    document_page(document, 10, 10);
    assert_refused(document, "a document of 32768 pages cannot be written");
}

static void bookmarks_and_titles_are_bounded(void **state) {
    (void)state;
    const char *error = NULL;
    Document *document = one_page();
    document->pages.items[0]->bookmark = "cut \xC5";
    assert_refused(document, "page 1: bookmark too long or not valid UTF-8");
    char *string = arena_take(arena, 16002, 1);
    memset(string, 'a', 16001);
    document->pages.items[0]->bookmark = string;
    assert_refused(document, "page 1: bookmark too long or not valid UTF-8");
    document->pages.items[0]->bookmark = string + 1;
    assert_true(document_check(arena, document, faces, &error));
    document->title = string + 1;
    assert_true(document_check(arena, document, faces, &error));
    document->title = string;
    assert_false(document_check(arena, document, faces, &error));
}

static void damaged_faces_are_told(void **state) {
    (void)state;
    Document *document = one_page();
    good_text(document);
    /* Whole for our reader, which needs no outlines, but not for the library. */
    size_t length;
    const uint8_t *bytes = face_bytes(faces->faces[FACE_REGULAR], &length);
    uint8_t *copy = arena_take(arena, length, 1);
    memcpy(copy, bytes, length);
    for (size_t at = 12; at < 12 + 16 * 20; at += 16)
        if (memcmp(copy + at, "loca", 4) == 0)
            memcpy(copy + at, "none", 4);
    FaceSet damaged = *faces;
    const char *error = NULL;
    damaged.faces[FACE_REGULAR] = face_read(arena, copy, length, &error);
    assert_non_null(damaged.faces[FACE_REGULAR]);
    Bytes out;
    assert_false(pdf_write(document, &damaged, arena, &out, &error));
    assert_non_null(strstr(error, "the PDF library failed with status 0x10"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_that_cannot_be_set_are_named),
        cmocka_unit_test(impossible_texts_are_refused),
        cmocka_unit_test(texts_over_the_edge_are_refused),
        cmocka_unit_test(impossible_paths_are_refused),
        cmocka_unit_test(impossible_documents_are_refused),
        cmocka_unit_test(limits_are_where_the_library_has_them),
        cmocka_unit_test(bookmarks_and_titles_are_bounded),
        cmocka_unit_test(damaged_faces_are_told),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
