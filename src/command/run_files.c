/* Run files: the way of each file of a run, from reading to the command's work. */
#include "command/run.h"

#include "base/file_path.h"
#include "command/output.h"
#include "command/records.h"
#include "command/together.h"
#include "command/workers.h"
#include "model/plan.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Fewer files are done before as many workers are begun: judgement. */
static const size_t WORKERS_FROM = 8;

typedef struct Filing {
    Run *run;
    RunKinds kinds;
    Work work;
    Records records;
    Job *jobs;
    size_t count;
    bool stay; /* everything that was read is kept to the end */
    size_t done;
} Filing;

/* ---- Reading --------------------------------------------------------------------------------- */

/* A workshop is one that was asked for; elsewhere it is no batch. */
static void read_job(const Filing *filing, Job *job) {
    Reader *reader = &filing->run->reader;
    RunKinds kinds = filing->kinds;
    const char *kind = kinds == RUN_BATCHES ? "batch" : read_kind(reader, job->file);
    if (kind && !strcmp(kind, "bagging"))
        job->bagging = read_bagging(reader, job->file);
    else if (kind && kinds == RUN_ALL_KINDS && !strcmp(kind, "workshop"))
        job->workshop = read_workshop(reader, job->file);
    else if (kind)
        job->batch = read_batch(reader, job->file);
    job->was_read = job->batch || job->bagging || job->workshop;
}

/* What is still known of a file whose reading is gone. */
static void let_go(Job *job) {
    job->is_batch = job->batch != NULL;
    job->batch = NULL;
    job->bagging = NULL;
    job->workshop = NULL;
}

static bool has_window(const Job *job) {
    return job->batch && job->batch->timing.kind == TIMING_BEST;
}

/* Reads one for its faults, and for what is told of all together. */
static void read_first(Filing *filing, Job *job) {
    Run *run = filing->run;
    Arena *own = arena_new();
    Diagnostics before = reader_enter(&run->reader, own);
    read_job(filing, job);
    if (!job->was_read)
        run_note(run, run->reader.could_not_open ? STATUS_FILES : STATUS_FAULTS);
    run_say(run);
    filing->stay = filing->stay || has_window(job);
    if (job->batch) {
        job->at = job->batch->timing.at;
        job->of = job->batch->workshop;
    }
    let_go(job);
    reader_leave(&run->reader, &before);
    arena_free(own);
}

/* The same once more, for its work: what there is to be said was said. */
static void read_again(const Filing *filing, Job *job) {
    read_job(filing, job);
    if (job->was_read)
        diagnostics_clear(&filing->run->reader.diagnostics);
}

/* All are read first, so that every fault is told before anything is written. Those that have to be
 * known together are kept; else each is read once more when its turn comes, and however many there
 * are take no more memory than one. */
static void read_all(Filing *filing) {
    for (size_t i = 0; i < filing->count; i++)
        read_first(filing, &filing->jobs[i]);
    for (size_t i = 0; filing->stay && i < filing->count; i++)
        if (filing->jobs[i].was_read)
            read_again(filing, &filing->jobs[i]);
}

/* ---- What is written ------------------------------------------------------------------------- */

typedef struct Named {
    const char *name; /* of the file that is written */
    size_t index;
} Named;

static int by_name(const void *a, const void *b) {
    const Named *first = a, *second = b;
    int names = strcmp(first->name, second->name);
    return names ? names : (first->index > second->index) - (first->index < second->index);
}

static void refuse_name(const Filing *filing, const Named *named, const Job *first) {
    Run *run = filing->run;
    Job *job = &filing->jobs[named->index];
    job->was_read = false;
    report_error(&run->reader.diagnostics, (Place){.file = job->file},
                 "call it otherwise, or give each a folder of its own with -o, or all one PDF",
                 "what is written of it would stand in the place of that of '%s'", first->file);
    run_note(run, STATUS_FAULTS);
}

/* Files of one name in several folders would be written over one another. */
static void refuse_same_names(const Filing *filing) {
    Run *run = filing->run;
    Named *named = ARENA_ARRAY(run->arena, filing->count, Named);
    size_t count = 0;
    for (size_t i = 0; i < filing->count; i++)
        if (filing->jobs[i].was_read)
            named[count++] = (Named){file_path_stem(run->arena, filing->jobs[i].file), i};
    qsort(named, count, sizeof *named, by_name);
    for (size_t i = 1, first = 0; i < count; i++) {
        first = strcmp(named[first].name, named[i].name) ? i : first;
        const Job *before = &filing->jobs[named[first].index];
        if (strcmp(before->file, filing->jobs[named[i].index].file) != 0)
            refuse_name(filing, &named[i], before);
    }
    run_say(run);
}

/* ---- What past nights teach ------------------------------------------------------------------ */

/* Whether no job after this one is a later night of its workshop. */
static bool is_latest(const Filing *filing, size_t index) {
    const Job *job = &filing->jobs[index];
    for (size_t i = 0; i < filing->count; i++) {
        const Job *other = &filing->jobs[i];
        if (i != index && other->is_batch && workshop_same(other->of, job->of) &&
            (other->at > job->at || (other->at == job->at && i < index)))
            return false;
    }
    return true;
}

/* Tells once for each workshop what could not be learnt from, as its latest night has it. */
static void report_lessons(Filing *filing) {
    Run *run = filing->run;
    lessons_report_unread(&run->reader, &filing->records, run->options->files, filing->count);
    for (size_t i = 0; i < filing->count; i++) {
        const Job *job = &filing->jobs[i];
        if (!job->is_batch || !is_latest(filing, i))
            continue;
        const Batch latest = {.file = job->file, .workshop = job->of, .timing.at = job->at};
        LearningNotes notes = {0};
        learning_notes(run->arena, records_learning(run->arena, &filing->records, &latest), &notes);
        lessons_report(&run->reader, &notes, &run->lessons);
    }
    run_say(run);
}

static void gather_records(Filing *filing) {
    for (size_t i = 0; i < filing->count; i++)
        if (filing->jobs[i].is_batch)
            records_gather(&filing->run->reader, filing->jobs[i].file, &filing->records);
}

/* ---- The work on one file -------------------------------------------------------------------- */

/* A copy that says what the command line asks for instead, and knows when it is printed. */
static void take_options(const Run *run, Job *job) {
    Arena *arena = job->arena;
    const Workshop *workshop = run_workshop(run, arena, job_workshop(job));
    if (job->workshop)
        job->workshop = workshop;
    if (job->batch) {
        Batch *batch = ARENA_NEW(arena, Batch);
        *batch = *job->batch;
        batch->workshop = workshop;
        batch->planned_at = run->reader.now;
        job->batch = batch;
    }
    if (job->bagging) {
        Bagging *bagging = ARENA_NEW(arena, Bagging);
        *bagging = *job->bagging;
        bagging->workshop = workshop;
        job->bagging = bagging;
    }
}

static void plan_batch(Filing *filing, Job *job) {
    const Learning *learning = records_learning(job->arena, &filing->records, job->batch);
    job->plan = plan_make_at(job->arena, job->batch, learning, job->hour);
    job->fields = plan_fields(job->arena, job->plan);
    job->locale = locale_on_night(job->locale, job->plan->burn.light_at);
}

static ExitStatus do_read(Filing *filing, Job *job) {
    Run *run = filing->run;
    if (job->no_hour)
        return STATUS_FAULTS;
    take_options(run, job);
    const Words *words = run_words(run, job_workshop(job)->language);
    if (!words)
        return STATUS_FAULTS;
    job->locale = locale_of(job_workshop(job), words);
    bool good = true;
    if (job->batch)
        plan_batch(filing, job);
    else if (job->bagging)
        good = run_pack(run, job);
    ExitStatus status = good ? filing->work(run, job) : STATUS_FAULTS;
    run_say(run);
    return status;
}

static ExitStatus do_apart(Filing *filing, Job *job) {
    Run *run = filing->run;
    Arena *own = arena_new();
    Diagnostics before = reader_enter(&run->reader, own);
    job->arena = own;
    read_again(filing, job);
    ExitStatus status = job->was_read ? do_read(filing, job) : STATUS_FILES;
    run_say(run);
    let_go(job);
    reader_leave(&run->reader, &before);
    arena_free(own);
    return status;
}

static ExitStatus do_kept(Filing *filing, Job *job) {
    Run *run = filing->run;
    Arena *own = output_together(run->options) ? NULL : arena_new();
    job->arena = own ? own : run->arena;
    ExitStatus status = do_read(filing, job);
    arena_free(own);
    return status;
}

/* ---- All of them ----------------------------------------------------------------------------- */

static int do_job(void *context, size_t index) {
    Filing *filing = context;
    Job *job = &filing->jobs[index];
    if (!job->was_read)
        return STATUS_DONE;
    return (int)(filing->stay ? do_kept(filing, job) : do_apart(filing, job));
}

static void note_done(void *context, size_t index, int status) {
    Filing *filing = context;
    Run *run = filing->run;
    filing->done += run_note(run, (ExitStatus)status) == STATUS_DONE &&
                    filing->jobs[index].was_read;
    progress_step(&run->progress, index + 1);
}

static void note_lost(void *context, size_t index) {
    Filing *filing = context;
    say_line(stderr, "burnsheet: error: a worker ended at '%s'", filing->jobs[index].file);
    say_line(stderr, "    with --jobs 1 there are none");
    run_note(filing->run, STATUS_FILES);
}

static int workers_for(const Filing *filing) {
    const Run *run = filing->run;
    if (run->gathers || output_together(run->options) || filing->count < WORKERS_FROM)
        return 1;
    int wanted = run->options->jobs > 0 ? run->options->jobs : workers_processors();
    return (size_t)wanted > filing->count ? (int)filing->count : wanted;
}

/* What each worker would else read for itself. */
static void read_words(Run *run) {
    for (size_t i = 0; i < run->reader.workshops.count; i++) {
        const Workshop *workshop = run->reader.workshops.items[i].workshop;
        if (workshop && workshop->language && !run->options->language)
            run_words(run, workshop->language);
    }
    if (run->options->language)
        run_words(run, run->options->language);
}

static void do_all(Filing *filing) {
    int workers = workers_for(filing);
    WorkerTasks tasks = {.context = filing, .work = do_job, .done = note_done, .lost = note_lost};
    filing->run->progress = progress_begin(filing->count);
    if (workers > 1) {
        read_words(filing->run);
        if (workers_do(workers, filing->count, &tasks))
            return;
    }
    for (size_t i = 0; i < filing->count; i++)
        note_done(filing, i, do_job(filing, i));
}

ExitStatus run_files(Run *run, RunKinds kinds, Work work) {
    Filing filing = {.run = run,
                     .kinds = kinds,
                     .work = work,
                     .jobs = ARENA_ARRAY(run->arena, run->options->file_count, Job),
                     .count = run->options->file_count};
    filing.stay = output_together(run->options);
    for (size_t i = 0; i < filing.count; i++)
        filing.jobs[i].file = run->options->files[i];
    read_all(&filing);
    if (run->writes_each)
        refuse_same_names(&filing);
    gather_records(&filing);
    report_lessons(&filing);
    if (filing.stay)
        together_choose(run, filing.jobs, filing.count, &filing.records);
    run_say(run);
    do_all(&filing);
    run_count(filing.done, filing.count, kinds == RUN_BATCHES ? "batches" : "files");
    return run->status;
}
