#include "report/terminal.h"

const char *terminal_words(const Terminal *terminal, const char *key, const FieldGroup *row) {
    const char *said = terminal->say(terminal->context, key, row);
    return said ? said : "?";
}

bool terminal_set(const FieldGroup *row, const char *path) {
    bool wanted = *path != '!';
    const Field *field = field_find(row, wanted ? path : path + 1);
    if (!field)
        return false;
    if (field->type == FIELD_TEXT || field->type == FIELD_WORD)
        return (field->text != NULL) == wanted;
    if (field->type == FIELD_DATE)
        return (field->date.year != 0) == wanted;
    return (field->quantity.value > 0) == wanted;
}

void terminal_line(const Terminal *terminal, int indent, const char *key, const FieldGroup *row) {
    text_addf(terminal->text, "%*s%s\n", indent, "", terminal_words(terminal, key, row));
}

void terminal_title(const Terminal *terminal, const char *key) {
    text_add(terminal->text, "\n");
    terminal_line(terminal, 0, key, terminal->fields);
}

void terminal_parts(const Terminal *terminal, const FieldGroup *row, int indent,
                    const TerminalPart *parts, size_t count) {
    const char *joint = NULL;
    for (size_t i = 0; i < count; i++) {
        if (parts[i].field && !terminal_set(row, parts[i].field))
            continue;
        if (joint)
            text_add(terminal->text, joint);
        else
            text_addf(terminal->text, "%*s", indent, "");
        text_add(terminal->text, terminal_words(terminal, parts[i].words, row));
        joint = ", ";
    }
    if (joint)
        text_add(terminal->text, "\n");
}
