/* The plan on the terminal: the same figures and words as on paper, a line each. */
#ifndef REPORT_PLAN_TEXT_H
#define REPORT_PLAN_TEXT_H

#include "base/text.h"
#include "domain/field.h"

/* Gives the words of a key filled from the fields of `row` and its parents; `context` is the
 * caller's. NULL when they are missing, which the caller has noted. */
typedef const char *(*SayWords)(void *context, const char *key, const FieldGroup *row);

/* Appends title, verdict with its reasons, remedies, the clock, the weigh-out, drying, fills,
 * cabinet and room, the product's conditions and the steps. */
void plan_text(Text *text, const FieldGroup *fields, SayWords say, void *context);

#endif
