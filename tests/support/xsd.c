#include "support/xsd.h"

#include "base/text.h"

#include <string.h>

static const char opening[] = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                              "<!-- Schema for editors: %s Made by `make schema`.\n"
                              "     %s -->\n"
                              "<xs:schema xmlns:xs=\"http://www.w3.org/2001/XMLSchema\">\n";

/* ---- Kinds of values ----------------------------------------------------------------------- */

typedef struct PlainType {
    const char *name;
    const char *note;
    const char *base;
    const char *pattern;
} PlainType;

#define SIGN "[+\\-−]?"
#define DIGITS "\\d+(\\.\\d+)?"
#define BLANKS "[ &#xA0;&#x2009;&#x202F;]*"

static const PlainType plain_types[] = {
    [VALUE_TEXT] = {"text", "Words, not empty.", "string", "[\\s\\S]*\\S[\\s\\S]*"},
    [VALUE_ID] = {"id", "A short name without blanks.", "token", "\\S+"},
    [VALUE_WORD] = {"yes-no", "yes or no.", "token", "no|yes"},
    [VALUE_DATE] = {"date", "A day, such as 2026-12-04.", "token", "\\d{4}-\\d{2}-\\d{2}"},
    [VALUE_INSTANT] = {"local-time", "A local time of the workshop, such as 2026-12-04T21:30.",
                       "token", "\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2})?"},
    [VALUE_COUNT] = {"count", "A whole number.", "token", "[+]?\\d{1,9}"},
    [VALUE_NUMBER] = {"number", "A number with a decimal point.", "token", SIGN DIGITS},
};

/* "a mass by area": mass-by-area. */
static char *measure_type(Arena *arena, Measure measure) {
    char *name = arena_string(arena, strchr(measure_name(measure), ' ') + 1);
    for (char *at = name; *at; at++)
        *at = *at == ' ' ? '-' : *at;
    return name;
}

static const char *type_name(Arena *arena, const AttributeRule *rule) {
    if (rule->kind == VALUE_RETAINED)
        return "mass-or-share";
    return rule->kind == VALUE_MEASURE ? measure_type(arena, rule->measure)
                                       : plain_types[rule->kind].name;
}

static void add_type(Text *text, const PlainType *type) {
    text_addf(text,
              "\n  <xs:simpleType name=\"%s\">\n"
              "    <xs:annotation><xs:documentation>%s</xs:documentation></xs:annotation>\n"
              "    <xs:restriction base=\"xs:%s\">\n"
              "      <xs:pattern value=\"%s\"/>\n"
              "    </xs:restriction>\n"
              "  </xs:simpleType>\n",
              type->name, type->note, type->base, type->pattern);
}

/* "(kg|g|lb)", what has a meaning in a pattern kept from it. */
static const char *units_pattern(Arena *arena, Measure measure) {
    Text text = text_new(arena);
    Names units = units_known(arena, measure);
    for (size_t i = 0; i < units.count; i++) {
        text_add(&text, i ? "|" : "(");
        for (const char *at = units.items[i]; *at; at++)
            text_addf(&text, *at == '(' || *at == ')' ? "\\%c" : "%c", *at);
    }
    text_add(&text, ")");
    return text.bytes;
}

static void add_measure(Arena *arena, Text *text, Measure measure) {
    const char *part = arena_format(arena, DIGITS BLANKS "%s", units_pattern(arena, measure));
    const char *more = measure_in_parts(measure) ? arena_format(arena, "(" BLANKS "%s)*", part)
                                                 : "";
    PlainType type = {measure_type(arena, measure),
                      arena_format(arena, "Such as %s.", measure_example(measure)), "token",
                      arena_format(arena, SIGN "%s%s", part, more)};
    add_type(text, &type);
}

char *xsd_values(Arena *arena) {
    Text text = text_new(arena);
    text_addf(&text, opening, "kinds of values.", "A number with its unit, a date, a name.");
    for (size_t i = 0; i < sizeof plain_types / sizeof *plain_types; i++)
        add_type(&text, &plain_types[i]);
    for (int measure = 0; measure < MEASURE_COUNT; measure++)
        add_measure(arena, &text, (Measure)measure);
    add_type(&text,
             &(PlainType){"open", "A question mark: nobody wrote it down yet.", "token", "\\?.*"});
    text_add(&text, "\n  <xs:simpleType name=\"mass-or-share\">\n"
                    "    <xs:union memberTypes=\"mass share\"/>\n"
                    "  </xs:simpleType>\n"
                    "</xs:schema>\n");
    return text.bytes;
}

/* ---- Elements ------------------------------------------------------------------------------ */

static void add_note(Text *text, const char *indent, const char *note) {
    text_addf(text, "%s<xs:annotation><xs:documentation>%s</xs:documentation></xs:annotation>\n",
              indent, note);
}

/* The words one by one, and for a measure what it may be besides. */
static void add_words(Arena *arena, Text *text, const AttributeRule *rule) {
    bool measured = rule->kind == VALUE_MEASURE;
    Names words = rule_words(arena, rule);
    text_add(text, "      <xs:simpleType>");
    if (measured)
        text_addf(text, "<xs:union memberTypes=\"%s\"><xs:simpleType>", type_name(arena, rule));
    text_add(text, "<xs:restriction base=\"xs:token\">\n");
    for (size_t i = 0; i < words.count; i++)
        text_addf(text, "        <xs:enumeration value=\"%s\"/>\n", words.items[i]);
    text_addf(text, "      </xs:restriction></xs:simpleType>%s\n",
              measured ? "</xs:union></xs:simpleType>" : "");
}

/* A question mark, with or without what was planned behind it. */
static void add_open(Arena *arena, Text *text, const AttributeRule *rule) {
    text_addf(text, "      <xs:simpleType><xs:union memberTypes=\"%s open\"/></xs:simpleType>\n",
              type_name(arena, rule));
}

static void add_attribute(Arena *arena, Text *text, const AttributeRule *rule) {
    bool yes_no = rule->kind == VALUE_WORD && !strcmp(rule->words, "no yes");
    bool words = rule->words && !yes_no;
    text_addf(text, "    <xs:attribute name=\"%s\"", rule->name);
    if (!words && !rule->open)
        text_addf(text, " type=\"%s\"", type_name(arena, rule));
    text_add(text, rule->required ? " use=\"required\">\n" : ">\n");
    add_note(text, "      ", rule_note(arena, rule));
    if (words)
        add_words(arena, text, rule);
    else if (rule->open)
        add_open(arena, text, rule);
    text_add(text, "    </xs:attribute>\n");
}

/* In any order, any number: a schema can not say both that order is free and how many there are. */
static void add_children(Text *text, const ElementRule *rule) {
    text_add(text, "    <xs:choice minOccurs=\"0\" maxOccurs=\"unbounded\">\n");
    for (size_t i = 0; i < rule->child_count; i++) {
        const ElementRule *child = rule->children[i].rule;
        text_addf(text, "      <xs:element name=\"%s\" type=\"%s\"/>\n", child->name,
                  child->words == TEXT_MUST ? "text" : child->name);
    }
    text_add(text, "    </xs:choice>\n");
}

static void add_element(Arena *arena, Text *text, const ElementRule *rule) {
    if (rule->words == TEXT_MUST)
        return;
    text_addf(text, "\n  <xs:complexType name=\"%s\"%s>\n", rule->name,
              rule->words == TEXT_MAY ? " mixed=\"true\"" : "");
    add_note(text, "    ", rule->help);
    if (rule->child_count)
        add_children(text, rule);
    for (size_t i = 0; i < rule->attribute_count; i++)
        add_attribute(arena, text, &rule->attributes[i]);
    text_add(text, "  </xs:complexType>\n");
}

char *xsd_of(Arena *arena, const ElementRule *root) {
    Text text = text_new(arena);
    ElementRules elements = element_rules(arena, root);
    text_addf(&text, opening, root->help,
              "Order of elements is free. The program's own messages say more than a schema can.");
    text_addf(&text,
              "  <xs:include schemaLocation=\"values.xsd\"/>\n\n"
              "  <xs:element name=\"%s\" type=\"%s\"/>\n",
              root->name, root->name);
    for (size_t i = 0; i < elements.count; i++)
        add_element(arena, &text, elements.items[i]);
    text_add(&text, "</xs:schema>\n");
    return text.bytes;
}
