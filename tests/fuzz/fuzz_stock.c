/* A file of label stock: read, with every message. */
#include "fuzz/night.h"
#include "fuzz/tree.h"

#include "input/xml.h"
#include "layout/stock.h"

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);
size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed);

/* Whether what the reader gave and what it reported agree. */
static bool agrees(Arena *arena, const Element *root, Diagnostics *diagnostics) {
    bool good = stock_read(arena, root, diagnostics) != NULL;
    return good == (diagnostics_errors(diagnostics, NULL) == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    FuzzNight night = {.arena = arena, .reader = reader_new(arena)};
    Diagnostics *diagnostics = &night.reader.diagnostics;
    const Element *root = xml_parse(diagnostics, "stock.xml", (const char *)bytes, size);
    if (root && !agrees(arena, root, diagnostics))
        fuzz_found("a file was refused without a word, or taken with errors");
    fuzz_night_check_said(&night);
    arena_free(arena);
    return 0;
}

size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed) {
    return tree_mutate(bytes, size, most, seed);
}
