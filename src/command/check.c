#include "command/labelling.h"
#include "command/resource.h"
#include "command/run.h"
#include "input/xml.h"
#include "layout/pattern.h"
#include "layout/stock.h"
#include "layout/words.h"
#include "model/packing.h"
#include "model/plan.h"

#include <stdlib.h>
#include <string.h>

/* What labels are tried with. */
typedef struct Labels {
    LabelPatterns patterns;
    bool tried, able;
} Labels;

typedef void (*CheckPage)(Run *run, const Element *root);

static void check_pattern(Run *run, const Element *root) {
    if (run_faces(run))
        pattern_read(run->arena, root, NULL, run->faces, &run->reader.diagnostics);
    else
        run_note(run, STATUS_FILES);
}

static void check_stock(Run *run, const Element *root) {
    stock_read(run->arena, root, &run->reader.diagnostics);
}

/* A translation is also held against the English words: the same keys, the same placeholders. */
static void check_words(Run *run, const Element *root) {
    const Words *words = words_read(run->arena, root, &run->reader.diagnostics);
    const Words *model = words ? run_words(run, "en") : NULL;
    if (model)
        words_agree(model, words, &run->reader.diagnostics);
}

/* The kinds of file that pages are made from, by their root element; NULL: a batch or workshop. */
static CheckPage page_check(const Element *root) {
    static const struct {
        const char *root;
        CheckPage check;
    } kinds[] = {
        {"sheet", check_pattern},        {"desk", check_pattern},
        {"label", check_pattern},        {"label_front", check_pattern},
        {"label_second", check_pattern}, {"slip", check_pattern},
        {"trace", check_pattern},        {"season", check_pattern},
        {"dust_sheet", check_pattern},   {"stock", check_stock},
        {"record", check_pattern},       {"words", check_words},
    };
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (!strcmp(kinds[i].root, root->name))
            return kinds[i].check;
    return NULL;
}

static void check_bag(Run *run, const StockSet *set, const Element *bag) {
    const char *name = element_value(bag, "stock");
    const char *first = element_value(bag, "first");
    if (name)
        stock_asked(set, name, element_value_place(bag, "stock"),
                    first ? strtol(first, NULL, 10) : 1, element_value_place(bag, "first"),
                    &run->reader.diagnostics);
}

/* The readers know no label stock, since that is a matter of the page. */
static void check_bags(Run *run, const Element *root) {
    const Element *pack = element_child(root, "pack");
    for (const Element *outer = pack ? pack : root; outer && run->stocks;
         outer = pack ? element_sibling(outer, "pack") : NULL)
        for (const Element *bag = element_child(outer, "bag"); bag;
             bag = element_sibling(bag, "bag"))
            check_bag(run, run->stocks, bag);
}

/* Whether labels can be laid out here; without the faces, which measure them, they can not, and
 * that is no fault of a file. Found out and said once. */
static bool can_lay_out(Run *run) {
    Labels *labels = run->shared;
    if (labels->tried)
        return labels->able;
    labels->tried = true;
    const char *error = NULL;
    run->faces = faces_load(run->arena, arena_format(run->arena, "%s/fonts", run->folder), &error);
    if (run->faces)
        labels->able = labelling_patterns(run, &labels->patterns);
    else
        say_line(stderr, "burnsheet: note: whether labels hold their texts is not checked: %s",
                 error);
    return labels->able;
}

/* Lays the labels out, each in its language and by the law of its market, as printing would, and
 * throws them away. */
static void check_labels(Run *run, const char *path, const TreeRead *read) {
    const Labels *labels = run->shared;
    Arena *arena = run->reader.arena;
    Job job = {.file = path, .batch = read->batch, .bagging = read->bagging, .arena = arena};
    job.packing = read->batch ? packing_plan_of_night(arena, plan_make(arena, read->batch))
                              : packing_plan(arena, read->bagging);
    if (read->bagging && !run_shelf_suffices(run, job.packing))
        return;
    LabelRun sheets = {0};
    Document *unprinted = document_new(arena, path, "en");
    if (!labelling_lay_out(run, &job, &labels->patterns, &sheets, unprinted))
        run_note(run, STATUS_FAULTS);
}

static bool has_bags(const TreeRead *read) {
    return read->bagging || (read->batch && read->batch->bags.count > 0);
}

static void check_root(Run *run, const char *path, const Element *root) {
    CheckPage page = page_check(root);
    if (page) {
        page(run, root);
        return;
    }
    if (element_child(root, "bag") || element_child(root, "pack"))
        run_stocks(run);
    TreeRead read = read_tree(&run->reader, path, root);
    check_bags(run, root);
    bool good = diagnostics_errors(&run->reader.diagnostics, NULL) == 0;
    if (good && has_bags(&read) && run->stocks && can_lay_out(run))
        check_labels(run, path, &read);
}

/* False, and nothing done, when what is read has to last: a workshop for the batches after it. */
static bool check_one(Run *run, const char *path, bool lasts) {
    bool could_not_open = false;
    const Element *root = xml_read(&run->reader.diagnostics, path, &could_not_open);
    if (root && !lasts && !strcmp(root->name, "workshop"))
        return false;
    if (root) {
        check_root(run, path, root);
        could_not_open = run->reader.could_not_open;
    }
    if (diagnostics_errors(&run->reader.diagnostics, NULL))
        run_note(run, could_not_open ? STATUS_FILES : STATUS_FAULTS);
    run_say(run);
    return true;
}

/* Each file in memory of its own, so that many take no more than one. */
static void check_apart(Run *run, const char *path) {
    Arena *own = arena_new();
    Diagnostics before = reader_enter(&run->reader, own);
    bool done = check_one(run, path, false);
    reader_leave(&run->reader, &before);
    arena_free(own);
    if (!done)
        check_one(run, path, true);
}

static ExitStatus check(const Options *options) {
    Run run = run_begin(options);
    Labels labels = {.tried = false};
    run.shared = &labels;
    const char *words = arena_format(run.arena, "%s/templates/words", run.folder);
    run.reader.languages = resource_names(run.arena, words);
    for (size_t i = 0; i < options->file_count; i++)
        check_apart(&run, options->files[i]);
    return run_end(&run);
}

const Command command_check = {
    .name = "check",
    .arguments = "FILE...",
    .summary = "only read the files and report their faults",
    .options = "",
    .run = check,
};
