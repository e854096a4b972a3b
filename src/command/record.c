#include "command/printing.h"
#include "command/record_page.h"
#include "command/record_write.h"
#include "command/speaker.h"
#include "report/record_form.h"

#include <stdio.h>

typedef struct Filing {
    const Pattern *template; /* NULL: no night that is over came by, or it is not to be had */
    Printing printing;
} Filing;

static ExitStatus refuse_second(Run *run, const Record *record) {
    report_error(&run->reader.diagnostics, record->place,
                 record->lit ? "write into it what happened"
                             : "write into it when it was lit, or take it out for a new one",
                 record->lit ? "there is a record already"
                             : "there is a record already, and it does not say when it was lit");
    return STATUS_FAULTS;
}

static bool lay_out(Run *run, const Job *job, Document *document) {
    const Filing *filing = run->shared;
    return record_page_lay_out(run, job, filing->template, document);
}

static ExitStatus make_page(Run *run, Job *job) {
    Filing *filing = run->shared;
    if (run->options->write)
        return refuse_second(run, &job->batch->record);
    if (!filing->template)
        filing->template = printing_template(run, "record", "record");
    return filing->template ? printing_make(run, job, &filing->printing, job->batch->name,
                                            job->batch->product.name)
                            : STATUS_FAULTS;
}

static ExitStatus make_form(Run *run, Job *job) {
    const Record *record = &job->batch->record;
    if (record->place.line)
        return refuse_second(run, record);
    Text text = text_new(job->arena);
    Speaker speaker = {run, job->arena, &job->locale};
    record_form(&text, job->plan, job->fields, speaker_say, &speaker);
    if (diagnostics_errors(&run->reader.diagnostics, NULL))
        return STATUS_FAULTS;
    if (run->options->write)
        return record_write(run, job, text.bytes);
    fwrite(text.bytes, 1, text.length, stdout);
    return STATUS_DONE;
}

static ExitStatus make(Run *run, Job *job) {
    return job->plan->happened.over ? make_page(run, job) : make_form(run, job);
}

static ExitStatus record(const Options *options) {
    Run run = run_begin(options);
    Filing filing = {.printing = printing_begin(options, "record", lay_out)};
    run.shared = &filing;
    run.writes_each = !options->write && !filing.printing.together;
    run.gathers = options->write; /* a file given twice has its record by the second time */
    if (run_data(&run))
        run_files(&run, RUN_BATCHES, make);
    printing_finish(&run, &filing.printing);
    return run_end(&run);
}

const Command command_record = {
    .name = "record",
    .arguments = "BATCH...",
    .summary = "the record of a night: to fill in, and once filled in as PDF",
    .options = "owtlupj",
    .run = record,
};
