#include "layout/label.h"

#include "command/printing.h"
#include "model/packing.h"

#include <stdio.h>

typedef struct Labels {
    const Pattern *pattern;
    const StockSet *stocks;
    Printing printing;
    LabelSheets sheets; /* of the document that is being made */
} Labels;

/* The labels of one plan, in the language and for the market of its workshop. */
static bool lay_out_plan(Run *run, const Job *job, const Plan *plan, Document *document) {
    Labels *labels = run->shared;
    const Words *words = run_words(run, plan->workshop->language);
    if (!words)
        return false;
    Locale locale = locale_of(plan->workshop, words);
    LabelRequest request = {
        .pattern = labels->pattern,
        .stocks = labels->stocks,
        .plan = plan,
        .fields = plan_fields(job->arena, plan),
        .locale = &locale,
        .faces = run->faces,
        .options = {.offset_x_mm = run->options->offset_x_mm,
                    .offset_y_mm = run->options->offset_y_mm,
                    .outlines = run->options->outlines,
                    .first = run->options->first},
        .sheets = &labels->sheets,
    };
    return labels_lay_out(job->arena, &request, document, &run->reader.diagnostics);
}

static bool lay_out(Run *run, const Job *job, Document *document) {
    bool good = true;
    for (size_t i = 0; i < job->packing->blends.count; i++) {
        const PackingBlend *blend = &job->packing->blends.items[i];
        for (size_t k = 0; k < blend->labels.count; k++)
            good = lay_out_plan(run, job, blend->labels.items[k], document) && good;
    }
    return good;
}

/* So that the rest of a sheet is not thrown away. */
static void say_free(const Job *job, const LabelSheets *sheets) {
    for (size_t i = 0; i < sheets->sheets.count; i++) {
        const LabelSheet *sheet = &sheets->sheets.items[i];
        if (sheet->next < stock_count(sheet->stock))
            say_line(stderr, "%s: note: on the last sheet of '%s' label %d is free next", job->file,
                     sheet->stock->name, sheet->next + 1);
    }
}

static ExitStatus make_labels(Run *run, Job *job) {
    Labels *labels = run->shared;
    if (job->batch && job->plan->bags.count == 0) {
        say_line(stderr, "%s: note: the batch has no bags, so there are no labels", job->file);
        return STATUS_DONE;
    }
    if (job->batch)
        job->packing = packing_plan(job->arena, packing_of_night(job->arena, job->plan));
    if (!labels->printing.together)
        labels->sheets = (LabelSheets){0};
    const char *title = job->packing->bagging->packs.items[0].blend.name;
    ExitStatus status = printing_make(run, job, &labels->printing, title, job_name(job));
    if (status == STATUS_DONE)
        say_free(job, &labels->sheets);
    return status;
}

/* Reads what labels are made from; the run's status says what went wrong. */
static bool read_templates(Run *run, Labels *labels) {
    labels->pattern = printing_template(run, "label", "label");
    const Element *stock = labels->pattern ? run_template(run, "stock") : NULL;
    if (!stock)
        return false;
    labels->stocks = stock_read(run->arena, stock, &run->reader.diagnostics);
    run_say(run);
    run_note(run, labels->stocks ? STATUS_DONE : STATUS_FAULTS);
    return labels->stocks != NULL;
}

static ExitStatus labels(const Options *options) {
    Run run = run_begin(options);
    Labels shared = {.printing = printing_begin(options, "labels", lay_out)};
    shared.printing.exact_size = true; /* labels must hit their stock */
    run.shared = &shared;
    if (read_templates(&run, &shared))
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
