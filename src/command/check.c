#include "command/resource.h"
#include "command/run.h"
#include "input/xml.h"
#include "layout/pattern.h"
#include "layout/stock.h"
#include "layout/words.h"

#include <stdlib.h>
#include <string.h>

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
    const Element *outer = pack ? pack : root;
    if (!element_child(outer, "bag"))
        return;
    const Element *stock = run_template(run, "stock", "stock");
    const StockSet *set = stock ? stock_read(run->arena, stock, &run->reader.diagnostics) : NULL;
    for (; set && outer; outer = pack ? element_sibling(outer, "pack") : NULL)
        for (const Element *bag = element_child(outer, "bag"); bag;
             bag = element_sibling(bag, "bag"))
            check_bag(run, set, bag);
}

static void check_root(Run *run, const char *path, const Element *root) {
    CheckPage page = page_check(root);
    if (page) {
        page(run, root);
        return;
    }
    check_tree(&run->reader, path, root);
    check_bags(run, root);
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
    const char *words = arena_format(run.arena, "%s/templates/words", run.folder);
    run.reader.languages = resource_names(run.arena, words);
    for (size_t i = 0; i < options->file_count; i++)
        check_apart(&run, options->files[i]);
    ExitStatus status = run.status;
    run_end(&run);
    return status;
}

const Command command_check = {
    .name = "check",
    .arguments = "FILE...",
    .summary = "only read the files and report their faults",
    .options = "",
    .run = check,
};
