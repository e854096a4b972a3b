/* Printing: the PDFs of a run, one for each batch or one for all of them together. */
#ifndef COMMAND_PRINTING_H
#define COMMAND_PRINTING_H

#include "command/run.h"
#include "layout/pattern.h"

/* Lays a job's pages out into a document; reports and returns false when they can not be made. */
typedef bool (*LayOut)(Run *run, const Job *job, Document *document);

typedef struct Printing {
    const char *kind; /* part of the file name: NAME.KIND.pdf */
    bool exact_size;  /* the viewer is not to scale them */
    LayOut lay_out;
    bool together;    /* -o names one file */
    Document *shared; /* the document of all batches; NULL: none yet */
} Printing;

/* The printing of pages of that kind, together or apart as the options say. */
Printing printing_begin(const Options *options, const char *kind, LayOut lay_out);

/* The template that the command line names, or the usual one; `papers` are the root elements it may
 * have. NULL after saying what is wrong; the run's status is noted. */
const Pattern *printing_template(Run *run, const char *usual, const char *papers);

/* A template of that name, or file; else the same. */
const Pattern *printing_pattern(Run *run, const char *name, const char *papers);

/* What a page that is about no night reads of a plan: paper and name. In the arena. */
const Plan *printing_bare_plan(Arena *arena, const Workshop *workshop, const char *name,
                               Place place);

/* Makes the pages of one batch and, unless all go together, writes them. */
ExitStatus printing_make(Run *run, Job *job, Printing *printing, const char *title,
                         const char *subject);

/* Writes what goes together, if every batch was done. */
void printing_finish(Run *run, Printing *printing);

#endif
