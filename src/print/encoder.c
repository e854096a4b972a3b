#include "print/encoder.h"

#include "base/memory.h"
#include "base/text.h"
#include "base/utf8.h"
#include "print/subset.h"

#include <hpdf_utils.h>
#include <string.h>

enum { CODES = 0xFFFF, MOST_PER_BLOCK = 100, DECODER_STATE_BYTES = 16 };

static const char ENCODING[] = "UTF-8";

/* The library version whose encoder the sparse way was tried with. */
static const char TRIED_VERSION[] = "2.3.0";

/* The code points that the document's texts ask of a face. `has` is room to note them in. */
static Codes collect_codes(Arena *arena, const Document *document, FaceRole role, bool has[CODES]) {
    memset(has, 0, CODES);
    for (size_t i = 0; i < document->pages.count; i++) {
        const Marks *marks = &document->pages.items[i]->marks;
        for (size_t j = 0; j < marks->count; j++) {
            const TextMark *text = &marks->items[j].as.text;
            if (marks->items[j].kind != MARK_TEXT || text->face != role)
                continue;
            const char *at = text->string;
            uint32_t code;
            while (utf8_next(&at, &code) && code && code < CODES)
                has[code] = true;
        }
    }
    Codes codes = {0};
    for (size_t code = 0; code < CODES; code++)
        if (has[code])
            LIST_ADD(arena, &codes, (uint16_t)code);
    return codes;
}

/* The bytes of a face as a stream that the library reads and seeks in. */
typedef struct FaceStream {
    const uint8_t *bytes;
    size_t length;
    size_t at;
} FaceStream;

static HPDF_STATUS face_stream_read(HPDF_Stream stream, HPDF_BYTE *to, HPDF_UINT *size) {
    FaceStream *face = stream->attr;
    size_t left = face->length - face->at;
    size_t count = *size < left ? *size : left;
    memcpy(to, face->bytes + face->at, count);
    face->at += count;
    bool whole = count == *size;
    *size = (HPDF_UINT)count;
    return whole ? HPDF_OK : HPDF_STREAM_EOF;
}

static HPDF_STATUS face_stream_seek(HPDF_Stream stream, HPDF_INT place, HPDF_WhenceMode mode) {
    FaceStream *face = stream->attr;
    size_t base = mode == HPDF_SEEK_CUR ? face->at : mode == HPDF_SEEK_END ? face->length : 0;
    long long target = (long long)base + place;
    if (target < 0 || (size_t)target > face->length)
        return HPDF_FILE_IO_ERROR;
    face->at = (size_t)target;
    return HPDF_OK;
}

static HPDF_INT32 face_stream_tell(HPDF_Stream stream) {
    const FaceStream *face = stream->attr;
    return (HPDF_INT32)face->at;
}

static HPDF_UINT32 face_stream_size(HPDF_Stream stream) {
    const FaceStream *face = stream->attr;
    return (HPDF_UINT32)face->length;
}

/* Gives the library a face; the result belongs to the document. Each face needs a tag of six
 * capitals before its name, which marks it as a subset (PDF 32000-1, 9.6.4). */
static HPDF_FontDef load_face(HPDF_Doc pdf, Arena *arena, Bytes face, int number) {
    FaceStream *source = ARENA_NEW(arena, FaceStream);
    source->bytes = face.data;
    source->length = face.length;
    HPDF_Stream stream = HPDF_CallbackReader_New(pdf->mmgr, face_stream_read, face_stream_seek,
                                                 face_stream_tell, face_stream_size, source);
    if (!stream)
        return NULL;
    HPDF_FontDef definition = HPDF_TTFontDef_Load(pdf->mmgr, stream, HPDF_TRUE);
    if (!definition)
        return NULL;
    if (HPDF_List_Add(pdf->fontdef_list, definition) != HPDF_OK) {
        HPDF_FontDef_Free(definition);
        return NULL;
    }
    char tag[] = "BRNSHA";
    tag[5] = (char)(tag[5] + number);
    HPDF_TTFontDef_SetTagName(definition, tag);
    return definition;
}

/* The encoder's tables are indexed by the low byte first. */
static void enter(HPDF_CMapEncoderAttr tables, unsigned code, unsigned value) {
    tables->cid_map[code & 0xFF][code >> 8] = (HPDF_UINT16)value;
    tables->unicode_map[code & 0xFF][code >> 8] = (HPDF_UNICODE)value;
}

/* Forgets the ranges that the library enters by itself. */
static void clear_tables(HPDF_CMapEncoderAttr tables) {
    memset(tables->cid_map, 0, sizeof tables->cid_map);
    memset(tables->unicode_map, 0, sizeof tables->unicode_map);
}

/* Enters the code points, or takes them out again. One above the highest is needed, since the
 * library's width and glyph tables stop one short of the highest they see. */
static void fill_tables(HPDF_CMapEncoderAttr tables, const Codes *codes, bool filled) {
    for (size_t i = 0; i < codes->count; i++)
        enter(tables, codes->items[i], filled ? codes->items[i] : 0);
    unsigned above = codes->items[codes->count - 1] + 1u;
    enter(tables, above, filled ? above : 0);
}

/* The map from what is written in the page to Unicode (PDF 32000-1, 9.10.3), here the identity for
 * the code points used, in blocks of at most a hundred. */
static const char *unicode_map(Arena *arena, const Codes *codes) {
    Text map = text_new(arena);
    text_add(&map, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                   "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
                   "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                   "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n");
    for (size_t i = 0; i < codes->count; i++) {
        size_t left = codes->count - i;
        if (i % MOST_PER_BLOCK == 0)
            text_addf(&map, "%zu beginbfchar\n", left < MOST_PER_BLOCK ? left : MOST_PER_BLOCK);
        text_addf(&map, "<%04X> <%04X>\n", codes->items[i], codes->items[i]);
        if (left == 1 || i % MOST_PER_BLOCK == MOST_PER_BLOCK - 1)
            text_add(&map, "endbfchar\n");
    }
    text_add(&map, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    return map.bytes;
}

static HPDF_Font sparse_font(HPDF_Doc pdf, Arena *arena, HPDF_Encoder encoder,
                             HPDF_FontDef definition, const Codes *codes) {
    HPDF_CMapEncoderAttr tables = encoder->attr;
    HPDF_Encoder_ToUnicode_Func decode = encoder->to_unicode_fn;
    fill_tables(tables, codes, true);
    encoder->to_unicode_fn = HPDF_CMapEncoder_ToUnicode;
    HPDF_Font font = HPDF_GetFont(pdf, definition->base_font, ENCODING);
    encoder->to_unicode_fn = decode;
    fill_tables(tables, codes, false);
    /* The library's UTF-8 decoder keeps its state in the first bytes of this table. */
    memset(tables->cid_map, 0, DECODER_STATE_BYTES);
    if (!font)
        return NULL;
    HPDF_FontAttr attributes = font->attr;
    if (attributes->cmap_stream) {
        HPDF_Stream stream = attributes->cmap_stream->stream;
        HPDF_MemStream_FreeData(stream);
        if (HPDF_Stream_WriteStr(stream, unicode_map(arena, codes)) != HPDF_OK)
            return NULL;
    }
    return font;
}

/* What is given to the library: the used part of a face, or the whole where that must be. */
static Bytes face_part(Arena *arena, const Face *face, const Codes *codes, bool reduced) {
    Bytes bytes;
    if (reduced && subset_face(arena, face, codes, &bytes))
        return bytes;
    size_t length;
    const uint8_t *whole = face_bytes(face, &length);
    return (Bytes){(uint8_t *)arena_copy(arena, (const char *)whole, length), length};
}

/* A text as the page's content wants it: two bytes a character, the high one first. In place of the
 * library's own, which does not look whether its malloc gave it anything. The library frees it. */
static char *encode_text(HPDF_Encoder encoder, const char *text, HPDF_UINT length,
                         HPDF_UINT *encoded_length) {
    (void)encoder;
    char *encoded = memory_take((size_t)length * 2);
    char *to = encoded;
    uint32_t code;
    for (const char *at = text; at < text + length && utf8_next(&at, &code) && code;) {
        *to++ = (char)(code >> 8);
        *to++ = (char)(code & 0xFF);
    }
    *encoded_length = (HPDF_UINT)(to - encoded);
    return encoded;
}

bool encoder_fonts(HPDF_Doc pdf, Arena *arena, const Document *document, const FaceSet *faces,
                   EncoderWay way, HPDF_Font fonts[FACE_COUNT]) {
    HPDF_UseUTFEncodings(pdf);
    HPDF_SetCurrentEncoder(pdf, ENCODING);
    HPDF_Encoder encoder = HPDF_GetEncoder(pdf, ENCODING);
    if (!encoder)
        return false;
    encoder->encode_text_fn = encode_text;
    bool sparse = way == ENCODER_BEST && strcmp(HPDF_GetVersion(), TRIED_VERSION) == 0;
    bool *has = ARENA_ARRAY(arena, CODES, bool);
    if (sparse)
        clear_tables(encoder->attr);
    for (int i = 0; i < FACE_COUNT; i++) {
        Codes codes = collect_codes(arena, document, (FaceRole)i, has);
        fonts[i] = NULL;
        if (codes.count == 0)
            continue;
        Bytes face = face_part(arena, faces->faces[i], &codes, way == ENCODER_BEST);
        HPDF_FontDef definition = load_face(pdf, arena, face, i);
        if (!definition)
            return false;
        fonts[i] = sparse ? sparse_font(pdf, arena, encoder, definition, &codes)
                          : HPDF_GetFont(pdf, definition->base_font, ENCODING);
        if (!fonts[i])
            return false;
    }
    return true;
}
