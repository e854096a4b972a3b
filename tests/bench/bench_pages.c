/* What a page costs beyond writing it: a sample read, planned, laid out and written, against a bare
 * program that only writes the same marks, in CPU time of this machine. */
#include "domain/field.h"
#include "input/reader.h"
#include "input/xml.h"
#include "layout/label.h"
#include "layout/sheet.h"
#include "model/plan.h"
#include "print/pdf.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { ROUNDS = 20, BEST_OF = 5 };

typedef struct Bench {
    Arena *arena; /* of what is read once */
    const FaceSet *faces;
    const Pattern *sheet, *label;
    const StockSet *stocks;
    const Words *words;
} Bench;

static double now_ms(void) {
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec * 1e3 + (double)time.tv_nsec / 1e6;
}

static void stop(const char *what) {
    fprintf(stderr, "error: %s\n", what);
    exit(1);
}

static const Element *read_xml(Bench *bench, Diagnostics *diagnostics, const char *path) {
    const Element *root = xml_read(diagnostics, path, NULL);
    if (!root)
        stop(path);
    (void)bench;
    return root;
}

static Bench bench_new(void) {
    Bench bench = {.arena = arena_new()};
    Diagnostics diagnostics = diagnostics_new(bench.arena);
    const char *error = NULL;
    bench.faces = faces_load(bench.arena, "fonts", &error);
    if (!bench.faces)
        stop(error);
    bench.sheet = pattern_read(bench.arena, read_xml(&bench, &diagnostics, "templates/sheet.xml"),
                               "sheet", bench.faces, &diagnostics);
    bench.label = pattern_read(bench.arena, read_xml(&bench, &diagnostics, "templates/label.xml"),
                               "label", bench.faces, &diagnostics);
    bench.stocks = stock_read(bench.arena, read_xml(&bench, &diagnostics, "templates/stock.xml"),
                              &diagnostics);
    bench.words = words_read(bench.arena, read_xml(&bench, &diagnostics, "templates/words/en.xml"),
                             &diagnostics);
    if (!bench.sheet || !bench.label || !bench.stocks || !bench.words)
        stop("faults in templates/");
    return bench;
}

/* Reads, plans and lays out; what it cost up to the plan goes to *planned_ms. */
static Document *make_document(const Bench *bench, Arena *arena, const char *path, bool labels,
                               double *planned_ms) {
    double start_ms = now_ms();
    Reader reader = reader_new(arena);
    const Batch *batch = read_batch(&reader, path);
    if (!batch)
        stop(path);
    const Plan *plan = plan_make(arena, batch);
    const FieldGroup *fields = plan_fields(arena, plan);
    *planned_ms = now_ms() - start_ms;
    Locale locale = locale_on_night(locale_of(batch->workshop, bench->words), plan->burn.light_at);
    Document *document = document_new(arena, "bench", "en");
    LabelRequest request = {.patterns = {bench->label, bench->label, bench->label},
                            .stocks = bench->stocks,
                            .plan = plan,
                            .fields = fields,
                            .locale = &locale,
                            .faces = bench->faces};
    bool good = labels ? labels_lay_out(arena, &request, document, &reader.diagnostics)
                       : sheet_lay_out(bench->sheet, plan, fields, &locale, bench->faces, document,
                                       &reader.diagnostics);
    if (!good)
        stop("a sample cannot be laid out");
    return document;
}

static double write_ms(const Bench *bench, const Document *document) {
    double start_ms = now_ms();
    Arena *arena = arena_new();
    Bytes bytes;
    const char *error = NULL;
    if (!pdf_write(document, bench->faces, arena, &bytes, &error))
        stop(error);
    arena_free(arena);
    return now_ms() - start_ms;
}

static void report(const Bench *bench, const char *path, bool labels) {
    double whole = INFINITY, planned = INFINITY, written = INFINITY;
    for (int turn = 0; turn < BEST_OF * ROUNDS; turn++) {
        Arena *arena = arena_new();
        double planned_ms = 0;
        double start_ms = now_ms();
        const Document *document = make_document(bench, arena, path, labels, &planned_ms);
        double writing_ms = write_ms(bench, document);
        whole = fmin(whole, now_ms() - start_ms);
        planned = fmin(planned, planned_ms);
        written = fmin(written, writing_ms);
        arena_free(arena);
    }
    printf("%-6s of %-32s %6.2f ms: plan %5.2f, layout %5.2f, writing %5.2f; %5.2f of writing "
           "alone\n",
           labels ? "labels" : "sheet", path, whole, planned, whole - planned - written, written,
           whole / written);
}

int main(void) {
    Bench bench = bench_new();
    report(&bench, "samples/butter-short.xml", false);
    report(&bench, "samples/cheese-overnight.xml", false);
    report(&bench, "samples/cheese-overnight.xml", true);
    arena_free(bench.arena);
    return 0;
}
