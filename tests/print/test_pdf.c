/* The PDF, looked at from outside: qpdf, poppler's tools, and libharu's own measuring. */
#include "print/pdf.h"

#include "base/text.h"
#include "base/utf8.h"
#include "support/demo_page.h"
#include "support/outside.h"
#include "support/shipped.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <hpdf.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static Arena *arena;
static const FaceSet *faces;
static const char *folder;

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

static const char *in_folder(const char *name) {
    return arena_format(arena, "%s/%s", folder, name);
}

static const char *save(const char *name, Bytes bytes) {
    const char *error = NULL;
    const char *path = in_folder(name);
    if (!file_write(arena, path, bytes.data, bytes.length, &error))
        fail_msg("%s", error);
    return path;
}

static const char *saved(const char *name, const Document *document) {
    return save(name, shipped_pdf(arena, faces, document));
}

static void assert_in(const char *whole, const char *part) {
    if (!strstr(whole, part))
        fail_msg("'%s' is not in:\n%s", part, whole);
}

static void assert_not_in(const char *whole, const char *part) {
    if (strstr(whole, part))
        fail_msg("'%s' is in:\n%s", part, whole);
}

static void qpdf_finds_no_fault(void **state) {
    (void)state;
    int status = -1;
    const char *said =
        outside_run(arena, &status, "qpdf --check '%s'", saved("a.pdf", demo_document(arena)));
    assert_int_equal(status, 0);
    assert_in(said, "No syntax or stream encoding errors found");
}

static void faces_are_embedded_and_subset(void **state) {
    (void)state;
    const char *said =
        outside_run(arena, NULL, "pdffonts '%s'", saved("a.pdf", demo_document(arena)));
    int found = 0;
    assert_not_in(said, "rror");
    for (const char *line = strstr(said, "BRNSH"); line; line = strstr(line + 1, "BRNSH")) {
        assert_true(strstr(line, "CID TrueType      Identity-H       yes yes yes") != NULL);
        found++;
    }
    assert_int_equal(found, FACE_COUNT);
}

static void text_can_be_copied_in_order(void **state) {
    (void)state;
    const char *said =
        outside_run(arena, NULL, "pdftotext -raw '%s' -", saved("a.pdf", demo_document(arena)));
    assert_in(said, "Light at 21:30\n"
                    "Bold " DEMO_LINE "\n"
                    "Regular " DEMO_LINE "\n"
                    "Medium " DEMO_LINE "\n"
                    "Condensed " DEMO_LINE "\n"
                    "Narrow bold " DEMO_LINE "\n");
    assert_in(said, "seven points: 0123456789 grams");
    assert_not_in(said, "rror");
}

/* A dashed line whose gap is as wide as the solid line's, that is not stated: as qpdf undoes the
 * page, the dashes are set before the first and taken back before the second (ISO 32000-1, 8.4.3.6;
 * 1 mm is 2.835 points). */
static void a_solid_line_after_a_dashed_one_is_solid(void **state) {
    (void)state;
    Document *document = document_new(arena, "lines", "en");
    Page *page = document_page(document, 100, 100);
    mark_line(page, (Point){10, 10}, (Point){90, 10}, style_dashed(0.3, ink_black(), 1, 0));
    mark_line(page, (Point){10, 20}, (Point){90, 20}, style_line(0.3, ink_black()));
    const char *path = saved("lines.pdf", document);
    const char *said =
        outside_run(arena, NULL, "qpdf --qdf --stream-data=uncompress %s - | grep -a ' d$'", path);
    const char *dashed = strstr(said, "[2.835 2.835] 0 d");
    assert_non_null(dashed);
    assert_non_null(strstr(dashed, "[] 0 d"));
}

static void information_is_told(void **state) {
    (void)state;
    Document *document = demo_document(arena);
    document->dated = true;
    document->created = 1796506200; /* `date -u -d @1796506200`: 2026-12-05 21:30:00 */
    document->exact_size = true;
    const char *path = saved("a.pdf", document);
    const char *said = outside_run(arena, NULL, "TZ=UTC pdfinfo '%s'", path);
    assert_in(said, "Title:           Łosoś – Δ 2 °C\n");
    assert_in(said, "Author:          Toad Ditch Smokehouse\n");
    assert_in(said, "Subject:         A page of everything\n");
    assert_in(said, "Creator:         burnsheet test\n");
    assert_in(said, "Sat Dec  5 21:30:00 2026 UTC");
    assert_in(said, "Page size:       595.276 x 841.89 pts (A4)");
    const char *catalog = outside_run(arena, NULL, "qpdf --show-object=1 '%s'", path);
    assert_in(catalog, "/Lang (pl)");
    assert_in(catalog, "/DisplayDocTitle true");
    assert_in(catalog, "/PrintScaling /None");
    assert_in(catalog, "/OpenAction ");
    assert_string_equal(outside_run(arena, NULL, "qpdf --qdf '%s' - | grep -a -c '^ */Fit$'", path),
                        "1\n");
    assert_not_in(catalog, "/Outlines");
}

static void an_undated_document_has_no_date(void **state) {
    (void)state;
    const char *said =
        outside_run(arena, NULL, "pdfinfo '%s'", saved("a.pdf", demo_document(arena)));
    assert_not_in(said, "CreationDate");
}

static void several_pages_have_bookmarks(void **state) {
    (void)state;
    Document *document = document_new(arena, "season", "en");
    static const char *labels[] = {"Front page", "Łosoś – 5 grudnia", NULL};
    for (int i = 0; i < 3; i++) {
        Page *page = document_page(document, 100 + i, 60);
        page->bookmark = labels[i];
        mark_text(page, 5, 10, FACE_REGULAR, 10, ink_black(), arena_format(arena, "page %d", i));
    }
    const char *path = saved("many.pdf", document);
    const char *outline = outside_run(arena, NULL, "qpdf --json --json-key=outlines '%s'", path);
    assert_in(outline, "Front page");
    assert_in(outline, "Łosoś – 5 grudnia");
    assert_in(outline, "/Fit");
    assert_in(outside_run(arena, NULL, "pdfinfo '%s'", path), "Pages:           3\n");
    assert_in(outside_run(arena, NULL, "pdftotext -f 2 -l 2 '%s' -", path), "page 1\n");
}

static void the_same_document_gives_the_same_bytes(void **state) {
    (void)state;
    Bytes first = shipped_pdf(arena, faces, demo_document(arena));
    setenv("TZ", "Pacific/Auckland", 1);
    Bytes again = shipped_pdf(arena, faces, demo_document(arena));
    unsetenv("TZ");
    assert_int_equal(first.length, again.length);
    assert_memory_equal(first.data, again.data, first.length);
}

/* The page as pixels, in a plain format without date. */
static Bytes pixels(const char *name, const char *path) {
    const char *error = NULL;
    Bytes bytes = {0};
    const char *said =
        outside_run(arena, NULL, "pdftoppm -r 100 -singlefile '%s' '%s'", path, in_folder(name));
    const char *picture = arena_format(arena, "%s.ppm", in_folder(name));
    if (!file_read(arena, picture, 20000000, &bytes, &error))
        fail_msg("%s\n%s", error, said);
    return bytes;
}

/* A page of every character the faces have, the highest of each too: the sparse encoder must look
 * like the library's own, which nothing but the picture shows. */
static Document *every_character(void) {
    Document *document = document_new(arena, "every character", "en");
    Page *page = document_page(document, 600, 600);
    double y_mm = 5;
    for (int role = 0; role < FACE_COUNT; role++) {
        Text line = text_new(arena);
        int count = 0;
        for (uint32_t code = 0x20; code < 0xFFFF; code++) {
            char bytes[5];
            uint32_t missing;
            if (face_glyph(faces->faces[role], code) == 0)
                continue;
            utf8_encode(code, bytes);
            if (face_missing(faces->faces[role], bytes, &missing))
                continue;
            text_add(&line, bytes);
            count++;
            if (count % 90 == 0) {
                mark_text(page, 5, y_mm, (FaceRole)role, 9, ink_black(), line.bytes);
                line = text_new(arena);
                y_mm += 5;
            }
        }
        mark_text(page, 5, y_mm, (FaceRole)role, 9, ink_black(), line.bytes);
        y_mm += 5;
    }
    return document;
}

static void assert_looks_like_stock(const Document *document) {
    Bytes stock = {0};
    const char *error = NULL;
    assert_true(pdf_write_stock(document, faces, arena, &stock, &error));
    Bytes ours = pixels("ours", saved("ours.pdf", document));
    Bytes theirs = pixels("theirs", save("theirs.pdf", stock));
    assert_int_equal(ours.length, theirs.length);
    assert_true(ours.length > 100000);
    assert_memory_equal(ours.data, theirs.data, ours.length);
    size_t dark = 0;
    for (size_t i = 0; i < ours.length; i++)
        dark += ours.data[i] < 128;
    assert_true(dark > 1000);
}

static void sparse_encoding_looks_like_stock(void **state) {
    (void)state;
    assert_looks_like_stock(demo_document(arena));
    assert_looks_like_stock(every_character());
}

/* Catches what a comparison with stock alone cannot: a highest character that both leave out. */
static void the_highest_character_is_drawn(void **state) {
    (void)state;
    Document *document = document_new(arena, "one", "en");
    Page *page = document_page(document, 30, 30);
    mark_text(page, 5, 20, FACE_BOLD, 40, ink_black(), "\u2265");
    Bytes picture = pixels("one", saved("one.pdf", document));
    size_t dark = 0;
    for (size_t i = 0; i < picture.length; i++)
        dark += picture.data[i] < 128;
    assert_true(dark > 500);
}

/* Spaces of several widths, which poppler may tell as a plain one, and what has no width. */
static bool blank(uint32_t code) {
    return code == 0x20 || code == 0xA0 || (code >= 0x2000 && code <= 0x200F) || code == 0x202F;
}

static void every_character_can_be_copied(void **state) {
    (void)state;
    const Document *document = every_character();
    const char *path = saved("every.pdf", document);
    const char *said = outside_run(arena, NULL, "pdftotext -raw '%s' -", path);
    const Marks *marks = &document->pages.items[0]->marks;
    int seen = 0;
    for (size_t i = 0; i < marks->count; i++) {
        uint32_t code;
        const char *at = marks->items[i].as.text.string;
        while (utf8_next(&at, &code) && code) {
            char bytes[5];
            utf8_encode(code, bytes);
            if (!blank(code) && !strstr(said, bytes))
                fail_msg("U+%04X is drawn but cannot be copied", code);
            seen++;
        }
    }
    assert_true(seen > FACE_COUNT * 700);
}

/* What the layout measures is what the library believes, to the last digit of its floats. */
/* Each block of the map to Unicode says how many rows it has, at most a hundred (Adobe Technical
 * Note 5014, 1.4; PDF 32000-1, 9.10.3), counted here by awk. */
static void the_map_to_unicode_counts_its_rows(void **state) {
    (void)state;
    static const char count[] =
        "/ beginbfchar$/ { said = $1; rows = 0; blocks++; most = said > most ? said : most } "
        "/^<[0-9A-F]+> <[0-9A-F]+>$/ { rows++ } "
        "/^endbfchar$/ { if (rows != said || rows > 100) wrong++ } "
        "END { print (wrong + 0) \" wrong, full \" (most == 100) \", more \" (blocks > 5) }";
    const char *path = saved("every.pdf", every_character());
    assert_string_equal(
        outside_run(arena, NULL, "qpdf --qdf '%s' - | LC_ALL=C awk '%s'", path, count),
        "0 wrong, full 1, more 1\n");
    path = saved("a.pdf", demo_document(arena));
    assert_in(outside_run(arena, NULL, "qpdf --qdf '%s' - | LC_ALL=C awk '%s'", path, count),
              "0 wrong, full 0");
}

static void widths_agree_with_the_library(void **state) {
    (void)state;
    static const char *const files[FACE_COUNT] = {
        "fonts/Roboto-Regular.ttf", "fonts/Roboto-Bold.ttf", "fonts/Roboto-Medium.ttf",
        "fonts/RobotoCondensed-Regular.ttf", "fonts/RobotoCondensed-Bold.ttf"};
    static const char *const strings[] = {
        "", "i", "AVAVA To", "0123456789", DEMO_LINE, "light at 21:30, out by 05:40 (04:10–07:25)"};
    HPDF_Doc pdf = HPDF_New(NULL, NULL);
    HPDF_UseUTFEncodings(pdf);
    HPDF_Page page = HPDF_AddPage(pdf);
    for (int role = 0; role < FACE_COUNT; role++) {
        const char *name = HPDF_LoadTTFontFromFile(pdf, files[role], HPDF_TRUE);
        HPDF_Page_SetFontAndSize(page, HPDF_GetFont(pdf, name, "UTF-8"), 100);
        for (size_t i = 0; i < sizeof strings / sizeof *strings; i++) {
            double ours_pt = face_width_mm(faces->faces[role], strings[i], 100) / MM_PER_PT;
            double theirs_pt = HPDF_Page_TextWidth(page, strings[i]);
            if (!(fabs(ours_pt - theirs_pt) < 1e-3))
                fail_msg("%s: '%s' is %g and %g pt wide", files[role], strings[i], ours_pt,
                         theirs_pt);
        }
    }
    HPDF_Free(pdf);
}

/* Where poppler finds the words, in points from the top left. */
static void marks_land_where_they_were_put(void **state) {
    (void)state;
    Document *document = document_new(arena, "places", "en");
    Page *page = document_page(document, 100, 100);
    mark_text(page, 25.4, 50.8, FACE_REGULAR, 10, ink_black(), "word");
    const char *said =
        outside_run(arena, NULL, "pdftotext -bbox '%s' -", saved("places.pdf", document));
    const char *found = strstr(said, "<word xMin=\"");
    assert_non_null(found);
    double left = strtod(found + strlen("<word xMin=\""), NULL);
    const char *right_text = strstr(found, "xMax=\"");
    double right = strtod(right_text + strlen("xMax=\""), NULL);
    assert_true(fabs(left - 72) < 0.002);
    double width = face_width_mm(faces->faces[FACE_REGULAR], "word", 10) / MM_PER_PT;
    assert_true(fabs(right - 72 - width) < 0.002);
    /* A filled square 10 mm down and right is 20 mm wide: its edges at ten pixels a mm. */
    mark_rectangle(page, (Box){10, 60, 20, 20}, style_fill(ink_black()));
    const char *path = saved("places.pdf", document);
    outside_run(arena, NULL,
                "pdftoppm -gray -scale-to-x 1000 -scale-to-y 1000 -singlefile '%s' '%s'", path,
                in_folder("p"));
    Bytes picture;
    const char *error = NULL;
    assert_true(file_read(arena, in_folder("p.pgm"), 5000000, &picture, &error));
    const uint8_t *gray = picture.data + picture.length - 1000 * 1000;
    assert_true(gray[700 * 1000 + 98] == 255 && gray[700 * 1000 + 101] == 0);
    assert_true(gray[700 * 1000 + 298] == 0 && gray[700 * 1000 + 301] == 255);
    assert_true(gray[598 * 1000 + 200] == 255 && gray[601 * 1000 + 200] == 0);
    assert_true(gray[798 * 1000 + 200] == 0 && gray[801 * 1000 + 200] == 255);
}

/* Two squares one inside the other, drawn the same way round, as one path: by the even-odd rule
 * (PDF 1.3, 4.4.2) the inner one is a hole; by the other rule it would be filled. Poppler draws
 * it. */
static void a_shape_inside_a_shape_is_a_hole(void **state) {
    (void)state;
    Document *document = document_new(arena, "holes", "en");
    Page *page = document_page(document, 100, 100);
    const Style styles[] = {style_fill(ink_black()), style_both(ink_black(), 0.5, ink_black())};
    for (int i = 0; i < 2; i++) {
        Steps steps = {0};
        for (double inset_mm = 0; inset_mm <= 10; inset_mm += 10)
            path_rectangle(
                arena, &steps,
                (Box){10 + 50 * i + inset_mm, 20 + inset_mm, 30 - 2 * inset_mm, 30 - 2 * inset_mm});
        mark_path(page, &steps, styles[i]);
    }
    outside_run(arena, NULL,
                "pdftoppm -gray -scale-to-x 1000 -scale-to-y 1000 -singlefile '%s' '%s'",
                saved("holes.pdf", document), in_folder("holes"));
    Bytes picture;
    const char *error = NULL;
    assert_true(file_read(arena, in_folder("holes.pgm"), 5000000, &picture, &error));
    const uint8_t *gray = picture.data + picture.length - 1000 * 1000;
    for (int i = 0; i < 2; i++) {
        assert_int_equal(gray[350 * 1000 + 150 + 500 * i], 0);
        assert_int_equal(gray[350 * 1000 + 250 + 500 * i], 255);
        assert_int_equal(gray[350 * 1000 + 350 + 500 * i], 0);
    }
}

/* Each shape in its own ink, also where the one before had another. */
static void inks_are_those_of_each_mark(void **state) {
    (void)state;
    const Ink inks[] = {{1}, {0}, {1}, {0.2}, {0.2}, {0.8}, {0.4}, {0}, {0.6}, {1}};
    enum { INKS = sizeof inks / sizeof *inks };
    Document *document = document_new(arena, "inks", "en");
    Page *page = document_page(document, 100, 100);
    for (int i = 0; i < INKS; i++) {
        mark_rectangle(page, (Box){10. * i, 10, 8, 8}, style_fill(inks[i]));
        mark_line(page, (Point){10. * i + 4, 40}, (Point){10. * i + 4, 60}, style_line(6, inks[i]));
    }
    outside_run(arena, NULL, "pdftoppm -scale-to-x 100 -scale-to-y 100 -singlefile '%s' '%s'",
                saved("inks.pdf", document), in_folder("inks"));
    Bytes picture;
    const char *error = NULL;
    assert_true(file_read(arena, in_folder("inks.ppm"), 5000000, &picture, &error));
    const uint8_t *pixels = picture.data + picture.length - 3 * 100 * 100;
    for (int i = 0; i < INKS; i++)
        for (int row = 14; row <= 50; row += 36) {
            const uint8_t *pixel = pixels + 3 * (row * 100 + 10 * i + 4);
            int grey = (int)(255 * inks[i].grey + 0.5);
            if (pixel[0] != grey || pixel[1] != grey || pixel[2] != grey)
                fail_msg("ink %d in row %d is %d %d %d", i, row, pixel[0], pixel[1], pixel[2]);
        }
}

static void a_page_of_five_faces_is_small(void **state) {
    (void)state;
    assert_true(shipped_pdf(arena, faces, demo_document(arena)).length < 40000);
}

/* Each document has its own arena; valgrind (make check) sees what is not given back. */
static void many_documents_leave_nothing_behind(void **state) {
    (void)state;
    int count = getenv("TEST_WRAPPER") ? 5 : 200;
    for (int i = 0; i < count; i++) {
        Arena *own = arena_new();
        Bytes bytes;
        const char *error = NULL;
        Document *document = demo_document(own);
        assert_true(pdf_write(document, faces, own, &bytes, &error));
        document->pages.items[0]->marks.items[0].as.text.string = "☃";
        assert_false(pdf_write(document, faces, own, &bytes, &error));
        arena_free(own);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(qpdf_finds_no_fault),
        cmocka_unit_test(faces_are_embedded_and_subset),
        cmocka_unit_test(text_can_be_copied_in_order),
        cmocka_unit_test(a_solid_line_after_a_dashed_one_is_solid),
        cmocka_unit_test(information_is_told),
        cmocka_unit_test(an_undated_document_has_no_date),
        cmocka_unit_test(several_pages_have_bookmarks),
        cmocka_unit_test(the_same_document_gives_the_same_bytes),
        cmocka_unit_test(sparse_encoding_looks_like_stock),
        cmocka_unit_test(the_highest_character_is_drawn),
        cmocka_unit_test(every_character_can_be_copied),
        cmocka_unit_test(the_map_to_unicode_counts_its_rows),
        cmocka_unit_test(widths_agree_with_the_library),
        cmocka_unit_test(marks_land_where_they_were_put),
        cmocka_unit_test(a_shape_inside_a_shape_is_a_hole),
        cmocka_unit_test(inks_are_those_of_each_mark),
        cmocka_unit_test(a_page_of_five_faces_is_small),
        cmocka_unit_test(many_documents_leave_nothing_behind),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
