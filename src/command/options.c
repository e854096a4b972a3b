#include "command/options.h"

#include "base/diagnostic.h"
#include "command/workers.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>

typedef struct OptionRow {
    int letter; /* names the option here; only -o and -h are written as letters */
    const char *name;
    const char *value;
    const char *help;
} OptionRow;

static const OptionRow option_rows[] = {
    {'o', "output", "PATH", "file or folder to write to (default: out/)"},
    {'a', "as", "FORM", "text, xml, csv or fields (default: text)"},
    {'t', "template", "NAME", "page template: a name in templates/ or an XML file"},
    {'l', "language", "LANG", "language of the page, as en (default: the workshop's)"},
    {'u', "units", "UNITS", "units of the page: metric or us (default: the workshop's)"},
    {'p', "paper", "PAPER", "A4 or Letter (default: the workshop's)"},
    {'d', "dust", "ID", "the dust whose sheet it is (default: all of unstated moisture)"},
    {'f', "first", "N",
     "first free label on the first sheet; STOCK=N on that stock's (repeatable)"},
    {'x', "offset", "X,Y", "print offset of the labels in mm, right and down"},
    {'c', "outlines", NULL, "draw the outlines of the labels, for cutting or a test print"},
    {'n', "after", "BATCH", "batch: begin from this one, of the last night"},
    {'w', "write", NULL, "put the record into the batch's file"},
    {'g', "test-page", "STOCK", "no labels: a page that shows where they would be, without a file"},
    {'j', "jobs", "N", "so many files at once (default: as many as there are processors)"},
    {'h', "help", NULL, "show this help"},
};

enum { OPTION_ROWS = sizeof option_rows / sizeof *option_rows };

static void fill_long_options(const char *allowed, struct option *rows) {
    size_t used = 0;
    for (size_t i = 0; i < OPTION_ROWS; i++)
        if (option_rows[i].letter == 'h' || strchr(allowed, option_rows[i].letter))
            rows[used++] = (struct option){option_rows[i].name,
                                           option_rows[i].value ? required_argument : no_argument,
                                           NULL, option_rows[i].letter};
    rows[used] = (struct option){0};
}

static bool read_form(const char *value, PlanForm *form) {
    static const char *const names[] = {"text", "xml", "csv", "fields"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (!strcmp(value, names[i])) {
            *form = (PlanForm)i;
            return true;
        }
    return false;
}

/* "3", or "a4-8=3"; the name is cut off where it stands. */
static bool read_first(char *value, Options *options) {
    char *equals = strchr(value, '=');
    const char *digits = equals ? equals + 1 : value;
    char *end;
    long number = strtol(digits, &end, 10);
    if (equals == value || !*digits || *end || number < 1 || number > 1000 ||
        options->first_count == FIRSTS_MOST)
        return false;
    if (equals)
        *equals = '\0';
    options->firsts[options->first_count++] = (FirstLabel){equals ? value : NULL, (int)number};
    return true;
}

FirstLabels options_firsts(const Options *options) {
    return (FirstLabels){options->firsts, options->first_count};
}

static bool read_jobs(const char *value, int *jobs) {
    char *end;
    long number = strtol(value, &end, 10);
    *jobs = (int)number;
    return *value && !*end && number >= 1 && number <= WORKERS_MOST;
}

/* Both offsets are kept to what a sheet of labels could need. */
static bool read_offset(const char *value, double *x_mm, double *y_mm) {
    char *end;
    *x_mm = strtod(value, &end);
    if (end == value || *end != ',')
        return false;
    const char *second = end + 1;
    *y_mm = strtod(second, &end);
    return end != second && !*end && *x_mm >= -20 && *x_mm <= 20 && *y_mm >= -20 && *y_mm <= 20;
}

static bool one_of(const char *value, const char *first, const char *second) {
    return !strcmp(value, first) || !strcmp(value, second);
}

/* Returns what the value should have been, or NULL when it is right. */
static const char *take(int letter, char *value, Options *options) {
    switch (letter) {
    case 'o': options->output = value; return *value ? NULL : "a file or folder";
    case 'a':
        options->as_given = true;
        return read_form(value, &options->as) ? NULL : "text, xml, csv or fields";
    case 't': options->template = value; return *value ? NULL : "a name or a file";
    case 'l': options->language = value; return *value ? NULL : "a language such as en";
    case 'u': options->units = value; return one_of(value, "metric", "us") ? NULL : "metric or us";
    case 'p': options->paper = value; return one_of(value, "A4", "Letter") ? NULL : "A4 or Letter";
    case 'd': options->dust = value; return *value ? NULL : "the id of a dust";
    case 'f':
        return read_first(value, options) ? NULL : "a number from 1 to 1000, or a4-8=3 of a stock";
    case 'x':
        return read_offset(value, &options->offset_x_mm, &options->offset_y_mm)
                   ? NULL
                   : "two numbers from -20 to 20, as in 0.5,-1";
    case 'j': return read_jobs(value, &options->jobs) ? NULL : "a number from 1 to 64";
    case 'c': options->outlines = true; return NULL;
    case 'g': options->test_page = value; return *value ? NULL : "a label stock";
    case 'n': options->after = value; return *value ? NULL : "the file of a batch";
    case 'w': options->write = true; return NULL;
    default: options->help = true; return NULL;
    }
}

static const char *name_of(int letter) {
    for (size_t i = 0; i < OPTION_ROWS; i++)
        if (option_rows[i].letter == letter)
            return option_rows[i].name;
    return "";
}

static void say_help(const char *command) {
    say_line(stderr, "see 'burnsheet %s --help'", command);
}

static bool refuse(const char *command, const char *problem, const char *word) {
    say_line(stderr, "burnsheet: %s '%s'", problem, word);
    say_help(command);
    return false;
}

/* `word` holds the option: a letter may stand among others in it, and a long option that takes no
 * value is refused when it has one. */
static bool refuse_option(const char *command, const char *word) {
    const char letter[] = {'-', (char)optopt, '\0'};
    if (optopt && !strncmp(word, "--", 2))
        return refuse(command, "no value is wanted in", word);
    return refuse(command, "unknown or ambiguous option", optopt ? letter : word);
}

static bool refuse_value(const char *command, int letter, const char *value, const char *wanted) {
    say_line(stderr, "burnsheet: option '--%s' can not be '%s': give %s", name_of(letter), value,
             wanted);
    say_help(command);
    return false;
}

bool options_read(const char *command, const char *allowed, int count, char **words,
                  Options *options) {
    struct option rows[OPTION_ROWS + 1];
    fill_long_options(allowed, rows);
    *options = (Options){0};
    opterr = 0;
    optind = 1;
    for (;;) {
        int letter = getopt_long(count, words, strchr(allowed, 'o') ? ":ho:" : ":h", rows, NULL);
        if (letter == -1)
            break;
        if (letter == '?')
            return refuse_option(command, words[optind - 1]);
        if (letter == ':')
            return refuse(command, "a value is missing behind", words[optind - 1]);
        const char *wanted = take(letter, optarg, options);
        if (wanted)
            return refuse_value(command, letter, optarg, wanted);
    }
    options->files = words + optind;
    options->file_count = (size_t)(count - optind);
    return true;
}

void options_help(FILE *to, const char *allowed) {
    for (size_t i = 0; i < OPTION_ROWS; i++) {
        const OptionRow *row = &option_rows[i];
        if (row->letter != 'h' && !strchr(allowed, row->letter))
            continue;
        char head[48];
        const char *dash = row->letter == 'o' ? "-o, " : row->letter == 'h' ? "-h, " : "    ";
        snprintf(head, sizeof head, "%s--%s%s%s", dash, row->name, row->value ? " " : "",
                 row->value ? row->value : "");
        fprintf(to, "  %-24s %s\n", head, row->help);
    }
}
