/* Terminal: lines of words for the terminal, from tables of what is said when. */
#ifndef REPORT_TERMINAL_H
#define REPORT_TERMINAL_H

#include "report/plan_text.h"

typedef struct Terminal {
    Text *text;
    const FieldGroup *fields;
    SayWords say;
    void *context;
} Terminal;

/* A part of a line, said only where the field is set (or, with "!", is not). */
typedef struct TerminalPart {
    const char *words; /* key */
    const char *field; /* NULL: always */
} TerminalPart;

/* The words of a key for a row; "?" where they are missing. */
const char *terminal_words(const Terminal *terminal, const char *key, const FieldGroup *row);

/* Appends a line: those parts that are said, ", " between them; nothing when none is. */
void terminal_parts(const Terminal *terminal, const FieldGroup *row, int indent,
                    const TerminalPart *parts, size_t count);

#endif
