#include "schema/form.h"

#include <string.h>

static const char *inside(Form *form, const Element *element) {
    return arena_format(form->arena, " in '%s'", element->name);
}

/* Whether an unknown attribute seems to be meant for this one, so that one slip of the pen is not
 * reported twice. */
static bool attribute_misspelt(const ElementRule *rule, const Element *element, const Names *names,
                               const char *name) {
    for (size_t i = 0; i < element->attributes.count; i++) {
        const char *written = element->attributes.items[i].name;
        const char *near = nearest_name(written, names);
        if (!attribute_rule(rule, written) && near && !strcmp(near, name))
            return true;
    }
    return false;
}

static bool element_misspelt(Form *form, const Element *parent, const Names *names,
                             const char *name) {
    for (const Element *child = parent->first; child; child = child->next) {
        const char *near = nearest_name(child->name, names);
        if (!element_rule(form->roots, child->name, NULL) && near && !strcmp(near, name))
            return true;
    }
    return false;
}

static void check_attributes(Form *form, const ElementRule *rule, const Element *element) {
    Names names = attribute_names(form->arena, rule);
    for (size_t i = 0; i < element->attributes.count; i++) {
        const Attribute *attribute = &element->attributes.items[i];
        if (!attribute_rule(rule, attribute->name))
            report_unknown(form, attribute->name_place, "attribute", attribute->name,
                           inside(form, element), &names);
    }
    for (size_t i = 0; i < rule->attribute_count; i++) {
        const AttributeRule *row = &rule->attributes[i];
        if (row->required && !form_has(element, row->name) &&
            !attribute_misspelt(rule, element, &names, row->name))
            error_at(form, element, row->advice, "'%s' without its '%s'", element->name, row->name);
    }
}

static void check_words(Form *form, const Element *element, bool expected) {
    bool written = element_has_words(element);
    if (written && !expected)
        report_error(form->diagnostics, element_words_place(element),
                     "values are written as name=\"value\"", "text inside '%s'", element->name);
    if (!written && expected)
        error_at(form, element, NULL, "'%s' is empty", element->name);
}

/* An element in the wrong place: unknown, or at home elsewhere. */
static void report_stranger(Form *form, const Element *child, const Element *parent,
                            const Names *names) {
    const ElementRule *home = NULL;
    element_rule(form->roots, child->name, &home);
    if (home)
        error_at(form, child, arena_format(form->arena, "it belongs in '%s'", home->name),
                 "'%s' inside '%s'", child->name, parent->name);
    else
        report_unknown(form, child->place, "element", child->name, inside(form, parent), names);
}

static void check_number_of(Form *form, const Element *element, const ChildRule *child,
                            const Names *names) {
    int count = 0;
    const char *name = child->rule->name;
    for (const Element *one = element_child(element, name); one; one = element_sibling(one, name))
        if (++count == child->most + 1)
            error_at(form, one,
                     arena_format(form->arena, "'%s' has at most %d", element->name, child->most),
                     "one '%s' too many", name);
    if (count < child->least && !element_misspelt(form, element, names, name))
        error_at(form, element, child->rule->advice, "'%s' without its '%s'", element->name, name);
}

void form_check(Form *form, const ElementRule *rule, const Element *element) {
    check_attributes(form, rule, element);
    check_words(form, element, rule->has_words);
    Names names = child_names(form->arena, rule);
    for (const Element *child = element->first; child; child = child->next) {
        const ChildRule *known = child_rule(rule, child->name);
        if (known)
            form_check(form, known->rule, child);
        else
            report_stranger(form, child, element, &names);
    }
    for (size_t i = 0; i < rule->child_count; i++)
        check_number_of(form, element, &rule->children[i], &names);
}
