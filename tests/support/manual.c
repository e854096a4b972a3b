#include "support/manual.h"

#include "base/text.h"

#include <string.h>

static const char list_start[] = ".\\\" list of ";
static const char list_start_end[] = ": made by `make schema`\n";
static const char list_end[] = ".\\\" end of list\n";

/* Signs that mdoc has names for; the hyphen of a number is a minus. */
static void add_escaped(Text *text, const char *line) {
    static const struct {
        const char *sign;
        const char *name;
    } signs[] = {{"µ", "\\(mc"}, {"°", "\\(de"}, {" -", " \\-"}};
    while (*line) {
        size_t i = 0, count = sizeof signs / sizeof *signs;
        while (i < count && strncmp(line, signs[i].sign, strlen(signs[i].sign)) != 0)
            i++;
        if (i < count)
            text_add(text, signs[i].name);
        else
            text_add_bytes(text, line, 1);
        line += i < count ? strlen(signs[i].sign) : 1;
    }
}

/* "a mass", "dust, chip or leaf", … */
static const char *kind_of_value(Arena *arena, const AttributeRule *rule) {
    static const char *const kinds[] = {[VALUE_TEXT] = "words",
                                        [VALUE_ID] = "an id",
                                        [VALUE_WORD] = "",
                                        [VALUE_DATE] = "a date",
                                        [VALUE_INSTANT] = "a time",
                                        [VALUE_COUNT] = "a whole number",
                                        [VALUE_NUMBER] = "a number",
                                        [VALUE_MEASURE] = "",
                                        [VALUE_RETAINED] = "a mass or a share"};
    bool measured = rule->kind == VALUE_MEASURE;
    const char *kind = measured ? measure_name(rule->measure) : kinds[rule->kind];
    Text text = text_new(arena);
    Names words = rule_words(arena, rule);
    for (size_t i = 0; i < words.count; i++)
        text_addf(&text, "%s%s",
                  !i                             ? ""
                  : i + 1 < words.count || *kind ? ", "
                                                 : " or ",
                  words.items[i]);
    text_addf(&text, "%s%s", words.count && *kind ? " or " : "", kind);
    return text.bytes;
}

static void add_attributes(Arena *arena, Text *text, const ElementRule *element) {
    text_addf(text, "%s\n.Bl -tag -width channel-width -compact\n", element->help);
    for (size_t i = 0; i < element->attribute_count; i++) {
        const AttributeRule *rule = &element->attributes[i];
        text_addf(text, ".It Cm %s%s\n", rule->name, rule->required ? "*" : "");
        add_escaped(text, arena_format(arena, "%s: %s\n", kind_of_value(arena, rule),
                                       rule_note(arena, rule)));
    }
    text_add(text, ".El\n");
}

static void add_units(Arena *arena, Text *text) {
    text_add(text, ".Bl -tag -width channel-width -compact\n");
    for (int i = 0; i < MEASURE_COUNT; i++) {
        Names units = units_listed(arena, (Measure)i);
        text_addf(text, ".It %s\n", measure_name((Measure)i));
        add_escaped(text, arena_format(arena, "in %s, such as %s\n", names_listed(arena, &units),
                                       measure_example((Measure)i)));
    }
    text_add(text, ".El\n");
}

/* Adds the list whose first line `at` is, and returns the place behind its last; NULL: a fault. */
static const char *add_list(Arena *arena, Text *text, const char *at, Roots roots,
                            const char **fault) {
    const char *name_at = at + strlen(list_start);
    const char *name_end = strstr(name_at, list_start_end);
    const char *end = strstr(name_at, list_end);
    if (!name_end || !end || name_end > end) {
        *fault = "a list that has no end";
        return NULL;
    }
    const char *name = arena_copy(arena, name_at, (size_t)(name_end - name_at));
    const ElementRule *element = element_rule(roots, name, NULL);
    text_addf(text, "%s%s%s", list_start, name, list_start_end);
    if (element)
        add_attributes(arena, text, element);
    else if (!strcmp(name, "units"))
        add_units(arena, text);
    else
        *fault = arena_format(arena, "a list of '%s', which is no element", name);
    text_add(text, list_end);
    return element || !*fault ? end + strlen(list_end) : NULL;
}

static const char *without_list(Arena *arena, const char *page, Roots roots) {
    for (; *roots; roots++) {
        ElementRules elements = element_rules(arena, *roots);
        for (size_t i = 0; i < elements.count; i++) {
            const ElementRule *element = elements.items[i];
            const char *line =
                arena_format(arena, "\n%s%s%s", list_start, element->name, list_start_end);
            if (element->attribute_count && !strstr(page, line))
                return element->name;
        }
    }
    return NULL;
}

char *manual_with_lists(Arena *arena, const char *page, Roots roots, const char **fault) {
    Text text = text_new(arena);
    const char *without = without_list(arena, page, roots);
    *fault = without ? arena_format(arena, "'%s' has no list", without) : NULL;
    for (const char *next; !*fault && (next = strstr(page, list_start));) {
        text_add_bytes(&text, page, (size_t)(next - page));
        page = add_list(arena, &text, next, roots, fault);
    }
    if (*fault)
        return NULL;
    text_add(&text, page);
    return text.bytes;
}
