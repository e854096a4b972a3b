/* Faces cut down to what is used: read back by our own reader, and from damaged files. How the
 * glyphs look is compared with the whole face in test_pdf.c. */
#include "print/subset.h"

#include "base/utf8.h"
#include "support/outside.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static Arena *arena;
static const FaceSet *faces;

static int load(void **state) {
    (void)state;
    const char *error = NULL;
    arena = arena_new();
    faces = faces_load(arena, OUTSIDE_FONTS, &error);
    return faces ? 0 : -1;
}

static int unload(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

/* Each character once and ascending, so a string must be written that way. */
static Codes codes_of(Arena *own, const char *string) {
    Codes codes = {0};
    uint32_t code;
    while (utf8_next(&string, &code) && code)
        LIST_ADD(own, &codes, (uint16_t)code);
    return codes;
}

static void what_is_kept_measures_the_same(void **state) {
    (void)state;
    const char *used = " !0123ABCgi°µÅŁźΩЖ–≤≥";
    Codes codes = codes_of(arena, used);
    for (int role = 0; role < FACE_COUNT; role++) {
        const Face *whole = faces->faces[role];
        Bytes bytes;
        const char *error = NULL;
        assert_true(subset_face(arena, whole, &codes, &bytes));
        const Face *part = face_read(arena, bytes.data, bytes.length, &error);
        assert_non_null(part);
        for (size_t i = 0; i < codes.count; i++) {
            assert_true(face_glyph(part, codes.items[i]) != 0);
            assert_int_equal(face_advance(part, codes.items[i]),
                             face_advance(whole, codes.items[i]));
        }
        assert_true(face_cap_height_mm(part, 10) == face_cap_height_mm(whole, 10));
        uint32_t missing = 0;
        assert_true(face_missing(part, "ABD", &missing));
        assert_int_equal(missing, 'D');
        size_t whole_length;
        face_bytes(whole, &whole_length);
        assert_true(bytes.length < whole_length / 5);
    }
}

/* Å is composed of A and a ring: the parts are kept though nobody asked for them. */
static void parts_of_composed_glyphs_are_kept(void **state) {
    (void)state;
    Bytes composed, plain;
    Codes codes = codes_of(arena, "Å");
    assert_true(subset_face(arena, faces->faces[FACE_REGULAR], &codes, &composed));
    codes = codes_of(arena, "A");
    assert_true(subset_face(arena, faces->faces[FACE_REGULAR], &codes, &plain));
    const char *error = NULL;
    const Face *part = face_read(arena, composed.data, composed.length, &error);
    size_t composed_outlines, plain_outlines;
    face_table(part, "glyf", &composed_outlines);
    face_table(face_read(arena, plain.data, plain.length, &error), "glyf", &plain_outlines);
    assert_true(composed_outlines > plain_outlines + 40);
}

static void a_face_without_outlines_is_refused(void **state) {
    (void)state;
    size_t length;
    const uint8_t *bytes = face_bytes(faces->faces[FACE_BOLD], &length);
    uint8_t *copy = arena_take(arena, length, 1);
    memcpy(copy, bytes, length);
    for (size_t at = 12; at < 12 + 16 * 20; at += 16)
        if (memcmp(copy + at, "glyf", 4) == 0)
            memcpy(copy + at, "none", 4);
    const char *error = NULL;
    const Face *face = face_read(arena, copy, length, &error);
    assert_non_null(face);
    Codes codes = codes_of(arena, "A");
    Bytes part;
    assert_false(subset_face(arena, face, &codes, &part));
}

/* xorshift32 with a fixed start: the same damage every time. */
static uint32_t next_random(uint32_t *state) {
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state;
}

static void corrupted_files_are_survived(void **state) {
    (void)state;
    size_t length;
    const uint8_t *bytes = face_bytes(faces->faces[FACE_CONDENSED], &length);
    uint8_t *copy = malloc(length);
    uint32_t random = 20261206;
    int read = 0;
    for (int round = 0; round < 200; round++) {
        Arena *own = arena_new();
        memcpy(copy, bytes, length);
        for (int i = 0; i < 300; i++)
            copy[300 + next_random(&random) % (length - 300)] = (uint8_t)next_random(&random);
        const char *error = NULL;
        Bytes part;
        const Face *face = face_read(own, copy, length, &error);
        Codes codes = codes_of(own, "ABC°ÅÖŁźΩЖ≤≥");
        if (face && subset_face(own, face, &codes, &part))
            read += face_read(own, part.data, part.length, &error) != NULL;
        arena_free(own);
    }
    free(copy);
    assert_true(read > 20); /* else the damage never reached the outlines */
}

/* fontTools, which makes the faces, reads the cut ones with every check sum checked and draws every
 * glyph; it knows the characters that were kept, and no other. */
static void font_tools_find_no_fault(void **state) {
    (void)state;
    const char *folder = outside_folder(arena);
    Codes codes = codes_of(arena, " 0Aaµź≥");
    for (int role = 0; role < FACE_COUNT; role++) {
        Bytes bytes;
        const char *error = NULL;
        const char *path = arena_format(arena, "%s/face-%d.ttf", folder, role);
        assert_true(subset_face(arena, faces->faces[role], &codes, &bytes));
        assert_true(file_write(arena, path, bytes.data, bytes.length, &error));
        int status = -1;
        const char *said =
            outside_run(arena, &status,
                        "/usr/bin/python3 -c '\n"
                        "from fontTools.ttLib import TTFont\n"
                        "from fontTools.pens.recordingPen import RecordingPen\n"
                        "face = TTFont(\"%s\", checkChecksums=2, lazy=False)\n"
                        "for tag in face.keys():\n"
                        "    face[tag]\n"
                        "from fontTools.ttLib.sfnt import calcChecksum\n"
                        "assert calcChecksum(open(\"%s\", \"rb\").read()) == 0xB1B0AFBA\n"
                        "glyphs = face.getGlyphSet()\n"
                        "for name in glyphs.keys():\n"
                        "    glyphs[name].draw(RecordingPen())\n"
                        "print(\"\".join(chr(code) for code in sorted(face.getBestCmap())))'",
                        path, path);
        if (status != 0 || !strstr(said, " 0Aaµź≥"))
            fail_msg("face %d: %s", role, said);
    }
    outside_remove(folder);
}

/* With every character kept, fontTools draws each as the whole face has it, with the same advance
 * and bearing. Cut twice, so that the last glyph that the second cut reads is one that is used. */
static void font_tools_draw_every_character_alike(void **state) {
    (void)state;
    const char *folder = outside_folder(arena);
    for (int role = 0; role < FACE_COUNT; role++) {
        const Face *whole = faces->faces[role];
        Bytes part, all;
        Codes codes = {0};
        for (uint32_t code = 1; code < 0xFFFF; code++)
            if (face_glyph(whole, code))
                LIST_ADD(arena, &codes, (uint16_t)code);
        assert_true(codes.count > 100);
        const char *error = NULL;
        assert_true(subset_face(arena, whole, &codes, &part));
        const Face *once = face_read(arena, part.data, part.length, &error);
        assert_true(once && subset_face(arena, once, &codes, &part));
        const char *part_path = arena_format(arena, "%s/part-%d.ttf", folder, role);
        const char *whole_path = arena_format(arena, "%s/whole-%d.ttf", folder, role);
        const uint8_t *bytes = face_bytes(whole, &all.length);
        assert_true(file_write(arena, part_path, part.data, part.length, &error));
        assert_true(file_write(arena, whole_path, bytes, all.length, &error));
        int status = -1;
        const char *said =
            outside_run(arena, &status,
                        "/usr/bin/python3 -c '\n"
                        "from fontTools.ttLib import TTFont\n"
                        "from fontTools.pens.recordingPen import DecomposingRecordingPen\n"
                        "def drawn(face, code):\n"
                        "    glyphs, name = face.getGlyphSet(), face.getBestCmap()[code]\n"
                        "    pen = DecomposingRecordingPen(glyphs)\n"
                        "    glyphs[name].draw(pen)\n"
                        "    return pen.value, face[\"hmtx\"][name]\n"
                        "part, whole = TTFont(\"%s\"), TTFont(\"%s\")\n"
                        "assert part.getBestCmap().keys() == whole.getBestCmap().keys()\n"
                        "for code in whole.getBestCmap():\n"
                        "    assert drawn(part, code) == drawn(whole, code), hex(code)'",
                        part_path, whole_path);
        if (status != 0)
            fail_msg("face %d: %s", role, said);
    }
    outside_remove(folder);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_kept_measures_the_same),
        cmocka_unit_test(parts_of_composed_glyphs_are_kept),
        cmocka_unit_test(a_face_without_outlines_is_refused),
        cmocka_unit_test(corrupted_files_are_survived),
        cmocka_unit_test(font_tools_find_no_fault),
        cmocka_unit_test(font_tools_draw_every_character_alike),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
