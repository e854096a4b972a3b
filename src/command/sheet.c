#include "command/output.h"
#include "command/run.h"
#include "layout/sheet.h"

#define SHEET_TEMPLATE "sheet"

/* What the batches of one run share: the template, and the document when all go into one file. */
typedef struct Sheets {
    const Template *template;
    Document *document;
    bool together;
    bool failed;
} Sheets;

static ExitStatus lay_out(Run *run, const Job *job, const Sheets *sheets, Document *document) {
    return sheet_lay_out(sheets->template, job->plan, job->fields, &job->locale, run->faces,
                         document, &run->reader.diagnostics)
               ? STATUS_DONE
               : STATUS_FAULTS;
}

static ExitStatus make_sheet(Run *run, Job *job) {
    Sheets *sheets = run->shared;
    if (sheets->together) {
        if (!sheets->document)
            sheets->document = run_document(run, job, job->batch->workshop->name);
        return lay_out(run, job, sheets, sheets->document);
    }
    Document *document = run_document(run, job, job->batch->name);
    document->subject = job->batch->product.name;
    ExitStatus status = lay_out(run, job, sheets, document);
    if (status != STATUS_DONE)
        return status;
    const char *path = output_path(job->arena, run->options->output, job->file, "sheet");
    return run_write(run, job->arena, document, path);
}

static ExitStatus sheet(const Options *options) {
    Run run = run_begin(options);
    const FaceSet *faces = run_data(&run) ? run_faces(&run) : NULL;
    const Element *root =
        faces ? run_template(&run, options->template ? options->template : SHEET_TEMPLATE) : NULL;
    Sheets sheets = {.together = options->output && output_is_file(options->output)};
    if (root)
        sheets.template = template_read(run.arena, root, faces, &run.reader.diagnostics);
    run_say(&run);
    if (!sheets.template) {
        run_note(&run, faces ? STATUS_FAULTS : STATUS_FILES);
        ExitStatus failed = run.status;
        run_end(&run);
        return failed;
    }
    run.shared = &sheets;
    ExitStatus status = run_batches(&run, make_sheet);
    if (sheets.together && status == STATUS_DONE && sheets.document)
        status = run_write(&run, run.arena, sheets.document, options->output);
    run_end(&run);
    return status;
}

const Command command_sheet = {
    .name = "sheet",
    .arguments = "BATCH...",
    .summary = "a one-page session sheet of each batch as PDF",
    .options = "otlup",
    .run = sheet,
};
