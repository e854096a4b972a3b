/* Face: a TrueType face read for measuring, and the set of faces a document is set in.
 *
 * The reader is our own and trusts nothing in the file: every offset is checked against the
 * length. Widths are floored to 1/1000 em a glyph, as libharu writes them into the page, so that
 * what the layout measures is what the page shows. Lengths are millimetres, type sizes points
 * (1 pt = 25.4/72 mm). Everything lives in the arena that was handed in and is never changed, but
 * for what was looked up, which is kept.
 */
#ifndef LAYOUT_FACE_H
#define LAYOUT_FACE_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* What a face is used for; names a place in a FaceSet. */
typedef enum FaceRole {
    FACE_REGULAR,
    FACE_BOLD,
    FACE_MEDIUM,
    FACE_CONDENSED,
    FACE_CONDENSED_BOLD,
    FACE_COUNT
} FaceRole;

typedef struct Face Face;

typedef struct FaceSet {
    const Face *faces[FACE_COUNT]; /* never NULL in a set from faces_load */
} FaceSet;

/* Millimetres of one point. */
#define MM_PER_PT (25.4 / 72.0)

/* Loads the face of every role from `directory` (fonts/ of the source tree, or the installed
 * folder). NULL when one is missing or damaged; *error then says which and why. */
const FaceSet *faces_load(Arena *arena, const char *directory, const char **error);

/* Name of a role in templates: "regular", "bold", "medium", "condensed", "condensed-bold". */
const char *face_role_name(FaceRole role);

/* Reads a face from the bytes of a TrueType file; they are kept, not copied, and must outlive the
 * face. NULL when the file is damaged or of another kind; *error then says why. */
const Face *face_read(Arena *arena, const uint8_t *bytes, size_t length, const char **error);

/* The bytes the face was read from, for embedding. */
const uint8_t *face_bytes(const Face *face, size_t *length);

/* A table of the file by its tag of four letters; *length is 0 when there is none. */
const uint8_t *face_table(const Face *face, const char *tag, size_t *length);

/* Glyph number of a code point; 0 when the face lacks it. */
uint16_t face_glyph(const Face *face, uint32_t code);

/* Advance of one code point in 1/1000 em, floored. */
int face_advance(const Face *face, uint32_t code);

/* Width of a valid UTF-8 string in millimetres at `size_pt`, without kerning. */
double face_width_mm(const Face *face, const char *string, double size_pt);

/* Height of capitals in millimetres at `size_pt`. */
double face_cap_height_mm(const Face *face, double size_pt);

/* The type size in points whose capitals are `cap_height_mm` high. */
double face_size_for_cap_height_pt(const Face *face, double cap_height_mm);

/* The type size in points whose small letters, the "o", are `x_height_mm` high at the least. */
double face_size_for_x_height_pt(const Face *face, double x_height_mm);

/* Whether the face can set the character (see face_missing). */
bool face_has(const Face *face, uint32_t code);

/* Whether the face cannot set the whole string. True when there is a character it lacks, and
 * *code is the first. Control characters, combining marks (they would not be placed) and anything
 * above U+FFFF count as lacking, whatever the file says; an invalid sequence gives U+FFFD. */
bool face_missing(const Face *face, const char *string, uint32_t *code);

#endif
