/* Words: everything that is said on a page in one language, read from templates/words/LANG.xml.
 *
 *     <words language="en" plurals="germanic">
 *       <numbers decimal="." group="&#x202F;" group-from="5" percent-space="yes"/>
 *       <dates date="{d} {mon} {yyyy}" day="{ddd} {d} {mon}" …/>
 *       <month number="1" short="Jan" long="January"/> …
 *       <weekday number="1" short="Mon" long="Monday"/> …
 *       <word id="step.weigh">Weigh out {amount:g} of {name}</word>
 *       <word id="bag.many" count="bag.count">
 *         <one>{bag.count} bag</one><other>{bag.count} bags</other>
 *       </word>
 *     </words>
 *
 * A word is fixed text with {placeholders}; layout/phrase.h fills them. A counted word has one
 * form for each plural form of the language. White space at the ends of a text is dropped and
 * inside it each run of white space is one space; a no-break space stays.
 */
#ifndef LAYOUT_WORDS_H
#define LAYOUT_WORDS_H

#include "base/arena.h"
#include "base/diagnostic.h"
#include "base/element.h"
#include "base/list.h"
#include "base/number.h"
#include "layout/plural.h"
#include "schema/rule.h"

#include <stdbool.h>

typedef struct Word {
    const char *key;
    const char *text;                /* NULL when counted */
    const char *count;               /* path of the field that is counted; NULL: fixed text */
    const char *forms[PLURAL_COUNT]; /* of a counted word; NULL: not in this language */
    Place place;
} Word;

enum { MONTHS = 12, WEEKDAYS = 7 };

/* How a date is put together. Patterns hold {d} {dd} {mm} {mon} {month} {yyyy} {ddd} {weekday}. */
typedef struct DateWords {
    const char *date; /* 4 Dec 2026 */
    const char *day;  /* Fri 4 Dec */
    const char *full; /* Friday, 4 December 2026 */
    const char *month_short[MONTHS];
    const char *month_long[MONTHS];      /* as it stands behind a day's number */
    const char *month_alone[MONTHS];     /* as it stands without one */
    const char *weekday_short[WEEKDAYS]; /* from Monday */
    const char *weekday_long[WEEKDAYS];
} DateWords;

typedef struct Words {
    const char *language; /* BCP 47 primary tag */
    PluralRule plurals;
    NumberStyle numbers;
    bool percent_closed; /* the percent sign follows its number without a space */
    DateWords dates;
    LIST_OF(Word) words; /* in rising order of key */
} Words;

/* What such a file may hold. */
extern const ElementRule words_rule;

/* Reads a words file. Everything that is wrong in it is reported; NULL when anything was. */
const Words *words_read(Arena *arena, const Element *root, Diagnostics *diagnostics);

/* Brings the words into rising order of key, which words_find needs. words_read has done it. */
void words_sort(Words *words);

/* Whether two languages say the same things: reports each key of `model` that `words` lacks, each
 * that it has besides, and each placeholder that `model` does not use under the same key. */
bool words_agree(const Words *model, const Words *words, Diagnostics *diagnostics);

/* The word of that key; NULL: none. */
const Word *words_find(const Words *words, const char *key);

/* The fixed text of that key; NULL: no such word, or a counted one. */
const char *words_fixed(const Words *words, const char *key);

/* The text of a word for a counted number (the fixed text of a word that is not counted). */
const char *words_form(const Words *words, const Word *word, double value, int decimals);

#endif
