#include "layout/format.h"

#include "layout/format_time.h"

#include <math.h>
#include <string.h>

#define NOT_STATED_TEXT "\xE2\x80\x93" /* en dash */
#define THIN "\xE2\x80\xAF"            /* narrow no-break space */

/* Exact by definition: international pound and inch (1959), US customary volume in cubic inch. */
#define KG_PER_LB 0.45359237
#define M_PER_IN 0.0254
#define M_PER_S_PER_MPH 0.44704
#define OZ_PER_LB 16.0

/* One way to show a kind of quantity: from `least` of the shown unit on, value * factor with so
 * many decimals and the unit's word. */
typedef struct Shown {
    QuantityKind kind;
    const char *style;
    int units; /* UNITS_METRIC, UNITS_US, or ANY_UNITS */
    double least;
    double factor;
    int decimals;
    const char *unit; /* key of the words; NULL: none */
} Shown;

enum { ANY_UNITS = -1 };

/* In falling order of `least` within a kind, style and system. The first style is the usual one. */
static const Shown shown[] = {
    {QUANTITY_COUNT, "whole", ANY_UNITS, 0, 1, 0, NULL},
    {QUANTITY_RATIO, "two", ANY_UNITS, 0, 1, 2, NULL},
    {QUANTITY_RATIO, "one", ANY_UNITS, 0, 1, 1, NULL},
    {QUANTITY_SHARE, "whole", ANY_UNITS, 1, 100, 0, "unit.percent"},
    {QUANTITY_SHARE, "whole", ANY_UNITS, 0, 100, 1, "unit.percent"},
    {QUANTITY_SHARE, "fine", ANY_UNITS, 0, 100, 1, "unit.percent"},
    {QUANTITY_MOISTURE, "short", ANY_UNITS, 0, 100, 1, "unit.percent"},
    {QUANTITY_HUMIDITY, "whole", ANY_UNITS, 0, 100, 0, "unit.percent"},
    {QUANTITY_LENGTH, "mm", UNITS_METRIC, 10, 1e3, 0, "unit.mm"},
    {QUANTITY_LENGTH, "mm", UNITS_METRIC, 0, 1e3, 1, "unit.mm"},
    {QUANTITY_LENGTH, "m", UNITS_METRIC, 0, 1, 2, "unit.m"},
    {QUANTITY_LENGTH, "m", UNITS_US, 0, 1 / 0.3048, 2, "unit.ft"},
    {QUANTITY_GRAIN, "unit", ANY_UNITS, 1000, 1e6, -3, "unit.mm"},
    {QUANTITY_GRAIN, "unit", ANY_UNITS, 0, 1e6, 0, "unit.um"},
    {QUANTITY_AREA, "unit", UNITS_METRIC, 10, 1e4, 0, "unit.cm2"},
    {QUANTITY_AREA, "unit", UNITS_METRIC, 0, 1e4, 1, "unit.cm2"},
    {QUANTITY_AREA, "unit", UNITS_US, 10, 1 / (M_PER_IN * M_PER_IN), 0, "unit.sq_in"},
    {QUANTITY_AREA, "unit", UNITS_US, 0, 1 / (M_PER_IN * M_PER_IN), 1, "unit.sq_in"},
    {QUANTITY_VOLUME, "unit", UNITS_METRIC, 0, 1e3, 2, "unit.l"},
    {QUANTITY_VOLUME, "unit", UNITS_US, 0, 1 / (M_PER_IN * M_PER_IN * M_PER_IN), 0, "unit.cu_in"},
    {QUANTITY_DENSITY, "unit", UNITS_METRIC, 0, 1, 0, "unit.kg_m3"},
    {QUANTITY_DENSITY, "unit", UNITS_US, 0, 0.3048 * 0.3048 * 0.3048 / KG_PER_LB, 1,
     "unit.lb_cu_ft"},
    {QUANTITY_TEMPERATURE, "whole", ANY_UNITS, 0, 1, 0, "unit.celsius"},
    {QUANTITY_TEMPERATURE, "fine", ANY_UNITS, 0, 1, 1, "unit.celsius"},
    {QUANTITY_SPEED, "hour", UNITS_METRIC, 0, 3600e3, 0, "unit.mm_h"},
    {QUANTITY_SPEED, "hour", UNITS_US, 0, 3600 / M_PER_IN, 1, "unit.in_h"},
    {QUANTITY_WIND, "unit", UNITS_METRIC, 10, 1, 0, "unit.m_s"},
    {QUANTITY_WIND, "unit", UNITS_METRIC, 0, 1, 1, "unit.m_s"},
    {QUANTITY_WIND, "unit", UNITS_US, 0, 1 / M_PER_S_PER_MPH, 0, "unit.mph"},
    {QUANTITY_KELVIN, "whole", UNITS_METRIC, 0, 1, 0, "unit.celsius"},
    {QUANTITY_KELVIN, "whole", UNITS_US, 0, 9.0 / 5, 0, "unit.fahrenheit"},
    {QUANTITY_POWER, "unit", ANY_UNITS, 1000, 1, -3, "unit.kw"},
    {QUANTITY_POWER, "unit", ANY_UNITS, 0, 1, 0, "unit.w"},
    {QUANTITY_RATE, "unit", UNITS_METRIC, 1000, 1000, -3, "unit.kg_h"},
    {QUANTITY_RATE, "unit", UNITS_METRIC, 0, 1000, 0, "unit.g_h"},
    {QUANTITY_RATE, "unit", UNITS_US, 0, OZ_PER_LB / KG_PER_LB, 1, "unit.oz_h"},
    {QUANTITY_CONCENTRATION, "unit", ANY_UNITS, 10, 1, 0, "unit.mg_m3"},
    {QUANTITY_CONCENTRATION, "unit", ANY_UNITS, 0, 1, 1, "unit.mg_m3"},
    {QUANTITY_CONCENTRATION, "whole", ANY_UNITS, 0, 1, 0, "unit.mg_m3"},
    {QUANTITY_PPM, "unit", ANY_UNITS, 10, 1, 0, "unit.ppm"},
    {QUANTITY_PPM, "unit", ANY_UNITS, 0, 1, 1, "unit.ppm"},
    {QUANTITY_PPM, "whole", ANY_UNITS, 0, 1, 0, "unit.ppm"},
    {QUANTITY_PPM, "fine", ANY_UNITS, 0, 1, 1, "unit.ppm"},
    {QUANTITY_AIR_CHANGES, "unit", ANY_UNITS, 0, 1, 1, "unit.per_hour"},
};

Locale locale_of(const Workshop *workshop, const Words *words) {
    return (Locale){.words = words,
                    .units = workshop->units,
                    .zone = workshop->zone,
                    .scale_step_kg = workshop->scale.resolution_kg,
                    .twelve_hours = workshop_twelve_hours(workshop),
                    .us_market = workshop->market == MARKET_US};
}

Locale locale_on_night(Locale locale, Instant light_at) {
    locale.day = (locale.zone ? zone_civil(locale.zone, light_at) : civil_from_utc(light_at)).date;
    return locale;
}

const char *format_number(Arena *arena, const Locale *locale, double value, int decimals) {
    return number_text(arena, value, decimals, locale->words->numbers);
}

/* Percent signs follow their number at once in some languages. */
static const char *unit_space(const Words *words, const char *unit) {
    bool closed = words->percent_closed && strcmp(unit, "unit.percent") == 0;
    return closed ? "" : THIN;
}

/* "250" and "unit.g" to "250 g"; a unit whose word is missing shows its key, which a test of the
 * words finds. */
static const char *with_unit(Arena *arena, const Locale *locale, const char *number,
                             const char *unit) {
    if (!unit)
        return number;
    const char *word = words_fixed(locale->words, unit);
    return arena_format(arena, "%s%s%s", number, unit_space(locale->words, unit),
                        word ? word : unit);
}

/* At most `digits` significant digits, of a value below 1000, without closing zeros. */
static const char *significant(Arena *arena, const Locale *locale, double value, int digits) {
    int decimals = digits - 1 - (value != 0.0 ? (int)floor(log10(fabs(value))) : 0);
    if (decimals > digits)
        decimals = digits;
    while (decimals > 0 &&
           fabs(number_round(value, decimals) - number_round(value, decimals - 1)) < 1e-9)
        decimals--;
    return format_number(arena, locale, value, decimals > 0 ? decimals : 0);
}

/* A row of three decimals below zero is for thousands of its unit, shown to three digits. */
static const char *row_number(Arena *arena, const Locale *locale, const Shown *row, double value) {
    if (row->decimals >= 0)
        return format_number(arena, locale, value, row->decimals);
    return significant(arena, locale, value / 1000.0, 3);
}

static bool row_fits(const Shown *row, Quantity asked, const char *style, UnitSystem units) {
    return row->kind == asked.kind && (row->units == ANY_UNITS || row->units == (int)units) &&
           (!style || strcmp(row->style, style) == 0);
}

/* The row for a quantity: the first whose least value the rounded figure reaches. */
static const Shown *row_find(Quantity asked, const char *style, UnitSystem units) {
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++) {
        const Shown *row = &shown[i];
        if (!row_fits(row, asked, style, units))
            continue;
        double value = fabs(asked.value * row->factor);
        double rounded = number_round(value, row->decimals < 0 ? 0 : row->decimals);
        if (rounded >= row->least || (value == 0.0 && row->least <= 10))
            return row;
    }
    return NULL;
}

/* Temperatures are the one scale whose zero moves between the systems. */
static Quantity shown_value(const Locale *locale, Quantity asked) {
    if (asked.kind == QUANTITY_TEMPERATURE && locale->units == UNITS_US)
        asked.value = asked.value * 1.8 + 32.0;
    return asked;
}

static const char *unit_key(const Locale *locale, const Shown *row) {
    if (row->kind == QUANTITY_TEMPERATURE)
        return locale->units == UNITS_US ? "unit.fahrenheit" : "unit.celsius";
    return row->unit;
}

static const char *format_row(Arena *arena, const Locale *locale, Quantity asked,
                              const char *style) {
    bool bare = style && strcmp(style, "number") == 0;
    Quantity value = shown_value(locale, asked);
    const Shown *row = row_find(value, bare ? NULL : style, locale->units);
    if (!row)
        return NULL;
    const char *number = row_number(arena, locale, row, value.value * row->factor);
    return bare ? number : with_unit(arena, locale, number, unit_key(locale, row));
}

/* Decimals that show one step of the scale in a unit of `unit_kg`. */
static int step_decimals(const Locale *locale, double unit_kg) {
    double step_kg = locale->scale_step_kg > 0 ? locale->scale_step_kg : 0.001;
    int decimals = (int)ceil(-log10(step_kg / unit_kg) - 1e-9);
    return decimals < 0 ? 0 : decimals > 6 ? 6 : decimals;
}

/* Whether a mass reaches the unit once rounded to the scale's step. */
static bool reaches(const Locale *locale, double mass_kg, double unit_kg) {
    return number_round(fabs(mass_kg) / unit_kg, step_decimals(locale, unit_kg)) >= 1.0;
}

static const char *mass_in(Arena *arena, const Locale *locale, double mass_kg, double unit_kg,
                           const char *unit) {
    int decimals = step_decimals(locale, unit_kg);
    return with_unit(arena, locale, format_number(arena, locale, mass_kg / unit_kg, decimals),
                     unit);
}

/* "2 lb 3.27 oz", as kitchen scales show it. */
static const char *pounds_ounces(Arena *arena, const Locale *locale, double mass_kg) {
    double ounce_kg = KG_PER_LB / OZ_PER_LB;
    int decimals = step_decimals(locale, ounce_kg);
    double ounces = number_round(mass_kg / ounce_kg, decimals);
    double pounds = floor(ounces / OZ_PER_LB);
    const char *rest = format_number(arena, locale, ounces - pounds * OZ_PER_LB, decimals);
    const char *whole = format_number(arena, locale, pounds, 0);
    return arena_format(arena, "%s" THIN "%s", with_unit(arena, locale, whole, "unit.lb"),
                        with_unit(arena, locale, rest, "unit.oz"));
}

static const char *mass_scale(Arena *arena, const Locale *locale, double mass_kg) {
    if (locale->units == UNITS_US)
        return mass_kg >= 0 && reaches(locale, mass_kg, KG_PER_LB)
                   ? pounds_ounces(arena, locale, mass_kg)
                   : mass_in(arena, locale, mass_kg, KG_PER_LB / OZ_PER_LB, "unit.oz");
    return reaches(locale, mass_kg, 1.0) ? mass_in(arena, locale, mass_kg, 1.0, "unit.kg")
                                         : mass_in(arena, locale, mass_kg, 0.001, "unit.g");
}

static const char *mass_short(Arena *arena, const Locale *locale, double mass_kg) {
    bool us = locale->units == UNITS_US;
    double large_kg = us ? KG_PER_LB : 1.0;
    double small_kg = us ? KG_PER_LB / OZ_PER_LB : 0.001;
    bool large = number_round(fabs(mass_kg) / small_kg, 0) >= number_round(large_kg / small_kg, 0);
    double value = mass_kg / (large ? large_kg : small_kg);
    const char *number = significant(arena, locale, value, 3);
    return with_unit(arena, locale, number,
                     large ? us ? "unit.lb" : "unit.kg"
                     : us  ? "unit.oz"
                           : "unit.g");
}

/* The value cut to three significant digits, never above what it was. The bit that binary
 * fractions lose is given back first, so that 16 oz stay 16 oz. */
static const char *declared(Arena *arena, const Locale *locale, double value) {
    double safe = value * (1.0 + 1e-9);
    int decimals = 2 - (int)floor(log10(safe));
    double scale = pow(10.0, decimals);
    return significant(arena, locale, floor(safe * scale) / scale, 3);
}

static const char *net_metric(Arena *arena, const Locale *locale, double net_kg) {
    if (net_kg * (1.0 + 1e-9) >= 1.0)
        return with_unit(arena, locale, declared(arena, locale, net_kg), "unit.kg");
    double grams = floor(net_kg * 1000.0 * (1.0 + 1e-9));
    return with_unit(arena, locale, format_number(arena, locale, grams, 0), "unit.g");
}

/* Largest share of a quantity that its conversion may leave out (judgement). */
static const double CONVERSION_LOSS = 0.01;

/* A converted quantity in as few decimals, one or two, as give away no more than that: accuracy is
 * to be neither sacrificed nor exaggerated, and nothing overstated (NIST guide to 16 CFR 500.19,
 * seen quoted). */
static const char *converted(Arena *arena, const Locale *locale, double value) {
    double tenths = floor(value * 10 * (1.0 + 1e-9)) / 10;
    bool enough = tenths < 100 && value - tenths <= CONVERSION_LOSS * value;
    return enough ? significant(arena, locale, tenths, 3) : declared(arena, locale, value);
}

/* 16 CFR 500.8 wants both systems; ounces below one pound, pounds from there (from memory). */
const char *format_net(Arena *arena, const Locale *locale, double net_kg, bool us_market) {
    if (!(net_kg > 0.0))
        return NOT_STATED_TEXT;
    const char *metric = net_metric(arena, locale, net_kg);
    if (!us_market)
        return metric;
    double pounds = net_kg / KG_PER_LB;
    bool large = pounds * (1.0 + 1e-9) >= 1.0;
    const char *number = converted(arena, locale, large ? pounds : pounds * OZ_PER_LB);
    return arena_format(arena, "%s (%s)",
                        with_unit(arena, locale, number, large ? "unit.net_lb" : "unit.net_oz"),
                        metric);
}

static const char *format_mass(Arena *arena, const Locale *locale, double mass_kg,
                               const char *style) {
    if (!style || strcmp(style, "scale") == 0)
        return mass_scale(arena, locale, mass_kg);
    if (strcmp(style, "g") == 0 || strcmp(style, "kg") == 0) {
        bool small = style[0] == 'g';
        return mass_in(arena, locale, mass_kg, small ? 0.001 : 1.0, small ? "unit.g" : "unit.kg");
    }
    if (strcmp(style, "short") == 0)
        return mass_short(arena, locale, mass_kg);
    if (strcmp(style, "net") == 0)
        return format_net(arena, locale, mass_kg, locale->us_market);
    if (strcmp(style, "number") == 0)
        return format_number(arena, locale, mass_kg * 1000.0, step_decimals(locale, 0.001));
    return NULL;
}

/* Sixteenths of an inch in lowest terms, as a tape measure shows them: "40 3/16". */
static const char *inches(Arena *arena, const Locale *locale, double length_m, bool bare) {
    double sixteenths = number_round(fabs(length_m) / M_PER_IN * 16.0, 0);
    double whole = floor(sixteenths / 16.0);
    int part = (int)(sixteenths - whole * 16.0), of = 16;
    for (; part > 0 && part % 2 == 0; part /= 2)
        of /= 2;
    const char *text = format_number(arena, locale, length_m < 0 ? -whole : whole, 0);
    if (part > 0 && whole > 0)
        text = arena_format(arena, "%s" THIN "%d/%d", text, part, of);
    else if (part > 0)
        text = arena_format(arena, "%d/%d", part, of);
    return bare ? text : with_unit(arena, locale, text, "unit.in");
}

/* Two digits, for a grain size that was read off a curve. */
static double about(double size_m) {
    if (size_m <= 0)
        return size_m;
    double place = pow(10.0, floor(log10(size_m)) - 1);
    return round(size_m / place) * place;
}

static const char *format_moisture(Arena *arena, const Locale *locale, double moisture,
                                   const char *style) {
    bool wet = style && strncmp(style, "wet", 3) == 0;
    bool with_basis = !style || strcmp(style, "basis") == 0 || strcmp(style, "wet") == 0;
    double share = wet ? moisture / (1.0 + moisture) : moisture;
    const char *row_style = !style || wet || with_basis ? "short" : style;
    if (wet && strcmp(style, "wet") != 0 && strcmp(style, "wet-short") != 0)
        return NULL;
    const char *text = format_row(arena, locale, quantity(QUANTITY_MOISTURE, share), row_style);
    if (!text || !with_basis)
        return text;
    const char *word = words_fixed(locale->words, wet ? "basis.wet" : "basis.dry");
    return arena_format(arena, "%s %s", text, word ? word : wet ? "basis.wet" : "basis.dry");
}

const char *format_quantity(Arena *arena, const Locale *locale, Quantity asked, const char *style) {
    if (style && !*style)
        style = NULL;
    if (asked.kind == QUANTITY_NONE || !isfinite(asked.value))
        return NOT_STATED_TEXT;
    switch (asked.kind) {
    case QUANTITY_INSTANT: return format_instant(arena, locale, (Instant)asked.value, style);
    case QUANTITY_DURATION: return format_duration(arena, locale, asked.value, style);
    case QUANTITY_MASS: return format_mass(arena, locale, asked.value, style);
    case QUANTITY_MOISTURE: return format_moisture(arena, locale, asked.value, style);
    case QUANTITY_GRAIN:
        if (style && strcmp(style, "about") == 0)
            return format_row(arena, locale, quantity(asked.kind, about(asked.value)), NULL);
        break;
    case QUANTITY_LENGTH:
        if (locale->units == UNITS_US && (!style || strcmp(style, "m") != 0))
            return inches(arena, locale, asked.value, style && strcmp(style, "number") == 0);
        break;
    default: break;
    }
    return format_row(arena, locale, asked, style);
}

const char *format_widest_hour(const Locale *locale) {
    return locale->twelve_hours ? "12" THIN "AM" : "00:00";
}

static const char *format_yes(const Locale *locale, double value, const char *style) {
    if (style && strcmp(style, "word") != 0)
        return NULL;
    return words_fixed(locale->words, value != 0.0 ? "word.yes" : "word.no");
}

const char *format_field(Arena *arena, const Locale *locale, const Field *field,
                         const char *style) {
    if (style && !*style)
        style = NULL;
    switch (field->type) {
    case FIELD_QUANTITY: return format_quantity(arena, locale, field->quantity, style);
    case FIELD_DATE: return format_date(arena, locale, field->date, style);
    case FIELD_YES: return format_yes(locale, field->quantity.value, style);
    case FIELD_WORD:
        if (field->text)
            return style ? NULL : words_fixed(locale->words, field->text);
        break;
    case FIELD_TEXT:
        if (field->text)
            return style ? NULL : field->text;
        break;
    }
    return NOT_STATED_TEXT;
}

bool format_shown(const Field *field) {
    switch (field->type) {
    case FIELD_QUANTITY:
        if (field->quantity.kind == QUANTITY_INSTANT)
            return field->quantity.value != 0.0 && isfinite(field->quantity.value);
        return field->quantity.kind != QUANTITY_NONE && isfinite(field->quantity.value);
    case FIELD_DATE: return field->date.year != 0;
    case FIELD_YES: return field->quantity.value != 0.0;
    case FIELD_TEXT:
    case FIELD_WORD: break;
    }
    return field->text && *field->text;
}
