#include "report/learnt_text.h"

#include <string.h>

static const FieldGroup *part_of(const FieldGroup *row, const char *name) {
    for (size_t i = 0; i < row->groups.count; i++)
        if (strcmp(row->groups.items[i]->name, name) == 0)
            return row->groups.items[i];
    return row;
}

static void add_burn(const Terminal *terminal, const FieldGroup *row, const char *title,
                     const char *chance) {
    static const char *const states[] = {"before", "now"};
    terminal_line(terminal, 2, title, row);
    for (size_t i = 0; i < sizeof states / sizeof *states; i++) {
        const FieldGroup *state = part_of(row, states[i]);
        text_addf(terminal->text, "    %s: %s; ",
                  terminal_words(terminal, i == 0 ? "learnt.before" : "learnt.now", state),
                  terminal_words(terminal, "learnt.speed", state));
        text_addf(terminal->text, "%s\n", terminal_words(terminal, chance, state));
    }
}

static void add_burns(const Terminal *terminal, const char *group, const char *head,
                      const char *title, const char *chance) {
    const FieldGroup *row = field_row(terminal->fields, group, 0);
    if (row)
        terminal_title(terminal, head);
    for (size_t i = 0; (row = field_row(terminal->fields, group, i)); i++)
        add_burn(terminal, row, title, chance);
}

static void add_list(const Terminal *terminal, const char *group, const char *head,
                     const char *(*key)(const FieldGroup *row)) {
    const FieldGroup *row = field_row(terminal->fields, group, 0);
    if (row)
        terminal_title(terminal, head);
    for (size_t i = 0; (row = field_row(terminal->fields, group, i)); i++)
        terminal_line(terminal, 2, key(row), row);
}

static const char *own_key(const FieldGroup *row) {
    return field_find(row, "text")->text;
}

static const char *measure_key(const FieldGroup *row) {
    return field_find(row, "trial")->quantity.value > 0 ? "learnt.time" : "learnt.record";
}

static const char *assumed_key(const FieldGroup *row) {
    (void)row;
    return "learnt.assumed_dust";
}

void learnt_text(Text *text, const FieldGroup *fields, SayWords say, void *context) {
    Terminal terminal = {text, fields, say, context};
    terminal_line(&terminal, 0, "learnt.title", fields);
    terminal_line(&terminal, 0, "learnt.stands_on", fields);
    add_burns(&terminal, "dust", "learnt.dusts", "learnt.dust", "learnt.chance_margin");
    add_burns(&terminal, "blend", "learnt.blends", "learnt.blend", "learnt.chance");
    add_list(&terminal, "learning", "learnt.aside", own_key);
    add_list(&terminal, "measure", "learnt.next", measure_key);
    add_list(&terminal, "assumed", "learnt.assumed", assumed_key);
    text_add(text, "\n");
}
