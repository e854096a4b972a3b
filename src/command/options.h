/* Options: what was asked on the command line, read by the C library's getopt_long. One table
 * holds every option with its help, so that the parser, `--help` and the errors agree. */
#ifndef COMMAND_OPTIONS_H
#define COMMAND_OPTIONS_H

#include "domain/label_sheet.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

typedef enum PlanForm { PLAN_TEXT, PLAN_XML, PLAN_CSV, PLAN_FIELDS } PlanForm;

/* So many times --first may be said: more stock than anybody has half-used. */
enum { FIRSTS_MOST = 40 };

typedef struct Options {
    const char *output; /* -o: file or folder; NULL: out/ */
    PlanForm as;        /* --as */
    bool as_given;
    const char *template;           /* --template: name or file; NULL: the command's own */
    const char *language;           /* --language; NULL: the workshop's */
    const char *units;              /* --units: metric or us; NULL: the workshop's */
    const char *paper;              /* --paper: A4 or Letter; NULL: the workshop's */
    const char *dust;               /* --dust: id; NULL: every dust without a stated moisture */
    const char *after;              /* --after: file of the last batch; NULL: none */
    FirstLabel firsts[FIRSTS_MOST]; /* --first: first free labels */
    size_t first_count;
    double offset_x_mm; /* --offset: print offset of labels */
    double offset_y_mm;
    int jobs;              /* --jobs; 0: as many as there are processors */
    bool outlines;         /* --outlines */
    const char *test_page; /* --test-page: a stock; NULL: none */
    bool write;            /* --write: the record into the batch's file */
    bool help;
    char **files;
    size_t file_count;
} Options;

/* Reads the words behind the command's name. `allowed` holds the letters the command takes. Returns
 * false after saying on standard error what is wrong. */
bool options_read(const char *command, const char *allowed, int count, char **words,
                  Options *options);

/* All that --first said. */
FirstLabels options_firsts(const Options *options);

/* Prints a help line for each allowed option. */
void options_help(FILE *to, const char *allowed);

#endif
