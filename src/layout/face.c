#include "layout/face.h"

#include "base/file.h"
#include "base/utf8.h"

#include <string.h>

/* Table layouts: OpenType specification 1.9, chapters cmap, head, hhea, hmtx, maxp and OS/2. */

enum {
    MOST_FACE_BYTES = 8 * 1024 * 1024,
    MOST_TABLES = 64,
    HEAD_LENGTH = 54,
    HHEA_LENGTH = 36,
    MAXP_LENGTH = 6,
    OS2_LENGTH_WITH_HEIGHTS = 90, /* version 2 and later */
    LONG_METRIC = 4,
    PER_EM = 1000,
    KEPT_CODES = 0x2800 /* letters, punctuation, arrows, signs */
};

typedef struct Slice {
    const uint8_t *bytes;
    size_t length;
} Slice;

struct Face {
    Slice file;
    Slice widths; /* hmtx */
    Slice map;    /* the chosen subtable of cmap */
    unsigned map_format;
    unsigned units_per_em;
    unsigned glyph_count;
    unsigned width_count;
    int cap_height;
    int x_height;
    /* Found so far, by code; 0: not asked for yet. */
    uint16_t *kept; /* advances, plus one */
    int8_t *lacks;  /* -1: it has the character, 1: it lacks it */
};

typedef struct RoleEntry {
    const char *name;
    const char *file;
} RoleEntry;

static const RoleEntry ROLES[FACE_COUNT] = {
    [FACE_REGULAR] = {"regular", "Roboto-Regular.ttf"},
    [FACE_BOLD] = {"bold", "Roboto-Bold.ttf"},
    [FACE_MEDIUM] = {"medium", "Roboto-Medium.ttf"},
    [FACE_CONDENSED] = {"condensed", "RobotoCondensed-Regular.ttf"},
    [FACE_CONDENSED_BOLD] = {"condensed-bold", "RobotoCondensed-Bold.ttf"},
};

/* Big-endian numbers; 0 beyond the end, so that a lookup can never leave the file. */
static unsigned read_u16(Slice slice, size_t at) {
    if (at + 2 > slice.length || at + 2 < at)
        return 0;
    return (unsigned)slice.bytes[at] << 8 | slice.bytes[at + 1];
}

static uint32_t read_u32(Slice slice, size_t at) {
    return (uint32_t)read_u16(slice, at) << 16 | read_u16(slice, at + 2);
}

static int read_i16(Slice slice, size_t at) {
    int value = (int)read_u16(slice, at);
    return value < 0x8000 ? value : value - 0x10000;
}

/* The part of a slice from `offset`, no longer than `length`; empty when it would leave it. */
static Slice slice_part(Slice slice, size_t offset, size_t length) {
    if (offset > slice.length || length > slice.length - offset)
        return (Slice){0};
    return (Slice){slice.bytes + offset, length};
}

static Slice find_table(Slice file, const char *tag) {
    unsigned count = read_u16(file, 4);
    for (unsigned i = 0; i < count && i < MOST_TABLES; i++) {
        Slice record = slice_part(file, 12 + 16 * (size_t)i, 16);
        if (record.length && memcmp(record.bytes, tag, 4) == 0)
            return slice_part(file, read_u32(record, 8), read_u32(record, 12));
    }
    return (Slice){0};
}

/* Picks a Unicode subtable: format 4 where there is one, since nothing above U+FFFF is set. */
static bool choose_map(Face *face, Slice table) {
    unsigned count = read_u16(table, 2);
    for (unsigned i = 0; i < count && i < MOST_TABLES; i++) {
        size_t record = 4 + 8 * (size_t)i;
        unsigned platform = read_u16(table, record);
        unsigned encoding = read_u16(table, record + 2);
        bool unicode = platform == 0 || (platform == 3 && (encoding == 1 || encoding == 10));
        size_t offset = read_u32(table, record + 4);
        if (!unicode || offset >= table.length)
            continue;
        Slice map = slice_part(table, offset, table.length - offset);
        unsigned format = read_u16(map, 0);
        if (format == 4 || (format == 12 && face->map_format != 4)) {
            face->map = map;
            face->map_format = format;
        }
    }
    return face->map_format != 0;
}

static const char *read_metrics(Face *face) {
    Slice head = find_table(face->file, "head");
    Slice hhea = find_table(face->file, "hhea");
    Slice maxp = find_table(face->file, "maxp");
    Slice os2 = find_table(face->file, "OS/2");
    if (head.length < HEAD_LENGTH || hhea.length < HHEA_LENGTH || maxp.length < MAXP_LENGTH)
        return "has no whole head, hhea or maxp table";
    if (os2.length < OS2_LENGTH_WITH_HEIGHTS)
        return "has no OS/2 table with the height of capitals";
    face->units_per_em = read_u16(head, 18);
    face->width_count = read_u16(hhea, 34);
    face->glyph_count = read_u16(maxp, 4);
    face->cap_height = read_i16(os2, 88);
    face->x_height = read_i16(os2, 86);
    if (face->units_per_em < 16 || face->units_per_em > 16384)
        return "has an impossible number of units per em";
    if (face->cap_height <= 0)
        return "has capitals of no height";
    return NULL;
}

static const char *read_tables(Face *face) {
    uint32_t version = read_u32(face->file, 0);
    if (version != 0x00010000 && version != 0x74727565) /* 1.0, or 'true' */
        return "is no TrueType file";
    const char *fault = read_metrics(face);
    if (fault)
        return fault;
    face->widths = find_table(face->file, "hmtx");
    if (face->width_count == 0 || face->width_count > face->glyph_count ||
        face->widths.length < (size_t)face->width_count * LONG_METRIC)
        return "has no whole hmtx table";
    if (!choose_map(face, find_table(face->file, "cmap")))
        return "has no Unicode character map";
    return NULL;
}

const Face *face_read(Arena *arena, const uint8_t *bytes, size_t length, const char **error) {
    Face *face = ARENA_NEW(arena, Face);
    face->file = (Slice){bytes, length};
    face->kept = ARENA_ARRAY(arena, KEPT_CODES, uint16_t);
    face->lacks = ARENA_ARRAY(arena, KEPT_CODES, int8_t);
    *error = read_tables(face);
    return *error ? NULL : face;
}

const uint8_t *face_bytes(const Face *face, size_t *length) {
    *length = face->file.length;
    return face->file.bytes;
}

const uint8_t *face_table(const Face *face, const char *tag, size_t *length) {
    Slice table = find_table(face->file, tag);
    *length = table.length;
    return table.bytes;
}

/* Number of the first item, of `count` spaced `stride` apart, whose end code reaches `code`. */
static size_t first_reaching(Slice map, size_t ends, size_t stride, size_t count, uint32_t code) {
    size_t low = 0;
    while (low < count) {
        size_t middle = low + (count - low) / 2;
        size_t at = ends + middle * stride;
        uint32_t end = stride == 2 ? read_u16(map, at) : read_u32(map, at);
        if (end < code)
            low = middle + 1;
        else
            count = middle;
    }
    return low;
}

static unsigned glyph_by_segments(Slice map, uint32_t code) {
    size_t count = read_u16(map, 6) / 2;
    size_t segment = first_reaching(map, 14, 2, count, code);
    size_t start_at = 16 + 2 * count + 2 * segment;
    unsigned start = read_u16(map, start_at);
    if (code > 0xFFFF || segment >= count || code < start)
        return 0;
    unsigned delta = read_u16(map, start_at + 2 * count);
    size_t offset_at = start_at + 4 * count;
    unsigned offset = read_u16(map, offset_at);
    if (offset == 0)
        return (code + delta) & 0xFFFF;
    unsigned glyph = read_u16(map, offset_at + offset + 2 * (size_t)(code - start));
    return glyph ? (glyph + delta) & 0xFFFF : 0;
}

static unsigned glyph_by_groups(Slice map, uint32_t code) {
    size_t count = read_u32(map, 12);
    if (count > map.length / 12)
        return 0;
    size_t group = first_reaching(map, 20, 12, count, code);
    uint32_t start = read_u32(map, 16 + 12 * group);
    if (group >= count || code < start)
        return 0;
    uint32_t glyph = read_u32(map, 24 + 12 * group) + (code - start);
    return glyph > 0xFFFF ? 0 : glyph;
}

uint16_t face_glyph(const Face *face, uint32_t code) {
    unsigned glyph = face->map_format == 4 ? glyph_by_segments(face->map, code)
                                           : glyph_by_groups(face->map, code);
    return glyph < face->glyph_count ? (uint16_t)glyph : 0;
}

static int find_advance(const Face *face, uint32_t code) {
    unsigned glyph = face_glyph(face, code);
    unsigned metric = glyph < face->width_count ? glyph : face->width_count - 1;
    unsigned width = read_u16(face->widths, (size_t)metric * LONG_METRIC);
    return (int)(width * PER_EM / face->units_per_em);
}

int face_advance(const Face *face, uint32_t code) {
    if (code >= KEPT_CODES)
        return find_advance(face, code);
    if (!face->kept[code]) {
        int found = find_advance(face, code);
        if (found >= UINT16_MAX)
            return found;
        face->kept[code] = (uint16_t)(found + 1);
    }
    return face->kept[code] - 1;
}

double face_width_mm(const Face *face, const char *string, double size_pt) {
    long thousandths = 0;
    uint32_t code;
    while (utf8_next(&string, &code) && code)
        thousandths += face_advance(face, code);
    return (double)thousandths / PER_EM * size_pt * MM_PER_PT;
}

static double in_mm(const Face *face, int units, double size_pt) {
    return (double)units / face->units_per_em * size_pt * MM_PER_PT;
}

double face_cap_height_mm(const Face *face, double size_pt) {
    return in_mm(face, face->cap_height, size_pt);
}

/* Where a file does not say, half the capitals: lower than any small letters are. */
double face_size_for_x_height_pt(const Face *face, double x_height_mm) {
    int x_height = face->x_height > 0 ? face->x_height : face->cap_height / 2;
    return x_height_mm / in_mm(face, x_height, 1);
}

double face_size_for_cap_height_pt(const Face *face, double cap_height_mm) {
    return cap_height_mm / in_mm(face, face->cap_height, 1);
}

/* Characters that a glyph alone does not set: controls, marks that combine with the letter before
 * (the blocks named so in Unicode 15), and those that libharu cannot encode. */
static bool cannot_be_set(uint32_t code) {
    bool control = code < 0x20 || (code >= 0x7F && code < 0xA0);
    bool combining = (code >= 0x0300 && code <= 0x036F) || (code >= 0x0483 && code <= 0x0489) ||
                     (code >= 0x1AB0 && code <= 0x1AFF) || (code >= 0x1DC0 && code <= 0x1DFF) ||
                     (code >= 0x20D0 && code <= 0x20FF) || (code >= 0xFE20 && code <= 0xFE2F);
    return control || combining || code >= 0xFFFF;
}

bool face_has(const Face *face, uint32_t code) {
    if (code < KEPT_CODES && face->lacks[code] != 0)
        return face->lacks[code] < 0;
    bool has = !cannot_be_set(code) && face_glyph(face, code) != 0;
    if (code < KEPT_CODES)
        face->lacks[code] = has ? -1 : 1;
    return has;
}

bool face_missing(const Face *face, const char *string, uint32_t *code) {
    uint32_t next;
    for (;;) {
        if (!utf8_next(&string, &next)) {
            *code = 0xFFFD;
            return true;
        }
        if (next == 0)
            return false;
        if (!face_has(face, next)) {
            *code = next;
            return true;
        }
    }
}

const char *face_role_name(FaceRole role) {
    return ROLES[role].name;
}

const FaceSet *faces_load(Arena *arena, const char *directory, const char **error) {
    FaceSet *set = ARENA_NEW(arena, FaceSet);
    for (int i = 0; i < FACE_COUNT; i++) {
        const char *path = arena_format(arena, "%s/%s", directory, ROLES[i].file);
        Bytes bytes;
        if (!file_read(arena, path, MOST_FACE_BYTES, &bytes, error))
            return NULL;
        const char *fault;
        set->faces[i] = face_read(arena, bytes.data, bytes.length, &fault);
        if (!set->faces[i]) {
            *error = arena_format(arena, "typeface '%s' %s", path, fault);
            return NULL;
        }
    }
    return set;
}
