#include "input/form.h"

#include <string.h>

static const char *inside(Form *form, const Element *element) {
    return arena_format(form->arena, " in '%s'", element->name);
}

/* Whether an unknown attribute seems to be meant for this one, so that one slip of the pen is not
 * reported twice. */
static bool attribute_misspelt(Form *form, const Element *element, const char *name) {
    Names names = attribute_names(form->arena, element->name);
    for (size_t i = 0; i < element->attributes.count; i++) {
        const char *written = element->attributes.items[i].name;
        const char *near = nearest_name(written, &names);
        if (!attribute_rule(element->name, written) && near && !strcmp(near, name))
            return true;
    }
    return false;
}

static bool element_misspelt(Form *form, const Element *parent, const char *name) {
    Names names = child_names(form->arena, parent->name);
    for (const Element *child = parent->first; child; child = child->next) {
        const char *near = nearest_name(child->name, &names);
        if (!element_rule(child->name) && near && !strcmp(near, name))
            return true;
    }
    return false;
}

/* How to find out what people leave out because they do not know it. */
typedef struct Advice {
    const char *element;
    const char *attribute;
    const char *advice;
} Advice;

/* Dust "through 1 mm" may be half fines or none: the lower end decides whether the glow lasts. */
static const Advice advices[] = {
    {"grain", "from",
     "say how fine the finest grains are: shake some over one fine sieve, or lay some beside a "
     "ruler under a lens; it decides whether the glow lasts"},
    {"grain", "to",
     "say how coarse the coarsest grains are: the sieve they all pass, or some beside a ruler"},
};

static const char *advice_for(const char *element, const char *attribute) {
    for (size_t i = 0; i < sizeof advices / sizeof *advices; i++)
        if (!strcmp(advices[i].element, element) && !strcmp(advices[i].attribute, attribute))
            return advices[i].advice;
    return NULL;
}

static void check_attributes(Form *form, const Element *element) {
    Names names = attribute_names(form->arena, element->name);
    for (size_t i = 0; i < element->attributes.count; i++) {
        const Attribute *attribute = &element->attributes.items[i];
        if (!attribute_rule(element->name, attribute->name))
            report_unknown(form, attribute->name_place, "attribute", attribute->name,
                           inside(form, element), &names);
    }
    for (size_t i = 0; i < names.count; i++) {
        const AttributeRule *rule = attribute_rule(element->name, names.items[i]);
        if (rule->required && !form_has(element, rule->name) &&
            !attribute_misspelt(form, element, rule->name))
            report_error(form->diagnostics, element->place, advice_for(element->name, rule->name),
                         "'%s' without its '%s'", element->name, rule->name);
    }
}

static void check_words(Form *form, const Element *element, bool expected) {
    bool written = element_has_words(element);
    if (written && !expected)
        report_error(form->diagnostics, element_words_place(element),
                     "values are written as name=\"value\"", "text inside '%s'", element->name);
    if (!written && expected)
        report_error(form->diagnostics, element->place, NULL, "'%s' is empty", element->name);
}

/* An element in the wrong place: unknown, or at home elsewhere. */
static void report_stranger(Form *form, const Element *child, const Element *parent) {
    const ElementRule *rule = element_rule(child->name);
    Names names = child_names(form->arena, parent->name);
    if (!rule || (!rule->parent && names.count)) {
        report_unknown(form, child->place, "element", child->name, inside(form, parent), &names);
        return;
    }
    report_error(form->diagnostics, child->place,
                 arena_format(form->arena, "it belongs in '%s'", rule->parent ? rule->parent : ""),
                 "'%s' inside '%s'", child->name, parent->name);
}

static void check_number_of(Form *form, const Element *element, const ElementRule *rule) {
    int count = 0;
    for (const Element *child = element_child(element, rule->name); child;
         child = element_sibling(child, rule->name))
        if (++count == rule->most + 1)
            report_error(
                form->diagnostics, child->place,
                arena_format(form->arena, "'%s' has at most %d", element->name, rule->most),
                "one '%s' too many", rule->name);
    if (count < rule->least && !element_misspelt(form, element, rule->name))
        report_error(form->diagnostics, element->place, NULL, "'%s' without its '%s'",
                     element->name, rule->name);
}

static void check_children(Form *form, const Element *element) {
    for (const Element *child = element->first; child; child = child->next) {
        const ElementRule *rule = element_rule(child->name);
        bool at_home = rule && rule->parent && !strcmp(rule->parent, element->name);
        if (at_home)
            form_check(form, child);
        else
            report_stranger(form, child, element);
    }
    Names names = child_names(form->arena, element->name);
    for (size_t i = 0; i < names.count; i++)
        check_number_of(form, element, element_rule(names.items[i]));
}

void form_check(Form *form, const Element *element) {
    const ElementRule *rule = element_rule(element->name);
    check_attributes(form, element);
    check_words(form, element, rule && rule->has_words);
    check_children(form, element);
}
