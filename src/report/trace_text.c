#include "report/trace_text.h"

#include <string.h>

static const TerminalPart made_parts[] = {
    {"trace.lot", NULL},        {"trace.made", "made"},           {"trace.bags", "bags"},
    {"trace.pieces", "pieces"}, {"trace.made_mass", "made_mass"}, {"trace.date", "date"},
    {"trace.file", "file"},
};

static const TerminalPart dust_parts[] = {
    {"trace.dust", NULL},           {"trace.dust_lot", "dust_lot"}, {"trace.no_lot", "!dust_lot"},
    {"trace.share", "share"},       {"trace.mass", "mass"},         {"trace.written", "happened"},
    {"trace.planned", "!happened"},
};

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
        terminal_parts(terminal, row, indent, dust_parts, dust_count);
    terminal_parts(terminal, row, back ? indent + 4 : indent, made_parts, made_count);
    if (!back)
        terminal_parts(terminal, row, indent + 4, dust_parts, dust_count);
}

static void add_way(const Terminal *terminal, const char *group, const char *title,
                    const char *none) {
    const FieldGroup *row = field_row(terminal->fields, group, 0);
    terminal_title(terminal, row ? title : none);
    for (size_t i = 0; (row = field_row(terminal->fields, group, i)); i++)
        add_step(terminal, row, strcmp(group, "of") == 0);
}

void trace_text(Text *text, const FieldGroup *fields, SayWords say, void *context) {
    Terminal terminal = {text, fields, say, context};
    terminal_line(&terminal, 0, "trace.title", fields);
    add_way(&terminal, "into", "trace.into", "trace.into_none");
    add_way(&terminal, "of", "trace.of", "trace.of_none");
    text_add(text, "\n");
}
