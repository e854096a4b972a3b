/* Append: an element goes into a file that a person keeps, and nothing else of it changes. What is
 * expected is written out here by hand. */
#include "input/append.h"

#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <string.h>

static const char element[] = "<!-- x\n    y -->\n<r>\n  <s/>\n</r>\n";

static const char *appended(Arena *arena, const char *file) {
    Bytes bytes = {(uint8_t *)arena_string(arena, file), strlen(file)};
    Bytes made = xml_append(arena, bytes, element);
    if (made.data) {
        assert_int_equal(made.data[made.length], 0);
        assert_int_equal(strlen((const char *)made.data), made.length);
    }
    return (const char *)made.data;
}

static void it_takes_the_indentation_of_the_file(void **state) {
    assert_string_equal(appended(*state, "<a>\n  <b/>\n</a>\n"),
                        "<a>\n  <b/>\n  <!-- x\n      y -->\n  <r>\n    <s/>\n  </r>\n</a>\n");
    assert_string_equal(appended(*state, "<a>\n\t<b/>\n</a>"),
                        "<a>\n\t<b/>\n\t<!-- x\n\t\t\ty -->\n\t<r>\n\t\t<s/>\n\t</r>\n</a>");
}

static void it_takes_the_line_ends_of_the_file(void **state) {
    assert_string_equal(
        appended(*state, "<a>\r\n <b/>\r\n</a>\r\n"),
        "<a>\r\n <b/>\r\n <!-- x\r\n   y -->\r\n <r>\r\n  <s/>\r\n </r>\r\n</a>\r\n");
    assert_string_equal(appended(*state, "<a>\r <b/>\r</a>\r"),
                        "<a>\r <b/>\r <!-- x\r   y -->\r <r>\r  <s/>\r </r>\r</a>\r");
}

static void without_lines_it_makes_its_own(void **state) {
    assert_string_equal(appended(*state, "<a><b/></a>"),
                        "<a><b/>\n  <!-- x\n      y -->\n  <r>\n    <s/>\n  </r>\n</a>");
    assert_string_equal(appended(*state, "<a></a>"),
                        "<a>\n  <!-- x\n      y -->\n  <r>\n    <s/>\n  </r>\n</a>");
}

static void an_end_in_a_comment_is_none(void **state) {
    const char *made = appended(*state, "<a>\n  <b/>\n<!-- </a> -->\n</a >\n<!-- </a> -->\n");
    const char *rest = "  </r>\n</a >\n<!-- </a> -->\n";
    assert_string_equal(made + strlen(made) - strlen(rest), rest);
}

static void the_end_tag_keeps_its_place(void **state) {
    const char *made = appended(*state, "  <a>\n    <b/>\n  </a>\n");
    const char *rest = "\n    </r>\n  </a>\n";
    assert_string_equal(made + strlen(made) - strlen(rest), rest);
}

static void what_can_not_hold_it_is_refused(void **state) {
    assert_null(appended(*state, "<a/>"));
    assert_null(appended(*state, ""));
    assert_null(appended(*state, "<a>"));
    assert_null(appended(*state, "words"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(it_takes_the_indentation_of_the_file), CASE(it_takes_the_line_ends_of_the_file),
        CASE(without_lines_it_makes_its_own),       CASE(an_end_in_a_comment_is_none),
        CASE(the_end_tag_keeps_its_place),          CASE(what_can_not_hold_it_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
