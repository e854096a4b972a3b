/* A forecast in CSV beside a batch that names it. */
#include "fuzz/night.h"

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    FuzzNight night = {.arena = arena, .reader = reader_new(arena)};
    fuzz_write(arena, "forecast.csv", bytes, size);
    night.batch = read_batch(&night.reader, fuzz_path(arena, "fish-long.xml"));
    fuzz_night_check_said(&night);
    if (!night.batch && diagnostics_errors(&night.reader.diagnostics, NULL) == 0)
        fuzz_found("a forecast was refused without a word");
    arena_free(arena);
    return 0;
}
