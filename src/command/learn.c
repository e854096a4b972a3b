#include "command/records.h"
#include "command/run.h"

#include "command/folder.h"
#include "command/printing.h"
#include "command/speaker.h"
#include "model/learnt.h"
#include "report/learnt_text.h"
#include "report/plan_xml.h"

#include <stdio.h>
#include <string.h>

typedef LIST_OF(const Workshop *) Workshops;

/* Looks through the folders for batches with records. */
static void gather(Run *run, Records *records) {
    for (size_t i = 0; i < run->options->file_count; i++) {
        const char *path = run->options->files[i];
        if (folder_there(path)) {
            records_gather(&run->reader, folder_path(run->arena, path), records);
            continue;
        }
        report_error(&run->reader.diagnostics, (Place){.file = path},
                     "give the folder in which the batches lie", "this is no folder");
        run_note(run, STATUS_FILES);
    }
    run_say(run);
    lessons_report_unread(&run->reader, records, NULL, 0);
    run_say(run);
}

static void note_workshop(Run *run, Workshops *workshops, const Workshop *workshop) {
    for (size_t i = 0; i < workshops->count; i++)
        if (workshop_same(workshops->items[i], workshop))
            return;
    LIST_ADD(run->arena, workshops, workshop);
}

static void tell(Run *run, const Records *records, const Workshop *of) {
    const Workshop *workshop = run_workshop(run, run->arena, of);
    const Words *words = run_words(run, workshop->language);
    if (!words)
        return;
    Locale locale = locale_of(workshop, words);
    Learnt learnt =
        learnt_from(run->arena, workshop, records->batches.items, records->batches.count);
    const FieldGroup *fields = learnt_fields(run->arena, &learnt);
    Text text = text_new(run->arena);
    if (run->options->as == PLAN_XML)
        plan_xml(&text, printing_bare_plan(run->arena, workshop, workshop->name, (Place){0}),
                 fields, BURNSHEET_VERSION);
    else
        learnt_text(&text, fields, speaker_say, &(Speaker){run, run->arena, &locale});
    fwrite(text.bytes, 1, text.length, stdout);
    if (diagnostics_errors(&run->reader.diagnostics, NULL))
        run_note(run, STATUS_FAULTS);
}

static void tell_all(Run *run, const Records *records) {
    Workshops workshops = {0};
    for (size_t i = 0; i < records->batches.count; i++)
        note_workshop(run, &workshops, records->batches.items[i]->workshop);
    if (workshops.count == 0 && run->status == STATUS_DONE)
        report_note(&run->reader.diagnostics, (Place){.file = run->options->files[0]},
                    "write what happened into a batch, as its <record>",
                    "no night was written down here");
    if (workshops.count > 1 && run->options->as == PLAN_XML) {
        say_line(stderr, "burnsheet: xml is for one workshop at a time");
        run_note(run, STATUS_USAGE);
        return;
    }
    for (size_t i = 0; i < workshops.count; i++)
        tell(run, records, workshops.items[i]);
}

static ExitStatus learn(const Options *options) {
    if (options->as != PLAN_TEXT && options->as != PLAN_XML)
        return run_refuse("learn", "what was learnt is text or xml");
    Run run = run_begin(options);
    Records records = {0};
    if (run_data(&run)) {
        gather(&run, &records);
        tell_all(&run, &records);
    }
    return run_end(&run);
}

const Command command_learn = {
    .name = "learn",
    .arguments = "FOLDER...",
    .missing = "no folder given",
    .summary = "what the records of a folder changed, and what to measure next",
    .options = "alu",
    .run = learn,
};
