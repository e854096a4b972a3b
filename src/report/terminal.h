/* Terminal: lines of words for the terminal, from tables of what is said when. */
#ifndef REPORT_TERMINAL_H
#define REPORT_TERMINAL_H

#include "base/text.h"
#include "domain/field.h"

/* Gives the words of a key filled from the fields of `row` and its parents; `context` is the
 * caller's. NULL when they are missing, which the caller has noted. */
typedef const char *(*SayWords)(void *context, const char *key, const FieldGroup *row);

typedef struct Terminal {
    Text *text;
    const FieldGroup *fields;
    SayWords say;
    void *context;
} Terminal;

/* A part of a line, said only where the field is set (see terminal_set). */
typedef struct TerminalPart {
    const char *words; /* key */
    const char *field; /* NULL: always */
} TerminalPart;

/* The words of a key for a row; "?" where they are missing. */
const char *terminal_words(const Terminal *terminal, const char *key, const FieldGroup *row);

/* Whether a field is set (with "!" before it, is not): a text or date that is there, a number above
 * 0. False also of a path that no field has. */
bool terminal_set(const FieldGroup *row, const char *path);

/* Appends the words of a key as a line. */
void terminal_line(const Terminal *terminal, int indent, const char *key, const FieldGroup *row);

/* Appends an empty line and the words of a key, filled from all fields. */
void terminal_title(const Terminal *terminal, const char *key);

/* Appends a line: those parts that are said, ", " between them; nothing when none is. */
void terminal_parts(const Terminal *terminal, const FieldGroup *row, int indent,
                    const TerminalPart *parts, size_t count);

#endif
