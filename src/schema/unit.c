#include "schema/unit.h"

#include "base/pi.h"
#include "base/salometer.h"

#include <string.h>

/* The foot, pound and gallon of the United States are defined by the metre, kilogram and litre
 * (NIST Handbook 44, appendix C; from memory). */
#define POUND_KG 0.45359237
#define INCH_M 0.0254

static const Unit units[] = {
    {MEASURE_MASS, "kg", 1, 1, 0, true},
    {MEASURE_MASS, "g", 1, 1e3, 0, true},
    {MEASURE_MASS, "mg", 1, 1e6, 0, false},
    {MEASURE_MASS, "lb", POUND_KG, 1, 0, true},
    {MEASURE_MASS, "lbs", POUND_KG, 1, 0, false},
    {MEASURE_MASS, "oz", POUND_KG, 16, 0, true},

    {MEASURE_LENGTH, "m", 1, 1, 0, true},
    {MEASURE_LENGTH, "cm", 1, 1e2, 0, true},
    {MEASURE_LENGTH, "mm", 1, 1e3, 0, true},
    {MEASURE_LENGTH, "µm", 1, 1e6, 0, true},  /* U+00B5, micro sign */
    {MEASURE_LENGTH, "μm", 1, 1e6, 0, false}, /* U+03BC, Greek letter */
    {MEASURE_LENGTH, "um", 1, 1e6, 0, false},
    {MEASURE_LENGTH, "in", INCH_M, 1, 0, true},
    {MEASURE_LENGTH, "inch", INCH_M, 1, 0, false},
    {MEASURE_LENGTH, "inches", INCH_M, 1, 0, false},
    {MEASURE_LENGTH, "ft", 12 * INCH_M, 1, 0, true},

    {MEASURE_AREA, "m2", 1, 1, 0, false},
    {MEASURE_AREA, "m²", 1, 1, 0, false},
    {MEASURE_AREA, "cm2", 1, 1e4, 0, true},
    {MEASURE_AREA, "cm²", 1, 1e4, 0, false},
    {MEASURE_AREA, "mm2", 1, 1e6, 0, true},
    {MEASURE_AREA, "mm²", 1, 1e6, 0, false},
    {MEASURE_AREA, "in2", INCH_M *INCH_M, 1, 0, true},
    {MEASURE_AREA, "in²", INCH_M *INCH_M, 1, 0, false},
    {MEASURE_AREA, "sq in", INCH_M *INCH_M, 1, 0, false},

    {MEASURE_VOLUME, "m3", 1, 1, 0, true},
    {MEASURE_VOLUME, "m³", 1, 1, 0, false},
    {MEASURE_VOLUME, "l", 1, 1e3, 0, true},
    {MEASURE_VOLUME, "L", 1, 1e3, 0, false},
    {MEASURE_VOLUME, "ml", 1, 1e6, 0, true},
    {MEASURE_VOLUME, "mL", 1, 1e6, 0, false},
    {MEASURE_VOLUME, "cm3", 1, 1e6, 0, false},
    {MEASURE_VOLUME, "cm³", 1, 1e6, 0, false},
    {MEASURE_VOLUME, "fl oz", 231 * INCH_M *INCH_M *INCH_M, 128, 0, true},
    {MEASURE_VOLUME, "qt", 231 * INCH_M *INCH_M *INCH_M, 4, 0, true},
    {MEASURE_VOLUME, "gal", 231 * INCH_M *INCH_M *INCH_M, 1, 0, false},
    {MEASURE_VOLUME, "in3", INCH_M *INCH_M *INCH_M, 1, 0, false},
    {MEASURE_VOLUME, "ft3", 1728 * INCH_M *INCH_M *INCH_M, 1, 0, true},

    {MEASURE_TEMPERATURE, "°C", 1, 1, 0, true},
    {MEASURE_TEMPERATURE, "C", 1, 1, 0, false},
    {MEASURE_TEMPERATURE, "°F", 5, 9, 32, true},
    {MEASURE_TEMPERATURE, "F", 5, 9, 32, false},

    {MEASURE_DURATION, "d", 86400, 1, 0, true},
    {MEASURE_DURATION, "day", 86400, 1, 0, false},
    {MEASURE_DURATION, "days", 86400, 1, 0, false},
    {MEASURE_DURATION, "h", 3600, 1, 0, true},
    {MEASURE_DURATION, "hour", 3600, 1, 0, false},
    {MEASURE_DURATION, "hours", 3600, 1, 0, false},
    {MEASURE_DURATION, "min", 60, 1, 0, true},
    {MEASURE_DURATION, "minutes", 60, 1, 0, false},
    {MEASURE_DURATION, "s", 1, 1, 0, true},

    {MEASURE_SHARE, "%", 1, 100, 0, true},
    {MEASURE_ANGLE, "deg", PI, 180, 0, true},
    {MEASURE_ANGLE, "°", PI, 180, 0, true},

    {MEASURE_AREAL_MASS, "kg/m2", 1, 1, 0, true},
    {MEASURE_AREAL_MASS, "kg/m²", 1, 1, 0, false},
    {MEASURE_AREAL_MASS, "g/m2", 1, 1e3, 0, true},
    {MEASURE_AREAL_MASS, "g/m²", 1, 1e3, 0, false},
    {MEASURE_AREAL_MASS, "lb/ft2", POUND_KG, 144 * INCH_M *INCH_M, 0, true},
    {MEASURE_AREAL_MASS, "lb/ft²", POUND_KG, 144 * INCH_M *INCH_M, 0, false},

    {MEASURE_HEAT_TRANSFER, "W/m2K", 1, 1, 0, true},
    {MEASURE_HEAT_TRANSFER, "W/m²K", 1, 1, 0, false},
    {MEASURE_HEAT_TRANSFER, "W/(m2K)", 1, 1, 0, false},
    {MEASURE_HEAT_TRANSFER, "W/(m²K)", 1, 1, 0, false},
    {MEASURE_HEAT_TRANSFER, "W/(m²·K)", 1, 1, 0, false},

    {MEASURE_PER_HOUR, "/h", 1, 1, 0, true},
    {MEASURE_PER_HOUR, "per hour", 1, 1, 0, false},

    /* A statute mile is 5280 feet, a nautical one 1852 m. */
    {MEASURE_WIND, "m/s", 1, 1, 0, true},
    {MEASURE_WIND, "km/h", 1000, 3600, 0, true},
    {MEASURE_WIND, "kph", 1000, 3600, 0, false},
    {MEASURE_WIND, "mph", 5280 * 12 * INCH_M, 3600, 0, true},
    {MEASURE_WIND, "kn", 1852, 3600, 0, true},
    {MEASURE_WIND, "kt", 1852, 3600, 0, false},
    {MEASURE_WIND, "knots", 1852, 3600, 0, false},

    /* A point of print is the 72nd part of an inch. */
    {MEASURE_PAPER, "mm", 1, 1, 0, true},
    {MEASURE_PAPER, "cm", 10, 1, 0, false},
    {MEASURE_PAPER, "in", INCH_M * 1000, 1, 0, true},
    {MEASURE_PAPER, "pt", INCH_M * 1000, 72, 0, true},

    /* Degrees of the salometer; tables of brine write them in both ways (from memory). */
    {MEASURE_STRENGTH, "%", 1, 100, 0, true},
    {MEASURE_STRENGTH, "°SAL", SALOMETER_SATURATED, SALOMETER_DEGREES, 0, true},
    {MEASURE_STRENGTH, "°S", SALOMETER_SATURATED, SALOMETER_DEGREES, 0, false},
};

enum { UNIT_COUNT = sizeof units / sizeof *units };

const char *measure_name(Measure measure) {
    static const char *const names[MEASURE_COUNT] = {"a mass",
                                                     "a length",
                                                     "an area",
                                                     "a volume",
                                                     "a temperature",
                                                     "a duration",
                                                     "a share",
                                                     "an angle",
                                                     "a mass by area",
                                                     "a heat transfer",
                                                     "a number an hour",
                                                     "a wind",
                                                     "a length on paper",
                                                     "a strength of brine"};
    return names[measure];
}

const char *measure_example(Measure measure) {
    static const char *const examples[MEASURE_COUNT] = {
        "250 g",  "20 mm",     "40 cm2",    "500 ml", "100 °C", "1 h 30 min", "70 %",
        "35 deg", "0.9 kg/m2", "1.2 W/m2K", "2 /h",   "3 m/s",  "8 mm",       "60 °SAL"};
    return examples[measure];
}

bool measure_in_parts(Measure measure) {
    return measure == MEASURE_MASS || measure == MEASURE_DURATION || measure == MEASURE_LENGTH;
}

static bool letter(char byte) {
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') ||
           (unsigned char)byte >= 0x80;
}

/* "oz" is no beginning of "ozone", but of "oz " and, after a sign, of anything. */
static bool begins(const char *text, const char *name) {
    size_t length = strlen(name);
    if (strncmp(text, name, length) != 0)
        return false;
    return !letter(name[length - 1]) || !letter(text[length]);
}

const Unit *unit_at(Measure measure, const char *text) {
    const Unit *found = NULL;
    for (const Unit *unit = units; unit < units + UNIT_COUNT; unit++) {
        if (!begins(text, unit->name))
            continue;
        bool longer = !found || strlen(unit->name) > strlen(found->name);
        bool fitting = unit->measure == measure;
        if (longer ||
            (fitting && found->measure != measure && strlen(unit->name) == strlen(found->name)))
            found = unit;
    }
    return found;
}

static Names names_of(Arena *arena, Measure measure, bool listed_only) {
    Names names = {0};
    for (const Unit *unit = units; unit < units + UNIT_COUNT; unit++)
        if (unit->measure == measure && (unit->listed || !listed_only))
            LIST_ADD(arena, &names, unit->name);
    return names;
}

Names units_listed(Arena *arena, Measure measure) {
    return names_of(arena, measure, true);
}

Names units_known(Arena *arena, Measure measure) {
    return names_of(arena, measure, false);
}

double unit_to_si(const Unit *unit, double number) {
    return (number - unit->zero) * unit->times / unit->over;
}
