#include "report/csv.h"

#include "report/figure.h"

#include <math.h>
#include <string.h>

/* The units of a spreadsheet: what a column's name ends in, and how many of them are one of SI. */
typedef struct ColumnUnit {
    const char *ending;
    double per_si;
} ColumnUnit;

static ColumnUnit column_unit(QuantityKind kind) {
    switch (kind) {
    case QUANTITY_LENGTH: return (ColumnUnit){"_mm", 1000};
    case QUANTITY_SPEED: return (ColumnUnit){"_mm_per_h", 3.6e6};
    case QUANTITY_MOISTURE: return (ColumnUnit){"_percent_dry", 100};
    case QUANTITY_HUMIDITY:
    case QUANTITY_SHARE: return (ColumnUnit){"_percent", 100};
    case QUANTITY_TEMPERATURE: return (ColumnUnit){"_c", 1};
    case QUANTITY_POWER: return (ColumnUnit){"_w", 1};
    case QUANTITY_CONCENTRATION: return (ColumnUnit){"_mg_per_m3", 1};
    case QUANTITY_MASS: return (ColumnUnit){"_kg", 1};
    case QUANTITY_DURATION: return (ColumnUnit){"_h", 1.0 / 3600};
    default: return (ColumnUnit){"", 1};
    }
}

static void add_quantity(Text *text, Quantity quantity, const Zone *zone) {
    if (!isfinite(quantity.value))
        return;
    if (quantity.kind == QUANTITY_INSTANT)
        figure_add_instant(text, (Instant)quantity.value, zone);
    else
        figure_add_number(text, quantity.value * column_unit(quantity.kind).per_si);
}

/* In quotes where it holds what would end a cell, the quotes in it doubled (RFC 4180, 2.6 and
 * 2.7). A spreadsheet takes what begins with one of these signs for a formula: a quote before it
 * keeps it a text (common practice, no source). */
static void add_text(Text *text, const char *raw) {
    bool formula = strchr("=+-@\t\r", *raw) && *raw;
    if (!formula && !strpbrk(raw, "\",\r\n")) {
        text_add(text, raw);
        return;
    }
    text_add(text, formula ? "\"'" : "\"");
    for (; *raw; raw++) {
        text_add(text, *raw == '"' ? "\"" : "");
        text_add_bytes(text, raw, 1);
    }
    text_add(text, "\"");
}

static void add_cell(Text *text, const Field *field, const Zone *zone) {
    switch (field->type) {
    case FIELD_QUANTITY: add_quantity(text, field->quantity, zone); break;
    case FIELD_TEXT:
    case FIELD_WORD: add_text(text, field->text ? field->text : ""); break;
    case FIELD_YES:
    case FIELD_DATE: figure_add(text, field, zone); break;
    }
}

void csv_heading(Text *text, const FieldGroup *row) {
    for (size_t i = 1; i < row->fields.count; i++) {
        const Field *field = &row->fields.items[i];
        text_addf(text, "%s%s%s", i > 1 ? "," : "", field->name,
                  field->type == FIELD_QUANTITY ? column_unit(field->quantity.kind).ending : "");
    }
    text_add(text, "\r\n");
}

void csv_row(Text *text, const FieldGroup *row, const Zone *zone) {
    for (size_t i = 1; i < row->fields.count; i++) {
        text_add(text, i > 1 ? "," : "");
        add_cell(text, &row->fields.items[i], zone);
    }
    text_add(text, "\r\n");
}
