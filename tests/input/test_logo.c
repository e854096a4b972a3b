/* A logo's file: what is taken, and that all else is refused where it stands, with a way out. */
#include "input/logo_reader.h"

#include "base/file.h"
#include "base/pi.h"
#include "base/text.h"
#include "support/outside.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <math.h>
#include <string.h>

static Arena *arena;
static const char *folder;

static int load(void **state) {
    (void)state;
    arena = arena_new();
    folder = outside_folder(arena);
    return 0;
}

static int unload(void **state) {
    (void)state;
    outside_remove(folder);
    arena_free(arena);
    return 0;
}

typedef struct Read {
    bool good;
    bool could_not_open;
    Logo logo;
    const char *said;
} Read;

static Read read_path(const char *path) {
    Read read = {0};
    Diagnostics diagnostics = diagnostics_new(arena);
    read.good = read_logo(&diagnostics, path, (Place){.file = "workshop.xml", .line = 5},
                          &read.logo, &read.could_not_open);
    Text text = text_new(arena);
    diagnostics_add_to(&diagnostics, &text);
    read.said = text.bytes;
    return read;
}

static Read read_text(const char *text) {
    const char *path = arena_format(arena, "%s/mark.svg", folder);
    const char *error = NULL;
    if (!file_write(arena, path, text, strlen(text), &error))
        fail_msg("%s", error);
    return read_path(path);
}

#define SVG(page, path)                                                                            \
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"" page "\">\n  " path "\n</svg>\n"

static void a_drawing_is_taken(void **state) {
    (void)state;
    Read read = read_text(SVG("-10 -20 40 50", "<path d=\"M-10,-20h40v50h-40z\"/>"));
    if (!read.good)
        fail_msg("%s", read.said);
    assert_true(read.logo.width == 40 && read.logo.height == 50 && read.logo.nonzero);
    assert_int_equal(read.logo.outlines.count, 5);
    assert_true(read.logo.outlines.items[0].to.x == 0 && read.logo.outlines.items[0].to.y == 0);
    assert_true(read.logo.outlines.items[2].to.x == 40 && read.logo.outlines.items[2].to.y == 50);
    read = read_text(SVG("0 0 9 9", "<path fill-rule=\"evenodd\" fill=\"#000\" stroke=\"none\" "
                                    "d=\"M0 0H9V9Z\"/>"));
    assert_true(read.good && !read.logo.nonzero);
}

static void that_of_the_sample_is_taken(void **state) {
    (void)state;
    assert_true(read_path("samples/mark.svg").good);
}

static void all_else_is_refused_where_it_stands(void **state) {
    (void)state;
    static const struct {
        const char *text, *said;
    } rows[] = {
        {SVG("0 0 9 9", "<g transform=\"scale(2)\"><path d=\"M0 0H9V9Z\"/></g>"),
         ":2:3: error: unknown element 'g' in 'svg'"},
        {SVG("0 0 9 9", "<path transform=\"scale(2)\" d=\"M0 0H9V9Z\"/>"),
         ":2:9: error: unknown attribute 'transform' in 'path'"},
        {SVG("0 0 9 9", "<path style=\"fill:red\" d=\"M0 0H9V9Z\"/>"),
         "unknown attribute 'style' in 'path'"},
        {SVG("0 0 9 9", "<path d=\"M0 0H9V9Z\"/><path d=\"M0 0H9V9Z\"/>"), "one 'path' too many"},
        {SVG("0 0 9 9", ""), "'svg' without its 'path'"},
        {SVG("0 0 9 9", "<path fill=\"red\" d=\"M0 0H9V9Z\"/>"),
         ":2:15: error: a logo is printed in black"},
        {SVG("0 0 9 9", "<path stroke=\"black\" d=\"M0 0H9V9Z\"/>"),
         "unknown 'black' for 'stroke'"},
        {SVG("0 0 9", "<path d=\"M0 0H9V9Z\"/>"), "a number is missing at the end"},
        {SVG("0 0 9 -9", "<path d=\"M0 0H9V9Z\"/>"), "no logo"},
        {SVG("0 0 99 9", "<path d=\"M0 0H9V9Z\"/>"), "one side is at most 5 times the other"},
        {SVG("0 0 9 9", "<path d=\"M0 0H9\n  V9 L4 x Z\"/>"), ":3:9: error: a number is missing"},
        {SVG("0 0 9 9", "<path d=\"M0 0H9V9 &#32; L4 x Z\"/>"),
         ":2:12: error: a number is missing"},
        {SVG("0 0 9 9", "<path d=\"M0 0H19V9Z\"/>"), "leaves the page"},
        {SVG("0 0 9 9", "<path d=\"M0 9C-9-9 18-9 9 9Z\"/>"), "leaves the page"},
        {SVG("0 0 9 9", "<path d=\"M0 0L9 9\"/>"), "draws nothing"},
        {SVG("0 0 9 9", "<path d=\"\"/>"), "draws nothing"},
        {SVG("0 0 9 9", "<text>mark</text><path d=\"M0 0H9V9Z\"/>"), "unknown element 'text'"},
        {"<!DOCTYPE svg>\n" SVG("0 0 9 9", "<path d=\"M0 0H9V9Z\"/>"), "<!DOCTYPE"},
        {"<svg xmlns=\"http://example.org/other\" viewBox=\"0 0 9 9\"><path d=\"M0 "
         "0H9V9Z\"/></svg>",
         "namespace"},
        {"<workshop name=\"x\"/>", "not a svg file"},
        {"<svg viewBox=\"0 0 9 9\"><path d=\"M0 0H9V9Z\">", "error"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        Read read = read_text(rows[i].text);
        if (read.good || !strstr(read.said, rows[i].said))
            fail_msg("%s\nis not refused with '%s' but:\n%s", rows[i].text, rows[i].said,
                     read.said);
    }
}

static void a_file_that_is_not_there_is_told_where_it_is_named(void **state) {
    (void)state;
    Read read = read_path(arena_format(arena, "%s/none.svg", folder));
    assert_true(!read.good && read.could_not_open);
    assert_non_null(strstr(read.said, "workshop.xml:5"));
}

static void a_file_too_large_is_not_read(void **state) {
    (void)state;
    Text text = text_new(arena);
    text_add(&text, SVG("0 0 9 9", "<path d=\"M0 0H9V9Z\"/>"));
    while (text.length < LOGO_BYTES_MAX)
        text_add(&text, "<!-- nothing -->");
    Read read = read_text(text.bytes);
    assert_false(read.good);
    assert_non_null(strstr(read.said, "131072"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_drawing_is_taken),
        cmocka_unit_test(that_of_the_sample_is_taken),
        cmocka_unit_test(all_else_is_refused_where_it_stands),
        cmocka_unit_test(a_file_that_is_not_there_is_told_where_it_is_named),
        cmocka_unit_test(a_file_too_large_is_not_read),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
