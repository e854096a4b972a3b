/* Phrase: a text of the words with its placeholders filled from the fields of a plan.
 *
 * A placeholder is {path} or {path:style}. The path is looked for in the row the phrase is about,
 * then outwards (domain/field.h); the style is one of layout/format.h. {{ and }} stand for braces.
 * A field that holds a key of the words brings in that word, filled for the same row.
 */
#ifndef LAYOUT_PHRASE_H
#define LAYOUT_PHRASE_H

#include "base/diagnostic.h"
#include "layout/format.h"

/* The words' text for `key`, in the plural form that the row's figure asks for, filled. NULL when
 * the key is missing or a placeholder cannot be filled; an error then stands in `diagnostics` at
 * `place`, where the key was asked for (a template), or at the word itself. */
const char *phrase_word(Arena *arena, const Locale *locale, Place place, const char *key,
                        const FieldGroup *row, Diagnostics *diagnostics);

/* The same with `before` and `after` put round every figure that is filled in, so that a page can
 * set figures in a face of their own. */
const char *phrase_word_marked(Arena *arena, const Locale *locale, Place place, const char *key,
                               const FieldGroup *row, const char *before, const char *after,
                               Diagnostics *diagnostics);

#endif
