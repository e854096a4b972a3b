/* Run: one call of a command over several batches: what is read once, and the way each batch goes.
 *
 * All batches are read first, so that every fault of the run is told before anything is written;
 * then each good one is planned and handed to the command's work. One that fails does not stop
 * the others.
 */
#ifndef COMMAND_RUN_H
#define COMMAND_RUN_H

#include "command/command.h"
#include "command/lessons.h"
#include "command/progress.h"
#include "domain/field.h"
#include "domain/packing_plan.h"
#include "input/reader.h"
#include "layout/format.h"
#include "layout/mark.h"
#include "layout/stock.h"
#include "model/plan.h"

typedef struct KnownWords {
    const char *language;
    const Words *words; /* NULL: has faults */
} KnownWords;

typedef struct Run {
    const Options *options;
    Arena *arena;
    Reader reader;
    const char *folder; /* of templates/ and fonts/ */
    int64_t printed;    /* the day of printing, seconds since 1970 */
    const FaceSet *faces;
    const StockSet *stocks; /* NULL: not asked for yet */
    LIST_OF(KnownWords) words;
    LabelSheets sheets; /* as labels would fill them, of the files that go into one document */
    Lessons lessons;
    ExitStatus status; /* the highest so far */
    void *shared;      /* the command's own */
    Progress progress; /* begun by run_files, or by a command of its own ways */
    bool looks_back;   /* bags may be filled by now, and the shelf hold less than they took */
    bool writes_each;  /* a file of its own for each, called after it */
    bool gathers;      /* the work on one file adds to what is kept in memory for all */
} Run;

/* One file on its way: a batch, a day of bagging, or a workshop, and NULL for the others. */
typedef struct Job {
    const char *file;
    const Batch *batch;
    const Bagging *bagging;
    const Workshop *workshop;
    const PackingPlan *packing; /* of a bagging; of a batch with bags where it was asked for */
    const PlanHour *hour;       /* chosen together with other batches of the run; NULL: by itself */
    bool no_hour;               /* the others leave it none, which is reported */
    bool was_read;              /* without faults */
    bool is_batch;              /* also when the batch itself is not kept … */
    Instant at;                 /* … with the hour of its timing … */
    const Workshop *of;         /* … and its workshop as it was read */
    Arena *arena;               /* of this batch; the run's when all go into one file */
    const Plan *plan;           /* of a batch */
    const FieldGroup *fields;
    Locale locale;
} Job;

/* What a command does with a planned file. */
typedef ExitStatus (*Work)(Run *run, Job *job);

/* What the files may be. */
typedef enum RunKinds { RUN_BATCHES, RUN_BATCHES_AND_BAGGINGS, RUN_ALL_KINDS } RunKinds;

/* Says on standard error what is wrong with the words behind a command's name, and where its help
 * is. */
ExitStatus run_refuse(const char *command, const char *what);

/* A run with nothing read yet. */
Run run_begin(const Options *options);

/* Reads and plans all files and gives each to `work`. Tells at the end how many of how many were
 * done, when not all were. Returns the highest status. */
ExitStatus run_files(Run *run, RunKinds kinds, Work work);

/* Tells how many of how many were done, when not all were. */
void run_count(size_t done, size_t total, const char *what);

/* The workshop that the job is about, as the command line has it. */
const Workshop *job_workshop(const Job *job);

/* A copy of a workshop, in the arena, that says what the command line asks for instead. */
const Workshop *run_workshop(const Run *run, Arena *arena, const Workshop *workshop);

/* Name of the batch, of the day, or of the workshop. */
const char *job_name(const Job *job);

/* Prints what is still to be said and gives back everything the run took. Returns its status. */
ExitStatus run_end(Run *run);

/* Prints and forgets what the readers and the layout have reported. */
void run_say(Run *run);

/* Notes a status; the highest is kept. Returns it. */
ExitStatus run_note(Run *run, ExitStatus status);

/* Whether the program's own data is there; says so and notes the status when it is not. */
bool run_data(Run *run);

/* The faces, loaded when first asked for; NULL after saying what is wrong. */
const FaceSet *run_faces(Run *run);

/* An XML file of the program's own data or the user's, as a tree; NULL after saying what is wrong.
 * `name` without a slash and without .xml means templates/NAME.xml; when there is none, those are
 * named whose root is one of `papers`. */
const Element *run_template(Run *run, const char *name, const char *papers);

/* The label stock, read when first asked for; NULL after saying what is wrong, with a stock that
 * the command line names too. */
const StockSet *run_stocks(Run *run);

/* The words of a language, read when first asked for; NULL after saying what is wrong. */
const Words *run_words(Run *run, const char *language);

/* An empty document, with title, the workshop's maker and language, and the date. */
Document *run_document(Run *run, Arena *arena, const Workshop *workshop, const char *title);

/* Plans the packing of the job's bags, with its fields. False, and reported, when the shelf holds
 * less than they take, or a bag names a stock that cannot be. */
bool run_pack(Run *run, Job *job);

/* Whether the shelf holds what the bags, and the trays of their night, take; reports when not. */
bool run_shelf_suffices(Run *run, const PackingPlan *packing);

/* Writes the document as PDF; says what goes wrong. */
ExitStatus run_write(Run *run, Arena *arena, const Document *document, const char *path);

#endif
