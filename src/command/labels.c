#include "command/output.h"
#include "command/run.h"
#include "layout/label.h"

#include <stdio.h>

/* What the batches of one run share, and the document when all go into one file. */
typedef struct LabelRun {
    const LabelTemplate *template;
    const StockSet *stocks;
    Document *document;
    bool together;
} LabelRun;

static ExitStatus lay_out(Run *run, const Job *job, const LabelRun *labels, Document *document) {
    LabelRequest request = {
        .template = labels->template,
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
    return labels_lay_out(job->arena, &request, document, &run->reader.diagnostics) ? STATUS_DONE
                                                                                    : STATUS_FAULTS;
}

/* Labels must hit their stock: no viewer may scale them. */
static Document *label_document(Run *run, const Job *job, const char *title) {
    Document *document = run_document(run, job, title);
    document->subject = job->batch->name;
    document->exact_size = true;
    return document;
}

static ExitStatus make_labels(Run *run, Job *job) {
    LabelRun *labels = run->shared;
    if (job->plan->bags.count == 0) {
        fprintf(stderr, "%s: note: the batch has no bags, so there are no labels\n", job->file);
        return STATUS_DONE;
    }
    if (labels->together) {
        if (!labels->document)
            labels->document = label_document(run, job, job->batch->workshop->name);
        return lay_out(run, job, labels, labels->document);
    }
    Document *document = label_document(run, job, job->batch->blend.name);
    ExitStatus status = lay_out(run, job, labels, document);
    if (status != STATUS_DONE)
        return status;
    const char *path = output_path(job->arena, run->options->output, job->file, "labels");
    return run_write(run, job->arena, document, path);
}

static bool read_templates(Run *run, LabelRun *labels) {
    const Options *options = run->options;
    if (!run_data(run) || !run_faces(run))
        return false;
    const Element *root = run_template(run, options->template ? options->template : "label");
    if (root)
        labels->template = label_template_read(run->arena, root, &run->reader.diagnostics);
    const Element *stock = run_template(run, "stock");
    if (stock)
        labels->stocks = stock_read(run->arena, stock, &run->reader.diagnostics);
    run_say(run);
    return labels->template && labels->stocks;
}

static ExitStatus labels(const Options *options) {
    Run run = run_begin(options);
    LabelRun shared = {.together = options->output && output_is_file(options->output)};
    run.shared = &shared;
    if (read_templates(&run, &shared))
        run_batches(&run, make_labels);
    else
        run_note(&run, run.faces ? STATUS_FAULTS : STATUS_FILES);
    ExitStatus status = run.status;
    if (shared.together && status == STATUS_DONE && shared.document)
        status = run_write(&run, run.arena, shared.document, options->output);
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
