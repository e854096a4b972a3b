/* Diagnostic: what is wrong in a file a person wrote, said in one way.
 *
 *     cheese.xml:5:17: error: unknown dust 'beach'
 *         <part dust="beach" share="70 %"/>
 *                    ^~~~~
 *         did you mean 'beech'? the workshop has beech, cherry
 *
 * Reports are collected in a list that is passed in; one place prints them, in the order of
 * the file. A message puts the problem first, in lower case, its subject in quotes, with no full
 * stop. The remedy says what would be right.
 */
#ifndef BASE_DIAGNOSTIC_H
#define BASE_DIAGNOSTIC_H

#include "base/arena.h"
#include "base/list.h"
#include "base/place.h"
#include "base/text.h"

#include <stddef.h>
#include <stdio.h>

typedef enum Severity { SEVERITY_ERROR, SEVERITY_WARNING, SEVERITY_NOTE } Severity;

typedef struct Diagnostic {
    Severity severity;
    Place place;
    const char *message;
    const char *remedy; /* NULL: none */
    size_t order;       /* of reporting */
} Diagnostic;

/* The text of a file that places point into. */
typedef struct SourceText {
    const char *file;
    const char *text; /* NUL-ended */
} SourceText;

typedef struct Diagnostics {
    Arena *arena;
    LIST_OF(Diagnostic) list;
    LIST_OF(SourceText) sources; /* in the order files were read, which is that of printing */
} Diagnostics;

/* An empty list; everything reported is kept in `arena`. */
Diagnostics diagnostics_new(Arena *arena);

/* Makes the text of a file known, so that its lines can be shown. Both are kept, not copied. */
void diagnostics_source(Diagnostics *diagnostics, const char *file, const char *text);

/* Reports a fault, a doubt or a remark. `remedy` may be NULL and is copied. */
void report_error(Diagnostics *diagnostics, Place place, const char *remedy, const char *format,
                  ...) __attribute__((format(printf, 4, 5)));
void report_warning(Diagnostics *diagnostics, Place place, const char *remedy, const char *format,
                    ...) __attribute__((format(printf, 4, 5)));
void report_note(Diagnostics *diagnostics, Place place, const char *remedy, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* How many errors there are; those of one file when `file` is not NULL. */
size_t diagnostics_errors(const Diagnostics *diagnostics, const char *file);

/* Appends all reports in the order of their places, and at the end the count of errors
 * ("5 errors in cheese.xml"; nothing when there are none). Characters that could steer a terminal
 * are replaced. */
void diagnostics_add_to(const Diagnostics *diagnostics, Text *text);

/* The same, written to a stream. */
void diagnostics_print(const Diagnostics *diagnostics, FILE *stream);

/* One line of what is to be said without a place in a file. Whatever in it could steer a terminal
 * is replaced: names come from anywhere. */
void say_line(FILE *stream, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Forgets all reports, but not the texts of the files. */
void diagnostics_clear(Diagnostics *diagnostics);

#endif
