/* A logo's SVG file: refused with a word, or made into outlines that a page can draw. */
#include "fuzz/night.h"
#include "fuzz/tree.h"

#include "input/logo_reader.h"
#include "input/svg_path.h"

#include <math.h>
#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);
size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed);

static void check_steps(const Logo *logo) {
    bool open = false;
    for (size_t i = 0; i < logo->outlines.count; i++) {
        const OutlineStep *step = &logo->outlines.items[i];
        if (!isfinite(step->to.x) || !isfinite(step->to.y))
            fuzz_found("a logo goes to no place");
        if ((step->kind == OUTLINE_MOVE) == open)
            fuzz_found("an outline does not begin with a move, or does not end");
        open = step->kind != OUTLINE_CLOSE;
    }
    if (open || logo->outlines.count > SVG_STEPS_MAX + 8 || !(logo->width > 0 && logo->height > 0))
        fuzz_found("a logo that is none");
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    FuzzNight night = {.arena = arena, .reader = reader_new(arena)};
    Logo logo = {0};
    bool could_not_open = false;
    fuzz_write(arena, "logo.svg", bytes, size);
    bool good = read_logo(&night.reader.diagnostics, fuzz_path(arena, "logo.svg"), (Place){0},
                          &logo, &could_not_open);
    if (good != (diagnostics_errors(&night.reader.diagnostics, NULL) == 0))
        fuzz_found("a logo was refused without a word, or taken with errors");
    if (good)
        check_steps(&logo);
    fuzz_night_check_said(&night);
    arena_free(arena);
    return 0;
}

size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed) {
    return tree_mutate(bytes, size, most, seed);
}
