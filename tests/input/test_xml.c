/* XML into elements: every part knows where it stands, and what is unsafe is refused. Places are
 * counted by hand in the texts below. */
#include "input/xml.h"

#include "base/file.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct Test {
    Arena *arena;
    Diagnostics diagnostics;
} Test;

static int set_up(void **state) {
    Test *test = calloc(1, sizeof *test);
    test->arena = arena_new();
    test->diagnostics = diagnostics_new(test->arena);
    *state = test;
    return 0;
}

static int tear_down(void **state) {
    Test *test = *state;
    arena_free(test->arena);
    free(test);
    return 0;
}

static const Element *parse(Test *test, const char *text) {
    return xml_parse(&test->diagnostics, "a.xml", text, strlen(text));
}

static const char *only_message(Test *test) {
    assert_int_equal(test->diagnostics.list.count, 1);
    return test->diagnostics.list.items[0].message;
}

static void assert_place(Place place, int line, int column, int length) {
    if (place.line != line || place.column != column || place.length != length)
        fail_msg("%d:%d+%d, wanted %d:%d+%d", place.line, place.column, place.length, line, column,
                 length);
    assert_string_equal(place.file, "a.xml");
}

static void knows_places(void **state) {
    const Element *root = parse(*state, "<?xml version='1.0'?>\n"
                                        "<!-- <not a=\"1\"> > --><a b=\"ł &gt; c\"\n"
                                        "\t d = 'e\"f'><?pi <b> ?><![CDATA[ <x> ]]>\n"
                                        "  <b/> tail <b c='' >é<c/>&#65;b</b>\n"
                                        "</a>\n<!-- end -->");
    assert_non_null(root);
    assert_string_equal(root->name, "a");
    assert_place(root->place, 2, 23, 2);
    assert_place(element_value_place(root, "b"), 2, 29, 8);
    assert_string_equal(element_value(root, "b"), "ł > c");
    assert_place(element_value_place(root, "d"), 3, 8, 3);
    assert_place(element_attribute(root, "d")->name_place, 3, 3, 1);
    assert_string_equal(element_value(root, "d"), "e\"f");
    assert_place(element_words_place(root), 3, 34, 1);
    const Element *first = element_child(root, "b");
    assert_place(first->place, 4, 3, 2);
    assert_string_equal(first->tail, " tail ");
    assert_place(first->tail_place, 4, 8, 1);
    const Element *second = element_sibling(first, "b");
    assert_place(second->place, 4, 13, 2);
    assert_place(element_value_place(second, "c"), 4, 19, 0);
    assert_place(second->text_place, 4, 22, 1);
    assert_place(element_child(second, NULL)->tail_place, 4, 27, 1);
    assert_string_equal(element_child(second, "c")->tail, "Ab");
    assert_null(element_sibling(second, NULL));
    assert_ptr_equal(second->parent, root);
}

static void gives_words(void **state) {
    Test *test = *state;
    const Element *root = parse(test, "<a>\n  one <b>not</b>\t two\n three <c/> </a>");
    assert_string_equal(element_words(test->arena, root), "one two three");
    assert_true(element_has_words(root));
    assert_false(element_has_words(element_child(root, "c")));
    assert_string_equal(element_words(test->arena, element_child(root, "c")), "");
    assert_int_equal(element_count(root, NULL), 2);
    assert_int_equal(element_count(root, "b"), 1);
    assert_null(element_value(root, "x"));
    assert_place(element_value_place(root, "x"), 1, 1, 2);
}

static void reads_crlf_and_marks(void **state) {
    const Element *root = parse(*state, "\xEF\xBB\xBF<a>\r\n<b c=\"1\"/>\r\n</a>\r\n");
    assert_non_null(root);
    assert_place(root->place, 1, 1, 2);
    assert_place(element_value_place(element_child(root, "b"), "c"), 2, 7, 1);
}

static void ignores_schema_hints(void **state) {
    const Element *root = parse(*state, "<a xmlns:xsi='http://www.w3.org/2001/XMLSchema-instance' "
                                        "xsi:noNamespaceSchemaLocation='batch.xsd' b='1'/>");
    assert_non_null(root);
    assert_int_equal(root->attributes.count, 1);
}

static void refuses_bytes(void **state) {
    (void)state;
    const struct {
        const char *bytes;
        size_t length;
        const char *message;
    } cases[] = {
        {"", 0, "the file is empty"},
        {"\xEF\xBB\xBF", 3, "the file is empty"},
        {"\x1F\x8B\x08\x00", 4, "the file is compressed"},
        {"\xFF\xFE<\0a\0/\0>\0", 10, "the file is UTF-16"},
        {"\xFE\xFF\0<\0a\0/\0>", 10, "the file is UTF-16"},
        {"<\0a\0/\0>\0", 8, "the file is UTF-16"},
        {"<a b='\xE9'/>", 10, "byte 0xE9 is not UTF-8"},
        {"<a b='\xC3", 7, "byte 0xC3 is not UTF-8"},
        {"<a b='\xC0\xAF'/>", 11, "byte 0xC0 is not UTF-8"},
        {"<a b='\xED\xA0\x80'/>", 12, "byte 0xED is not UTF-8"},
        {"<a b='\0'/>", 10, "control character U+0000"},
        {"<a b='\x07'/>", 10, "control character U+0007"},
        {"<a b='\xEF\xBF\xBE'/>", 12, "control character U+FFFE"},
        {"<a b='\xC2\x9B'/>", 11, "control character U+009B"},
        {"<a b='&#x9B;'/>", 15, "control character U+009B"},
        {"<a>&#x7F;</a>", 13, "control character U+007F"},
        {"root:x:0", 8, "the file is no XML"},
        {"root\xFF", 5, "the file is no XML"},
        {" ", 1, "no element at the start"},
        {"<a>&#0;</a>", 11, "character that XML does not let through"},
        {"<a", 2, "tag without a closing '>'"},
        {"<a b='<'/>", 10, "'<' inside a value"},
        {"<a><!-- </a>", 12, "comment without its closing '-->'"},
        {"<a b='1'c='2'/>", 15, "no blank between two attributes"},
        {"<a b/>", 6, "attribute without a value"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        void *inner;
        set_up(&inner);
        Test *test = inner;
        assert_null(xml_parse(&test->diagnostics, "a.xml", cases[i].bytes, cases[i].length));
        assert_string_equal(only_message(test), cases[i].message);
        tear_down(&inner);
    }
}

/* Entities that grow to a thousand million bytes, flat and nested: refused at the declaration. */
static void refuses_entity_bombs(void **state) {
    Test *test = *state;
    Text text = text_new(test->arena);
    text_add(&text, "<!DOCTYPE a [<!ENTITY b \"");
    for (int i = 0; i < 5000; i++)
        text_add(&text, "0123456789");
    text_add(&text, "\">]><a>");
    for (int i = 0; i < 20000; i++)
        text_add(&text, "&b;");
    text_add(&text, "</a>");
    assert_null(parse(test, text.bytes));
    assert_string_equal(only_message(test), "document type declarations are not read");
    diagnostics_clear(&test->diagnostics);
    assert_null(parse(test, "<!DOCTYPE a [<!ENTITY b \"bb\"><!ENTITY c \"&b;&b;\">]><a d='&c;'/>"));
    assert_string_equal(only_message(test), "document type declarations are not read");
}

static void refuses_what_is_large(void **state) {
    Test *test = *state;
    char *large = ARENA_ARRAY(test->arena, XML_BYTES_MAX + 2, char);
    memset(large, ' ', XML_BYTES_MAX + 1);
    assert_null(xml_parse(&test->diagnostics, "a.xml", large, XML_BYTES_MAX + 1));
    assert_string_equal(only_message(test), "the file is larger than 1048576 bytes");
}

static void refuses_depth(void **state) {
    Test *test = *state;
    Text text = text_new(test->arena);
    for (int i = 0; i < XML_DEPTH_MAX; i++)
        text_add(&text, "<a>");
    for (int i = 0; i < XML_DEPTH_MAX; i++)
        text_add(&text, "</a>");
    assert_non_null(parse(test, text.bytes));
    assert_null(parse(test, arena_format(test->arena, "<b>%s</b>", text.bytes)));
    assert_string_equal(only_message(test), "elements nested more than 64 deep");
}

/* Deeper than the library itself goes. */
static void refuses_great_depth(void **state) {
    Test *test = *state;
    Text text = text_new(test->arena);
    for (int i = 0; i < 100000; i++)
        text_add(&text, "<a>");
    assert_null(parse(test, text.bytes));
    assert_int_equal(test->diagnostics.list.count, 1);
}

static void tells_what_can_not_be_opened(void **state) {
    Test *test = *state;
    char folder[] = "/tmp/burnsheet-xml-XXXXXX";
    assert_non_null(mkdtemp(folder));
    bool could_not_open = false;
    assert_null(xml_read(&test->diagnostics, folder, &could_not_open));
    assert_true(could_not_open);
    const char *path = arena_format(test->arena, "%s/none.xml", folder);
    could_not_open = false;
    assert_null(xml_read(&test->diagnostics, path, &could_not_open));
    assert_true(could_not_open);
    const char *error;
    assert_true(file_write(test->arena, path, "<a", 2, &error));
    assert_null(xml_read(&test->diagnostics, path, &could_not_open));
    assert_false(could_not_open);
    assert_true(file_write(test->arena, path, "<a/>", 4, &error));
    assert_non_null(xml_read(&test->diagnostics, path, NULL));
    assert_int_equal(test->diagnostics.list.count, 3);
    unlink(path);
    rmdir(folder);
}

int main(void) {
#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        CASE(knows_places),          CASE(gives_words),
        CASE(reads_crlf_and_marks),  CASE(ignores_schema_hints),
        CASE(refuses_bytes),         CASE(refuses_entity_bombs),
        CASE(refuses_what_is_large), CASE(refuses_depth),
        CASE(refuses_great_depth),   CASE(tells_what_can_not_be_opened),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
