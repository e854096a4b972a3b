#include "command/labelling.h"
#include "command/output.h"
#include "command/printing.h"
#include "layout/test_page.h"
#include "model/packing.h"

#include <stdio.h>

typedef struct Labels {
    LabelPatterns patterns;
    Printing printing;
    LabelRun run; /* of the document that is being made */
} Labels;

static bool lay_out(Run *run, const Job *job, Document *document) {
    Labels *labels = run->shared;
    return labelling_lay_out(run, job, &labels->patterns, &labels->run, document);
}

/* So that the rest of a sheet is not thrown away. */
static void say_free(const Job *job, const LabelSheets *sheets) {
    for (size_t i = 0; i < sheets->sheets.count; i++) {
        const LabelSheet *sheet = &sheets->sheets.items[i];
        if (label_sheet_free(sheet))
            say_line(stderr, "%s: note: on the last sheet of '%s' label %d is free next", job->file,
                     sheet->stock->name, label_sheet_free(sheet));
    }
}

static ExitStatus make_labels(Run *run, Job *job) {
    Labels *labels = run->shared;
    if (job->batch && job->plan->bags.count == 0) {
        say_line(stderr, "%s: note: the batch has no bags, so there are no labels", job->file);
        return STATUS_DONE;
    }
    if (job->batch)
        job->packing = packing_plan_of_night(job->arena, job->plan);
    if (!labels->printing.together)
        labels->run = (LabelRun){0};
    const char *title = job->packing->bagging->packs.items[0].blend.name;
    ExitStatus status = printing_make(run, job, &labels->printing, title, job_name(job));
    if (status == STATUS_DONE)
        say_free(job, &labels->run.sheets);
    return status;
}

/* The stock that the command line names; NULL after saying what is wrong. */
static const Stock *tested_stock(Run *run) {
    const Stock *stock = run_stocks(run)
                             ? stock_asked(run->stocks, run->options->test_page, (Place){0}, 1,
                                           (Place){0}, &run->reader.diagnostics)
                             : NULL;
    if (run->stocks && !stock)
        run_note(run, STATUS_USAGE);
    run_say(run);
    return stock;
}

static ExitStatus make_test_page(Run *run, const Stock *stock) {
    const Options *options = run->options;
    const char *language = options->language ? options->language : "en";
    const Words *words = run_words(run, language);
    if (!words || !run_faces(run))
        return run_note(run, STATUS_FILES);
    const Workshop workshop = {.language = language};
    const Locale locale = {.words = words, .scale_step_kg = NOT_STATED};
    Document *document = run_document(run, run->arena, &workshop, stock->name);
    document->exact_size = true;
    const TestPage test = {stock, &locale, run->faces, options->offset_x_mm, options->offset_y_mm};
    if (!test_page_lay_out(&test, document, &run->reader.diagnostics)) {
        run_say(run);
        return run_note(run, STATUS_FAULTS);
    }
    bool is_file = output_together(options);
    const char *path = is_file ? options->output
                               : output_path(run->arena, options->output, stock->name, "test");
    return run_note(run, run_write(run, run->arena, document, path));
}

static ExitStatus test_page(const Options *options) {
    if (options->file_count > 0)
        return run_refuse("labels", "--test-page takes no file");
    Run run = run_begin(options);
    const Stock *stock = tested_stock(&run);
    if (stock)
        make_test_page(&run, stock);
    return run_end(&run);
}

static ExitStatus labels(const Options *options) {
    if (options->test_page)
        return test_page(options);
    Run run = run_begin(options);
    Labels shared = {.printing = printing_begin(options, "labels", lay_out)};
    shared.printing.exact_size = true; /* labels must hit their stock */
    run.shared = &shared;
    run.writes_each = !shared.printing.together;
    if (labelling_patterns(&run, &shared.patterns) && run_stocks(&run))
        run_files(&run, RUN_BATCHES_AND_BAGGINGS, make_labels);
    printing_finish(&run, &shared.printing);
    return run_end(&run);
}

const Command command_labels = {
    .name = "labels",
    .arguments = "FILE...",
    .summary = "the bag labels of each batch or bagging as PDF",
    .options = "otlupfxcgj",
    .run = labels,
};
