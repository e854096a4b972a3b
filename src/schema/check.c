#include "schema/form.h"

#include <string.h>

static const char *inside(Form *form, const Element *element) {
    return arena_format(form->arena, " in '%s'", element->name);
}

/* Whether an unknown attribute seems to be meant for this one, so that one slip of the pen is not
 * reported twice. */
static bool attribute_misspelt(Form *form, const ElementRule *rule, const Element *element,
                               const char *name) {
    Names names = attribute_names(form->arena, rule);
    for (size_t i = 0; i < element->attributes.count; i++) {
        const char *written = element->attributes.items[i].name;
        const char *near = nearest_name(written, &names);
        if (!attribute_rule(rule, written) && near && !strcmp(near, name))
            return true;
    }
    return false;
}

static bool element_misspelt(Form *form, const ElementRule *rule, const Element *parent,
                             const char *name) {
    Names names = child_names(form->arena, rule);
    for (const Element *child = parent->first; child; child = child->next) {
        const char *near = nearest_name(child->name, &names);
        if (!element_rule(form->roots, child->name, NULL) && near && !strcmp(near, name))
            return true;
    }
    return false;
}

static void check_attributes(Form *form, const ElementRule *rule, const Element *element) {
    for (size_t i = 0; i < element->attributes.count; i++) {
        const Attribute *attribute = &element->attributes.items[i];
        if (attribute_rule(rule, attribute->name))
            continue;
        Names names = attribute_names(form->arena, rule);
        report_unknown(form, attribute->name_place, "attribute", attribute->name,
                       inside(form, element), &names);
    }
    for (size_t i = 0; i < rule->attribute_count; i++) {
        const AttributeRule *row = &rule->attributes[i];
        if (row->required && !form_has(element, row->name) &&
            !attribute_misspelt(form, rule, element, row->name))
            error_at(form, element, row->advice, "'%s' without its '%s'", element->name, row->name);
    }
}

static void check_words(Form *form, const Element *element, TextInside expected) {
    bool written = element_has_words(element);
    if (written && expected == TEXT_NONE)
        report_error(form->diagnostics, element_words_place(element),
                     "values are written as name=\"value\"", "text inside '%s'", element->name);
    if (!written && expected == TEXT_MUST)
        error_at(form, element, NULL, "'%s' is empty", element->name);
}

/* An element in the wrong place: unknown, or at home elsewhere. */
static void report_stranger(Form *form, const ElementRule *rule, const Element *child,
                            const Element *parent) {
    const ElementRule *home = NULL;
    Names names = child_names(form->arena, rule);
    element_rule(form->roots, child->name, &home);
    if (home)
        error_at(form, child, arena_format(form->arena, "it belongs in '%s'", home->name),
                 "'%s' inside '%s'", child->name, parent->name);
    else
        report_unknown(form, child->place, "element", child->name, inside(form, parent), &names);
}

static void check_number_of(Form *form, const ElementRule *rule, const Element *element,
                            const ChildRule *child) {
    int count = 0;
    const char *name = child->rule->name;
    for (const Element *one = element_child(element, name); one; one = element_sibling(one, name))
        if (++count == child->most + 1)
            error_at(form, one,
                     arena_format(form->arena, "'%s' has at most %d", element->name, child->most),
                     "one '%s' too many", name);
    if (count < child->least && !element_misspelt(form, rule, element, name))
        error_at(form, element, child->rule->advice, "'%s' without its '%s'", element->name, name);
}

void form_check(Form *form, const ElementRule *rule, const Element *element) {
    check_attributes(form, rule, element);
    check_words(form, element, rule->words);
    for (const Element *child = element->first; child; child = child->next) {
        const ChildRule *known = child_rule(rule, child->name);
        if (known)
            form_check(form, known->rule, child);
        else
            report_stranger(form, rule, child, element);
    }
    for (size_t i = 0; i < rule->child_count; i++)
        check_number_of(form, rule, element, &rule->children[i]);
}

bool form_check_root(Form *form, const Element *root) {
    const char *wanted = form->roots[0]->name;
    bool right = !strcmp(root->name, wanted);
    if (right)
        form_check(form, form->roots[0], root);
    else
        error_at(form, root, arena_format(form->arena, "it starts with <%s>", wanted),
                 "not a %s file", wanted);
    return right;
}
