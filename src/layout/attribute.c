#include "layout/attribute.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

Names names_split(Arena *arena, const char *text) {
    static const char blanks[] = " \t\r\n";
    Names names = {0};
    while (*(text += strspn(text, blanks))) {
        size_t length = strcspn(text, blanks);
        LIST_ADD(arena, &names, arena_copy(arena, text, length));
        text += length;
    }
    return names;
}

static bool is_among(const char *name, const Names *names) {
    for (size_t i = 0; i < names->count; i++)
        if (strcmp(name, names->items[i]) == 0)
            return true;
    return false;
}

/* "did you mean 'kind'? it may have kind, name" */
static const char *meant(Arena *arena, const char *written, const Names *names,
                         const char *may_be) {
    const char *near = nearest_name(written, names);
    const char *all = names->count ? names_listed(arena, names) : "none";
    if (near)
        return arena_format(arena, "did you mean '%s'? %s %s", near, may_be, all);
    return arena_format(arena, "%s %s", may_be, all);
}

void attribute_only(Diagnostics *diagnostics, const Element *element, const char *known) {
    Names names = names_split(diagnostics->arena, known);
    for (size_t i = 0; i < element->attributes.count; i++) {
        const Attribute *attribute = &element->attributes.items[i];
        if (!is_among(attribute->name, &names))
            report_error(diagnostics, attribute->name_place,
                         meant(diagnostics->arena, attribute->name, &names, "it may have"),
                         "'%s' has no attribute '%s'", element->name, attribute->name);
    }
}

void element_unknown(Diagnostics *diagnostics, const Element *element, const char *known) {
    Names names = names_split(diagnostics->arena, known);
    report_error(diagnostics, element->place,
                 meant(diagnostics->arena, element->name, &names, "here may stand"),
                 "unexpected element '%s'", element->name);
}

const char *attribute_required(Diagnostics *diagnostics, const Element *element, const char *name) {
    const char *value = element_value(element, name);
    if (!value)
        report_error(diagnostics, element->place,
                     arena_format(diagnostics->arena, "write %s=\"…\"", name),
                     "'%s' lacks the attribute '%s'", element->name, name);
    return value;
}

bool length_parse(const char *text, Length *length) {
    static const struct {
        const char *sign;
        LengthUnit unit;
    } units[] = {{"", LENGTH_NONE}, {"mm", LENGTH_MM}, {"pt", LENGTH_PT}, {"%", LENGTH_PERCENT}};
    if (strspn(text, "0123456789.") == 0)
        return false; /* keeps signs, "inf" and "nan" out */
    char *end = NULL;
    length->value = strtod(text, &end);
    if (end != text + strspn(text, "0123456789."))
        return false;
    const char *sign = end + strspn(end, " ");
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        if (strcmp(sign, units[i].sign) == 0) {
            length->unit = units[i].unit;
            return isfinite(length->value);
        }
    }
    return false;
}

double attribute_length(Diagnostics *diagnostics, const Element *element, const char *name,
                        LengthUnit unit, double least, double most, double usual) {
    static const char *const signs[] = {
        [LENGTH_NONE] = "", [LENGTH_MM] = " mm", [LENGTH_PT] = " pt", [LENGTH_PERCENT] = " %"};
    const char *value = element_value(element, name);
    if (!value)
        return usual;
    Length length = {0};
    if (length_parse(value, &length) && length.unit == unit && length.value >= least &&
        length.value <= most)
        return length.value;
    report_error(diagnostics, element_value_place(element, name),
                 arena_format(diagnostics->arena, "from %g%s to %g%s, like %s=\"%g%s\"", least,
                              signs[unit], most, signs[unit], name, usual, signs[unit]),
                 "'%s' is no %s", value, unit == LENGTH_NONE ? "number" : "length that would do");
    return usual;
}

int attribute_choice(Diagnostics *diagnostics, const Element *element, const char *name,
                     const char *what, const Names *names, int usual) {
    const char *value = element_value(element, name);
    if (!value)
        return usual;
    for (size_t i = 0; i < names->count; i++)
        if (strcmp(value, names->items[i]) == 0)
            return (int)i;
    report_error(diagnostics, element_value_place(element, name),
                 meant(diagnostics->arena, value, names, "there are"), "unknown %s '%s'", what,
                 value);
    return -1;
}
