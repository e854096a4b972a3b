#include "report/plan_text.h"

#include "base/utf8.h"

#include <string.h>

/* A line of the summary: shown only where the field is set (see terminal_set). */
typedef struct Line {
    const char *label; /* key */
    const char *words; /* key */
    const char *field; /* NULL: always */
} Line;

static const Line clock_lines[] = {
    {"terminal.light", "terminal.light_at", "!happened.over"},
    {"terminal.out", "terminal.out_at", "!happened.over"},
    {"terminal.burn", "terminal.burn_figures", NULL},
    {"terminal.estimate", "terminal.estimate_none", "!burn.measured"},
    {"terminal.estimate", "terminal.estimate_measured", "burn.measured"},
    {"terminal.chance", "terminal.chance_figures", NULL},
    {"terminal.dies", "terminal.dies_at", "burn.likely_out_at"},
};

/* Of a night that is over, in the place of verdict, reasons and remedies. */
static const Line happened_lines[] = {
    {"happened.lit_out", NULL, "happened.out_at"}, {"happened.lit", NULL, "!happened.out_at"},
    {"happened.died", NULL, "happened.died"},      {"happened.burnt", NULL, "happened.burnt"},
    {"happened.relit", NULL, "happened.relit"},    {"happened.ash", NULL, "happened.ash"},
    {"happened.remark", NULL, "happened.remark"},  {"happened.planned", NULL, NULL},
};

static const Line night_lines[] = {
    {"terminal.blend", "terminal.grain", NULL},
    {"terminal.drying", "terminal.drying_oven", "drying.needed"},
    {"terminal.drying", "terminal.drying_mass", "drying.to_mass"},
    {"terminal.drying", "terminal.drying_range", "drying.to_range"},
    {"terminal.drying", "terminal.drying_moisture", "!blend.moisture_assumed"},
    {"terminal.drying", "terminal.drying_moisture_assumed", "blend.moisture_assumed"},
    {"terminal.cabinet", "terminal.cabinet_peak", "cabinet.stated"},
    {"terminal.room", "terminal.room_outdoors", "room.outdoors"},
    {"terminal.room", "terminal.room_co", "room.indoors"},
    {"terminal.weather", "terminal.weather_lit", NULL},
};

/* Nothing to be done is told of a night that should not be lit. */
static bool refused(const FieldGroup *fields) {
    const Field *verdict = field_find(fields, "verdict");
    return verdict && verdict->text && !strcmp(verdict->text, "verdict.do_not_light");
}

/* Labels stand in one column, however long their words are in the language. */
static size_t label_width(const Terminal *terminal, const Line *lines, size_t count, size_t least) {
    for (size_t i = 0; i < count; i++) {
        size_t width = utf8_count(terminal_words(terminal, lines[i].label, terminal->fields));
        least = width > least ? width : least;
    }
    return least;
}

static void add_lines(const Terminal *terminal, const Line *lines, size_t count, size_t width) {
    const char *before = "";
    for (size_t i = 0; i < count; i++) {
        if (lines[i].field && !terminal_set(terminal->fields, lines[i].field))
            continue;
        const char *label = terminal_words(terminal, lines[i].label, terminal->fields);
        const char *shown = strcmp(label, before) != 0 ? label : "";
        text_addf(terminal->text, "%s%*s  %s\n", shown, (int)(width - utf8_count(shown)), "",
                  terminal_words(terminal, lines[i].words, terminal->fields));
        before = label;
    }
}

/* A line for each row of a group, in the words of a key. */
static void add_rows(const Terminal *terminal, const char *group, const char *key) {
    for (size_t i = 0;; i++) {
        const FieldGroup *row = field_row(terminal->fields, group, i);
        if (!row)
            return;
        terminal_line(terminal, 2, key, row);
    }
}

/* A heading and its rows; nothing when there are none. */
static void add_section(const Terminal *terminal, const char *title, const char *group,
                        const char *key) {
    if (!field_row(terminal->fields, group, 0))
        return;
    terminal_title(terminal, title);
    add_rows(terminal, group, key);
}

/* A change, or two together, and what comes of it. */
static void add_remedies(const Terminal *terminal) {
    const FieldGroup *row;
    for (size_t i = 0; (row = field_row(terminal->fields, "remedy", i)); i++) {
        const FieldGroup *with = field_row(row, "with", 0);
        if (i == 0)
            text_addf(terminal->text, "\n%s\n", terminal_words(terminal, "panel.remedies", row));
        text_addf(terminal->text, "  %s", terminal_words(terminal, "terminal.row", row));
        if (with)
            text_addf(terminal->text, "; %s %s", terminal_words(terminal, "remedy.and", row),
                      terminal_words(terminal, "terminal.row", with));
        text_addf(terminal->text, ": %s – %s\n", terminal_words(terminal, "remedy.after", row),
                  terminal_words(terminal, "terminal.verdict_after", row));
    }
}

/* A choice among several days, or together with others: one alone in an evening needs no words. */
static void add_choice(const Terminal *terminal) {
    const FieldGroup *fields = terminal->fields;
    if (!terminal_set(fields, "choice.told"))
        return;
    terminal_title(terminal, "choice.window");
    add_rows(terminal, "choice.next", "choice.next");
    if (terminal_set(fields, "choice.days") && !terminal_set(fields, "choice.has_next"))
        terminal_line(terminal, 2, "choice.no_next", fields);
    if (terminal_set(fields, "choice.known_to"))
        terminal_line(terminal, 2, "choice.known", fields);
    if (terminal_set(fields, "choice.days") && !terminal_set(fields, "weather.forecast"))
        terminal_line(terminal, 2, "choice.one_reading", fields);
    add_rows(terminal, "choice.with", "terminal.row");
    if (terminal_set(fields, "choice.days"))
        add_section(terminal, "panel.days", "choice.day", "terminal.row");
}

static void add_happened(const Terminal *terminal) {
    for (size_t i = 0; i < sizeof happened_lines / sizeof *happened_lines; i++)
        if (!happened_lines[i].field || terminal_set(terminal->fields, happened_lines[i].field))
            terminal_line(terminal, 0, happened_lines[i].label, terminal->fields);
}

void plan_text(Text *text, const FieldGroup *fields, SayWords say, void *context) {
    Terminal terminal = {text, fields, say, context};
    const size_t clock_count = sizeof clock_lines / sizeof *clock_lines;
    const size_t night_count = sizeof night_lines / sizeof *night_lines;
    size_t width = label_width(&terminal, clock_lines, clock_count, 0);
    width = label_width(&terminal, night_lines, night_count, width);
    bool over = terminal_set(fields, "happened.over");
    terminal_line(&terminal, 0, "terminal.title", fields);
    if (over) {
        add_happened(&terminal);
    } else {
        terminal_line(&terminal, 0, "terminal.verdict", fields);
        add_rows(&terminal, "reason", "terminal.row");
        add_remedies(&terminal);
    }
    text_add(text, "\n");
    add_lines(&terminal, clock_lines, clock_count, width);
    if (!over)
        add_choice(&terminal);
    if (!over && !refused(fields)) {
        add_section(&terminal, "panel.weigh_out", "blend.part", "terminal.part");
        bool assumed = terminal_set(fields, "blend.moisture_assumed");
        const char *total = assumed ? "terminal.total_assumed" : "terminal.total";
        terminal_line(&terminal, 2, total, fields);
    }
    text_add(text, "\n");
    add_lines(&terminal, night_lines, night_count, width);
    add_section(&terminal, "terminal.fills", "fill", "terminal.fill");
    add_section(&terminal, "panel.care", "care", "terminal.row");
    add_section(&terminal, "terminal.learning", "learning", "terminal.row");
    if (!over && !refused(fields)) {
        add_section(&terminal, "panel.preparation", "preparation.task", "terminal.task");
        add_section(&terminal, "panel.steps", "step", "terminal.step");
    }
    terminal_title(&terminal, "footer.estimates");
    text_add(text, "\n");
}
