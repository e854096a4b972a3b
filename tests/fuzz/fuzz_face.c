/* A TrueType face: read, measured and cut down to a few glyphs, as print does. */
#include "fuzz/night.h"

#include "layout/face.h"
#include "print/subset.h"

#include <math.h>
#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static void measure(const Face *face) {
    static const char string[] = "Łosoś 12 °C ≤ ½ → ﬁ";
    uint32_t code;
    double width_mm = face_width_mm(face, string, 10);
    if (!isfinite(width_mm) || width_mm < 0)
        fuzz_found("the width of a text is no length");
    face_missing(face, string, &code);
    if (!isfinite(face_cap_height_mm(face, 10)) || !isfinite(face_size_for_cap_height_pt(face, 3)))
        fuzz_found("a height of the face is no length");
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    static const uint16_t wanted[] = {' ', '0', 'A', 'a', 0x00C5, 0x0141, 0x2264};
    Arena *arena = arena_new();
    const char *error = NULL;
    const Face *face = face_read(arena, bytes, size, &error);
    if (!face && !error)
        fuzz_found("a face was refused without a word");
    if (face) {
        measure(face);
        Codes codes = {0};
        for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
            LIST_ADD(arena, &codes, wanted[i]);
        Bytes cut;
        subset_face(arena, face, &codes, &cut);
    }
    arena_free(arena);
    return 0;
}
