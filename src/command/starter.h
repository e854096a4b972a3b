/* Starter: a file to begin from, written from a template with a comment for every attribute.
 *
 *     <starter>
 *       <row of="kind" is="cheese" name="starter.cheese" mass="2 kg | 4 lb"/>
 *       <say>A paragraph at the head of the file.</say>
 *       <batch name="{name}">
 *         <product kind="{kind}" mass="{kind.mass}">
 *           <say of="mass">DEFAULT: weigh yours.</say>
 *           <say when="fish">…</say>
 *           <freezing when="fish" off="yes" time="24 h"/>
 *
 * What an element and an attribute are for is told by the rules of the files (schema/rule.h), so
 * that it stands in one place; a <say> adds what is true of this value. Its own attributes are
 * `when` (only with these kinds), `off` (the element is written as a comment) and `words` (the text
 * inside the element). Of "metric | us" one is taken; a value that begins with "starter." is a key
 * of the words; {name} is a value handed in, {kind.mass} that of the row with the kind at hand. An
 * attribute that comes out empty is not written.
 */
#ifndef COMMAND_STARTER_H
#define COMMAND_STARTER_H

#include "base/element.h"
#include "base/text.h"
#include "layout/words.h"

typedef struct StarterValue {
    const char *name;
    const char *value; /* as it is, not yet written for XML; NULL: none */
} StarterValue;

typedef struct Starter {
    Arena *arena;
    const Element *template; /* <starter> */
    const Words *words;      /* of the names that a page prints */
    bool us;
    LIST_OF(StarterValue) values;
} Starter;

/* The file's text, UTF-8. */
Text starter_text(const Starter *starter);

/* A value of the template as it comes out, for XML not yet written. */
const char *starter_fill(const Starter *starter, const char *value);

/* A text as it stands between the quotes of an attribute. */
const char *starter_quoted(Arena *arena, const char *text);

#endif
