#include "command/speaker.h"

#include "report/plan_csv.h"
#include "report/plan_fields.h"
#include "report/plan_text.h"
#include "report/plan_xml.h"

static const char *show(void *context, const Field *field) {
    const Speaker *speaker = context;
    return format_shown(field) ? format_field(speaker->arena, speaker->locale, field, NULL) : NULL;
}

/* A day of bagging has figures, but no verdict and no burn. */
static bool has_form(const Run *run, const Job *job) {
    if (job->batch || run->options->as == PLAN_XML || run->options->as == PLAN_FIELDS)
        return true;
    say_line(stderr, "%s: a bagging has no plan of a night: --as xml or fields gives its figures",
             job->file);
    return false;
}

static ExitStatus print_plan(Run *run, Job *job) {
    if (!has_form(run, job))
        return STATUS_USAGE;
    const Plan *plan = job->plan ? job->plan : job->packing->blends.items[0].labels.items[0];
    Text text = text_new(job->arena);
    Speaker speaker = {run, job->arena, &job->locale};
    switch (run->options->as) {
    case PLAN_TEXT: plan_text(&text, job->fields, speaker_say, &speaker); break;
    case PLAN_XML: plan_xml(&text, plan, job->fields, BURNSHEET_VERSION); break;
    case PLAN_CSV: plan_csv(&text, plan, job->fields); break;
    case PLAN_FIELDS: plan_field_lines(&text, plan, job->fields, show, &speaker); break;
    }
    fwrite(text.bytes, 1, text.length, stdout);
    return diagnostics_errors(&run->reader.diagnostics, NULL) ? STATUS_FAULTS : STATUS_DONE;
}

static ExitStatus plan(const Options *options) {
    if (options->file_count > 1 && options->as != PLAN_TEXT)
        return run_refuse("plan", "xml, csv and fields are for one batch at a time");
    Run run = run_begin(options);
    if (run_data(&run))
        run_files(&run, RUN_BATCHES_AND_BAGGINGS, print_plan);
    return run_end(&run);
}

const Command command_plan = {
    .name = "plan",
    .arguments = "BATCH...",
    .summary = "the plan on the terminal",
    .options = "aluj",
    .run = plan,
};
