/* Measure: a number with its unit, as a person writes it: "2.4 kg", "1 h 30 min", "88 %".
 *
 * Plain digits with an optional sign and decimal point, at most fifteen of them, in any locale;
 * no exponent, no hexadecimal, no words. The unit is asked for, except where the value is a bare
 * number. No-break and thin spaces count as blanks, and the true minus sign as a minus.
 */
#ifndef SCHEMA_MEASURE_H
#define SCHEMA_MEASURE_H

#include "schema/unit.h"

/* What is wrong with a value and what would be right; problem NULL: nothing. */
typedef struct ValueFault {
    const char *problem;
    const char *remedy; /* NULL: none */
} ValueFault;

/* Reads `text` into *value in the SI unit of the measure. `subject` is the attribute's name, for
 * the messages. With a fault *value is NAN; otherwise it is finite. */
ValueFault measure_read(Arena *arena, Measure measure, const char *subject, const char *text,
                        double *value);

/* Reads a bare number. */
ValueFault number_read(Arena *arena, const char *subject, const char *text, double *value);

/* Reads a whole number from 0 to 999999999. */
ValueFault count_read(Arena *arena, const char *subject, const char *text, int *value);

/* A value as it can stand in a message: cut with "…" when it is long. */
const char *shown_value(Arena *arena, const char *text);

#endif
