#include "command/labelling.h"
#include "command/printing.h"
#include "model/packing.h"

#include <stdio.h>

typedef struct Labels {
    LabelPatterns patterns;
    Printing printing;
    LabelRun run; /* of the document that is being made */
} Labels;

static bool lay_out(Run *run, const Job *job, Document *document) {
    Labels *labels = run->shared;
    return labelling_lay_out(run, job, &labels->patterns, &labels->run, document);
}

/* So that the rest of a sheet is not thrown away. */
static void say_free(const Job *job, const LabelSheets *sheets) {
    for (size_t i = 0; i < sheets->sheets.count; i++) {
        const LabelSheet *sheet = &sheets->sheets.items[i];
        if (label_sheet_free(sheet))
            say_line(stderr, "%s: note: on the last sheet of '%s' label %d is free next", job->file,
                     sheet->stock->name, label_sheet_free(sheet));
    }
}

static ExitStatus make_labels(Run *run, Job *job) {
    Labels *labels = run->shared;
    if (job->batch && job->plan->bags.count == 0) {
        say_line(stderr, "%s: note: the batch has no bags, so there are no labels", job->file);
        return STATUS_DONE;
    }
    if (job->batch)
        job->packing = packing_plan_of_night(job->arena, job->plan);
    if (!labels->printing.together)
        labels->run = (LabelRun){0};
    const char *title = job->packing->bagging->packs.items[0].blend.name;
    ExitStatus status = printing_make(run, job, &labels->printing, title, job_name(job));
    if (status == STATUS_DONE)
        say_free(job, &labels->run.sheets);
    return status;
}

static ExitStatus labels(const Options *options) {
    Run run = run_begin(options);
    Labels shared = {.printing = printing_begin(options, "labels", lay_out)};
    shared.printing.exact_size = true; /* labels must hit their stock */
    run.shared = &shared;
    if (labelling_patterns(&run, &shared.patterns) && run_stocks(&run))
        run_files(&run, RUN_BATCHES_AND_BAGGINGS, make_labels);
    ExitStatus status = printing_finish(&run, &shared.printing);
    run_end(&run);
    return status;
}

const Command command_labels = {
    .name = "labels",
    .arguments = "FILE...",
    .summary = "the bag labels of each batch or bagging as PDF",
    .options = "otlupfxc",
    .run = labels,
};
