/* Plural: which form of a counted word a number takes, by the cardinal rules of the Unicode
 * Common Locale Data Repository (supplemental/plurals.xml) for the languages that ship. */
#ifndef LAYOUT_PLURAL_H
#define LAYOUT_PLURAL_H

#include <stdbool.h>

typedef enum Plural { PLURAL_ONE, PLURAL_FEW, PLURAL_MANY, PLURAL_OTHER, PLURAL_COUNT } Plural;

/* The form that `value` takes in a language when it is written with `decimals` visible decimal
 * places: "1" and "1.0" can differ. A language without rules of its own has PLURAL_OTHER only.
 * The sign does not count. */
Plural plural_form(const char *language, double value, int decimals);

/* The forms that the words of a language have to have. */
bool plural_needed(const char *language, Plural form);

/* "one", "few", "many", "other": the element names in a words file. */
const char *plural_name(Plural form);
bool plural_find(const char *name, Plural *form);

#endif
