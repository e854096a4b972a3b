#include "layout/label.h"

#include "command/printing.h"

#include <stdio.h>

typedef struct Labels {
    const Pattern *pattern;
    const StockSet *stocks;
    Printing printing;
} Labels;

static bool lay_out(Run *run, const Job *job, Document *document) {
    const Labels *labels = run->shared;
    LabelRequest request = {
        .pattern = labels->pattern,
        .stocks = labels->stocks,
        .plan = job->plan,
        .fields = job->fields,
        .locale = &job->locale,
        .faces = run->faces,
        .options = {.offset_x_mm = run->options->offset_x_mm,
                    .offset_y_mm = run->options->offset_y_mm,
                    .outlines = run->options->outlines,
                    .first = run->options->first},
    };
    return labels_lay_out(job->arena, &request, document, &run->reader.diagnostics);
}

static ExitStatus make_labels(Run *run, Job *job) {
    Labels *labels = run->shared;
    if (job->plan->bags.count == 0) {
        say_line(stderr, "%s: note: the batch has no bags, so there are no labels", job->file);
        return STATUS_DONE;
    }
    return printing_make(run, job, &labels->printing, job->batch->blend.name, job->batch->name);
}

/* Reads what labels are made from; the run's status says what went wrong. */
static bool read_templates(Run *run, Labels *labels) {
    const char *name = run->options->template ? run->options->template : "label";
    if (!run_data(run) || !run_faces(run)) {
        run_note(run, STATUS_FILES);
        return false;
    }
    const Element *template = run_template(run, name);
    const Element *stock = run_template(run, "stock");
    if (!template || !stock)
        return false;
    labels->pattern =
        pattern_read(run->arena, template, "label", run->faces, &run->reader.diagnostics);
    labels->stocks = stock_read(run->arena, stock, &run->reader.diagnostics);
    run_say(run);
    bool good = labels->pattern && labels->stocks;
    run_note(run, good ? STATUS_DONE : STATUS_FAULTS);
    return good;
}

static ExitStatus labels(const Options *options) {
    Run run = run_begin(options);
    Labels shared = {.printing = printing_begin(options, "labels", lay_out)};
    shared.printing.exact_size = true; /* labels must hit their stock */
    run.shared = &shared;
    if (read_templates(&run, &shared))
        run_batches(&run, make_labels);
    ExitStatus status = printing_finish(&run, &shared.printing);
    run_end(&run);
    return status;
}

const Command command_labels = {
    .name = "labels",
    .arguments = "BATCH...",
    .summary = "the bag labels of each batch as PDF",
    .options = "otlupfxc",
    .run = labels,
};
