/* Language: the words files of the program, for tests. */
#ifndef SUPPORT_LANGUAGE_H
#define SUPPORT_LANGUAGE_H

#include "layout/format.h"

/* The words of templates/words/LANGUAGE.xml; a test that cannot read them ends the program. */
const Words *language_words(Arena *arena, const char *language);

/* Words of a file that is given as text. NULL when it has faults, which stand in `diagnostics`. */
const Words *language_parse(Arena *arena, const char *text, Diagnostics *diagnostics);

/* The language in metric or US units, on the clock of Dublin, with a scale of one gram. */
Locale language_locale(Arena *arena, const char *language, UnitSystem units);

#endif
