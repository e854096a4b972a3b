#include "print/subset.h"

#include "base/list.h"
#include "base/text.h"

#include <string.h>

/* Table layouts: OpenType specification 1.9, chapters "The OpenType Font File", cmap, glyf, loca
 * and hmtx. */

enum {
    DIRECTORY_HEAD = 12,
    DIRECTORY_RECORD = 16,
    COMPOSITE_HEAD = 10, /* contours and bounding box, before the first part */
    PART_WORDS = 0x0001, /* flags of a part of a composed glyph */
    PART_SCALE = 0x0008,
    PART_MORE = 0x0020,
    PART_TWO_SCALES = 0x0040,
    PART_MATRIX = 0x0080
};

typedef struct Table {
    const uint8_t *bytes;
    size_t length;
} Table;

typedef LIST_OF(uint16_t) Glyphs;

typedef struct Subset {
    Arena *arena;
    const Face *face;
    Table outlines; /* glyf */
    Table offsets;  /* loca */
    Table widths;   /* hmtx */
    bool long_offsets;
    unsigned width_count;
    unsigned glyph_count;
    Glyphs kept;      /* glyph numbers of the whole face, by their new number */
    uint16_t *number; /* new number of a glyph of the whole face; 0 for none */
} Subset;

static unsigned read_u16(Table table, size_t at) {
    return at + 2 <= table.length ? (unsigned)table.bytes[at] << 8 | table.bytes[at + 1] : 0;
}

static uint32_t read_u32(Table table, size_t at) {
    return (uint32_t)read_u16(table, at) << 16 | read_u16(table, at + 2);
}

static void put_u16(uint8_t *at, unsigned value) {
    at[0] = (uint8_t)(value >> 8);
    at[1] = (uint8_t)value;
}

static void add_u16(Text *text, unsigned value) {
    char bytes[] = {(char)(value >> 8 & 0xFF), (char)(value & 0xFF)};
    text_add_bytes(text, bytes, 2);
}

static void add_u32(Text *text, uint32_t value) {
    add_u16(text, value >> 16);
    add_u16(text, value & 0xFFFF);
}

static Table find(const Face *face, const char *tag) {
    Table table;
    table.bytes = face_table(face, tag, &table.length);
    return table;
}

static Table text_table(const Text *text) {
    return (Table){(const uint8_t *)text->bytes, text->length};
}

/* A copy that may be changed. */
static uint8_t *copied(Arena *arena, Table table) {
    return (uint8_t *)arena_copy(arena, (const char *)table.bytes, table.length);
}

/* The new number of a glyph, which is kept from now on. */
static uint16_t keep(Subset *subset, unsigned glyph) {
    if (glyph == 0 || glyph >= subset->glyph_count)
        return 0;
    if (subset->number[glyph])
        return subset->number[glyph];
    subset->number[glyph] = (uint16_t)subset->kept.count;
    LIST_ADD(subset->arena, &subset->kept, (uint16_t)glyph);
    return subset->number[glyph];
}

static Table outline(const Subset *subset, unsigned glyph) {
    size_t at = glyph;
    bool wide = subset->long_offsets;
    size_t from = wide ? read_u32(subset->offsets, 4 * at) : 2 * read_u16(subset->offsets, 2 * at);
    size_t to = wide ? read_u32(subset->offsets, 4 * at + 4)
                     : 2 * read_u16(subset->offsets, 2 * at + 2);
    if (from >= to || to > subset->outlines.length)
        return (Table){0};
    return (Table){subset->outlines.bytes + from, to - from};
}

/* Keeps the parts of a composed glyph and names them by their new numbers, in `outline`. */
static void keep_parts(Subset *subset, uint8_t *bytes, size_t length) {
    Table glyph = {bytes, length};
    bool composed = length >= COMPOSITE_HEAD && read_u16(glyph, 0) >= 0x8000;
    size_t at = COMPOSITE_HEAD;
    while (composed && at + 4 <= length) {
        unsigned flags = read_u16(glyph, at);
        put_u16(bytes + at + 2, keep(subset, read_u16(glyph, at + 2)));
        at += flags & PART_WORDS ? 8 : 6;
        at += flags & PART_SCALE ? 2 : flags & PART_TWO_SCALES ? 4 : flags & PART_MATRIX ? 8 : 0;
        composed = flags & PART_MORE;
    }
}

/* glyf and loca. The list of kept glyphs grows while it is walked. */
static void write_outlines(Subset *subset, Text *glyf, Text *loca) {
    for (size_t i = 0; i < subset->kept.count; i++) {
        Table whole = outline(subset, subset->kept.items[i]);
        add_u32(loca, (uint32_t)glyf->length);
        if (whole.length == 0)
            continue;
        uint8_t *bytes = copied(subset->arena, whole);
        keep_parts(subset, bytes, whole.length);
        text_add_bytes(glyf, (const char *)bytes, whole.length);
        while (glyf->length % 4)
            text_add_bytes(glyf, "", 1);
    }
    add_u32(loca, (uint32_t)glyf->length);
}

static void write_widths(const Subset *subset, Text *hmtx) {
    for (size_t i = 0; i < subset->kept.count; i++) {
        size_t glyph = subset->kept.items[i];
        size_t last = subset->width_count - 1;
        size_t bearing = glyph <= last ? 4 * glyph + 2 : 4 * last + 4 + 2 * (glyph - last - 1);
        add_u16(hmtx, read_u16(subset->widths, 4 * (glyph <= last ? glyph : last)));
        add_u16(hmtx, read_u16(subset->widths, bearing));
    }
}

typedef struct Segment {
    unsigned start;
    unsigned end;
    unsigned delta; /* from code point to glyph number, modulo 65536 */
} Segment;

typedef LIST_OF(Segment) Segments;

/* Runs of code points whose glyphs follow each other too, closed by the run that must be last. */
static Segments segments(const Subset *subset, const Codes *codes) {
    Segments list = {0};
    for (size_t i = 0; i < codes->count; i++) {
        unsigned code = codes->items[i];
        unsigned glyph = subset->number[face_glyph(subset->face, code)];
        if (glyph == 0)
            continue;
        unsigned delta = (glyph - code) & 0xFFFF;
        Segment *last = list.count ? &list.items[list.count - 1] : NULL;
        if (last && last->end + 1 == code && last->delta == delta)
            last->end = code;
        else
            LIST_ADD(subset->arena, &list, (Segment){code, code, delta});
    }
    LIST_ADD(subset->arena, &list, (Segment){0xFFFF, 0xFFFF, 1});
    return list;
}

/* What binary searches are prepared with: the largest power of two within the count, twice. */
static void add_search(Text *text, unsigned count, unsigned unit) {
    unsigned power = 1;
    unsigned exponent = 0;
    while (power * 2 <= count) {
        power *= 2;
        exponent++;
    }
    add_u16(text, power * unit);
    add_u16(text, exponent);
    add_u16(text, (count - power) * unit);
}

/* cmap with one subtable of format 4 for Unicode. */
static void write_map(const Subset *subset, const Codes *codes, Text *cmap) {
    Segments list = segments(subset, codes);
    unsigned count = (unsigned)list.count;
    add_u16(cmap, 0);
    add_u16(cmap, 1);
    add_u16(cmap, 3);
    add_u16(cmap, 1);
    add_u32(cmap, 12);
    add_u16(cmap, 4);
    add_u16(cmap, 16 + 8 * count);
    add_u16(cmap, 0);
    add_u16(cmap, 2 * count);
    add_search(cmap, count, 2);
    for (unsigned i = 0; i < count; i++)
        add_u16(cmap, list.items[i].end);
    add_u16(cmap, 0);
    for (unsigned i = 0; i < count; i++)
        add_u16(cmap, list.items[i].start);
    for (unsigned i = 0; i < count; i++)
        add_u16(cmap, list.items[i].delta);
    for (unsigned i = 0; i < count; i++)
        add_u16(cmap, 0);
}

/* A copy of a table with one 16-bit field set anew. */
static Table with_field(Arena *arena, Table table, size_t at, unsigned value) {
    if (at + 2 > table.length)
        return (Table){0};
    uint8_t *bytes = copied(arena, table);
    put_u16(bytes + at, value);
    return (Table){bytes, table.length};
}

static uint32_t check_sum(Table table) {
    uint32_t sum = 0;
    for (size_t at = 0; at < table.length; at++)
        sum += (uint32_t)table.bytes[at] << (24 - 8 * (at % 4));
    return sum;
}

typedef struct NamedTable {
    const char *tag;
    Table table;
} NamedTable;

/* The sum of the whole file is a fixed number by the value of one field of `head`, which counts as
 * zero while sums are made (OpenType, table head). */
enum { HEAD_ADJUSTMENT_AT = 8, HEAD_OFFSETS_AT = 50 };
#define WHOLE_SUM 0xB1B0AFBAu

static Table head_unadjusted(Arena *arena, const Face *face) {
    Table head = with_field(arena, find(face, "head"), HEAD_OFFSETS_AT, 1);
    head = with_field(arena, head, HEAD_ADJUSTMENT_AT, 0);
    return with_field(arena, head, HEAD_ADJUSTMENT_AT + 2, 0);
}

static void adjust_head(Bytes file, size_t head_at) {
    uint32_t adjustment = WHOLE_SUM - check_sum((Table){file.data, file.length});
    put_u16(file.data + head_at + HEAD_ADJUSTMENT_AT, adjustment >> 16);
    put_u16(file.data + head_at + HEAD_ADJUSTMENT_AT + 2, adjustment & 0xFFFF);
}

/* The file: a directory and the tables, each on a multiple of four bytes. */
static Bytes assemble(Arena *arena, const NamedTable *tables, unsigned count) {
    Text file = text_new(arena);
    add_u32(&file, 0x00010000);
    add_u16(&file, count);
    add_search(&file, count, DIRECTORY_RECORD);
    size_t offset = DIRECTORY_HEAD + (size_t)count * DIRECTORY_RECORD;
    for (unsigned i = 0; i < count; i++) {
        Table table = tables[i].table;
        text_add_bytes(&file, tables[i].tag, 4);
        add_u32(&file, check_sum(table));
        add_u32(&file, (uint32_t)offset);
        add_u32(&file, (uint32_t)table.length);
        offset += (table.length + 3) / 4 * 4;
    }
    size_t head_at = 0;
    for (unsigned i = 0; i < count; i++) {
        head_at = strcmp(tables[i].tag, "head") ? head_at : file.length;
        text_add_bytes(&file, (const char *)tables[i].table.bytes, tables[i].table.length);
        while (file.length % 4)
            text_add_bytes(&file, "", 1);
    }
    Bytes whole = {(uint8_t *)file.bytes, file.length};
    adjust_head(whole, head_at);
    return whole;
}

static Subset begin(Arena *arena, const Face *face, const Codes *codes) {
    Subset subset = {.arena = arena,
                     .face = face,
                     .outlines = find(face, "glyf"),
                     .offsets = find(face, "loca"),
                     .widths = find(face, "hmtx"),
                     .long_offsets = read_u16(find(face, "head"), 50) != 0,
                     .width_count = read_u16(find(face, "hhea"), 34),
                     .glyph_count = read_u16(find(face, "maxp"), 4)};
    subset.number = ARENA_ARRAY(arena, subset.glyph_count, uint16_t);
    LIST_ADD(arena, &subset.kept, 0); /* the glyph for what is missing comes first */
    for (size_t i = 0; i < codes->count; i++)
        keep(&subset, face_glyph(face, codes->items[i]));
    return subset;
}

bool subset_face(Arena *arena, const Face *face, const Codes *codes, Bytes *bytes) {
    Subset subset = begin(arena, face, codes);
    Text glyf = text_new(arena), loca = text_new(arena), hmtx = text_new(arena),
         cmap = text_new(arena);
    write_outlines(&subset, &glyf, &loca);
    write_widths(&subset, &hmtx);
    write_map(&subset, codes, &cmap);
    unsigned count = (unsigned)subset.kept.count;
    const NamedTable tables[] = {
        {"OS/2", find(face, "OS/2")},
        {"cmap", text_table(&cmap)},
        {"glyf", text_table(&glyf)},
        {"head", head_unadjusted(arena, face)},
        {"hhea", with_field(arena, find(face, "hhea"), 34, count)},
        {"hmtx", text_table(&hmtx)},
        {"loca", text_table(&loca)},
        {"maxp", with_field(arena, find(face, "maxp"), 4, count)},
        {"name", find(face, "name")},
        {"post", find(face, "post")},
    };
    unsigned table_count = sizeof tables / sizeof *tables;
    for (unsigned i = 0; i < table_count; i++)
        if (tables[i].table.length == 0)
            return false;
    *bytes = assemble(arena, tables, table_count);
    return true;
}
