#include "command/labelling.h"

#include "command/printing.h"

#include <string.h>

bool labelling_patterns(Run *run, LabelPatterns *patterns) {
    static const char *const usual[] = {"label", "label-front", "label-second"};
    const Pattern **const of_kind[] = {&patterns->whole, &patterns->front, &patterns->second};
    static const char *const papers[] = {"label", "label_front", "label_second"};
    const Pattern *own = NULL;
    if (run->options->template) {
        own = printing_template(run, NULL, "label label_front label_second");
        if (!own)
            return false;
    }
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        bool is_own = own && !strcmp(own->paper, papers[i]);
        *of_kind[i] = is_own ? own : printing_pattern(run, usual[i], papers[i]);
        if (!*of_kind[i])
            return false;
    }
    return true;
}

/* The labels of one plan, in the language and for the market of its workshop. */
static bool lay_out_plan(Run *run, const Job *job, const LabelPatterns *patterns, const Plan *plan,
                         LabelRun *labels, Document *document) {
    const Words *words = run_words(run, plan->workshop->language);
    if (!words)
        return false;
    Locale locale = locale_of(plan->workshop, words);
    LabelRequest request = {
        .patterns = *patterns,
        .stocks = run->stocks,
        .plan = plan,
        .fields = plan_fields(job->arena, plan),
        .locale = &locale,
        .faces = run->faces,
        .options = {.offset_x_mm = run->options->offset_x_mm,
                    .offset_y_mm = run->options->offset_y_mm,
                    .outlines = run->options->outlines,
                    .firsts = options_firsts(run->options)},
        .run = labels,
    };
    return labels_lay_out(job->arena, &request, document, &run->reader.diagnostics);
}

/* All of them before the first label: reading says what was reported until then. */
static bool have_words(Run *run, const Job *job) {
    bool good = true;
    for (size_t i = 0; i < job->packing->blends.count; i++) {
        const PackingBlend *blend = &job->packing->blends.items[i];
        for (size_t k = 0; k < blend->labels.count; k++)
            good = run_words(run, blend->labels.items[k]->workshop->language) && good;
    }
    return good;
}

bool labelling_lay_out(Run *run, const Job *job, const LabelPatterns *patterns, LabelRun *labels,
                       Document *document) {
    if (!have_words(run, job))
        return false;
    bool good = true;
    for (size_t i = 0; i < job->packing->blends.count; i++) {
        const PackingBlend *blend = &job->packing->blends.items[i];
        for (size_t k = 0; k < blend->labels.count; k++)
            good = lay_out_plan(run, job, patterns, blend->labels.items[k], labels, document) &&
                   good;
    }
    return good;
}
