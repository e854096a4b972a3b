/* Reports: their order, the caret, what is cut, and that nothing in a file steers a terminal. */
#include "base/diagnostic.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <string.h>

static Place at(const char *file, int line, int column, int length) {
    return (Place){.file = file, .line = line, .column = column, .length = length};
}

static const char *printed(const Diagnostics *diagnostics) {
    Text text = text_new(diagnostics->arena);
    diagnostics_add_to(diagnostics, &text);
    return text.bytes;
}

static void prints_place_line_and_caret(void **state) {
    (void)state;
    Diagnostics list = diagnostics_new(arena_new());
    diagnostics_source(&list, "a.xml", "one\n\tłó\t= \"beach\"\r\nthree");
    report_error(&list, at("a.xml", 2, 8, 5), "did you mean 'beech'?", "unknown dust '%s'",
                 "beach");
    assert_string_equal(printed(&list), "a.xml:2:8: error: unknown dust 'beach'\n"
                                        "    łó = \"beach\"\n"
                                        "          ^~~~~\n"
                                        "    did you mean 'beech'?\n"
                                        "1 error in a.xml\n");
    arena_free(list.arena);
}

static void sorts_by_file_and_place(void **state) {
    (void)state;
    Diagnostics list = diagnostics_new(arena_new());
    diagnostics_source(&list, "b.xml", "");
    diagnostics_source(&list, "a.xml", "");
    report_error(&list, at("a.xml", 2, 0, 0), NULL, "fourth");
    report_error(&list, at("b.xml", 9, 0, 0), NULL, "third");
    report_warning(&list, at("b.xml", 2, 0, 0), NULL, "first");
    report_note(&list, at("b.xml", 2, 0, 0), NULL, "second");
    report_error(&list, (Place){0}, NULL, "last, of no file");
    report_error(&list, at("a.xml", 10, 0, 0), NULL, "fifth");
    assert_string_equal(printed(&list), "b.xml:2: warning: first\n"
                                        "b.xml:2: note: second\n"
                                        "b.xml:9: error: third\n"
                                        "a.xml:2: error: fourth\n"
                                        "a.xml:10: error: fifth\n"
                                        "error: last, of no file\n"
                                        "1 error in b.xml\n"
                                        "2 errors in a.xml\n");
    assert_int_equal(diagnostics_errors(&list, NULL), 4);
    assert_int_equal(diagnostics_errors(&list, "a.xml"), 2);
    diagnostics_clear(&list);
    assert_string_equal(printed(&list), "");
    arena_free(list.arena);
}

static void shows_a_window_of_a_long_line(void **state) {
    (void)state;
    Diagnostics list = diagnostics_new(arena_new());
    char line[301];
    memset(line, 'x', 300);
    line[300] = '\0';
    memcpy(line + 200, "here", 4);
    diagnostics_source(&list, "a.xml", line);
    report_error(&list, at("a.xml", 1, 201, 4), NULL, "wrong");
    const char *text = printed(&list);
    const char *source = strstr(text, "\n    …") + 5;
    const char *carets = strchr(source, '\n') + 5;
    /* the ellipsis is one character of three bytes */
    assert_int_equal((strstr(source, "here") - source) - 2, strchr(carets, '^') - carets);
    assert_non_null(strstr(carets, "^~~~\n"));
    arena_free(list.arena);
}

static void lets_nothing_steer_the_terminal(void **state) {
    (void)state;
    Diagnostics list = diagnostics_new(arena_new());
    diagnostics_source(&list, "a\x1b.xml", "\x1b[2J \xFF \xC2\x9B \xE2\x80\xAE");
    report_error(&list, at("a\x1b.xml", 1, 1, 99), "\x1b[0m", "%s", "\x1b]0;title\x07\n");
    const char *text = printed(&list);
    assert_null(strpbrk(text, "\x1b\x07\xFF"));
    assert_null(strstr(text, "\xC2\x9B"));
    assert_null(strstr(text, "\xE2\x80\xAE"));
    arena_free(list.arena);
}

static void survives_places_that_are_not_there(void **state) {
    (void)state;
    Diagnostics list = diagnostics_new(arena_new());
    diagnostics_source(&list, "a.xml", "one");
    report_error(&list, at("a.xml", 7, 3, 2), NULL, "no such line");
    report_error(&list, at("a.xml", 1, 70, 2), NULL, "no such column");
    report_error(&list, at("b.xml", 1, 1, 1), NULL, "no such text");
    assert_string_equal(printed(&list), "a.xml:1:70: error: no such column\n"
                                        "    one\n"
                                        "       ^\n"
                                        "a.xml:7:3: error: no such line\n"
                                        "b.xml:1:1: error: no such text\n"
                                        "2 errors in a.xml\n"
                                        "1 error in b.xml\n");
    arena_free(list.arena);
}

static void ends_a_flood(void **state) {
    (void)state;
    Diagnostics list = diagnostics_new(arena_new());
    for (int i = 0; i < 205; i++)
        report_error(&list, at("a.xml", i + 1, 0, 0), NULL, "wrong");
    const char *text = printed(&list);
    assert_non_null(strstr(text, "a.xml:200: error: wrong\nand 5 more\n205 errors in a.xml\n"));
    assert_null(strstr(text, "a.xml:201:"));
    arena_free(list.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(prints_place_line_and_caret),
        cmocka_unit_test(sorts_by_file_and_place),
        cmocka_unit_test(shows_a_window_of_a_long_line),
        cmocka_unit_test(lets_nothing_steer_the_terminal),
        cmocka_unit_test(survives_places_that_are_not_there),
        cmocka_unit_test(ends_a_flood),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
