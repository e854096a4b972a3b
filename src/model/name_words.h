/* Name words: whether a name that a person wrote holds a word, so that "Scots pine, sawn" is
 * known for a pine and "pineapple" is not. */
#ifndef MODEL_NAME_WORDS_H
#define MODEL_NAME_WORDS_H

#include <stdbool.h>

/* Whether the name holds the words of the phrase, whole and next to each other. Upper and lower
 * case of a to z are alike; other letters have to be the same bytes. What is no letter or digit
 * parts words; "Fichtenholz" is also "Fichten". NULL or empty: no. */
bool name_has_words(const char *name, const char *phrase);

/* Whether it holds any of the phrases, which stand between bars: "salmon|shad". */
bool name_has_any(const char *name, const char *phrases);

/* Whether the name is the phrase and nothing else, fillers such as "wood" and "dust" left out. */
bool name_is(const char *name, const char *phrase);

/* Whether it is one of the phrases and nothing else, fillers and the words `besides` left out, both
 * between bars: "spruce needles" is "fir|spruce" besides "needles|twigs". */
bool name_is_besides(const char *name, const char *phrases, const char *besides);

#endif
