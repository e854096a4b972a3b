#include "model/trace.h"

#include "command/file_name.h"
#include "command/output.h"
#include "command/printing.h"
#include "command/speaker.h"
#include "layout/sheet.h"
#include "report/plan_xml.h"
#include "report/trace_text.h"

#include <stdio.h>
#include <string.h>

/* So many steps stand on a page, with room for long names: judgement. */
enum { STEPS_ON_PAGE = 15 };

typedef struct Tracing {
    const char *lot;
    TraceLinks links;
    Names lots;               /* that the files know */
    const Workshop *workshop; /* of the first file; NULL: none was read */
    Locale locale;
} Tracing;

static void note_lot(Arena *arena, Names *lots, const char *lot) {
    for (size_t i = 0; lot && i < lots->count; i++)
        if (!strcmp(lots->items[i], lot))
            return;
    if (lot)
        LIST_ADD(arena, lots, arena_string(arena, lot));
}

/* What a file adds has to outlive the file's own arena. */
static void keep_links(Arena *arena, Tracing *tracing, const TraceLinks *links) {
    for (size_t i = 0; i < links->count; i++) {
        TraceLink link = links->items[i];
        link.dust = arena_string(arena, link.dust);
        link.dust_lot = arena_string(arena, link.dust_lot);
        link.lot = arena_string(arena, link.lot);
        link.made = arena_string(arena, link.made);
        link.file = arena_string(arena, link.file);
        note_lot(arena, &tracing->lots, link.lot);
        LIST_ADD(arena, &tracing->links, link);
    }
}

static ExitStatus gather(Run *run, Job *job) {
    Tracing *tracing = run->shared;
    TraceLinks links = {0};
    if (job->batch)
        trace_add_night(job->arena, &links, job->plan);
    else if (job->packing) /* a workshop only tells its lots: the files may be given as *.xml */
        trace_add_packing(job->arena, &links, job->packing);
    keep_links(run->arena, tracing, &links);
    const Workshop *workshop = job_workshop(job);
    for (size_t i = 0; i < workshop->dusts.count; i++)
        note_lot(run->arena, &tracing->lots, workshop->dusts.items[i].lot);
    if (tracing->workshop)
        return STATUS_DONE;
    Workshop *kept = ARENA_NEW(run->arena, Workshop);
    *kept = *workshop;
    tracing->workshop = kept;
    tracing->locale = job->locale;
    return STATUS_DONE;
}

static bool is_known(Run *run, const Tracing *tracing) {
    for (size_t i = 0; i < tracing->lots.count; i++)
        if (!strcmp(tracing->lots.items[i], tracing->lot))
            return true;
    const char *near = nearest_name(tracing->lot, &tracing->lots);
    const char *remedy =
        near ? arena_format(run->arena, "did you mean '%s'?", near)
             : arena_format(run->arena, "there are: %s", names_listed(run->arena, &tracing->lots));
    report_error(&run->reader.diagnostics, (Place){0}, tracing->lots.count ? remedy : NULL,
                 "no lot '%s' in the files given", tracing->lot);
    run_note(run, STATUS_FAULTS);
    return false;
}

static const Plan *page_plan(Arena *arena, const Tracing *tracing) {
    return printing_bare_plan(arena, tracing->workshop, tracing->lot, (Place){0});
}

static void print_text(Run *run, const Trace *trace) {
    const Tracing *tracing = run->shared;
    const FieldGroup *fields = trace_fields(run->arena, trace);
    Text text = text_new(run->arena);
    if (run->options->as == PLAN_XML)
        plan_xml(&text, page_plan(run->arena, tracing), fields, BURNSHEET_VERSION);
    else
        trace_text(&text, fields, speaker_say, &(Speaker){run, run->arena, &tracing->locale});
    fwrite(text.bytes, 1, text.length, stdout);
}

/* The steps of a way that stand on a page, when `before` of both ways stand on earlier ones. */
static TraceSteps part_of(const TraceSteps *steps, size_t before) {
    size_t from = before < steps->count ? before : steps->count;
    size_t count = steps->count - from < STEPS_ON_PAGE ? steps->count - from : STEPS_ON_PAGE;
    return (TraceSteps){.items = count ? steps->items + from : NULL, .count = count};
}

/* Each way starts on a page of its own when both do not fit on one. */
static int pages_of(const TraceSteps *steps) {
    return (int)((steps->count + STEPS_ON_PAGE - 1) / STEPS_ON_PAGE);
}

static bool on_one_page(const Trace *trace) {
    return trace->into.count + trace->of.count <= STEPS_ON_PAGE;
}

static Trace page_of(const Trace *trace, int page) {
    Trace part = *trace;
    part.page = page;
    if (on_one_page(trace))
        return part;
    int into_pages = pages_of(&trace->into);
    size_t before = (size_t)(page - 1) * STEPS_ON_PAGE;
    size_t skipped = (size_t)into_pages * STEPS_ON_PAGE;
    part.into = part_of(&trace->into, before);
    part.of = part_of(&trace->of, before > skipped ? before - skipped : 0);
    if (before < skipped)
        part.of.count = 0;
    return part;
}

static void print_pages(Run *run, Trace *trace, const Pattern *template) {
    const Tracing *tracing = run->shared;
    const Plan *plan = page_plan(run->arena, tracing);
    const char *path = run->options->output;
    Document *document = run_document(run, run->arena, tracing->workshop, tracing->lot);
    trace->pages = on_one_page(trace) ? 1 : pages_of(&trace->into) + pages_of(&trace->of);
    for (int page = 1; page <= trace->pages; page++) {
        Trace part = page_of(trace, page);
        if (!sheet_lay_out(template, plan, trace_fields(run->arena, &part), &tracing->locale,
                           run->faces, document, &run->reader.diagnostics)) {
            run_note(run, STATUS_FAULTS);
            return;
        }
    }
    const char *name = file_name_of(run->arena, tracing->lot);
    if (!output_is_file(path))
        path = output_path(run->arena, path, name ? name : "lot", "trace");
    run_note(run, run_write(run, run->arena, document, path));
}

static void tell(Run *run, const Pattern *template) {
    Tracing *tracing = run->shared;
    if (!tracing->workshop || !is_known(run, tracing))
        return;
    trace_by_date(&tracing->links);
    Trace trace = {.lot = tracing->lot,
                   .into = trace_forward(run->arena, &tracing->links, tracing->lot),
                   .of = trace_back(run->arena, &tracing->links, tracing->lot),
                   .page = 1,
                   .pages = 1};
    trace.used = trace.into.count > 0;
    trace.made = trace.of.count > 0;
    if (template)
        print_pages(run, &trace, template);
    else
        print_text(run, &trace);
}

static ExitStatus trace(const Options *options) {
    if (options->file_count < 2)
        return run_refuse("trace", "no file given: first the lot, then the files to look in");
    if (options->as != PLAN_TEXT && (options->as != PLAN_XML || options->output))
        return run_refuse("trace", "a trace is text, xml, or with -o a page");
    Options of_files = *options;
    of_files.files++;
    of_files.file_count--;
    Run run = run_begin(&of_files);
    Tracing tracing = {.lot = options->files[0]};
    run.shared = &tracing;
    run.looks_back = true;
    run.gathers = true;
    const Pattern *template = options->output ? printing_template(&run, "trace", "trace") : NULL;
    if (template || (!options->output && run_data(&run))) {
        run_files(&run, RUN_ALL_KINDS, gather);
        tell(&run, template);
    }
    return run_end(&run);
}

const Command command_trace = {
    .name = "trace",
    .arguments = "LOT FILE...",
    .summary = "what a lot went into and what is in it",
    .options = "oatlup",
    .run = trace,
};
