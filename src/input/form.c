#include "input/form.h"

#include "base/utf8.h"

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

static ValueFault read_by_rule(Form *form, const AttributeRule *rule, const char *text,
                               double *value) {
    if (rule->kind == VALUE_MEASURE || rule->kind == VALUE_RETAINED)
        return measure_read(form->arena, rule->measure, rule->name, text, value);
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

int form_special(Form *form, const Element *element, const char *name) {
    const char *value = element_value(element, name);
    Names words = rule_words(form->arena, attribute_rule(element->name, name));
    for (size_t i = 0; value && i < words.count; i++)
        if (!strcmp(words.items[i], value))
            return (int)i;
    return -1;
}

double form_number(Form *form, const Element *element, const char *name) {
    const AttributeRule *rule = attribute_rule(element->name, name);
    const Attribute *attribute = element_attribute(element, name);
    if (!attribute || form_special(form, element, name) >= 0)
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

int form_count(Form *form, const Element *element, const char *name, int otherwise) {
    const AttributeRule *rule = attribute_rule(element->name, name);
    const Attribute *attribute = element_attribute(element, name);
    if (!attribute)
        return otherwise;
    int value;
    ValueFault fault = count_read(form->arena, name, attribute->value, &value);
    if (fault.problem)
        report_fault(form, attribute->place, fault);
    else if (clamp(form, rule, value, attribute->place, attribute->value))
        return value;
    return otherwise;
}

double form_retained(Form *form, const Element *element, bool *by_share) {
    const Attribute *attribute = element_attribute(element, "retained");
    *by_share = attribute && strchr(attribute->value, '%');
    if (!attribute)
        return NOT_STATED;
    double value;
    ValueFault fault = measure_read(form->arena, *by_share ? MEASURE_SHARE : MEASURE_MASS,
                                    "retained", attribute->value, &value);
    if (!fault.problem && value < 0)
        fault.problem = arena_format(form->arena, "'%s' is less than nothing",
                                     shown_value(form->arena, attribute->value));
    if (fault.problem)
        report_fault(form, attribute->place, fault);
    return fault.problem ? NOT_STATED : value;
}

/* ---- Words --------------------------------------------------------------------------------- */

int form_word(Form *form, const Element *element, const char *name, int otherwise) {
    const Attribute *attribute = element_attribute(element, name);
    if (!attribute)
        return otherwise;
    int found = form_special(form, element, name);
    if (found >= 0)
        return found;
    Names words = rule_words(form->arena, attribute_rule(element->name, name));
    const char *near = nearest_name(attribute->value, &words);
    const char *all = names_listed(form->arena, &words);
    const char *which = arena_format(form->arena, "'%s' is one of: %s", name, all);
    report_error(form->diagnostics, attribute->place,
                 near ? arena_format(form->arena, "did you mean '%s'? %s", near, which) : which,
                 "unknown '%s' for '%s'", shown_value(form->arena, attribute->value), name);
    return otherwise;
}

bool form_yes(Form *form, const Element *element, const char *name, bool otherwise) {
    return form_word(form, element, name, otherwise) != 0;
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

const char *form_text(Form *form, const Element *element, const char *name) {
    const Attribute *attribute = element_attribute(element, name);
    if (!attribute)
        return NULL;
    const AttributeRule *rule = attribute_rule(element->name, name);
    const char *problem = text_problem(form, rule, attribute->value);
    if (!problem)
        return attribute->value;
    const char *remedy =
        rule->kind == VALUE_ID
            ? arena_format(form->arena, "'%s' is one word, such as 'oak-chip'", name)
            : NULL;
    report_error(form->diagnostics, attribute->place, remedy, "%s", problem);
    return NULL;
}

/* ---- Dates --------------------------------------------------------------------------------- */

Date form_date(Form *form, const Element *element, const char *name) {
    const Attribute *attribute = element_attribute(element, name);
    Date date = {0};
    if (!attribute || date_parse(attribute->value, &date))
        return date;
    report_error(
        form->diagnostics, attribute->place,
        arena_format(form->arena, "'%s' is a day of the calendar, written 2026-12-04", name),
        "'%s' is not a date", shown_value(form->arena, attribute->value));
    return (Date){0};
}

static void report_not_a_time(Form *form, Place place, const char *subject, const char *text) {
    const char *remedy =
        arena_format(form->arena, "'%s' is a local time, written 2026-12-04T21:30", subject);
    Date date;
    if (date_parse(text, &date))
        remedy = arena_format(form->arena, "%s: the hour is missing", remedy);
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

Instant form_instant(Form *form, const Element *element, const char *name) {
    const Attribute *attribute = element_attribute(element, name);
    return attribute ? instant_read(form, attribute->place, name, attribute->value) : 0;
}
