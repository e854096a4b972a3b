/* The template of a sheet or of a label: read, with every message. */
#include "fuzz/night.h"
#include "fuzz/tree.h"

#include "input/xml.h"
#include "layout/pattern.h"
#include "layout/template.h"

#include <string.h>

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);
size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed);

/* Read once, and kept until the end. */
static Arena *stand;
static const FaceSet *faces;

static const FaceSet *faces_once(void) {
    const char *error = NULL;
    if (!stand) {
        stand = arena_new();
        faces = faces_load(stand, "fonts", &error);
    }
    if (!faces)
        fuzz_found(error);
    return faces;
}

/* Whether what the reader gave and what it reported agree. */
static bool agrees(Arena *arena, const Element *root, Diagnostics *diagnostics) {
    bool good = !strcmp(root->name, "sheet")
                    ? template_read(arena, root, faces_once(), diagnostics) != NULL
                    : pattern_read(arena, root, faces_once(), diagnostics) != NULL;
    return good == (diagnostics_errors(diagnostics, NULL) == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    FuzzNight night = {.arena = arena, .reader = reader_new(arena)};
    Diagnostics *diagnostics = &night.reader.diagnostics;
    const Element *root = xml_parse(diagnostics, "template.xml", (const char *)bytes, size);
    if (root && !agrees(arena, root, diagnostics))
        fuzz_found("a file was refused without a word, or taken with errors");
    fuzz_night_check_said(&night);
    arena_free(arena);
    return 0;
}

size_t LLVMFuzzerCustomMutator(uint8_t *bytes, size_t size, size_t most, unsigned seed) {
    return tree_mutate(bytes, size, most, seed);
}
