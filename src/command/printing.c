#include "command/printing.h"

#include "command/output.h"

Printing printing_begin(const Options *options, const char *kind, LayOut lay_out) {
    return (Printing){.kind = kind, .lay_out = lay_out, .together = output_together(options)};
}

static Document *document_of(Run *run, const Job *job, Printing *printing, const char *title,
                             const char *subject) {
    if (printing->shared)
        return printing->shared;
    const Workshop *workshop = job_workshop(job);
    Document *document =
        run_document(run, job->arena, workshop, printing->together ? workshop->name : title);
    document->exact_size = printing->exact_size;
    if (printing->together)
        printing->shared = document;
    else
        document->subject = subject;
    return document;
}

const Plan *printing_bare_plan(Arena *arena, const Workshop *workshop, const char *name,
                               Place place) {
    Batch *batch = ARENA_NEW(arena, Batch);
    *batch = (Batch){.place = place, .name = name, .workshop = workshop};
    Plan *plan = ARENA_NEW(arena, Plan);
    *plan = (Plan){.batch = batch, .workshop = workshop};
    return plan;
}

ExitStatus printing_make(Run *run, Job *job, Printing *printing, const char *title,
                         const char *subject) {
    Document *document = document_of(run, job, printing, title, subject);
    if (!printing->lay_out(run, job, document))
        return STATUS_FAULTS;
    if (printing->together)
        return STATUS_DONE;
    const char *path = output_path(job->arena, run->options->output, job->file, printing->kind);
    return run_write(run, job->arena, document, path);
}

void printing_finish(Run *run, Printing *printing) {
    if (printing->shared && run->status == STATUS_DONE)
        run_note(run, run_write(run, run->arena, printing->shared, run->options->output));
}

const Pattern *printing_pattern(Run *run, const char *name, const char *papers) {
    if (!run_data(run) || !run_faces(run)) {
        run_note(run, STATUS_FILES);
        return NULL;
    }
    Arena *own = reader_use(&run->reader, run->arena);
    const Element *root = run_template(run, name, papers);
    const Pattern *template = NULL;
    if (root) {
        template = pattern_read(run->arena, root, papers, run->faces, &run->reader.diagnostics);
        run_say(run);
        run_note(run, template ? STATUS_DONE : STATUS_FAULTS);
    }
    reader_use(&run->reader, own);
    return template;
}

const Pattern *printing_template(Run *run, const char *usual, const char *papers) {
    const char *own = run->options->template;
    return printing_pattern(run, own ? own : usual, papers);
}
