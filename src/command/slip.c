#include "layout/sheet.h"

#include "command/printing.h"
#include "model/packing.h"

#include <stdio.h>

typedef struct Slips {
    const Pattern *template;
    Printing printing;
} Slips;

/* The page is about a day; what it reads of a plan are paper and name, alike for every blend. */
static bool lay_out(Run *run, const Job *job, Document *document) {
    const Slips *slips = run->shared;
    return sheet_lay_out(slips->template, job->packing->blends.items[0].labels.items[0],
                         job->fields, &job->locale, run->faces, document, &run->reader.diagnostics);
}

static ExitStatus make_slip(Run *run, Job *job) {
    Slips *slips = run->shared;
    if (job->batch && job->plan->bags.count == 0) {
        say_line(stderr, "%s: note: the batch has no bags, so there is no slip", job->file);
        return STATUS_DONE;
    }
    if (job->batch) {
        job->packing = packing_plan(job->arena, packing_of_night(job->arena, job->plan));
        job->fields = packing_fields(job->arena, job->packing);
    }
    return printing_make(run, job, &slips->printing, job_name(job), NULL);
}

static ExitStatus slip(const Options *options) {
    Run run = run_begin(options);
    Slips slips = {.template = printing_template(&run, "slip", "slip"),
                   .printing = printing_begin(options, "slip", lay_out)};
    run.shared = &slips;
    if (slips.template)
        run_files(&run, RUN_BATCHES_AND_BAGGINGS, make_slip);
    ExitStatus status = printing_finish(&run, &slips.printing);
    run_end(&run);
    return status;
}

const Command command_slip = {
    .name = "slip",
    .arguments = "FILE...",
    .summary = "a blending and packing slip of each bagging, or batch with bags, as PDF",
    .options = "otlup",
    .run = slip,
};
