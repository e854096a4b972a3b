#include "schema/measure.h"

#include "base/place.h"
#include "base/text.h"
#include "base/utf8.h"

#include <string.h>

enum { DIGITS_MAX = 15, COUNT_DIGITS_MAX = 9, SHOWN_MAX = 48 };

/* A number as scanned. */
typedef struct Scanned {
    double value;
    int digits;     /* that count: without leading zeros */
    bool whole;     /* no point */
    bool with_sign; /* a sign was written */
} Scanned;

const char *shown_value(Arena *arena, const char *text) {
    const char *at = text;
    uint32_t code;
    for (int i = 0; i < SHOWN_MAX; i++)
        if (!utf8_next(&at, &code) || !code)
            return text;
    return arena_format(arena, "%.*s…", (int)(at - text), text);
}

static bool skip(const char **at, const char *text) {
    size_t length = strlen(text);
    if (strncmp(*at, text, length) != 0)
        return false;
    *at += length;
    return true;
}

static void skip_blanks(const char **at) {
    while (skip(at, " ") || skip(at, "\t") || skip(at, "\n") || skip(at, "\r") ||
           skip(at, "\u00A0") || skip(at, "\u2009") || skip(at, "\u202F"))
        ;
}

static bool digit(char byte) {
    return byte >= '0' && byte <= '9';
}

/* Whole numbers below 10^15 and powers of ten up to 10^15 are exact in a double, so that one
 * division gives the nearest double to what was written. */
static void add_digits(const char **at, Scanned *number, double *mantissa, double *power) {
    for (; digit(**at); (*at)++) {
        if (number->digits || **at != '0')
            number->digits++;
        if (number->digits <= DIGITS_MAX) {
            *mantissa = *mantissa * 10 + (**at - '0');
            *power *= 10;
        }
    }
}

static bool scan_number(const char **at, Scanned *number) {
    const char *start = *at;
    *number = (Scanned){.whole = true};
    bool minus = skip(at, "-") || skip(at, "\u2212");
    number->with_sign = minus || skip(at, "+");
    double mantissa = 0, power = 1;
    if (!digit(**at)) {
        *at = start;
        return false;
    }
    add_digits(at, number, &mantissa, &power);
    power = 1;
    if ((*at)[0] == '.' && digit((*at)[1])) {
        const char *from = ++(*at);
        number->whole = false;
        add_digits(at, number, &mantissa, &power);
        if (*at - from > DIGITS_MAX)
            number->digits = DIGITS_MAX + 1;
    }
    number->value = (minus ? -mantissa : mantissa) / power;
    return true;
}

static const char *units_text(Arena *arena, const char *subject, Measure measure) {
    Names names = units_listed(arena, measure);
    return arena_format(arena, "'%s' is written in %s, such as '%s'", subject,
                        names_listed(arena, &names), measure_example(measure));
}

static ValueFault no_measure(Arena *arena, Measure measure, const char *subject, const char *text) {
    if (text[0] == '.' && digit(text[1]))
        return (ValueFault){
            arena_format(arena, "no digit before the point in '%s'", shown_value(arena, text)),
            arena_format(arena, "write '0%s'", shown_value(arena, text))};
    return (ValueFault){
        arena_format(arena, "'%s' is not %s", shown_value(arena, text), measure_name(measure)),
        units_text(arena, subject, measure)};
}

/* With three digits behind it a comma may be meant to part thousands. */
static ValueFault comma_fault(Arena *arena, const char *text) {
    const char *comma = strchr(text, ',');
    int before = (int)(comma - text);
    const char *behind = shown_value(arena, comma + 1);
    size_t digits = strspn(comma + 1, "0123456789");
    const char *remedy =
        arena_format(arena, "write a decimal point: '%.*s.%s'", before, text, behind);
    if (digits == 3)
        remedy = arena_format(arena, "write '%.*s%s', or with a decimal point '%.*s.%s'", before,
                              text, behind, before, text, behind);
    return (ValueFault){arena_format(arena, "comma in '%s'", shown_value(arena, text)), remedy};
}

/* What is wrong with a number however it goes on; problem NULL: nothing. */
static ValueFault number_fault(Arena *arena, const char *text, const char *behind,
                               const Scanned *number) {
    if (number->digits > DIGITS_MAX)
        return (ValueFault){
            arena_format(arena, "too many digits in '%s'", shown_value(arena, text)),
            arena_format(arena, "at most %d are read", DIGITS_MAX)};
    if (behind[0] == ',' && digit(behind[1]))
        return comma_fault(arena, text);
    bool exponent = behind[0] == 'e' || behind[0] == 'E';
    if (exponent && (digit(behind[1]) || behind[1] == '-' || behind[1] == '+'))
        return (ValueFault){arena_format(arena, "exponent in '%s'", shown_value(arena, text)),
                            "write the number out"};
    return (ValueFault){0};
}

static ValueFault unknown_unit(Arena *arena, Measure measure, const char *subject, const char *text,
                               const char *at) {
    const char *unit = arena_copy(arena, at, strcspn(at, " \t\r\n"));
    Names known = units_known(arena, measure);
    const char *near = nearest_name(unit, &known);
    const char *would = units_text(arena, subject, measure);
    return (ValueFault){arena_format(arena, "unknown unit '%s' in '%s'", shown_value(arena, unit),
                                     shown_value(arena, text)),
                        near ? arena_format(arena, "did you mean '%s'? %s", near, would) : would};
}

/* The unit at *at, or what is wrong with it. */
static ValueFault take_unit(Arena *arena, Measure measure, const char *subject, const char *text,
                            const char **at, const Unit **unit) {
    if (!**at)
        return (ValueFault){arena_format(arena, "'%s' has no unit", shown_value(arena, text)),
                            units_text(arena, subject, measure)};
    *unit = unit_at(measure, *at);
    if (!*unit)
        return unknown_unit(arena, measure, subject, text, *at);
    if ((*unit)->measure != measure)
        return (ValueFault){arena_format(arena, "'%s' is %s, but '%s' is %s",
                                         shown_value(arena, text), measure_name((*unit)->measure),
                                         subject, measure_name(measure)),
                            units_text(arena, subject, measure)};
    *at += strlen((*unit)->name);
    skip_blanks(at);
    return (ValueFault){0};
}

/* Whether a number in `unit` can follow one in `before`: "1 lb 4 oz", but not "4 oz 1 lb". */
static bool may_follow(const Unit *before, const Unit *unit, const Scanned *number) {
    return measure_in_parts(unit->measure) && !number->with_sign &&
           unit_to_si(unit, 1) < unit_to_si(before, 1);
}

ValueFault measure_read(Arena *arena, Measure measure, const char *subject, const char *text,
                        double *value) {
    const Unit *before = NULL;
    const char *at = text;
    double sum = 0, sign = 1;
    *value = NOT_STATED;
    skip_blanks(&at);
    do {
        Scanned number;
        const Unit *unit = NULL;
        if (!scan_number(&at, &number))
            return no_measure(arena, measure, subject, text);
        ValueFault fault = number_fault(arena, text, at, &number);
        if (fault.problem)
            return fault;
        skip_blanks(&at);
        fault = take_unit(arena, measure, subject, text, &at, &unit);
        if (fault.problem || !unit)
            return fault;
        if (before && !may_follow(before, unit, &number))
            return no_measure(arena, measure, subject, text);
        sign = before ? sign : number.value < 0 ? -1 : 1;
        sum += (before ? sign : 1) * unit_to_si(unit, number.value);
        before = unit;
    } while (*at);
    *value = sum;
    return (ValueFault){0};
}

ValueFault number_read(Arena *arena, const char *subject, const char *text, double *value) {
    const char *at = text;
    Scanned number;
    *value = NOT_STATED;
    skip_blanks(&at);
    if (!scan_number(&at, &number))
        return (ValueFault){arena_format(arena, "'%s' is not a number", shown_value(arena, text)),
                            arena_format(arena, "'%s' is a number, such as '1.5'", subject)};
    ValueFault fault = number_fault(arena, text, at, &number);
    if (fault.problem)
        return fault;
    skip_blanks(&at);
    if (*at)
        return (ValueFault){arena_format(arena, "'%s' after the number in '%s'",
                                         shown_value(arena, at), shown_value(arena, text)),
                            arena_format(arena, "'%s' is a number without a unit", subject)};
    *value = number.value;
    return fault;
}

ValueFault count_read(Arena *arena, const char *subject, const char *text, int *value) {
    const char *at = text;
    Scanned number = {0};
    *value = 0;
    skip_blanks(&at);
    bool scanned = scan_number(&at, &number);
    skip_blanks(&at);
    if (!scanned || *at || !number.whole || number.value < 0 || number.digits > COUNT_DIGITS_MAX)
        return (ValueFault){
            arena_format(arena, "'%s' is not a whole number", shown_value(arena, text)),
            arena_format(arena, "'%s' is counted: 1, 2, 3 …", subject)};
    *value = (int)number.value;
    return (ValueFault){0};
}
