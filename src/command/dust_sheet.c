#include "command/dust_sheet.h"

#include "domain/dust_sheet.h"
#include "layout/sheet.h"

#include <string.h>

static bool is_wanted(const Options *options, const Dust *dust) {
    return options->dust ? !strcmp(options->dust, dust->id) : !is_stated(dust->moisture);
}

static void say_unknown(Run *run, const Workshop *workshop, const char *id) {
    Names ids = {0};
    for (size_t i = 0; i < workshop->dusts.count; i++)
        LIST_ADD(run->arena, &ids, workshop->dusts.items[i].id);
    const char *near = nearest_name(id, &ids);
    report_error(&run->reader.diagnostics, workshop->place,
                 near ? arena_format(run->arena, "did you mean '%s'?", near)
                      : arena_format(run->arena, "there are: %s", names_listed(run->arena, &ids)),
                 "unknown dust '%s'", id);
}

bool dust_sheet_wanted(Run *run, const Job *job, ExitStatus *status) {
    const Workshop *workshop = job->workshop;
    *status = STATUS_DONE;
    for (size_t i = 0; i < workshop->dusts.count; i++)
        if (is_wanted(run->options, &workshop->dusts.items[i]))
            return true;
    if (run->options->dust) {
        say_unknown(run, workshop, run->options->dust);
        *status = STATUS_FAULTS;
    } else {
        say_line(stderr,
                 "%s: note: the moisture of every dust is stated; --dust ID makes a sheet of one",
                 job->file);
    }
    return false;
}

bool dust_sheet_lay_out(Run *run, const Job *job, const Pattern *template, Document *document) {
    const Workshop *workshop = job->workshop;
    for (size_t i = 0; i < workshop->dusts.count; i++) {
        const Dust *dust = &workshop->dusts.items[i];
        if (!is_wanted(run->options, dust))
            continue;
        const Plan *plan = printing_bare_plan(document->arena, workshop, dust->name, dust->place);
        const FieldGroup *fields = dust_sheet_fields(document->arena, workshop, dust, job->file);
        if (!sheet_lay_out(template, plan, fields, &job->locale, run->faces, document,
                           &run->reader.diagnostics))
            return false;
    }
    return true;
}
