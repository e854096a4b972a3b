/* A whole evening in XML, changed by the rules: read, planned, laid out as sheet and labels, and
 * written as PDF in memory. */
#include "fuzz/night.h"
#include "fuzz/tree.h"

#include "input/xml.h"
#include "layout/label.h"
#include "layout/sheet.h"
#include "print/pdf.h"

#include <stddef.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);
size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed);

static const char *const languages[] = {"en", "de", "pl"};
static const char *const sheets[] = {"sheet", "desk"};
enum { LANGUAGES = sizeof languages / sizeof *languages, SHEETS = sizeof sheets / sizeof *sheets };

/* What every page is made from, read once. */
static struct Stand {
    Arena *arena;
    const FaceSet *faces;
    const Pattern *sheets[SHEETS];
    const Pattern *label;
    const StockSet *stocks;
    const Words *words[LANGUAGES];
} stand;

static void set_up(void) {
    const char *error = NULL;
    stand.arena = arena_new();
    Diagnostics diagnostics = diagnostics_new(stand.arena);
    stand.faces = faces_load(stand.arena, "fonts", &error);
    if (!stand.faces)
        fuzz_found(error);
    for (int i = 0; i < SHEETS; i++) {
        const char *path = arena_format(stand.arena, "templates/%s.xml", sheets[i]);
        stand.sheets[i] = pattern_read(stand.arena, xml_read(&diagnostics, path, NULL), sheets[i],
                                       stand.faces, &diagnostics);
    }
    stand.label = pattern_read(stand.arena, xml_read(&diagnostics, "templates/label.xml", NULL),
                               "label", stand.faces, &diagnostics);
    stand.stocks =
        stock_read(stand.arena, xml_read(&diagnostics, "templates/stock.xml", NULL), &diagnostics);
    for (int i = 0; i < LANGUAGES; i++) {
        const char *path = arena_format(stand.arena, "templates/words/%s.xml", languages[i]);
        stand.words[i] = words_read(stand.arena, xml_read(&diagnostics, path, NULL), &diagnostics);
    }
}

static const Words *words_of(const Batch *batch) {
    for (int i = 0; i < LANGUAGES; i++)
        if (!strcmp(batch->workshop->language, languages[i]))
            return stand.words[i];
    return stand.words[0];
}

/* Laid out pages must be written; what can not be laid out must say why. */
static void print_pages(FuzzNight *night, Document *document, bool laid_out) {
    const char *error = NULL;
    Bytes pdf;
    if (!laid_out && diagnostics_errors(&night->reader.diagnostics, NULL) == 0)
        fuzz_found("no pages, and no word why");
    if (laid_out && document->pages.count > 0 &&
        !pdf_write(document, stand.faces, night->arena, &pdf, &error))
        fuzz_found(error);
    diagnostics_clear(&night->reader.diagnostics);
}

static void make_pages(FuzzNight *night) {
    const Plan *plan = fuzz_night_plan(night);
    const FieldGroup *fields = plan_fields(night->arena, plan);
    Locale locale = locale_of(night->batch->workshop, words_of(night->batch));
    diagnostics_clear(&night->reader.diagnostics);
    for (int i = 0; i < SHEETS; i++) {
        Document *sheet = document_new(night->arena, sheets[i], locale.words->language);
        bool good = sheet_lay_out(stand.sheets[i], plan, fields, &locale, stand.faces, sheet,
                                  &night->reader.diagnostics);
        if (good && sheet->pages.count != 1)
            fuzz_found("a sheet that is not one page");
        print_pages(night, sheet, good);
    }
    Document *labels = document_new(night->arena, "labels", locale.words->language);
    LabelRequest request = {.patterns = {stand.label, stand.label, stand.label},
                            .stocks = stand.stocks,
                            .plan = plan,
                            .fields = fields,
                            .locale = &locale,
                            .faces = stand.faces};
    bool good = labels_lay_out(night->arena, &request, labels, &night->reader.diagnostics);
    print_pages(night, labels, good);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    if (!stand.arena)
        set_up();
    Arena *arena = arena_new();
    FuzzNight night = fuzz_night_read(arena, bytes, size);
    if (night.batch)
        make_pages(&night);
    arena_free(arena);
    return 0;
}

size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed) {
    return tree_mutate(bytes, size, most, seed);
}
