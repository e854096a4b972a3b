/* The manual page names every element and attribute that the readers know, with the element, and
 * every word that an attribute can have. */
#include "base/arena.h"
#include "base/file.h"
#include "input/rule.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#define MANUAL "templates/burnsheet.1"

static Arena *arena;
static char *manual; /* from its section on values on */

static int read_manual(void **state) {
    (void)state;
    arena = arena_new();
    Bytes bytes;
    const char *error = NULL;
    if (!file_read(arena, MANUAL, 1000000, &bytes, &error))
        return -1;
    manual = strstr((char *)bytes.data, ".Ss Values");
    return manual ? 0 : -1;
}

static int free_manual(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static bool joins_word(char sign) {
    return (sign >= 'a' && sign <= 'z') || (sign >= 'A' && sign <= 'Z') || sign == '-';
}

/* The name as a whole word between the two places; NULL: not there. */
static const char *find_word(const char *from, const char *to, const char *name) {
    size_t length = strlen(name);
    for (const char *at = strstr(from, name); at && at < to; at = strstr(at + 1, name))
        if (!joins_word(at[-1]) && !joins_word(at[length]))
            return at;
    return NULL;
}

/* Where the manual starts to speak of an element: "\n.It Ic NAME" or "\n.Ic NAME". */
static const char *paragraph(const char *element) {
    const char *const openings[] = {"\n.It Ic ", "\n.Ic "};
    for (size_t i = 0; i < 2; i++) {
        const char *line = arena_format(arena, "%s%s", openings[i], element);
        const char *at = strstr(manual, line);
        while (at && joins_word(at[strlen(line)]))
            at = strstr(at + 1, line);
        if (at)
            return at + strlen(line);
    }
    return NULL;
}

/* The end of what is said of it: the next element or section. */
static const char *paragraph_end(const char *from) {
    const char *end = from + strlen(from);
    const char *const openings[] = {"\n.It Ic ", "\n.Ic ", "\n.El"};
    for (size_t i = 0; i < 3; i++) {
        const char *at = strstr(from, openings[i]);
        end = at && at < end ? at : end;
    }
    return end;
}

static void every_element(void **state) {
    (void)state;
    size_t count;
    const ElementRule *rules = element_rules(&count);
    assert_true(count > 30);
    for (size_t i = 0; i < count; i++)
        if (!paragraph(rules[i].name))
            fail_msg("the manual page does not name the element '%s'", rules[i].name);
}

static void every_attribute(void **state) {
    (void)state;
    size_t count;
    size_t missing = 0;
    const AttributeRule *rules = attribute_rules(&count);
    assert_true(count > 100);
    for (size_t i = 0; i < count; i++) {
        const char *from = paragraph(rules[i].element);
        assert_non_null(from);
        if (find_word(from, paragraph_end(from), rules[i].name))
            continue;
        print_error("the manual page does not name '%s' in '%s'\n", rules[i].name,
                    rules[i].element);
        missing++;
    }
    assert_int_equal(missing, 0);
}

static void every_word(void **state) {
    (void)state;
    size_t count;
    size_t missing = 0;
    const char *values_end = strstr(manual, ".Ss Workshop");
    assert_non_null(values_end);
    const AttributeRule *rules = attribute_rules(&count);
    for (size_t i = 0; i < count; i++) {
        Names words = rule_words(arena, &rules[i]);
        const char *from = paragraph(rules[i].element);
        for (size_t word = 0; word < words.count; word++)
            if (!find_word(from, paragraph_end(from), words.items[word]) &&
                !find_word(manual, values_end, words.items[word])) {
                print_error("the manual page does not say that '%s' of '%s' may be '%s'\n",
                            rules[i].name, rules[i].element, words.items[word]);
                missing++;
            }
    }
    assert_int_equal(missing, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_element),
        cmocka_unit_test(every_attribute),
        cmocka_unit_test(every_word),
    };
    return cmocka_run_group_tests(tests, read_manual, free_manual);
}
