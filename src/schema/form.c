#include "schema/form.h"

#include "base/utf8.h"

#include <stdlib.h>
#include <string.h>

enum { TEXT_CHARACTERS_MAX = 300, ID_CHARACTERS_MAX = 60 };

bool form_has(const Element *element, const char *name) {
    return element_attribute(element, name) != NULL;
}

static void report_fault(Form *form, Place place, ValueFault fault) {
    report_error(form->diagnostics, place, fault.remedy, "%s", fault.problem);
}

void report_unknown(Form *form, Place place, const char *kind, const char *written,
                    const char *where, const Names *known) {
    const char *near = nearest_name(written, known);
    const char *all = names_listed(form->arena, known);
    const char *remedy = near ? arena_format(form->arena, "did you mean '%s'? known: %s", near, all)
                         : known->count ? arena_format(form->arena, "known: %s", all)
                                        : "none is known";
    report_error(form->diagnostics, place, remedy, "unknown %s '%s'%s", kind,
                 shown_value(form->arena, written), where);
}

/* ---- Numbers ------------------------------------------------------------------------------- */

/* What stayed on a sieve: kg, or a fraction. */
static ValueFault read_retained(Arena *arena, const char *subject, const char *text,
                                double *value) {
    Measure measure = strchr(text, '%') ? MEASURE_SHARE : MEASURE_MASS;
    ValueFault fault = measure_read(arena, measure, subject, text, value);
    if (!fault.problem && *value < 0)
        fault.problem = arena_format(arena, "'%s' is less than nothing", shown_value(arena, text));
    return fault;
}

static ValueFault read_by_rule(Form *form, const AttributeRule *rule, const char *text,
                               double *value) {
    if (rule->kind == VALUE_MEASURE)
        return measure_read(form->arena, rule->measure, rule->name, text, value);
    if (rule->kind == VALUE_RETAINED)
        return read_retained(form->arena, rule->name, text, value);
    return number_read(form->arena, rule->name, text, value);
}

static const char *range_text(Arena *arena, const AttributeRule *rule) {
    return arena_format(arena, "'%s' is at least %s and at most %s", rule->name, rule->least,
                        rule->most);
}

/* Ends of a range are part of it; the slack lets "212 °F" pass as 100 °C. */
static bool clamp(Form *form, const AttributeRule *rule, double value, Place place,
                  const char *text) {
    if (!rule->least)
        return true;
    double least = 0, most = 0;
    read_by_rule(form, rule, rule->least, &least);
    read_by_rule(form, rule, rule->most, &most);
    double slack = (most - least) * 1e-12;
    if (value >= least - slack && value <= most + slack)
        return true;
    report_error(form->diagnostics, place, range_text(form->arena, rule), "'%s' is too %s for '%s'",
                 shown_value(form->arena, text), value < least ? "little" : "much", rule->name);
    return false;
}

/* A measure or number that the attribute says; NAN when it says none, or a word. */
static double read_number(Form *form, const AttributeRule *rule, const Attribute *attribute) {
    if (rule_word(rule, attribute->value) >= 0)
        return NOT_STATED;
    double value;
    ValueFault fault = read_by_rule(form, rule, attribute->value, &value);
    if (fault.problem && rule->words) {
        Names words = rule_words(form->arena, rule);
        fault.remedy = arena_format(form->arena, "%s, or one of: %s", fault.remedy,
                                    names_listed(form->arena, &words));
    }
    if (fault.problem)
        report_fault(form, attribute->place, fault);
    else if (clamp(form, rule, value, attribute->place, attribute->value))
        return value;
    return NOT_STATED;
}

/* The range is told apart from nothing: the usual count stands in for a faulty one. */
static int read_count(Form *form, const AttributeRule *rule, const Attribute *attribute,
                      int otherwise) {
    int value;
    ValueFault fault = count_read(form->arena, rule->name, attribute->value, &value);
    if (fault.problem)
        report_fault(form, attribute->place, fault);
    else if (clamp(form, rule, value, attribute->place, attribute->value))
        return value;
    return otherwise;
}

/* ---- Words --------------------------------------------------------------------------------- */

static void report_word(Form *form, const AttributeRule *rule, const Attribute *attribute) {
    Names words = rule_words(form->arena, rule);
    const char *near = nearest_name(attribute->value, &words);
    const char *all = names_listed(form->arena, &words);
    const char *which = arena_format(form->arena, "'%s' is one of: %s", rule->name, all);
    report_error(form->diagnostics, attribute->place,
                 near ? arena_format(form->arena, "did you mean '%s'? %s", near, which) : which,
                 "unknown '%s' for '%s'", shown_value(form->arena, attribute->value), rule->name);
}

static const char *text_problem(Form *form, const AttributeRule *rule, const char *text) {
    size_t most = rule->kind == VALUE_ID ? ID_CHARACTERS_MAX : TEXT_CHARACTERS_MAX;
    if (!text[strspn(text, " \t\r\n")])
        return arena_format(form->arena, "'%s' is empty", rule->name);
    if (utf8_count(text) > most)
        return arena_format(form->arena, "'%s' is longer than %zu characters", rule->name, most);
    if (rule->kind == VALUE_ID && strpbrk(text, " \t\r\n"))
        return arena_format(form->arena, "blank in '%s'", shown_value(form->arena, text));
    return NULL;
}

/* What helps against that: an id has a form, another text may be left out or not. */
static const char *text_remedy(Form *form, const AttributeRule *rule, const char *text) {
    if (rule->kind == VALUE_ID)
        return arena_format(form->arena, "'%s' is one word, such as 'oak-chip'", rule->name);
    if (text[strspn(text, " \t\r\n")])
        return NULL;
    return rule->required
               ? "write it between the quotes"
               : arena_format(form->arena, "write it between the quotes, or take %s=\"\" out",
                              rule->name);
}

static const char *read_text(Form *form, const AttributeRule *rule, const Attribute *attribute) {
    const char *problem = text_problem(form, rule, attribute->value);
    if (!problem)
        return attribute->value;
    report_error(form->diagnostics, attribute->place, text_remedy(form, rule, attribute->value),
                 "%s", problem);
    return NULL;
}

/* ---- Dates --------------------------------------------------------------------------------- */

/* Of a date that is written well but is in no calendar, as 30 February: how long its month is.
 * NULL: it is something else. */
static const char *beyond_month(Arena *arena, const char *text) {
    static const char form[] = "0000-00-00";
    for (size_t i = 0; form[i]; i++)
        if (form[i] == '-' ? text[i] != '-' : text[i] < '0' || text[i] > '9')
            return NULL;
    int year = (int)strtol(text, NULL, 10), month = (int)strtol(text + 5, NULL, 10);
    int days = date_days_in_month(year, month);
    bool beyond = days > 0 && strtol(text + 8, NULL, 10) > days;
    return beyond ? arena_format(arena, "month %d of %d has %d days", month, year, days) : NULL;
}

static Date read_date(Form *form, const AttributeRule *rule, const Attribute *attribute) {
    Date date = {0};
    if (date_parse(attribute->value, &date))
        return date;
    const char *remedy = beyond_month(form->arena, attribute->value);
    if (!remedy)
        remedy = arena_format(form->arena, "'%s' is a day of the calendar, written 2026-12-04",
                              rule->name);
    report_error(form->diagnostics, attribute->place, remedy, "'%s' is not a date",
                 shown_value(form->arena, attribute->value));
    return (Date){0};
}

static void report_not_a_time(Form *form, Place place, const char *subject, const char *text) {
    const char *remedy =
        arena_format(form->arena, "'%s' is a local time, written 2026-12-04T21:30", subject);
    Date date;
    if (date_parse(text, &date))
        remedy = arena_format(form->arena, "%s: the hour is missing", remedy);
    else if (beyond_month(form->arena, text))
        remedy = beyond_month(form->arena, text);
    else if (strpbrk(text, "Z+"))
        remedy = arena_format(form->arena, "%s, without a zone", remedy);
    report_error(form->diagnostics, place, remedy, "'%s' is not a date and time",
                 shown_value(form->arena, text));
}

Instant instant_read(Form *form, Place place, const char *subject, const char *text) {
    CivilTime civil;
    if (!civil_parse(text, &civil)) {
        report_not_a_time(form, place, subject, text);
        return 0;
    }
    if (!form->zone)
        return 0;
    Instant first, second;
    int count = zone_local_to_instant(form->zone, civil, &first, &second);
    if (count == 0) {
        char after[CIVIL_TEXT_SIZE];
        civil_format(zone_civil(form->zone, first), after);
        report_error(form->diagnostics, place,
                     arena_format(form->arena, "the clocks of %s are put forward over it, to %.16s",
                                  zone_name(form->zone), after),
                     "there is no '%s'", text);
        return 0;
    }
    if (count == 2)
        report_warning(form->diagnostics, place,
                       arena_format(form->arena,
                                    "the clocks of %s are put back; the first is taken",
                                    zone_name(form->zone)),
                       "'%s' comes twice", text);
    return first;
}

/* ---- By name ------------------------------------------------------------------------------- */

static const AttributeRule *rule_of(Form *form, const Element *element, const char *name) {
    return attribute_rule(element_rule(form->roots, element->name, NULL), name);
}

double form_number(Form *form, const Element *element, const char *name) {
    const Attribute *attribute = element_attribute(element, name);
    return attribute ? read_number(form, rule_of(form, element, name), attribute) : NOT_STATED;
}

int form_word(Form *form, const Element *element, const char *name) {
    const char *value = element_value(element, name);
    return value ? rule_word(rule_of(form, element, name), value) : -1;
}

const char *form_text(Form *form, const Element *element, const char *name) {
    const Attribute *attribute = element_attribute(element, name);
    return attribute ? read_text(form, rule_of(form, element, name), attribute) : NULL;
}

Instant form_instant(Form *form, const Element *element, const char *name) {
    const Attribute *attribute = element_attribute(element, name);
    return attribute ? instant_read(form, attribute->place, name, attribute->value) : 0;
}

bool form_open(Form *form, const Element *element, const char *name) {
    const char *value = element_value(element, name);
    return value && rule_left_open(rule_of(form, element, name), value);
}

bool form_answered(Form *form, const Element *element, const char *name) {
    return form_has(element, name) && !form_open(form, element, name);
}

/* ---- Whole elements ------------------------------------------------------------------------ */

static void set_word(Form *form, const AttributeRule *rule, const Attribute *attribute,
                     void *member) {
    int word = rule_word(rule, attribute->value);
    if (word < 0)
        report_word(form, rule, attribute);
    else if (rule->into == INTO_YES)
        *(bool *)member = word == 1;
    else if (rule->into == INTO_WHOLE)
        *(int *)member = word;
    else if (rule->into == INTO_TEXT)
        *(const char **)member = attribute->value;
}

static void set_member(Form *form, const AttributeRule *rule, const Attribute *attribute,
                       void *member) {
    if (rule->kind == VALUE_WORD) {
        set_word(form, rule, attribute, member);
        return;
    }
    switch (rule->into) {
    case INTO_TEXT: *(const char **)member = read_text(form, rule, attribute); break;
    case INTO_NUMBER: *(double *)member = read_number(form, rule, attribute); break;
    case INTO_WHOLE: *(int *)member = read_count(form, rule, attribute, *(int *)member); break;
    case INTO_DATE: *(Date *)member = read_date(form, rule, attribute); break;
    case INTO_INSTANT:
        *(Instant *)member = instant_read(form, attribute->place, rule->name, attribute->value);
        break;
    case INTO_YES:
    case INTO_NONE: break;
    }
}

/* What holds when nothing is written, in the element and all that may stand in it once. */
static void clear(Form *form, const ElementRule *rule, char *into) {
    for (size_t i = 0; i < rule->attribute_count; i++) {
        const AttributeRule *row = &rule->attributes[i];
        void *member = into + row->offset;
        if (row->into == INTO_NUMBER)
            *(double *)member = NOT_STATED;
        if (row->usual && row->into != INTO_NONE)
            set_member(form, row, &(Attribute){.value = row->usual}, member);
    }
    for (size_t i = 0; i < rule->child_count; i++)
        if (!rule->children[i].list)
            clear(form, rule->children[i].rule, into + rule->children[i].offset);
}

static void read_element(Form *form, const ElementRule *rule, const Element *element, char *into,
                         void *outer);

/* Reads an element into `item`, and puts that behind those there are. */
static void add_item(Form *form, const ChildRule *child, const Element *element, char *item,
                     char *outer) {
    typedef LIST_OF(char) AnyList;
    AnyList list;
    size_t size = child->rule->size;
    memset(item, 0, size);
    clear(form, child->rule, item);
    read_element(form, child->rule, element, item, outer);
    memcpy(&list, outer + child->offset, sizeof list);
    list.items = list_room(form->arena, list.items, list.count, &list.capacity, size);
    memcpy(list.items + list.count++ * size, item, size);
    memcpy(outer + child->offset, &list, sizeof list);
}

/* Of what may stand there once only the first is read: form_check minds the others. */
static void read_children(Form *form, const ChildRule *child, const Element *element, char *into) {
    const char *name = child->rule->name;
    const Element *one = element_child(element, name);
    char *item = one && child->list ? arena_take(form->arena, 1, child->rule->size) : NULL;
    for (; one; one = child->most > 1 ? element_sibling(one, name) : NULL)
        if (child->list)
            add_item(form, child, one, item, into);
        else
            read_element(form, child->rule, one, into + child->offset, into);
}

static void read_attributes(Form *form, const ElementRule *rule, const Element *element,
                            char *into) {
    for (size_t i = 0; i < rule->attribute_count; i++) {
        const AttributeRule *row = &rule->attributes[i];
        const Attribute *attribute = element_attribute(element, row->name);
        bool answered = attribute && !rule_left_open(row, attribute->value);
        if (answered && (row->into || row->kind == VALUE_WORD))
            set_member(form, row, attribute, into + row->offset);
    }
}

static void read_element(Form *form, const ElementRule *rule, const Element *element, char *into,
                         void *outer) {
    size_t errors = diagnostics_errors(form->diagnostics, NULL);
    if (rule->place)
        memcpy(into + rule->place - 1, &element->place, sizeof element->place);
    if (rule->stated)
        *(into + rule->stated - 1) = true;
    if (rule->words == TEXT_MUST) {
        const char *words = element_words(form->arena, element);
        memcpy(into, &words, sizeof words);
    }
    read_attributes(form, rule, element, into);
    for (size_t i = 0; i < rule->child_count; i++)
        read_children(form, &rule->children[i], element, into);
    form->outer = outer;
    form->faults = diagnostics_errors(form->diagnostics, NULL) - errors;
    if (rule->check)
        rule->check(form, element, into);
}

void form_read(Form *form, const ElementRule *rule, const Element *element, void *into) {
    clear(form, rule, into);
    read_element(form, rule, element, into, NULL);
}
