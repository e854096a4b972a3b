/* Sample: each file of samples/ in metric units as the program plans and prints it, for tests that
 * hold the forms of a plan against each other. The program is $BURNSHEET. */
#ifndef SUPPORT_SAMPLE_H
#define SUPPORT_SAMPLE_H

#include "base/arena.h"

#include <libxml/tree.h>

/* One sample with all its forms. */
typedef struct Sample {
    Arena *arena;
    const char *name;
    const char *fields; /* plan --as fields */
    const char *csv;
    const char *sheet; /* text of the sheet, every run of white space as one blank */
    xmlDoc *plan;      /* plan --as xml; NULL: not well formed */
} Sample;

typedef struct Samples {
    Arena *arena;
    size_t count;
    Sample items[40];
} Samples;

/* Plans and prints all samples; fails the running test where the program does. */
void samples_read(Samples *samples);
void samples_free(Samples *samples);

/* All elements of a path such as "blend/part". */
typedef struct Found {
    size_t count;
    xmlNode *nodes[200];
} Found;

Found sample_find(const Sample *sample, const char *path);

/* The one element of the path; fails the running test when there is not exactly one. */
xmlNode *sample_only(const Sample *sample, const char *path);

/* An attribute; NULL: not there. */
const char *sample_text(const Sample *sample, xmlNode *node, const char *name);

/* An attribute that has to be there, and one that starts with a number. */
const char *sample_must(const Sample *sample, xmlNode *node, const char *name);
double sample_number(const Sample *sample, xmlNode *node, const char *name);

/* Text with any run of white space, thin and no-break spaces too, as one blank: words run on over
 * lines and columns of a page. */
const char *sample_one_blank(Arena *arena, const char *raw);

#endif
