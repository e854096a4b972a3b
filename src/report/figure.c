#include "report/figure.h"

#include "base/number.h"

#include <math.h>
#include <stdlib.h>

const char *figure_unit(QuantityKind kind) {
    static const char *const units[] = {
        [QUANTITY_MASS] = "kg",
        [QUANTITY_LENGTH] = "m",
        [QUANTITY_GRAIN] = "m",
        [QUANTITY_AREA] = "m2",
        [QUANTITY_VOLUME] = "m3",
        [QUANTITY_DENSITY] = "kg/m3",
        [QUANTITY_TEMPERATURE] = "C",
        [QUANTITY_DURATION] = "s",
        [QUANTITY_SPEED] = "m/s",
        [QUANTITY_POWER] = "W",
        [QUANTITY_RATE] = "kg/h",
        [QUANTITY_PPM] = "ppm",
        [QUANTITY_CONCENTRATION] = "mg/m3",
        [QUANTITY_AIR_CHANGES] = "/h",
        [QUANTITY_WIND] = "m/s",
        [QUANTITY_KELVIN] = "K",
    };
    size_t known = sizeof units / sizeof *units;
    return (size_t)kind < known && units[kind] ? units[kind] : "";
}

/* Decimals that leave FIGURE_DIGITS significant ones. */
static int decimals_for(double value) {
    if (value == 0)
        return 0;
    int whole = (int)floor(log10(fabs(value))) + 1;
    int decimals = FIGURE_DIGITS - whole;
    return decimals < 0 ? 0 : decimals > NUMBER_DECIMALS_MAX ? NUMBER_DECIMALS_MAX : decimals;
}

void figure_add_number(Text *text, double value) {
    size_t start = text->length;
    number_add(text, value, decimals_for(value), number_plain);
    bool fraction = false;
    for (size_t i = start; i < text->length; i++)
        fraction = fraction || text->bytes[i] == '.';
    while (fraction && text->bytes[text->length - 1] == '0')
        text->bytes[--text->length] = '\0';
    if (fraction && text->bytes[text->length - 1] == '.')
        text->bytes[--text->length] = '\0';
}

void figure_add_instant(Text *text, Instant instant, const Zone *zone) {
    char civil[CIVIL_TEXT_SIZE];
    civil_format(zone_civil(zone, instant), civil);
    int minutes = zone_offset(zone, instant) / SECONDS_PER_MINUTE;
    text_addf(text, "%s%c%02d:%02d", civil, minutes < 0 ? '-' : '+', abs(minutes) / 60,
              abs(minutes) % 60);
}

static bool add_quantity(Text *text, Quantity quantity, const Zone *zone) {
    if (quantity.kind == QUANTITY_NONE || !isfinite(quantity.value))
        return false;
    if (quantity.kind == QUANTITY_INSTANT) {
        if (quantity.value == 0)
            return false;
        figure_add_instant(text, (Instant)quantity.value, zone);
        return true;
    }
    figure_add_number(text, quantity.value);
    const char *unit = figure_unit(quantity.kind);
    if (*unit)
        text_addf(text, " %s", unit);
    return true;
}

bool figure_add(Text *text, const Field *field, const Zone *zone) {
    char date[DATE_TEXT_SIZE];
    switch (field->type) {
    case FIELD_QUANTITY: return add_quantity(text, field->quantity, zone);
    case FIELD_YES: text_add(text, field->quantity.value != 0 ? "yes" : "no"); return true;
    case FIELD_DATE:
        if (field->date.year == 0)
            return false;
        date_format(field->date, date);
        text_add(text, date);
        return true;
    case FIELD_TEXT:
    case FIELD_WORD:
        if (!field->text)
            return false;
        text_add(text, field->text);
        return true;
    }
    return false;
}
