#include "layout/sheet.h"

#include "command/dust_sheet.h"
#include "command/printing.h"

#include <stdio.h>
#include <string.h>

typedef struct Slips {
    const Pattern *template;   /* of a day of packing; NULL: not to be had */
    const Pattern *dust_sheet; /* of a dust */
    Printing printing;
} Slips;

/* The page is about a day; what it reads of a plan are paper and name, alike for every blend. */
static bool lay_out(Run *run, const Job *job, Document *document) {
    const Slips *slips = run->shared;
    if (job->workshop)
        return dust_sheet_lay_out(run, job, slips->dust_sheet, document);
    return sheet_lay_out(slips->template, job->packing->blends.items[0].labels.items[0],
                         job->fields, &job->locale, run->faces, document, &run->reader.diagnostics);
}

/* The template of the command line is one of the two kinds, so the files have to be of its own. */
static bool has_template(const Run *run, const Job *job) {
    const Slips *slips = run->shared;
    if (job->workshop ? slips->dust_sheet : slips->template)
        return true;
    say_line(stderr, "%s: error: '%s' is no template of a %s", job->file, run->options->template,
             job->workshop ? "dust sheet" : "slip");
    return false;
}

static ExitStatus make_dust_sheets(Run *run, Job *job) {
    Slips *slips = run->shared;
    ExitStatus status;
    if (!dust_sheet_wanted(run, job, &status))
        return status;
    return printing_make(run, job, &slips->printing, job_name(job), NULL);
}

static ExitStatus make_slip(Run *run, Job *job) {
    Slips *slips = run->shared;
    if (!has_template(run, job))
        return STATUS_FAULTS;
    if (job->workshop)
        return make_dust_sheets(run, job);
    if (run->options->dust) {
        say_line(stderr, "%s: error: --dust is for a workshop file", job->file);
        return STATUS_USAGE;
    }
    if (job->batch && job->plan->bags.count == 0) {
        say_line(stderr, "%s: note: the batch has no bags, so there is no slip", job->file);
        return STATUS_DONE;
    }
    if (job->batch && !run_pack(run, job))
        return STATUS_FAULTS;
    return printing_make(run, job, &slips->printing, job_name(job), NULL);
}

/* The usual two, or the one that the command line names. */
static bool read_templates(Run *run, Slips *slips) {
    if (!run->options->template) {
        slips->template = printing_template(run, "slip", "slip");
        if (slips->template)
            slips->dust_sheet = printing_template(run, "dust", "dust_sheet");
        return slips->template && slips->dust_sheet;
    }
    const Pattern *own = printing_template(run, NULL, "slip dust_sheet");
    if (own && !strcmp(own->paper, "slip"))
        slips->template = own;
    else
        slips->dust_sheet = own;
    return own != NULL;
}

static ExitStatus slip(const Options *options) {
    Run run = run_begin(options);
    Slips slips = {.printing = printing_begin(options, "slip", lay_out)};
    run.shared = &slips;
    run.writes_each = !slips.printing.together;
    if (read_templates(&run, &slips))
        run_files(&run, RUN_ALL_KINDS, make_slip);
    printing_finish(&run, &slips.printing);
    return run_end(&run);
}

const Command command_slip = {
    .name = "slip",
    .arguments = "FILE...",
    .summary = "a packing slip of each bagging, or batch with bags; of a workshop, dust sheets",
    .options = "otlupdfj",
    .run = slip,
};
