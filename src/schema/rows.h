/* Rows: how rules of elements and attributes are written down (what they are: schema/rule.h).
 *
 *     static const AttributeRule dust_attributes[] = {
 *         ROW("id", ID, Dust, id, "short name that batches refer to", MUST),
 *         ROW("stock", MASS("0 kg", "10000 kg"), Dust, stock_kg, "as it lies"),
 *         ROW("form", WORDS("dust chip leaf"), Dust, form, "…", .usual = "dust"),
 *     };
 *     ELEMENT(dust, "A wood dust on the shelf.", CHILDREN(dust_children), OWN_STRUCT(Dust));
 *
 * The short names are for the files that hold rows: include this behind all else.
 */
#ifndef SCHEMA_ROWS_H
#define SCHEMA_ROWS_H

#include "schema/rule.h"

/* An attribute that is read into a member; and one that the element's check sees to. */
#define ROW(attribute, value, type, member, ...)                                                   \
    {                                                                                              \
        .name = attribute, value, .into = KIND_OF(((type *)0)->member),                            \
        .offset = offsetof(type, member), .help = __VA_ARGS__                                      \
    }
#define CHECKED(attribute, value, ...)                                                             \
    { .name = attribute, value, .help = __VA_ARGS__ }
#define KIND_OF(member)                                                                            \
    _Generic((member),                                                                             \
        const char *: INTO_TEXT,                                                                 \
        double: INTO_NUMBER,                                                                     \
        int: INTO_WHOLE,                                                                         \
        unsigned: INTO_WHOLE, /* an enum */                                                      \
        bool: INTO_YES,                                                                          \
        Date: INTO_DATE,                                                                         \
        Instant: INTO_INSTANT)
#define MUST .required = true
#define OPEN .open = true

#define TEXT .kind = VALUE_TEXT
#define ID .kind = VALUE_ID
#define WORDS(list) .kind = VALUE_WORD, .words = list
#define YES_NO WORDS("no yes")
#define DATE .kind = VALUE_DATE
#define INSTANT .kind = VALUE_INSTANT
#define BETWEEN(from, to) .least = from, .most = to
#define COUNT(from, to) .kind = VALUE_COUNT, BETWEEN(from, to)
#define NUMBER(from, to) .kind = VALUE_NUMBER, BETWEEN(from, to)
#define MEASURED(unit, from, to) .kind = VALUE_MEASURE, .measure = unit, BETWEEN(from, to)
#define RETAINED .kind = VALUE_RETAINED
#define MEASURED_OR(list, unit, from, to) MEASURED(unit, from, to), .words = list
#define MASS(from, to) MEASURED(MEASURE_MASS, from, to)
#define LENGTH(from, to) MEASURED(MEASURE_LENGTH, from, to)
#define AREA(from, to) MEASURED(MEASURE_AREA, from, to)
#define VOLUME(from, to) MEASURED(MEASURE_VOLUME, from, to)
#define TEMPERATURE(from, to) MEASURED(MEASURE_TEMPERATURE, from, to)
#define DURATION(from, to) MEASURED(MEASURE_DURATION, from, to)
#define SHARE(from, to) MEASURED(MEASURE_SHARE, from, to)
#define HEAT_TRANSFER(from, to) MEASURED(MEASURE_HEAT_TRANSFER, from, to)
#define PAPER(from, to) MEASURED(MEASURE_PAPER, from, to)
#define STRENGTH(from, to) MEASURED(MEASURE_STRENGTH, from, to)
#define WIND(from, to) MEASURED(MEASURE_WIND, from, to)

/* An element with the rows `NAME_attributes`; then what else there is to be said of it. */
#define ELEMENT(element, ...)                                                                      \
    const ElementRule element##_rule = {.name = #element,                                          \
                                        .attributes = element##_attributes,                        \
                                        .attribute_count = sizeof(element##_attributes) /          \
                                                           sizeof *element##_attributes,           \
                                        .help = __VA_ARGS__}
#define CHILDREN(rows) .children = rows, .child_count = sizeof(rows) / sizeof *(rows)
#define OWN_STRUCT(type) .size = sizeof(type), .place = 1 + offsetof(type, place)
#define STATED(type) .stated = 1 + offsetof(type, stated)

/* What stands in an element: several, one (from `least` 0 or 1 on), or one that has no struct. */
#define SEVERAL(element, from, to, type, member)                                                   \
    {                                                                                              \
        .rule = &element##_rule, .least = from, .most = to, .offset = offsetof(type, member),      \
        .list = true                                                                               \
    }
#define ONE(element, from, type, member)                                                           \
    { .rule = &element##_rule, .least = from, .most = 1, .offset = offsetof(type, member) }
#define INSIDE(element, from)                                                                      \
    { .rule = &element##_rule, .least = from, .most = 1 }

#endif
