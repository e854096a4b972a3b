/* Figure: one field of the plan as text for another program: the number in its SI unit, the unit
 * behind it, instants in ISO 8601 with the offset of the workshop's zone. The same in every
 * language; what a page shows is put into words elsewhere. */
#ifndef REPORT_FIGURE_H
#define REPORT_FIGURE_H

#include "base/text.h"
#include "base/zone.h"
#include "domain/field.h"

/* Digits that a figure carries: enough to compute on, few enough to read. */
enum { FIGURE_DIGITS = 7 };

/* The SI unit of a kind of quantity, as in "kg"; "" where it has none. */
const char *figure_unit(QuantityKind kind);

/* Appends `value` rounded to FIGURE_DIGITS significant digits, without an exponent. */
void figure_add_number(Text *text, double value);

/* Appends the instant as local time with its offset: 2026-12-04T21:30:00+00:00. */
void figure_add_instant(Text *text, Instant instant, const Zone *zone);

/* Appends the field's figure with its unit. Returns false, and appends nothing, when the field has
 * nothing to show. */
bool figure_add(Text *text, const Field *field, const Zone *zone);

#endif
