/* Plural: which form of a counted word a number takes, by the cardinal rules of the Unicode
 * Common Locale Data Repository (supplemental/plurals.xml). A words file names the family of
 * rules that its language follows, so that another language needs no C. */
#ifndef LAYOUT_PLURAL_H
#define LAYOUT_PLURAL_H

#include <stdbool.h>

typedef enum Plural { PLURAL_ONE, PLURAL_FEW, PLURAL_MANY, PLURAL_OTHER, PLURAL_COUNT } Plural;

/* Families of rules, with some of the languages that follow each. */
typedef enum PluralRule {
    PLURAL_RULE_NONE,        /* "none": one form for all */
    PLURAL_RULE_GERMANIC,    /* "germanic": en de nl sv et fi; in whole numbers it es el da */
    PLURAL_RULE_FRENCH,      /* "french": fr, pt: none and one alike */
    PLURAL_RULE_POLISH,      /* "polish": pl */
    PLURAL_RULE_EAST_SLAVIC, /* "east-slavic": ru uk be */
    PLURAL_RULE_CZECH,       /* "czech": cs sk */
    PLURAL_RULE_COUNT
} PluralRule;

/* The form that `value` takes when it is written with `decimals` visible decimal places: "1" and
 * "1.0" can differ. The sign does not count. */
Plural plural_form(PluralRule rule, double value, int decimals);

/* Whether a language of that rule has to have the form. */
bool plural_needed(PluralRule rule, Plural form);

/* "one", "few", "many", "other": the element names in a words file. */
const char *plural_name(Plural form);

#endif
