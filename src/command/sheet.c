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

static ExitStatus sheet(const Options *options) {
    Run run = run_begin(options);
    Sheets sheets = {.template = printing_template(&run, "sheet", "sheet desk"),
                     .printing = printing_begin(options, "sheet", lay_out)};
    run.shared = &sheets;
    run.writes_each = !sheets.printing.together;
    if (sheets.template)
        run_files(&run, RUN_BATCHES, make_sheet);
    printing_finish(&run, &sheets.printing);
    return run_end(&run);
}

const Command command_sheet = {
    .name = "sheet",
    .arguments = "BATCH...",
    .summary = "a one-page session sheet of each batch as PDF",
    .options = "otlupj",
    .run = sheet,
};
