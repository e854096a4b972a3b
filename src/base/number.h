/* Number: numbers to text, the same in every locale.
 *
 * For paper: fixed decimals with the language's decimal sign, a true minus sign and thin
 * spaces between groups of three.
 */
#ifndef BASE_NUMBER_H
#define BASE_NUMBER_H

#include "base/text.h"

#include <stdbool.h>

typedef struct NumberStyle {
    const char *decimal_sign; /* UTF-8; NULL is "." */
    const char *minus_sign;   /* UTF-8; NULL is U+2212 */
    const char *group_sign;   /* UTF-8, put between groups of three; NULL is none */
    int group_from_digits;    /* whole-part digits from which groups are set; 0 is 5 */
} NumberStyle;

/* "." and "-" and no groups: for files and the terminal. */
extern const NumberStyle number_plain;

enum { NUMBER_DECIMALS_MAX = 15 };

/* `value` rounded to `decimals` places, halves away from zero. The half is that of the
 * shortest decimal text of the value, so that 0.15 rounds to 0.2 and 1.005 to 1.01, as a
 * person who reads the input would. */
double number_round(double value, int decimals);

/* Appends the value with exactly `decimals` places (0…15, else the nearer end), rounded as
 * number_round does. A value that rounds to nothing is "0", never "-0". What is no number at
 * all (NaN, infinity) is appended as "?": a caller should not let it come this far. */
void number_add(Text *text, double value, int decimals, NumberStyle style);

/* The same into a new string of the arena. */
char *number_text(Arena *arena, double value, int decimals, NumberStyle style);

#endif
