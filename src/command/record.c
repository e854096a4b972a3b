#include "command/printing.h"
#include "command/record_write.h"
#include "layout/phrase.h"
#include "report/record_form.h"

#include <stdio.h>

typedef struct Speaker {
    Run *run;
    Job *job;
} Speaker;

static const char *say(void *context, const char *key, const FieldGroup *row) {
    Speaker *speaker = context;
    return phrase_word(speaker->job->arena, &speaker->job->locale, (Place){0}, key, row,
                       &speaker->run->reader.diagnostics);
}

static ExitStatus refuse_second(Run *run, const Record *record) {
    report_error(&run->reader.diagnostics, record->place,
                 "write into it when it was lit, or take it out for a new one",
                 "there is a record already, and it does not say when it was lit");
    return STATUS_FAULTS;
}

static ExitStatus make_form(Run *run, Job *job) {
    const Record *record = &job->batch->record;
    if (record->place.line)
        return refuse_second(run, record);
    Text text = text_new(job->arena);
    Speaker speaker = {run, job};
    record_form(&text, job->plan, job->fields, say, &speaker);
    if (diagnostics_errors(&run->reader.diagnostics, NULL))
        return STATUS_FAULTS;
    if (run->options->write)
        return record_write(run, job, text.bytes);
    fwrite(text.bytes, 1, text.length, stdout);
    return STATUS_DONE;
}

static ExitStatus record(const Options *options) {
    Run run = run_begin(options);
    if (run_data(&run))
        run_files(&run, RUN_BATCHES, make_form);
    ExitStatus status = run.status;
    run_end(&run);
    return status;
}

const Command command_record = {
    .name = "record",
    .arguments = "BATCH...",
    .summary = "the record of a night to fill in",
    .options = "wlu",
    .run = record,
};
