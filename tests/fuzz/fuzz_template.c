/* The template of a sheet or of a label: read, with every message; and an ordinary night laid out
 * by it, when it is taken. */
#include "fuzz/night.h"
#include "fuzz/tree.h"

#include "input/xml.h"
#include "layout/label.h"
#include "layout/sheet.h"
#include "model/plan.h"

#include <stddef.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);
size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed);

/* What is laid out, made once and kept until the end. */
static struct Stand {
    Arena *arena;
    const FaceSet *faces;
    const StockSet *stocks;
    const Plan *plan;
    const FieldGroup *fields;
    Locale locale;
} stand;

static void set_up(void) {
    const char *error = NULL;
    stand.arena = arena_new();
    Reader reader = reader_new(stand.arena);
    const Batch *batch = read_batch(&reader, "samples/cheese-overnight.xml");
    stand.faces = faces_load(stand.arena, "fonts", &error);
    if (!batch || !stand.faces)
        fuzz_found("start this through 'make fuzz', in the source tree");
    stand.stocks = stock_read(stand.arena,
                              xml_read(&reader.diagnostics, "templates/stock.xml", NULL),
                              &reader.diagnostics);
    stand.plan = plan_make(stand.arena, batch);
    stand.fields = plan_fields(stand.arena, stand.plan);
    const Element *words = xml_read(&reader.diagnostics, "templates/words/en.xml", NULL);
    stand.locale = locale_of(batch->workshop, words_read(stand.arena, words, &reader.diagnostics));
}

/* Whether a page came of it. */
static bool lay_out_sheet(FuzzNight *night, const Element *root, Document *document) {
    const Pattern *pattern =
        pattern_read(night->arena, root, "sheet desk", stand.faces, &night->reader.diagnostics);
    return pattern && sheet_lay_out(pattern, stand.plan, stand.fields, &stand.locale, stand.faces,
                                    document, &night->reader.diagnostics);
}

static bool lay_out_label(FuzzNight *night, const Element *root, Document *document) {
    const Pattern *pattern =
        pattern_read(night->arena, root, "label", stand.faces, &night->reader.diagnostics);
    LabelRequest request = {.patterns = {pattern, pattern, pattern},
                            .stocks = stand.stocks,
                            .plan = stand.plan,
                            .fields = stand.fields,
                            .locale = &stand.locale,
                            .faces = stand.faces};
    return pattern && labels_lay_out(night->arena, &request, document, &night->reader.diagnostics);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    if (!stand.arena)
        set_up();
    Arena *arena = arena_new();
    FuzzNight night = {.arena = arena, .reader = reader_new(arena)};
    Diagnostics *diagnostics = &night.reader.diagnostics;
    const Element *root = xml_parse(diagnostics, "template.xml", (const char *)bytes, size);
    if (root) {
        Document *document = document_new(arena, "template", "en");
        bool good = strcmp(root->name, "label") != 0 ? lay_out_sheet(&night, root, document)
                                                     : lay_out_label(&night, root, document);
        if (good != (diagnostics_errors(diagnostics, NULL) == 0))
            fuzz_found("a template was refused without a word, or taken with errors");
    }
    fuzz_night_check_said(&night);
    arena_free(arena);
    return 0;
}

size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed) {
    return tree_mutate(bytes, size, most, seed);
}
