/* The schemas for editors say what the readers' rules say, and let the samples pass. */
#include "input/measure.h"
#include "input/rule.h"
#include "input/xml.h"

#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <glob.h>
#include <libxml/parser.h>
#include <libxml/xmlschemas.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char batch_schema[] = "templates/batch.xsd";
static const char workshop_schema[] = "templates/workshop.xsd";

typedef struct Schemas {
    Arena *arena;
    const Element *batch;
    const Element *workshop;
} Schemas;

static int read_schemas(void **state) {
    static Schemas schemas;
    schemas.arena = arena_new();
    Diagnostics diagnostics = diagnostics_new(schemas.arena);
    schemas.batch = xml_read(&diagnostics, batch_schema, NULL);
    schemas.workshop = xml_read(&diagnostics, workshop_schema, NULL);
    *state = &schemas;
    return schemas.batch && schemas.workshop ? 0 : -1;
}

static int free_schemas(void **state) {
    Schemas *schemas = *state;
    arena_free(schemas->arena);
    return 0;
}

static const Element *named_child(const Element *parent, const char *kind, const char *name) {
    for (const Element *child = element_child(parent, kind); child;
         child = element_sibling(child, kind))
        if (element_value(child, "name") && !strcmp(element_value(child, "name"), name))
            return child;
    return NULL;
}

static const Element *type_of(const Schemas *schemas, const char *element) {
    const Element *type = named_child(schemas->batch, "xs:complexType", element);
    return type ? type : named_child(schemas->workshop, "xs:complexType", element);
}

/* The schema's name for the kind of value of a rule; NULL: words that stand in it one by one. */
static const char *type_name(const AttributeRule *rule) {
    static const char *const measures[MEASURE_COUNT] = {
        "mass",  "length", "area",       "volume",        "temperature", "duration",
        "share", "angle",  "areal-mass", "heat-transfer", "per-hour",    "wind"};
    switch (rule->kind) {
    case VALUE_TEXT: return "text";
    case VALUE_ID: return "id";
    case VALUE_WORD: return strcmp(rule->words, "no yes") ? NULL : "yes-no";
    case VALUE_DATE: return "date";
    case VALUE_INSTANT: return "local-time";
    case VALUE_COUNT: return "count";
    case VALUE_NUMBER: return "number";
    case VALUE_MEASURE:
        return !rule->words                     ? measures[rule->measure]
               : rule->measure == MEASURE_SHARE ? "share-or-least"
                                                : "angle-or-yes-no";
    case VALUE_RETAINED: return "mass-or-share";
    }
    return "?";
}

static void has_its_words(Arena *arena, const Element *attribute, const AttributeRule *rule) {
    const Element *type = element_child(attribute, "xs:simpleType");
    assert_non_null(type);
    Names words = rule_words(arena, rule);
    const Element *value = element_child(element_child(type, "xs:restriction"), "xs:enumeration");
    for (size_t i = 0; i < words.count; i++) {
        assert_non_null(value);
        assert_string_equal(element_value(value, "value"), words.items[i]);
        value = element_sibling(value, "xs:enumeration");
    }
    assert_null(value);
}

static void attributes_agree(void **state) {
    const Schemas *schemas = *state;
    size_t count;
    const AttributeRule *rules = attribute_rules(&count);
    for (size_t i = 0; i < count; i++) {
        const AttributeRule *rule = &rules[i];
        const Element *type = type_of(schemas, rule->element);
        assert_non_null(type);
        const Element *attribute = named_child(type, "xs:attribute", rule->name);
        if (!attribute)
            fail_msg("the schema lacks '%s' of '%s'", rule->name, rule->element);
        const char *use = element_value(attribute, "use");
        assert_int_equal(rule->required, use && !strcmp(use, "required"));
        const char *wanted = type_name(rule);
        if (wanted)
            assert_string_equal(element_value(attribute, "type"), wanted);
        else
            has_its_words(schemas->arena, attribute, rule);
        const Element *note = element_child(attribute, "xs:annotation");
        const char *words = element_words(schemas->arena, element_child(note, "xs:documentation"));
        const char *range =
            rule->least ? arena_format(schemas->arena, "; from %s to %s", rule->least, rule->most)
                        : "";
        if (!strstr(words, range))
            fail_msg("'%s' of '%s': '%s' lacks '%s'", rule->name, rule->element, words, range);
    }
}

static size_t schema_has_nothing_else(const Element *schema) {
    size_t attributes = 0;
    for (const Element *type = element_child(schema, "xs:complexType"); type;
         type = element_sibling(type, "xs:complexType")) {
        const char *name = element_value(type, "name");
        assert_non_null(element_rule(name));
        attributes += element_count(type, "xs:attribute");
        const Element *choice = element_child(type, "xs:choice");
        for (const Element *child = choice ? element_child(choice, "xs:element") : NULL; child;
             child = element_sibling(child, "xs:element")) {
            const ElementRule *rule = element_rule(element_value(child, "name"));
            assert_non_null(rule);
            assert_string_equal(rule->parent, name);
            assert_string_equal(element_value(child, "type"),
                                rule->has_words ? "text" : rule->name);
        }
    }
    return attributes;
}

static void elements_agree(void **state) {
    const Schemas *schemas = *state;
    size_t count;
    const ElementRule *rules = element_rules(&count);
    for (size_t i = 0; i < count; i++) {
        if (!rules[i].has_words)
            assert_non_null(type_of(schemas, rules[i].name));
        if (!rules[i].parent)
            continue;
        const Element *choice = element_child(type_of(schemas, rules[i].parent), "xs:choice");
        assert_non_null(choice);
        assert_non_null(named_child(choice, "xs:element", rules[i].name));
    }
    size_t in_schemas = schema_has_nothing_else(schemas->batch);
    in_schemas += schema_has_nothing_else(schemas->workshop);
    attribute_rules(&count);
    assert_int_equal(in_schemas, count);
}

/* Ends of ranges are read like any value, and the lower is the lower. */
static void ranges_are_values(void **state) {
    const Schemas *schemas = *state;
    size_t count;
    const AttributeRule *rules = attribute_rules(&count);
    for (size_t i = 0; i < count; i++) {
        const AttributeRule *rule = &rules[i];
        bool measured = rule->kind == VALUE_MEASURE;
        assert_int_equal(rule->least != NULL, rule->most != NULL);
        if (measured || rule->kind == VALUE_COUNT || rule->kind == VALUE_NUMBER)
            assert_non_null(rule->least);
        if (!rule->least)
            continue;
        double ends[2];
        for (int end = 0; end < 2; end++) {
            const char *text = end ? rule->most : rule->least;
            ValueFault fault =
                measured ? measure_read(schemas->arena, rule->measure, rule->name, text, &ends[end])
                         : number_read(schemas->arena, rule->name, text, &ends[end]);
            if (fault.problem)
                fail_msg("%s", fault.problem);
        }
        assert_true(ends[0] < ends[1]);
    }
}

/* ---- libxml2 as a second opinion ----------------------------------------------------------- */

static void stay_quiet(void *context, xmlErrorPtr error) {
    (void)context, (void)error;
}

static xmlSchemaPtr schema_at(const char *path) {
    xmlSchemaParserCtxtPtr parser = xmlSchemaNewParserCtxt(path);
    xmlSchemaPtr schema = xmlSchemaParse(parser);
    xmlSchemaFreeParserCtxt(parser);
    assert_non_null(schema);
    return schema;
}

static bool valid(xmlSchemaPtr schema, xmlDocPtr document) {
    xmlSchemaValidCtxtPtr checker = xmlSchemaNewValidCtxt(schema);
    xmlSchemaSetValidStructuredErrors(checker, stay_quiet, NULL);
    int status = xmlSchemaValidateDoc(checker, document);
    xmlSchemaFreeValidCtxt(checker);
    return status == 0;
}

static void samples_are_valid(void **state) {
    (void)state;
    xmlSchemaPtr batch = schema_at(batch_schema), workshop = schema_at(workshop_schema);
    glob_t files;
    assert_int_equal(glob("samples/*.xml", 0, NULL, &files), 0);
    for (size_t i = 0; i < files.gl_pathc; i++) {
        const char *path = files.gl_pathv[i];
        xmlDocPtr document = xmlReadFile(path, NULL, XML_PARSE_NONET);
        assert_non_null(document);
        const char *root = (const char *)xmlDocGetRootElement(document)->name;
        bool is_batch = !strcmp(root, "batch");
        if (!valid(is_batch ? batch : workshop, document))
            fail_msg("%s is not valid", path);
        xmlFreeDoc(document);
    }
    globfree(&files);
    xmlSchemaFree(batch);
    xmlSchemaFree(workshop);
}

/* What the schema lets through in a mass, a duration … is what the reader lets through. */
static void values_agree(void **state) {
    Arena *arena = ((const Schemas *)*state)->arena;
    static const char *const attributes[MEASURE_COUNT][3] = {
        {"<batch><bag net=\"", "\" count=\"1\" stock=\"a\"/></batch>", "b"},
        {"<workshop><dust id=\"a\" name=\"a\" material=\"a\"><grain to=\"1 mm\" from=\"",
         "\"/></dust></workshop>", "w"},
        {"<workshop><cabinet id=\"a\" name=\"a\" width=\"1 m\" depth=\"1 m\" height=\"1 m\" "
         "wall=\"wood\"><vent outlet=\"1 cm2\" inlet=\"",
         "\"/></cabinet></workshop>", "w"},
        {"<workshop><room volume=\"", "\"/></workshop>", "w"},
        {"<batch><weather temperature=\"", "\"/></batch>", "b"},
        {"<batch><predry oven=\"100 C\" time=\"", "\"/></batch>", "b"},
        {"<batch><weather humidity=\"", "\"/></batch>", "b"},
        {"<batch><fill tray=\"a\" heap=\"", "\"/></batch>", "b"},
        {"<workshop><tray id=\"a\" name=\"a\" wall=\"mesh\" channel-width=\"1 mm\" "
         "channel-depth=\"1 mm\" metal=\"",
         "\"/></workshop>", "w"},
        {"<workshop><oven heat-transfer=\"", "\"/></workshop>", "w"},
        {"<workshop><room air-changes=\"", "\"/></workshop>", "w"},
        {"<batch><weather wind=\"", "\"/></batch>", "b"},
    };
    static const char *const numbers[] = {"5", "0.5", "-5", "+5", "5.", ".5", "5,0", "1e3", "x"};
    xmlSchemaPtr schemas[2] = {schema_at(batch_schema), schema_at(workshop_schema)};
    for (int m = 0; m < 2 * MEASURE_COUNT; m++) {
        Measure measure = (Measure)(m % MEASURE_COUNT);
        Names units = units_known(arena, (Measure)((m + m / MEASURE_COUNT) % MEASURE_COUNT));
        for (size_t u = 0; u < units.count; u++)
            for (size_t n = 0; n < sizeof numbers / sizeof *numbers; n++) {
                const char *value = arena_format(arena, "%s %s", numbers[n], units.items[u]);
                bool named = attributes[measure][2][0] == 'w';
                const char *text = arena_format(
                    arena, "%.*s name=\"a\"%s%s%s%s", named ? 9 : 6, attributes[measure][0],
                    named ? " timezone=\"a\"" : "", attributes[measure][0] + (named ? 9 : 6), value,
                    attributes[measure][1]);
                xmlDocPtr document =
                    xmlReadMemory(text, (int)strlen(text), "a.xml", NULL, XML_PARSE_NONET);
                assert_non_null(document);
                double read;
                bool by_us = !measure_read(arena, measure, "x", value, &read).problem;
                if (valid(schemas[named], document) != by_us)
                    fail_msg("'%s' as %s: the reader says %d, the schema not", value,
                             measure_name(measure), by_us);
                xmlFreeDoc(document);
            }
    }
    xmlSchemaFree(schemas[0]);
    xmlSchemaFree(schemas[1]);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(attributes_agree),  cmocka_unit_test(elements_agree),
        cmocka_unit_test(ranges_are_values), cmocka_unit_test(samples_are_valid),
        cmocka_unit_test(values_agree),
    };
    return cmocka_run_group_tests(tests, read_schemas, free_schemas);
}
