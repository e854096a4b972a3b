/* Rules: which elements and attributes the files have, and what an attribute may say.
 *
 * This is the one list of the files' vocabulary. The readers ask it for every value, the checks
 * of structure walk it, and a test compares the XSD schemas with it. Ends of ranges are written
 * as a person would write the value, and read by the same reader.
 */
#ifndef INPUT_RULE_H
#define INPUT_RULE_H

#include "base/nearest.h"
#include "input/unit.h"

#include <stdbool.h>

typedef enum ValueKind {
    VALUE_TEXT,    /* words of the user */
    VALUE_ID,      /* a name without blanks that is referred to, or refers */
    VALUE_WORD,    /* one of `words` */
    VALUE_DATE,    /* 2026-12-04 */
    VALUE_INSTANT, /* 2026-12-04T21:30, local time of the workshop */
    VALUE_COUNT,   /* a whole number */
    VALUE_NUMBER,  /* a bare number */
    VALUE_MEASURE, /* a number with a unit of `measure` */
    VALUE_RETAINED /* a mass or a share */
} ValueKind;

typedef struct AttributeRule {
    const char *element;
    const char *name;
    ValueKind kind;
    bool required;
    Measure measure;
    const char *least; /* NULL: no bound */
    const char *most;
    const char *words; /* with blanks between; for a measure, words that stand for it. NULL: none */
} AttributeRule;

enum { MANY = 1000000 };

typedef struct ElementRule {
    const char *name;
    const char *parent; /* NULL: root of a file */
    int least;          /* how often in its parent */
    int most;
    bool has_words; /* text is expected inside */
} ElementRule;

/* The rule of an element; NULL when there is no such element. */
const ElementRule *element_rule(const char *name);

/* The rule of an attribute; NULL when the element has no such attribute. */
const AttributeRule *attribute_rule(const char *element, const char *name);

/* All rules, for those who walk them. */
const ElementRule *element_rules(size_t *count);
const AttributeRule *attribute_rules(size_t *count);

/* Names of what may stand in an element. */
Names child_names(Arena *arena, const char *element);
Names attribute_names(Arena *arena, const char *element);

/* The words of a rule, in the order of the enum they stand for. */
Names rule_words(Arena *arena, const AttributeRule *rule);

#endif
