#include "layout/sheet.h"

#include "command/printing.h"

typedef struct Sheets {
    const Pattern *template;
    Printing printing;
} Sheets;

static bool lay_out(Run *run, const Job *job, Document *document) {
    const Sheets *sheets = run->shared;
    return sheet_lay_out(sheets->template, job->plan, job->fields, &job->locale, run->faces,
                         document, &run->reader.diagnostics);
}

static ExitStatus make_sheet(Run *run, Job *job) {
    Sheets *sheets = run->shared;
    return printing_make(run, job, &sheets->printing, job->batch->name, job->batch->product.name);
}

static const Pattern *read_template(Run *run) {
    const char *name = run->options->template ? run->options->template : "sheet";
    if (!run_data(run) || !run_faces(run)) {
        run_note(run, STATUS_FILES);
        return NULL;
    }
    const Element *root = run_template(run, name);
    if (!root)
        return NULL;
    const Pattern *template =
        pattern_read(run->arena, root, "sheet desk", run->faces, &run->reader.diagnostics);
    run_say(run);
    run_note(run, template ? STATUS_DONE : STATUS_FAULTS);
    return template;
}

static ExitStatus sheet(const Options *options) {
    Run run = run_begin(options);
    Sheets sheets = {.template = read_template(&run),
                     .printing = printing_begin(options, "sheet", lay_out)};
    run.shared = &sheets;
    if (sheets.template)
        run_batches(&run, make_sheet);
    ExitStatus status = printing_finish(&run, &sheets.printing);
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
