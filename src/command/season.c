#include "model/season.h"

#include "command/folder.h"
#include "command/output.h"
#include "command/printing.h"
#include "command/season_pages.h"
#include "command/speaker.h"
#include "command/taught.h"
#include "model/as_planned.h"
#include "model/packing.h"
#include "report/csv.h"
#include "report/plan_xml.h"
#include "report/season_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct Gathering {
    Run *run;
    LIST_OF(const Batch *) nights;
    LIST_OF(const Bagging *) baggings;
    Taught taught;
    SeasonGathering season;
    size_t asked; /* files that hold a night or a day of bagging, or should */
} Gathering;

/* ---- Reading --------------------------------------------------------------------------------- */

static void read_one(Gathering *gathering, const char *path) {
    Run *run = gathering->run;
    ReadFile file = read_any(&run->reader, path);
    bool other = file.kind && strcmp(file.kind, "batch") != 0 && strcmp(file.kind, "bagging") != 0;
    if (other) {
        diagnostics_clear(&run->reader.diagnostics); /* those who name it tell its faults */
        return;
    }
    gathering->asked++;
    if (file.batch)
        LIST_ADD(run->arena, &gathering->nights, file.batch);
    else if (file.bagging)
        LIST_ADD(run->arena, &gathering->baggings, file.bagging);
    else {
        LIST_ADD(run->arena, &gathering->season.season.faulty, path);
        run_note(run, run->reader.could_not_open ? STATUS_FILES : STATUS_FAULTS);
    }
    run_say(run);
}

/* ---- Planning -------------------------------------------------------------------------------- */

/* A night to come is held against today, as on its sheet: what had to begin before is too late. */
static const Batch *seen_today(Arena *arena, const Batch *batch, Instant now) {
    Batch *today = ARENA_NEW(arena, Batch);
    *today = *batch;
    today->planned_at = batch->timing.at > now ? now : 0;
    return today;
}

/* What could not be learnt from is told of a night to come, which would have wanted it. */
static void plan_night(Gathering *gathering, const Batch *batch) {
    Run *run = gathering->run;
    const Learning *learning = taught_by(run->arena, &gathering->taught, gathering->nights.items,
                                         gathering->nights.count, batch->workshop);
    Arena *arena = arena_new();
    const Plan *plan = as_planned(arena, seen_today(arena, batch, run->reader.now), learning);
    if (!batch->record.lit)
        lessons_report(&run->reader, &plan->learning, &run->lessons);
    run_say(run);
    season_add_night(run->arena, &gathering->season, plan, batch);
    arena_free(arena);
}

static void plan_bagging(Gathering *gathering, const Bagging *bagging) {
    Arena *arena = arena_new();
    season_add_bagging(gathering->run->arena, &gathering->season, packing_plan(arena, bagging));
    arena_free(arena);
}

static void plan_all(Gathering *gathering) {
    Run *run = gathering->run;
    size_t nights = gathering->nights.count, baggings = gathering->baggings.count;
    run->progress = progress_begin(nights + baggings);
    for (size_t i = 0; i < nights; i++) {
        plan_night(gathering, gathering->nights.items[i]);
        progress_step(&run->progress, i + 1);
    }
    for (size_t i = 0; i < baggings; i++) {
        plan_bagging(gathering, gathering->baggings.items[i]);
        progress_step(&run->progress, nights + i + 1);
    }
    season_finish(run->arena, &gathering->season);
}

/* ---- Telling --------------------------------------------------------------------------------- */

static void add_csv(Text *text, const FieldGroup *fields, const Zone *zone) {
    const FieldGroup *month, *entry;
    bool headed = false;
    for (size_t i = 0; (month = field_row(fields, "month", i)); i++)
        for (size_t k = 0; (entry = field_row(month, "entry", k)); k++) {
            if (!headed)
                csv_heading(text, entry);
            headed = true;
            csv_row(text, entry, zone);
        }
}

static void print_text(Run *run, const Season *season, const Workshop *workshop,
                       const Locale *locale) {
    const FieldGroup *fields = season_fields(run->arena, season);
    Text text = text_new(run->arena);
    switch (run->options->as) {
    case PLAN_XML:
        plan_xml(&text, printing_bare_plan(run->arena, workshop, season->name, (Place){0}), fields,
                 BURNSHEET_VERSION);
        break;
    case PLAN_CSV: add_csv(&text, fields, workshop->zone); break;
    default: season_text(&text, fields, speaker_say, &(Speaker){run, run->arena, locale});
    }
    fwrite(text.bytes, 1, text.length, stdout);
}

/* The workshop whose paper and words the pages have: that of the first file. */
static const Workshop *first_workshop(const Gathering *gathering) {
    if (gathering->nights.count)
        return gathering->nights.items[0]->workshop;
    return gathering->baggings.count ? gathering->baggings.items[0]->workshop : NULL;
}

static void tell(Gathering *gathering, const Pattern *template) {
    Run *run = gathering->run;
    const Workshop *first = first_workshop(gathering);
    if (!first) {
        if (!gathering->asked)
            say_line(stderr, "burnsheet: error: no batch and no bagging in '%s'",
                     run->options->files[0]);
        run_note(run, STATUS_FAULTS);
        return;
    }
    const Workshop *workshop = run_workshop(run, run->arena, first);
    const Words *words = run_words(run, workshop->language);
    if (!words)
        return;
    Season *season = &gathering->season.season;
    season->name = workshop->name;
    season->folder = run->options->files[0];
    plan_all(gathering);
    Locale locale = locale_of(workshop, words);
    if (template)
        season_pages_print(run, season, workshop, &locale, template);
    else
        print_text(run, season, workshop, &locale);
}

/* ---- The command ----------------------------------------------------------------------------- */

static bool read_folder(Gathering *gathering) {
    Run *run = gathering->run;
    const char *folder = run->options->files[0];
    Names files = {0};
    if (!folder_files(run->arena, folder_path(run->arena, folder), &files)) {
        say_line(stderr, "burnsheet: error: can not read the folder '%s'", folder);
        run_note(run, STATUS_FILES);
        return false;
    }
    for (size_t i = 0; i < files.count; i++)
        read_one(gathering, files.items[i]);
    return true;
}

static ExitStatus season(const Options *options) {
    if (options->file_count != 1)
        return run_refuse("season", "one folder at a time");
    if (options->as_given && (options->output || options->as == PLAN_FIELDS))
        return run_refuse("season", "a season is pages, or text, xml or csv on standard output");
    Run run = run_begin(options);
    Gathering gathering = {.run = &run, .season.season.now = run.reader.now};
    const Pattern *template = options->as_given ? NULL
                                                : printing_template(&run, "season", "season");
    if ((template || (options->as_given && run_data(&run))) && read_folder(&gathering)) {
        tell(&gathering, template);
        run_say(&run);
        run_count(gathering.asked - gathering.season.season.faulty.count, gathering.asked, "files");
    }
    return run_end(&run);
}

const Command command_season = {
    .name = "season",
    .arguments = "FOLDER",
    .missing = "no folder given",
    .summary = "the nights of a folder together: calendar, dust, planned and happened",
    .options = "oatlup",
    .run = season,
};
