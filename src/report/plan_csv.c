#include "report/plan_csv.h"

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
    default: return (ColumnUnit){"", 1};
    }
}

static void add_cell(Text *text, Quantity quantity, const Zone *zone) {
    if (!isfinite(quantity.value))
        return;
    if (quantity.kind == QUANTITY_INSTANT)
        figure_add_instant(text, (Instant)quantity.value, zone);
    else
        figure_add_number(text, quantity.value * column_unit(quantity.kind).per_si);
}

/* The first field is the row's number, which is no figure. */
static void add_heading(Text *text, const FieldGroup *sample) {
    for (size_t i = 1; i < sample->fields.count; i++) {
        const Field *field = &sample->fields.items[i];
        text_addf(text, "%s%s%s", i > 1 ? "," : "", field->name,
                  column_unit(field->quantity.kind).ending);
    }
    text_add(text, "\r\n");
}

static void add_sample(Text *text, const FieldGroup *sample, const Zone *zone) {
    for (size_t i = 1; i < sample->fields.count; i++) {
        text_add(text, i > 1 ? "," : "");
        add_cell(text, sample->fields.items[i].quantity, zone);
    }
    text_add(text, "\r\n");
}

void plan_csv(Text *text, const Plan *plan, const FieldGroup *fields) {
    for (size_t i = 0; i < fields->groups.count; i++) {
        const FieldGroup *group = fields->groups.items[i];
        if (strcmp(group->name, "sample") != 0)
            continue;
        if (group->number == 1)
            add_heading(text, group);
        add_sample(text, group, plan->workshop->zone);
    }
}
