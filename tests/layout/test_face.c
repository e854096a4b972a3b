/* Faces: what is measured against the font file read by another reader, and damaged files. */
#include "layout/face.h"

#include "base/file.h"
#include "support/close.h"
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
    if (!faces)
        print_error("%s\n", error);
    return faces ? 0 : -1;
}

static int unload(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

/* Advances of Roboto 2.138 as fontTools reads them (hmtx, 2048 units an em), floored to 1/1000. */
static void advances_agree_with_another_reader(void **state) {
    (void)state;
    static const struct {
        FaceRole role;
        uint32_t code;
        int units;
    } cases[] = {
        {FACE_REGULAR, 0x0041, 1336},
        {FACE_REGULAR, 0x0030, 1151},
        {FACE_REGULAR, 0x0020, 508},
        {FACE_REGULAR, 0x0067, 1150},
        {FACE_REGULAR, 0x0142, 554},
        {FACE_REGULAR, 0x2264, 1041},
        {FACE_REGULAR, 0x0416, 1859},
        {FACE_REGULAR, 0x2009, 418},
        {FACE_BOLD, 0x0041, 1379},
        {FACE_BOLD, 0x0030, 1175},
        {FACE_BOLD, 0x0020, 510},
        {FACE_BOLD, 0x0067, 1170},
        {FACE_BOLD, 0x0142, 626},
        {FACE_BOLD, 0x2264, 1043},
        {FACE_BOLD, 0x0416, 2044},
        {FACE_BOLD, 0x2009, 418},
        {FACE_MEDIUM, 0x0041, 1363},
        {FACE_MEDIUM, 0x0030, 1164},
        {FACE_MEDIUM, 0x0020, 510},
        {FACE_MEDIUM, 0x0067, 1161},
        {FACE_MEDIUM, 0x0142, 591},
        {FACE_MEDIUM, 0x2264, 1041},
        {FACE_MEDIUM, 0x0416, 1954},
        {FACE_MEDIUM, 0x2009, 418},
        {FACE_CONDENSED, 0x0041, 1181},
        {FACE_CONDENSED, 0x0030, 1011},
        {FACE_CONDENSED, 0x0020, 470},
        {FACE_CONDENSED, 0x0067, 1010},
        {FACE_CONDENSED, 0x0142, 513},
        {FACE_CONDENSED, 0x2264, 913},
        {FACE_CONDENSED, 0x0416, 1620},
        {FACE_CONDENSED, 0x2009, 391},
        {FACE_CONDENSED_BOLD, 0x0041, 1224},
        {FACE_CONDENSED_BOLD, 0x0030, 1036},
        {FACE_CONDENSED_BOLD, 0x0020, 472},
        {FACE_CONDENSED_BOLD, 0x0067, 1031},
        {FACE_CONDENSED_BOLD, 0x0142, 587},
        {FACE_CONDENSED_BOLD, 0x2264, 915},
        {FACE_CONDENSED_BOLD, 0x0416, 1809},
        {FACE_CONDENSED_BOLD, 0x2009, 391},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_int_equal(face_advance(faces->faces[cases[i].role], cases[i].code),
                         cases[i].units * 1000 / 2048);
}

/* OS/2 and hhea of Roboto: capitals 1456, small letters 1082, ascent 1900, descent -500 of 2048,
 * as fontTools reads them. 100 pt are 35.2778 mm. */
static void heights_agree_with_another_reader(void **state) {
    (void)state;
    for (int i = 0; i < FACE_COUNT; i++) {
        const Face *face = faces->faces[i];
        double em_mm = 100 * 25.4 / 72;
        assert_close(face_cap_height_mm(face, 100), em_mm * 1456 / 2048, 1e-9);
    }
}

static void size_for_cap_height_is_the_inverse(void **state) {
    (void)state;
    const Face *face = faces->faces[FACE_BOLD];
    double size_pt = face_size_for_cap_height_pt(face, 9);
    assert_close(face_cap_height_mm(face, size_pt), 9, 1e-12);
    assert_close(size_pt, 35.884, 0.001); /* 9 / 25.4 * 72 * 2048 / 1456 */
}

static void width_is_the_sum_of_advances(void **state) {
    (void)state;
    const Face *face = faces->faces[FACE_REGULAR];
    assert_close(face_width_mm(face, "", 12), 0, 0);
    double letters = face_advance(face, 0x141) + face_advance(face, 0xF3) + face_advance(face, 'd');
    assert_close(face_width_mm(face, "Łód", 12), letters / 1000 * 12 * 25.4 / 72, 1e-12);
}

static void figures_are_tabular(void **state) {
    (void)state;
    for (int i = 0; i < FACE_COUNT; i++)
        for (uint32_t digit = '1'; digit <= '9'; digit++)
            assert_int_equal(face_advance(faces->faces[i], digit),
                             face_advance(faces->faces[i], '0'));
}

static void missing_characters_are_named(void **state) {
    (void)state;
    static const struct {
        const char *string;
        uint32_t code; /* 0: all there */
    } cases[] = {
        {"", 0},
        {"12 µm ≤ 20 °C − ½ “Łódź” Жук Ωμέγα", 0},
        {"thin\u2009and\u202Fnarrow\u00A0spaces", 0},
        {"snow ☃ man", 0x2603},
        {"tick ✓", 0x2713},
        {"שלום", 0x05E9},
        {"سلام", 0x0633},
        {"e\u0301", 0x0301},
        {"tab\there", '\t'},
        {"line\nhere", '\n'},
        {"\xC2\x85", 0x85},
        {"fire \U0001F525", 0x1F525},
        {"cut \xC5", 0xFFFD},
        {"stray \x80", 0xFFFD},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        uint32_t code = 0;
        bool missing = face_missing(faces->faces[FACE_REGULAR], cases[i].string, &code);
        assert_int_equal(missing, cases[i].code != 0);
        assert_int_equal(code, cases[i].code);
    }
}

static void promised_scripts_are_there(void **state) {
    (void)state;
    static const uint32_t ranges[][2] = {{0x20, 0x7E},   {0xA0, 0xFF},   {0x100, 0x17F},
                                         {0x391, 0x3A1}, {0x3A3, 0x3C9}, {0x410, 0x44F}};
    for (int role = 0; role < FACE_COUNT; role++)
        for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++)
            for (uint32_t code = ranges[i][0]; code <= ranges[i][1]; code++)
                if (face_glyph(faces->faces[role], code) == 0)
                    fail_msg("the %s face lacks U+%04X", face_role_name((FaceRole)role), code);
}

static void a_missing_folder_is_named(void **state) {
    (void)state;
    const char *error = NULL;
    assert_null(faces_load(arena, "/nowhere/at-all", &error));
    assert_non_null(strstr(error, "/nowhere/at-all/Roboto-Regular.ttf"));
    assert_non_null(strstr(error, "No such file"));
}

/* Uses a face in every way; under the sanitizers this shows a read beyond its end. */
static void use_face(const uint8_t *bytes, size_t length) {
    static const uint32_t codes[] = {0, 'A', 0xFF, 0x416, 0x2265, 0xFFFF, 0x10000, 0x10FFFF};
    Arena *own = arena_new();
    const char *error = NULL;
    /* A copy of exactly this length, so that a step too far is seen. */
    uint8_t *exact = malloc(length ? length : 1);
    memcpy(exact, bytes, length);
    const Face *face = face_read(own, exact, length, &error);
    assert_true(face || error);
    for (size_t i = 0; face && i < sizeof codes / sizeof *codes; i++) {
        assert_true(face_advance(face, codes[i]) >= 0);
        face_glyph(face, codes[i]);
    }
    if (face)
        face_width_mm(face, "Łódź ≤ Жук", 12);
    free(exact);
    arena_free(own);
}

static void cut_files_are_survived(void **state) {
    (void)state;
    size_t length;
    const uint8_t *bytes = face_bytes(faces->faces[FACE_CONDENSED], &length);
    for (size_t cut = 0; cut < 600; cut++)
        use_face(bytes, cut);
    for (size_t cut = 600; cut < length; cut += 997)
        use_face(bytes, cut);
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
    uint32_t random = 20261205;
    for (int round = 0; round < 400; round++) {
        memcpy(copy, bytes, length);
        for (int i = 0; i < 12; i++) {
            /* Half of the damage goes to the table directory and the first tables. */
            size_t span = i % 2 ? length : 1000;
            copy[next_random(&random) % span] = (uint8_t)next_random(&random);
        }
        use_face(copy, length);
    }
    free(copy);
}

static void put_u16(uint8_t *at, unsigned value) {
    at[0] = (uint8_t)(value >> 8);
    at[1] = (uint8_t)value;
}

static void put_u32(uint8_t *at, uint32_t value) {
    put_u16(at, value >> 16);
    put_u16(at + 2, value & 0xFFFF);
}

/* A face by hand, with a character map of format 12: A, B, C are glyphs 1, 2, 3, of 600, 700 and
 * 700 units (the last width holds for the rest); 1000 units an em. */
static size_t handmade_face(uint8_t bytes[512]) {
    static const struct {
        const char *tag;
        uint32_t offset;
        uint32_t length;
    } tables[] = {{"head", 108, 54}, {"hhea", 164, 36}, {"maxp", 200, 6},
                  {"OS/2", 208, 96}, {"hmtx", 304, 14}, {"cmap", 320, 40}};
    memset(bytes, 0, 512);
    put_u32(bytes, 0x00010000);
    put_u16(bytes + 4, 6);
    for (size_t i = 0; i < 6; i++) {
        uint8_t *record = bytes + 12 + 16 * i;
        memcpy(record, tables[i].tag, 4);
        put_u32(record + 8, tables[i].offset);
        put_u32(record + 12, tables[i].length);
    }
    put_u16(bytes + 108 + 18, 1000);
    put_u16(bytes + 164 + 4, 800);
    put_u16(bytes + 164 + 6, 0x10000 - 200);
    put_u16(bytes + 164 + 34, 3);
    put_u16(bytes + 200 + 4, 4);
    put_u16(bytes + 208 + 86, 500);
    put_u16(bytes + 208 + 88, 700);
    put_u16(bytes + 304, 250);
    put_u16(bytes + 308, 600);
    put_u16(bytes + 312, 700);
    uint8_t *map = bytes + 320;
    put_u16(map + 2, 1);
    put_u16(map + 4, 3);
    put_u16(map + 6, 10);
    put_u32(map + 8, 12);
    put_u16(map + 12, 12);
    put_u32(map + 12 + 4, 28);
    put_u32(map + 12 + 12, 1);
    put_u32(map + 12 + 16, 'A');
    put_u32(map + 12 + 20, 'C');
    put_u32(map + 12 + 24, 1);
    return 360;
}

static void maps_of_groups_are_read(void **state) {
    (void)state;
    uint8_t bytes[512];
    const char *error = NULL;
    size_t length = handmade_face(bytes);
    const Face *face = face_read(arena, bytes, length, &error);
    assert_null(error);
    assert_non_null(face);
    assert_int_equal(face_glyph(face, 'A'), 1);
    assert_int_equal(face_glyph(face, 'C'), 3);
    assert_int_equal(face_glyph(face, 'D'), 0);
    assert_int_equal(face_glyph(face, '@'), 0);
    assert_int_equal(face_advance(face, 'A'), 600);
    assert_int_equal(face_advance(face, 'C'), 700);
    assert_int_equal(face_advance(face, 'Z'), 250);
    assert_close(face_width_mm(face, "ABC", 72), 25.4 * 2.0, 1e-9);
}

static void faults_of_a_face_are_told(void **state) {
    (void)state;
    static const struct {
        size_t at;
        unsigned value;
        const char *fault;
    } cases[] = {
        {0, 0x4F54, "no TrueType"},
        {12, 0, "head, hhea or maxp"},
        {12 + 16 * 3, 0, "OS/2"},
        {12 + 16 * 4, 0, "hmtx"},
        {12 + 16 * 5, 0, "character map"},
        {108 + 18, 0, "units per em"},
        {208 + 88, 0, "no height"},
        {164 + 34, 0, "hmtx"},
        {164 + 34, 5, "hmtx"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        uint8_t bytes[512];
        const char *error = NULL;
        size_t length = handmade_face(bytes);
        put_u16(bytes + cases[i].at, cases[i].value);
        assert_null(face_read(arena, bytes, length, &error));
        assert_non_null(error);
        if (!strstr(error, cases[i].fault))
            fail_msg("'%s' does not tell of '%s'", error, cases[i].fault);
    }
}

/* What is kept of a face by character ends where something else may stand: U+2800 is not kept. */
static void what_is_kept_ends_before_what_follows(void **state) {
    (void)state;
    Arena *own = arena_new();
    size_t length;
    const char *error = NULL;
    const uint8_t *bytes = face_bytes(faces->faces[FACE_REGULAR], &length);
    const Face *face = face_read(own, bytes, length, &error);
    uint8_t *follows = arena_take(own, 16, 1);
    memset(follows, 0xFF, 16);
    for (uint32_t code = 0x27F0; code < 0x2810; code++)
        assert_int_equal(face_has(face, code), face_glyph(face, code) != 0);
    for (size_t i = 0; i < 16; i++)
        assert_int_equal(follows[i], 0xFF);
    arena_free(own);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(advances_agree_with_another_reader),
        cmocka_unit_test(heights_agree_with_another_reader),
        cmocka_unit_test(size_for_cap_height_is_the_inverse),
        cmocka_unit_test(width_is_the_sum_of_advances),
        cmocka_unit_test(figures_are_tabular),
        cmocka_unit_test(missing_characters_are_named),
        cmocka_unit_test(promised_scripts_are_there),
        cmocka_unit_test(a_missing_folder_is_named),
        cmocka_unit_test(cut_files_are_survived),
        cmocka_unit_test(corrupted_files_are_survived),
        cmocka_unit_test(maps_of_groups_are_read),
        cmocka_unit_test(faults_of_a_face_are_told),
        cmocka_unit_test(what_is_kept_ends_before_what_follows),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
