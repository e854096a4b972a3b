/* A workshop file, changed by the rules: read alone, with every message. */
#include "fuzz/night.h"
#include "fuzz/tree.h"

#include "input/xml.h"

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);
size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed);

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    FuzzNight night = {.arena = arena, .reader = reader_new(arena)};
    fuzz_write(arena, "workshop.xml", bytes, size);
    bool good = read_workshop(&night.reader, fuzz_path(arena, "workshop.xml")) != NULL;
    if (good != (diagnostics_errors(&night.reader.diagnostics, NULL) == 0))
        fuzz_found("a workshop was refused without a word, or taken with errors");
    fuzz_night_check_said(&night);
    arena_free(arena);
    return 0;
}

size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed) {
    return tree_mutate(bytes, size, most, seed);
}
