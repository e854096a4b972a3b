#include "report/trace_text.h"

#include <string.h>

typedef struct Terminal {
    Text *text;
    const FieldGroup *fields;
    SayWords say;
    void *context;
} Terminal;

/* A part of a line, said only where the field is set (or, with "!", is not). */
typedef struct Part {
    const char *words; /* key */
    const char *field; /* NULL: always */
} Part;

static const Part made_parts[] = {
    {"trace.lot", NULL},        {"trace.made", "made"},           {"trace.bags", "bags"},
    {"trace.pieces", "pieces"}, {"trace.made_mass", "made_mass"}, {"trace.date", "date"},
    {"trace.file", "file"},
};

static const Part dust_parts[] = {
    {"trace.dust", NULL},           {"trace.dust_lot", "dust_lot"}, {"trace.no_lot", "!dust_lot"},
    {"trace.share", "share"},       {"trace.mass", "mass"},         {"trace.written", "happened"},
    {"trace.planned", "!happened"},
};

static bool set(const FieldGroup *row, const char *path) {
    bool wanted = *path != '!';
    const Field *field = field_find(row, wanted ? path : path + 1);
    if (!field)
        return false;
    if (field->type == FIELD_TEXT)
        return (field->text != NULL) == wanted;
    if (field->type == FIELD_DATE)
        return (field->date.year != 0) == wanted;
    return (field->quantity.value > 0) == wanted;
}

static const char *words(const Terminal *terminal, const char *key, const FieldGroup *row) {
    const char *said = terminal->say(terminal->context, key, row);
    return said ? said : "?";
}

static void add_parts(const Terminal *terminal, const FieldGroup *row, int indent,
                      const Part *parts, size_t count) {
    text_addf(terminal->text, "%*s", indent, "");
    const char *joint = "";
    for (size_t i = 0; i < count; i++) {
        if (parts[i].field && !set(row, parts[i].field))
            continue;
        text_addf(terminal->text, "%s%s", joint, words(terminal, parts[i].words, row));
        joint = ", ";
    }
    text_add(terminal->text, "\n");
}

static int indent_of(const FieldGroup *row) {
    const Field *depth = field_find(row, "depth");
    return depth ? 2 * (int)depth->quantity.value : 2;
}

/* Forward a step leads from a dust to what was made, back the other way round: the end that it
 * leads to comes first. */
static void add_step(const Terminal *terminal, const FieldGroup *row, bool back) {
    const size_t made_count = sizeof made_parts / sizeof *made_parts;
    const size_t dust_count = sizeof dust_parts / sizeof *dust_parts;
    int indent = indent_of(row);
    if (back)
        add_parts(terminal, row, indent, dust_parts, dust_count);
    add_parts(terminal, row, back ? indent + 4 : indent, made_parts, made_count);
    if (!back)
        add_parts(terminal, row, indent + 4, dust_parts, dust_count);
}

static void add_way(const Terminal *terminal, const char *group, const char *title,
                    const char *none) {
    const FieldGroup *row = field_row(terminal->fields, group, 0);
    text_addf(terminal->text, "\n%s\n", words(terminal, row ? title : none, terminal->fields));
    for (size_t i = 0; (row = field_row(terminal->fields, group, i)); i++)
        add_step(terminal, row, strcmp(group, "of") == 0);
}

void trace_text(Text *text, const FieldGroup *fields, SayWords say, void *context) {
    Terminal terminal = {text, fields, say, context};
    text_addf(text, "%s\n", words(&terminal, "trace.title", fields));
    add_way(&terminal, "into", "trace.into", "trace.into_none");
    add_way(&terminal, "of", "trace.of", "trace.of_none");
    text_add(text, "\n");
}
