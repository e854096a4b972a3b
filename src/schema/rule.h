/* Rules: which elements and attributes a file has, what an attribute may say, and the member of
 * which struct it is read into.
 *
 * Everything that is known of a file's vocabulary stands in these rows, once: form_check and
 * form_read walk them, the schemas for editors and the lists of the manual page are written from
 * them (`make schema`). Ends of ranges and what holds when nothing is written are given as a person
 * would write them, and read by the same reader.
 */
#ifndef SCHEMA_RULE_H
#define SCHEMA_RULE_H

#include "base/date.h"
#include "base/element.h"
#include "base/nearest.h"
#include "schema/unit.h"

#include <stdbool.h>
#include <stddef.h>

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

/* What an attribute is read into. */
typedef enum MemberKind {
    INTO_NONE,    /* a check sees to it */
    INTO_TEXT,    /* const char *; of a word: itself */
    INTO_NUMBER,  /* double, SI */
    INTO_WHOLE,   /* int, or an enum in the order of the words */
    INTO_YES,     /* bool: the second of two words */
    INTO_DATE,    /* Date */
    INTO_INSTANT, /* Instant */
} MemberKind;

typedef struct AttributeRule {
    const char *name;
    ValueKind kind;
    Measure measure;
    const char *least; /* NULL: no bound */
    const char *most;
    const char *words; /* with blanks between; for a measure, words that stand for it. NULL: none */
    MemberKind into;
    size_t offset;
    const char *help; /* one line */
    bool required;
    bool open;          /* a question mark may stand for an answer that nobody gave yet */
    const char *usual;  /* what holds when it is not written; NULL: not stated */
    const char *advice; /* how to find it out, for whoever left it out; NULL: none */
} AttributeRule;

/* Whether text stands inside an element. */
typedef enum TextInside { TEXT_NONE, TEXT_MAY, TEXT_MUST } TextInside;

typedef struct ElementRule ElementRule;

/* An element in an element, and where in the struct of the outer one it is kept. */
typedef struct ChildRule {
    const ElementRule *rule;
    int least; /* how often */
    int most;
    size_t offset; /* of its struct, or of a LIST_OF such; 0 when it has none of its own */
    bool list;
} ChildRule;

typedef struct Form Form;

/* Looks at what its attributes and children were read into, sets what is not read by a row, and
 * reports what does not hold together. */
typedef void CheckElement(Form *form, const Element *element, void *into);

struct ElementRule {
    const char *name;
    const char *help; /* one line */
    TextInside words; /* with TEXT_MUST the text is its struct, a const char * */
    const AttributeRule *attributes;
    size_t attribute_count;
    const ChildRule *children; /* read in this order */
    size_t child_count;
    size_t size;   /* of its struct; 0: its attributes go into that of what it stands in */
    size_t place;  /* one more than the offset of its Place; 0: none */
    size_t stated; /* one more than the offset of a bool, set when it is written; 0: none */
    CheckElement *check;
    const char *advice; /* what to write, for whoever left it out; NULL: none */
};

/* Roots of files, with NULL behind the last. */
typedef const ElementRule *const *Roots;

/* The element of that name, wherever it stands below the roots, and what it stands in first (NULL:
 * a root). NULL when there is none. */
const ElementRule *element_rule(Roots roots, const char *name, const ElementRule **outer);

/* NULL when there is none such. */
const AttributeRule *attribute_rule(const ElementRule *element, const char *name);
const ChildRule *child_rule(const ElementRule *element, const char *name);

/* Every element below a root once, the root first, and what stands in one behind it. */
typedef LIST_OF(const ElementRule *) ElementRules;
ElementRules element_rules(Arena *arena, const ElementRule *root);

/* Names of what may stand in an element. */
Names child_names(Arena *arena, const ElementRule *element);
Names attribute_names(Arena *arena, const ElementRule *element);

/* What there is to be said of an attribute in a line: help, what holds when it is not written, and
 * its range. */
char *rule_note(Arena *arena, const AttributeRule *rule);

/* Whether what is written for it is still open and counts as not written: "?", or, where it is not
 * words of the user, a "?" with something behind it that was only planned. */
bool rule_left_open(const AttributeRule *rule, const char *written);

/* The words of a rule, in the order of the enum they stand for. */
Names rule_words(Arena *arena, const AttributeRule *rule);

/* The number of that word among them, from 0; -1: none. */
int rule_word(const AttributeRule *rule, const char *word);

#endif
