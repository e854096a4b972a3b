/* The manual page names every element and attribute that the readers know, with the element, and
 * every word that an attribute can have. */
#include "base/arena.h"
#include "base/file.h"
#include "input/reader.h"

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
    const char *const openings[] = {"\n.It Ic ", "\n.Ss "};
    for (size_t i = 0; i < 2; i++) {
        const char *at = strstr(from, openings[i]);
        end = at && at < end ? at : end;
    }
    return end;
}

/* The manual's words for an element are there, and not the list alone. */
static void every_element(void **state) {
    (void)state;
    for (Roots root = file_roots; *root; root++) {
        ElementRules elements = element_rules(arena, *root);
        for (size_t i = 0; i < elements.count; i++)
            if (!paragraph(elements.items[i]->name))
                fail_msg("the manual page does not name the element '%s'", elements.items[i]->name);
    }
}

/* The attribute in its element's list, with every word that it may be. */
static size_t lacks(const ElementRule *element, const AttributeRule *rule) {
    const char *item =
        strstr(paragraph(element->name),
               arena_format(arena, "\n.It Cm %s%s\n", rule->name, rule->required ? "*" : ""));
    if (!item || item > paragraph_end(paragraph(element->name))) {
        print_error("the manual page does not list '%s' of '%s'\n", rule->name, element->name);
        return 1;
    }
    size_t missing = 0;
    Names words = rule_words(arena, rule);
    for (size_t i = 0; i < words.count; i++)
        if (!find_word(item, strstr(item + 1, "\n.It"), words.items[i])) {
            print_error("the manual page does not say that '%s' of '%s' may be '%s'\n", rule->name,
                        element->name, words.items[i]);
            missing++;
        }
    return missing;
}

static void every_attribute(void **state) {
    (void)state;
    size_t missing = 0, count = 0;
    for (Roots root = file_roots; *root; root++) {
        ElementRules elements = element_rules(arena, *root);
        for (size_t i = 0; i < elements.count; i++)
            for (size_t k = 0; k < elements.items[i]->attribute_count; k++, count++)
                missing += lacks(elements.items[i], &elements.items[i]->attributes[k]);
    }
    assert_true(count > 150);
    assert_int_equal(missing, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_element),
        cmocka_unit_test(every_attribute),
    };
    return cmocka_run_group_tests(tests, read_manual, free_manual);
}
