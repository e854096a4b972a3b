/* The schemas for editors and the lists of the manual page are what the rules make of them
 * (UPDATE_GOLDENS=1 in the environment writes them anew); the schemas let the samples pass, and
 * refuse what they can see of the broken files; the rules themselves hold together. */
#include "base/file.h"
#include "base/text.h"
#include "input/reader.h"
#include "input/readers.h"
#include "layout/stock.h"
#include "layout/words.h"
#include "schema/measure.h"
#include "support/arena_case.h"
#include "support/manual.h"
#include "support/xsd.h"

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

#include "schema/rows.h"

static const char manual[] = "templates/burnsheet.1";

/* Every kind of file that is read. */
static const ElementRule *const all_roots[] = {&workshop_rule, &batch_rule, &bagging_rule,
                                               &stock_rule,    &words_rule, NULL};
enum { WORKSHOP, BATCH, BAGGING, STOCK, WORDS_FILE, SCHEMAS };
static const char *const schema_paths[SCHEMAS] = {"templates/workshop.xsd", "templates/batch.xsd",
                                                  "templates/bagging.xsd", "templates/stock.xsd",
                                                  "templates/words.xsd"};

/* ---- What is made -------------------------------------------------------------------------- */

static const char *text_of(Arena *arena, const char *path) {
    Bytes bytes;
    const char *error = NULL;
    if (!file_read(arena, path, 1000000, &bytes, &error))
        return "";
    return (const char *)bytes.data;
}

static void is_made(Arena *arena, const char *path, const char *made) {
    const char *error = NULL;
    if (getenv("UPDATE_GOLDENS"))
        assert_true(file_write(arena, path, made, strlen(made), &error));
    if (strcmp(text_of(arena, path), made) != 0)
        fail_msg("%s is not what the rules make of it: `make schema`, and look at the change",
                 path);
}

static void schemas_are_made(void **state) {
    Arena *arena = *state;
    for (Roots root = all_roots; *root; root++)
        is_made(arena, arena_format(arena, "templates/%s.xsd", (*root)->name),
                xsd_of(arena, *root));
    is_made(arena, "templates/values.xsd", xsd_values(arena));
}

static void manual_is_made(void **state) {
    Arena *arena = *state;
    const char *fault = NULL;
    const char *made = manual_with_lists(arena, text_of(arena, manual), all_roots, &fault);
    if (!made)
        fail_msg("%s: %s", manual, fault);
    is_made(arena, manual, made);
}

static void manual_names_its_faults(void **state) {
    Arena *arena = *state;
    static const AttributeRule thing_attributes[] = {
        {.name = "size", LENGTH("1 mm", "2 µm"), .help = "how large", MUST}};
    static ELEMENT(thing, "A thing.");
    static const ElementRule *const roots[] = {&thing_rule, NULL};
    static const char list[] = "a\n.\\\" list of thing: made by `make schema`\nold\n"
                               ".\\\" end of list\nb\n";
    static const char made[] = "a\n.\\\" list of thing: made by `make schema`\nA thing.\n"
                               ".Bl -tag -width channel-width -compact\n.It Cm size*\n"
                               "a length: how large; from 1 mm to 2 \\(mc"
                               "m\n.El\n"
                               ".\\\" end of list\nb\n";
    const char *fault;
    assert_string_equal(manual_with_lists(arena, list, roots, &fault), made);
    assert_string_equal(manual_with_lists(arena, made, roots, &fault), made);
    assert_null(manual_with_lists(arena, "a\n", roots, &fault));
    assert_string_equal(fault, "'thing' has no list");
    assert_null(manual_with_lists(arena, arena_copy(arena, list, 50), roots, &fault));
    assert_string_equal(fault, "a list that has no end");
    const char *stray = arena_format(
        arena, "%s.\\\" list of thong: made by `make schema`\n.\\\" end of list\n", list);
    assert_null(manual_with_lists(arena, stray, roots, &fault));
    assert_string_equal(fault, "a list of 'thong', which is no element");
}

/* ---- The rules ----------------------------------------------------------------------------- */

static void value_of_end(Arena *arena, const AttributeRule *rule, const char *text, double *end) {
    ValueFault fault = rule->kind == VALUE_MEASURE
                           ? measure_read(arena, rule->measure, rule->name, text, end)
                           : number_read(arena, rule->name, text, end);
    if (fault.problem)
        fail_msg("'%s': %s", rule->name, fault.problem);
}

/* Ends of ranges are read like any value, and the lower is the lower; what holds when nothing is
 * written is within them, or among the words. */
static void has_a_good_range(Arena *arena, const AttributeRule *rule) {
    double ends[2], usual;
    assert_int_equal(rule->least != NULL, rule->most != NULL);
    bool number = rule->kind == VALUE_MEASURE || rule->kind == VALUE_COUNT ||
                  rule->kind == VALUE_NUMBER;
    assert_int_equal(number, rule->least != NULL);
    if (rule->kind == VALUE_WORD && rule->usual)
        assert_true(rule_word(rule, rule->usual) >= 0);
    if (!number)
        return;
    value_of_end(arena, rule, rule->least, &ends[0]);
    value_of_end(arena, rule, rule->most, &ends[1]);
    assert_true(ends[0] < ends[1]);
    if (rule->usual) {
        value_of_end(arena, rule, rule->usual, &usual);
        assert_true(ends[0] <= usual && usual <= ends[1]);
    }
}

/* A value goes into a member that can hold it. */
static bool fits(const AttributeRule *rule) {
    switch (rule->into) {
    case INTO_NONE: return true;
    case INTO_TEXT:
        return rule->kind == VALUE_TEXT || rule->kind == VALUE_ID || rule->kind == VALUE_WORD;
    case INTO_NUMBER: return rule->kind >= VALUE_NUMBER;
    case INTO_WHOLE: return rule->kind == VALUE_COUNT || rule->kind == VALUE_WORD;
    case INTO_YES: {
        const char *blank = rule->words ? strchr(rule->words, ' ') : NULL;
        return rule->kind == VALUE_WORD && blank && !strchr(blank + 1, ' ');
    }
    case INTO_DATE: return rule->kind == VALUE_DATE;
    case INTO_INSTANT: return rule->kind == VALUE_INSTANT;
    }
    return false;
}

static void check_rules_of(Arena *arena, const ElementRule *element) {
    assert_true(element->help && *element->help);
    for (size_t i = 0; i < element->attribute_count; i++) {
        const AttributeRule *rule = &element->attributes[i];
        assert_true(rule->help && *rule->help);
        assert_ptr_equal(attribute_rule(element, rule->name), rule);
        if (!fits(rule))
            fail_msg("'%s' of '%s' does not fit its member", rule->name, element->name);
        has_a_good_range(arena, rule);
    }
    for (size_t i = 0; i < element->child_count; i++) {
        const ChildRule *child = &element->children[i];
        assert_ptr_equal(child_rule(element, child->rule->name), child);
        assert_true(child->least <= child->most && (child->most == 1 || child->list));
        assert_true(child->rule->size || (!child->list && !child->offset));
    }
}

/* A name stands for one element wherever it is, so that it can be looked up by its name. */
static void rules_hold_together(void **state) {
    Arena *arena = *state;
    size_t count = 0;
    for (Roots root = all_roots; *root; root++) {
        ElementRules elements = element_rules(arena, *root);
        for (size_t i = 0; i < elements.count; i++, count++) {
            assert_ptr_equal(element_rule(all_roots, elements.items[i]->name, NULL),
                             elements.items[i]);
            check_rules_of(arena, elements.items[i]);
        }
    }
    assert_true(count > 35);
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

static bool file_is_valid(const xmlSchemaPtr *schemas, const char *path) {
    xmlDocPtr document =
        xmlReadFile(path, NULL, XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
    if (!document)
        return false;
    const char *root = (const char *)xmlDocGetRootElement(document)->name;
    int kind = BATCH;
    for (int i = 0; i < SCHEMAS; i++)
        if (!strcmp(root, all_roots[i]->name))
            kind = i;
    bool is_valid = valid(schemas[kind], document);
    xmlFreeDoc(document);
    return is_valid;
}

/* The broken files in which a schema can see nothing: what is wrong there are ranges, numbers of
 * elements, and values that do not go together. */
static bool looks_well(const char *path) {
    static const char *const names[] = {"all-least",
                                        "bad-workshop",
                                        "bom",
                                        "clock-back",
                                        "clock-forward",
                                        "crlf",
                                        "cure",
                                        "doctype",
                                        "equal-times",
                                        "external-dtd",
                                        "forecast-faults",
                                        "forecast-heading",
                                        "forecast-missing",
                                        "forecast-short",
                                        "long-enough",
                                        "long-texts",
                                        "no-such-day",
                                        "no-workshop",
                                        "nobody-there",
                                        "predry",
                                        "ranges",
                                        "raw",
                                        "record-amounts",
                                        "record-days",
                                        "record-fills",
                                        "record-open",
                                        "record-stopped",
                                        "record",
                                        "repeated",
                                        "salting-much",
                                        "salting",
                                        "shares-asked",
                                        "shares-carrier",
                                        "shares",
                                        "timing-ways",
                                        "weather-ways",
                                        "window",
                                        "workshop-call-short",
                                        "workshop-faults",
                                        "workshop-good",
                                        "workshop-is-batch",
                                        "workshop-logo",
                                        "workshop-logo-missing",
                                        "workshop-no-vent",
                                        "workshop-room",
                                        "workshop-sieves",
                                        "workshop-trays"};
    const char *name = strrchr(path, '/') + 1;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (!strncmp(name, names[i], strlen(names[i])) && name[strlen(names[i])] == '.')
            return true;
    return false;
}

static void files_are_judged(void **state) {
    (void)state;
    xmlSchemaPtr schemas[SCHEMAS];
    for (int i = 0; i < SCHEMAS; i++)
        schemas[i] = schema_at(schema_paths[i]);
    glob_t files;
    assert_int_equal(glob("samples/*.xml", 0, NULL, &files), 0);
    assert_int_equal(glob("tests/input/good/*.xml", GLOB_APPEND, NULL, &files), 0);
    assert_int_equal(glob("templates/stock.xml", GLOB_APPEND, NULL, &files), 0);
    assert_int_equal(glob("templates/words/*.xml", GLOB_APPEND, NULL, &files), 0);
    assert_int_equal(glob("tests/broken/*.xml", GLOB_APPEND, NULL, &files), 0);
    for (size_t i = 0; i < files.gl_pathc; i++) {
        const char *path = files.gl_pathv[i];
        bool expected = strncmp(path, "tests/broken/", 13) != 0 || looks_well(path);
        if (file_is_valid(schemas, path) != expected)
            fail_msg("%s is %s", path, expected ? "not valid" : "valid");
    }
    globfree(&files);
    for (int i = 0; i < SCHEMAS; i++)
        xmlSchemaFree(schemas[i]);
}

#define WORKSHOP_START "<workshop name=\"a\" timezone=\"a\">"

/* What the schema lets through in a mass, a duration … is what the reader lets through. */
static void values_agree(void **state) {
    Arena *arena = *state;
    static const struct {
        int schema;
        const char *before, *behind;
    } files[MEASURE_COUNT] = {
        {BATCH, "<batch name=\"a\"><bag net=\"", "\" count=\"1\" stock=\"a\"/></batch>"},
        {WORKSHOP,
         WORKSHOP_START "<dust id=\"a\" name=\"a\" material=\"a\"><grain to=\"1 mm\" from=\"",
         "\"/></dust></workshop>"},
        {WORKSHOP,
         WORKSHOP_START "<cabinet id=\"a\" name=\"a\" width=\"1 m\" depth=\"1 m\" height=\"1 m\" "
                        "wall=\"wood\"><vent outlet=\"1 cm2\" inlet=\"",
         "\"/></cabinet></workshop>"},
        {WORKSHOP, WORKSHOP_START "<room volume=\"", "\"/></workshop>"},
        {BATCH, "<batch name=\"a\"><weather temperature=\"", "\"/></batch>"},
        {BATCH, "<batch name=\"a\"><predry oven=\"100 C\" time=\"", "\"/></batch>"},
        {BATCH, "<batch name=\"a\"><weather humidity=\"", "\"/></batch>"},
        {BATCH, "<batch name=\"a\"><fill tray=\"a\" heap=\"", "\"/></batch>"},
        {WORKSHOP,
         WORKSHOP_START "<tray id=\"a\" name=\"a\" wall=\"mesh\" channel-width=\"1 mm\" "
                        "channel-depth=\"1 mm\" metal=\"",
         "\"/></workshop>"},
        {WORKSHOP, WORKSHOP_START "<oven heat-transfer=\"", "\"/></workshop>"},
        {WORKSHOP, WORKSHOP_START "<room air-changes=\"", "\"/></workshop>"},
        {BATCH, "<batch name=\"a\"><weather wind=\"", "\"/></batch>"},
        {STOCK, "<stock><roll name=\"a\" printable=\"9 mm\" width=\"", "\"/></stock>"},
        {BATCH,
         "<batch name=\"a\"><product kind=\"fish\" name=\"a\"><salting method=\"brine\" "
         "time=\"1 h\" strength=\"",
         "\"/></product></batch>"},
    };
    static const char *const numbers[] = {"5", "0.5", "-5", "+5", "5.", ".5", "5,0", "1e3", "x"};
    xmlSchemaPtr schemas[SCHEMAS];
    for (int i = 0; i < SCHEMAS; i++)
        schemas[i] = schema_at(schema_paths[i]);
    for (int m = 0; m < 2 * MEASURE_COUNT; m++) {
        Measure measure = (Measure)(m % MEASURE_COUNT);
        Names units = units_known(arena, (Measure)((m + m / MEASURE_COUNT) % MEASURE_COUNT));
        for (size_t u = 0; u < units.count; u++)
            for (size_t n = 0; n < sizeof numbers / sizeof *numbers; n++) {
                const char *value = arena_format(arena, "%s %s", numbers[n], units.items[u]);
                const char *text = arena_format(arena, "%s%s%s", files[measure].before, value,
                                                files[measure].behind);
                xmlDocPtr document =
                    xmlReadMemory(text, (int)strlen(text), "a.xml", NULL, XML_PARSE_NONET);
                assert_non_null(document);
                double read;
                bool by_us = !measure_read(arena, measure, "x", value, &read).problem;
                if (valid(schemas[files[measure].schema], document) != by_us)
                    fail_msg("'%s' as %s: the reader says %d, the schema not", value,
                             measure_name(measure), by_us);
                xmlFreeDoc(document);
            }
    }
    for (int i = 0; i < SCHEMAS; i++)
        xmlSchemaFree(schemas[i]);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(rules_hold_together),          CASE(schemas_are_made),
        CASE(manual_names_its_faults),      CASE(manual_is_made),
        cmocka_unit_test(files_are_judged), CASE(values_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
