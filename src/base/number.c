#include "base/number.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define TRUE_MINUS "\xE2\x88\x92" /* U+2212 */

enum { DIGITS_OF_A_DOUBLE = 17, GROUP_DIGITS = 3, GROUP_FROM_DIGITS = 5 };

const NumberStyle number_plain = {.decimal_sign = ".", .minus_sign = "-"};

/* A positive finite value as 0.d1d2d3… × 10^point, with the fewest digits that read back. */
typedef struct Decimal {
    char digits[DIGITS_OF_A_DOUBLE + 2];
    int count;
    int point;
} Decimal;

/* printf writes the decimal sign of the locale; only digits are taken from it here, so the
 * answer is the same in all. */
static Decimal shortest_decimal(double value) {
    Decimal decimal = {.count = 0};
    char text[40];
    /* A number of up to fifteen digits reads back from fifteen, and is the shortest once closing
     * zeros are gone; below the normal numbers there are fewer. */
    int precision = value < DBL_MIN ? 0 : DBL_DIG - 1;
    for (; precision < DIGITS_OF_A_DOUBLE; precision++) {
        snprintf(text, sizeof text, "%.*e", precision, value);
        if (strtod(text, NULL) == value)
            break;
    }
    const char *at = text;
    for (; *at != 'e'; at++)
        if (*at >= '0' && *at <= '9')
            decimal.digits[decimal.count++] = *at;
    decimal.point = (int)strtol(at + 1, NULL, 10) + 1;
    while (decimal.count > 1 && decimal.digits[decimal.count - 1] == '0')
        decimal.count--;
    return decimal;
}

/* Rounds to `decimals` places behind the sign, halves up; all digits lost gives count 0. */
static void round_decimal(Decimal *decimal, int decimals) {
    int kept = decimal->point + decimals;
    if (kept >= decimal->count)
        return;
    if (kept < 0) {
        decimal->count = 0;
        return;
    }
    bool up = decimal->digits[kept] >= '5';
    decimal->count = kept;
    while (up && kept > 0 && decimal->digits[kept - 1] == '9')
        decimal->count = --kept;
    if (up && kept > 0) {
        decimal->digits[kept - 1]++;
    } else if (up) {
        decimal->digits[0] = '1';
        decimal->count = 1;
        decimal->point++;
    }
}

static char digit_at(const Decimal *decimal, int place) {
    return place >= 0 && place < decimal->count ? decimal->digits[place] : '0';
}

static int within_decimals(int decimals) {
    return decimals < 0 ? 0 : decimals > NUMBER_DECIMALS_MAX ? NUMBER_DECIMALS_MAX : decimals;
}

double number_round(double value, int decimals) {
    if (!isfinite(value) || value == 0)
        return value == 0 ? 0 : value;
    decimals = within_decimals(decimals);
    Decimal decimal = shortest_decimal(fabs(value));
    round_decimal(&decimal, decimals);
    if (decimal.count == 0)
        return 0;
    char text[40];
    snprintf(text, sizeof text, "%.*se%d", decimal.count, decimal.digits,
             decimal.point - decimal.count);
    return copysign(strtod(text, NULL), value);
}

static void add_whole_part(Text *text, const Decimal *decimal, NumberStyle style) {
    int digits = decimal->count > 0 && decimal->point > 0 ? decimal->point : 1;
    int from = style.group_from_digits > 0 ? style.group_from_digits : GROUP_FROM_DIGITS;
    bool grouped = style.group_sign && digits >= from;
    int start = decimal->count > 0 && decimal->point > 0 ? 0 : -1;
    for (int i = 0; i < digits; i++) {
        if (grouped && i > 0 && (digits - i) % GROUP_DIGITS == 0)
            text_add(text, style.group_sign);
        char digit = start < 0 ? '0' : digit_at(decimal, i);
        text_add_bytes(text, &digit, 1);
    }
}

void number_add(Text *text, double value, int decimals, NumberStyle style) {
    if (!isfinite(value)) {
        text_add(text, "?");
        return;
    }
    decimals = within_decimals(decimals);
    Decimal decimal = {.count = 0};
    if (value != 0) {
        decimal = shortest_decimal(fabs(value));
        round_decimal(&decimal, decimals);
    }
    if (value < 0 && decimal.count > 0)
        text_add(text, style.minus_sign ? style.minus_sign : TRUE_MINUS);
    add_whole_part(text, &decimal, style);
    if (decimals == 0)
        return;
    text_add(text, style.decimal_sign ? style.decimal_sign : ".");
    for (int i = 0; i < decimals; i++) {
        char digit = digit_at(&decimal, decimal.point + i);
        text_add_bytes(text, &digit, 1);
    }
}

char *number_text(Arena *arena, double value, int decimals, NumberStyle style) {
    Text text = text_new(arena);
    number_add(&text, value, decimals, style);
    return text.bytes;
}
