#include "command/starter.h"

#include "base/utf8.h"
#include "input/reader.h"

#include <string.h>

/* Lines end before this column, also those of comments. */
enum { COLUMNS = 100, INDENT = 2, COMMENT_INDENT = 5 };

/* ---- Values -------------------------------------------------------------------------------- */

static const char *value_of(const Starter *starter, const char *name) {
    for (size_t i = 0; i < starter->values.count; i++)
        if (!strcmp(starter->values.items[i].name, name))
            return starter->values.items[i].value;
    return NULL;
}

/* kind.mass: the mass of the row that is of the kind at hand. */
static const char *row_value(const Starter *starter, const char *name) {
    const char *dot = strchr(name, '.');
    const char *of = dot ? arena_copy(starter->arena, name, (size_t)(dot - name)) : name;
    const char *is = value_of(starter, of);
    for (const Element *row = element_child(starter->template, "row"); dot && is && row;
         row = element_sibling(row, "row"))
        if (!strcmp(element_value(row, "of"), of) && !strcmp(element_value(row, "is"), is))
            return element_value(row, dot + 1);
    return NULL;
}

static const char *one_of_two(const Starter *starter, const char *value) {
    const char *bar = strstr(value, " | ");
    if (!bar)
        return value;
    return starter->us ? bar + 3 : arena_copy(starter->arena, value, (size_t)(bar - value));
}

const char *starter_fill(const Starter *starter, const char *value) {
    static const char family[] = "starter.";
    Text text = text_new(starter->arena);
    value = one_of_two(starter, value);
    if (!strncmp(value, family, strlen(family))) {
        const char *words = words_fixed(starter->words, value);
        return words ? words : value;
    }
    while (*value) {
        const char *end = *value == '{' ? strchr(value, '}') : NULL;
        size_t length = end ? (size_t)(end - value) + 1 : 1;
        if (end) {
            const char *name = arena_copy(starter->arena, value + 1, length - 2);
            const char *stated = value_of(starter, name);
            const char *row = stated ? NULL : row_value(starter, name);
            text_add(&text, stated ? stated : row ? starter_fill(starter, row) : "");
        } else {
            text_add_bytes(&text, value, length);
        }
        value += length;
    }
    return text.bytes;
}

const char *starter_quoted(Arena *arena, const char *text) {
    Text quoted = text_new(arena);
    for (; *text; text++)
        switch (*text) {
        case '&': text_add(&quoted, "&amp;"); break;
        case '<': text_add(&quoted, "&lt;"); break;
        case '"': text_add(&quoted, "&quot;"); break;
        default: text_add_bytes(&quoted, text, 1);
        }
    return quoted.bytes;
}

/* Whether a row of the template, <say> or an element, is for the kind at hand. */
static bool is_wanted(const Starter *starter, const Element *element) {
    const char *when = element_value(element, "when");
    const char *kind = value_of(starter, "kind");
    if (!when)
        return true;
    size_t length = kind ? strlen(kind) : 0;
    for (const char *at = when; length && (at = strstr(at, kind)) != NULL; at++)
        if ((at == when || at[-1] == ' ') && (!at[length] || at[length] == ' '))
            return true;
    return false;
}

static bool is_off(const Element *element) {
    return element_attribute(element, "off") != NULL;
}

static bool is_own(const char *attribute) {
    return !strcmp(attribute, "when") || !strcmp(attribute, "off") || !strcmp(attribute, "words");
}

static const char off_words[] = "To use it, take away the marks of a comment round it.";

/* ---- Comments ------------------------------------------------------------------------------ */

static void add_blanks(Text *text, int count) {
    text_addf(text, "%*s", count, "");
}

/* Appends words from a column on, in lines that are indented by `indent`. */
static void add_wrapped(Text *text, const char *words, int column, int indent) {
    bool first = true;
    while (*words) {
        int length = (int)strcspn(words, " ");
        int wide = (int)utf8_count(arena_copy(text->arena, words, (size_t)length));
        if (!first && column + 1 + wide > COLUMNS) {
            text_add(text, "\n");
            add_blanks(text, indent);
            column = indent;
        } else if (!first) {
            text_add(text, " ");
            column++;
        }
        text_add_bytes(text, words, (size_t)length);
        column += wide;
        words += length;
        words += strspn(words, " ");
        first = false;
    }
}

/* The remarks of an attribute, or (NULL) of the element, behind what the rules say of it. */
static const char *told(const Starter *starter, const Element *element, const char *attribute,
                        const char *help) {
    Text text = text_new(starter->arena);
    text_add(&text, help);
    for (const Element *say = element_child(element, "say"); say;
         say = element_sibling(say, "say")) {
        const char *of = element_value(say, "of");
        bool meant = attribute ? of && !strcmp(of, attribute) : !of;
        if (meant && is_wanted(starter, say))
            text_addf(&text, " %s", element_words(starter->arena, say));
    }
    return text.bytes;
}

static const char *attribute_help(Arena *arena, const AttributeRule *rule) {
    Names words = rule->words ? rule_words(arena, rule) : (Names){0};
    if (words.count < 2)
        return arena_format(arena, "%s.", rule->help);
    return arena_format(arena, "%s (%s).", rule->help, names_listed(arena, &words));
}

static void add_comment_attributes(const Starter *starter, Text *text, const ElementRule *rule,
                                   const Element *element, int indent) {
    int widest = 0;
    for (size_t i = 0; i < element->attributes.count; i++) {
        const char *name = element->attributes.items[i].name;
        widest = (int)strlen(name) > widest && !is_own(name) ? (int)strlen(name) : widest;
    }
    for (size_t i = 0; i < element->attributes.count; i++) {
        const char *name = element->attributes.items[i].name;
        const AttributeRule *row = attribute_rule(rule, name);
        if (!row || !*starter_fill(starter, element->attributes.items[i].value))
            continue;
        text_add(text, "\n");
        add_blanks(text, indent);
        text_addf(text, "%-*s  ", widest, name);
        const char *help = attribute_help(starter->arena, row);
        add_wrapped(text, told(starter, element, name, help), indent + widest + 2,
                    indent + widest + 2);
    }
}

/* What else could be written there. */
static void add_further(const Starter *starter, Text *text, const ElementRule *rule,
                        const Element *element, int indent) {
    Names further = {0};
    for (size_t i = 0; i < rule->attribute_count; i++)
        if (!element_attribute(element, rule->attributes[i].name))
            LIST_ADD(starter->arena, &further, rule->attributes[i].name);
    if (!further.count)
        return;
    const char *list =
        arena_format(starter->arena, "Also: %s.", names_listed(starter->arena, &further));
    text_add(text, "\n");
    add_blanks(text, indent);
    add_wrapped(text, list, indent, indent);
}

static void add_comment(const Starter *starter, Text *text, const ElementRule *rule,
                        const Element *element, int indent) {
    int inner = indent + COMMENT_INDENT;
    add_blanks(text, indent);
    text_add(text, "<!-- ");
    add_wrapped(text, told(starter, element, NULL, rule->help), inner, inner);
    add_comment_attributes(starter, text, rule, element, inner);
    add_further(starter, text, rule, element, inner);
    if (is_off(element)) {
        text_add(text, "\n");
        add_blanks(text, inner);
        text_add(text, off_words);
    }
    text_add(text, " -->\n");
}

/* ---- Elements ------------------------------------------------------------------------------ */

/* The start tag up to its closing sign. */
static void add_tag(const Starter *starter, Text *text, const Element *element, int indent) {
    const char *opening = is_off(element) ? "<!-- <" : "<";
    int column = indent + (int)strlen(opening) + (int)strlen(element->name);
    int under = column + 1;
    add_blanks(text, indent);
    text_addf(text, "%s%s", opening, element->name);
    for (size_t i = 0; i < element->attributes.count; i++) {
        const Attribute *attribute = &element->attributes.items[i];
        const char *value = starter_fill(starter, attribute->value);
        if (is_own(attribute->name) || !*value)
            continue;
        const char *written = arena_format(starter->arena, "%s=\"%s\"", attribute->name,
                                           starter_quoted(starter->arena, value));
        int wide = (int)utf8_count(written);
        bool fits = column + 1 + wide + 3 <= COLUMNS;
        text_add(text, fits ? " " : "\n");
        if (!fits)
            add_blanks(text, under);
        column = (fits ? column + 1 : under) + wide;
        text_add(text, written);
    }
}

static bool has_children(const Starter *starter, const Element *element) {
    for (const Element *child = element->first; child; child = child->next)
        if (strcmp(child->name, "say") != 0 && is_wanted(starter, child))
            return true;
    return false;
}

static void add_element(const Starter *starter, Text *text, const Element *element, int indent);

static void add_inside(const Starter *starter, Text *text, const Element *element, int indent) {
    for (const Element *child = element->first; child; child = child->next)
        if (strcmp(child->name, "say") != 0 && is_wanted(starter, child))
            add_element(starter, text, child, indent + INDENT);
}

/* A blank line parts what stands in the root. */
static void add_element(const Starter *starter, Text *text, const Element *element, int indent) {
    const ElementRule *rule = element_rule(file_roots, element->name, NULL);
    const char *words = element_value(element, "words");
    if (indent == INDENT)
        text_add(text, "\n");
    add_comment(starter, text, rule, element, indent);
    add_tag(starter, text, element, indent);
    if (words) {
        text_addf(text, ">%s</%s>", starter_quoted(starter->arena, starter_fill(starter, words)),
                  element->name);
    } else if (has_children(starter, element)) {
        text_add(text, ">\n");
        add_inside(starter, text, element, indent);
        add_blanks(text, indent);
        text_addf(text, "</%s>", element->name);
    } else {
        text_add(text, "/>");
    }
    text_add(text, is_off(element) ? " -->\n" : "\n");
}

static const Element *root_of(const Element *template) {
    const Element *root = template->first;
    while (root && (!strcmp(root->name, "row") || !strcmp(root->name, "say")))
        root = root->next;
    return root;
}

Text starter_text(const Starter *starter) {
    Text text = text_new(starter->arena);
    text_add(&text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    bool first = true;
    for (const Element *say = element_child(starter->template, "say"); say;
         say = element_sibling(say, "say")) {
        text_add(&text, first ? "<!-- " : "\n     ");
        add_wrapped(&text, element_words(starter->arena, say), COMMENT_INDENT, COMMENT_INDENT);
        first = false;
    }
    text_add(&text, first ? "" : " -->\n\n");
    const Element *root = root_of(starter->template);
    if (root)
        add_element(starter, &text, root, 0);
    return text;
}
