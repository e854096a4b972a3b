#include "report/season_text.h"

static const TerminalPart sum_parts[] = {
    {"season.nights", "sums.nights"},   {"season.over", "sums.over"},
    {"season.lasted", "sums.lasted"},   {"season.went_out", "sums.went_out"},
    {"season.relit", "sums.relit"},     {"season.stopped", "sums.stopped"},
    {"season.no_end", "sums.no_end"},   {"season.unwritten", "sums.unwritten"},
    {"season.planned", "sums.planned"}, {"season.baggings", "sums.baggings"},
};

static const TerminalPart month_parts[] = {
    {"season.month", NULL},
    {"season.month_nights", "nights"},
    {"season.month_lasted", "over"},
    {"season.month_planned", "planned"},
    {"season.product_mass", "product_mass"},
    {"season.burnt_mass", "burnt_mass"},
};

static const TerminalPart entry_parts[] = {
    {"season.date", NULL},
    {"season.name", NULL},
    {"season.product", "product"},
    {"season.step", "step"},
    {"season.tray", "tray"},
    {"season.bags", "bags"},
    {"season.dust_mass", "dust_mass"},
    {"season.verdict", "verdict"},
    {"season.lasts", "lasts"},
    {"season.planned_time", "planned"},
    {"season.took", "took"},
    {"season.other_length", "other_length"},
    {"season.state", NULL},
    {"season.of_cause", "died"},
    {"season.clash_with", "clash_with"},
};

static const TerminalPart clash_parts[] = {
    {"season.clash_thing", "thing"}, {"season.clash_oven", "!thing"}, {"season.clash_names", NULL},
    {"season.clash_time", NULL},     {"season.clash_past", "past"},
};

static const TerminalPart need_parts[] = {
    {"season.dust", NULL},
    {"season.dust_lot", "lot"},
    {"season.needed", NULL},
    {"season.stock", "stock_known"},
    {"season.no_stock", "!stock_known"},
    {"season.left", "!short"},
    {"season.missing", "short"},
    {"season.buy_by", "buy"},
    {"season.blend_by", "blend"},
};

static const TerminalPart compared_parts[] = {
    {"season.within", "compared.nights"},     {"season.sooner", "compared.sooner"},
    {"season.later", "compared.later"},       {"season.took_ratio", "compared.took_ratio"},
    {"season.left_out", "compared.left_out"},
};

static const TerminalPart chance_parts[] = {{"season.chance_row", NULL}};
static const TerminalPart death_parts[] = {{"season.death_row", NULL}};
static const TerminalPart faulty_parts[] = {{"season.file", NULL}};

static const TerminalPart yield_parts[] = {
    {"season.kind", NULL},
    {"season.yield_nights", NULL},
    {"season.product_mass", "product_mass"},
    {"season.pieces", "pieces"},
    {"season.burnt_mass", "burnt_mass"},
    {"season.burnt_share", "burnt_share"},
};

#define COUNT(parts) (sizeof(parts) / sizeof *(parts))

/* A heading and a line for each row; nothing when there are none. */
static void add_rows(const Terminal *terminal, const char *title, const char *group,
                     const TerminalPart *parts, size_t count) {
    const FieldGroup *row;
    for (size_t i = 0; (row = field_row(terminal->fields, group, i)); i++) {
        if (i == 0)
            terminal_title(terminal, title);
        terminal_parts(terminal, row, 2, parts, count);
    }
}

static void add_calendar(const Terminal *terminal) {
    const FieldGroup *month, *entry;
    terminal_title(terminal, "season.calendar");
    for (size_t i = 0; (month = field_row(terminal->fields, "month", i)); i++) {
        terminal_parts(terminal, month, 2, month_parts, COUNT(month_parts));
        for (size_t k = 0; (entry = field_row(month, "entry", k)); k++)
            terminal_parts(terminal, entry, 4, entry_parts, COUNT(entry_parts));
    }
}

void season_text(Text *text, const FieldGroup *fields, SayWords say, void *context) {
    Terminal terminal = {text, fields, say, context};
    terminal_line(&terminal, 0, "season.title", fields);
    terminal_line(&terminal, 0, "season.span", fields);
    terminal_parts(&terminal, fields, 0, sum_parts, COUNT(sum_parts));
    add_calendar(&terminal);
    add_rows(&terminal, "season.clashes", "clash", clash_parts, COUNT(clash_parts));
    add_rows(&terminal, "season.needs", "need", need_parts, COUNT(need_parts));
    if (terminal_set(fields, "compared.nights") || terminal_set(fields, "compared.left_out")) {
        terminal_title(&terminal, "season.compared");
        terminal_parts(&terminal, fields, 2, compared_parts, COUNT(compared_parts));
    }
    add_rows(&terminal, "season.chances", "chance", chance_parts, COUNT(chance_parts));
    add_rows(&terminal, "season.deaths", "death", death_parts, COUNT(death_parts));
    add_rows(&terminal, "season.yields", "yield", yield_parts, COUNT(yield_parts));
    add_rows(&terminal, "season.faulty", "faulty", faulty_parts, COUNT(faulty_parts));
    terminal_title(&terminal, "season.rules");
    text_add(text, "\n");
}
