#include "print/pdf.h"

#include "base/date.h"
#include "base/memory.h"
#include "print/canvas.h"
#include "print/check.h"
#include "print/encoder.h"

#include <hpdf.h>
#include <hpdf_info.h>
#include <stdlib.h>

static HPDF_Date library_date(Instant instant) {
    CivilTime time = civil_from_utc(instant);
    return (HPDF_Date){.year = time.date.year,
                       .month = time.date.month,
                       .day = time.date.day,
                       .hour = time.hour,
                       .minutes = time.minute,
                       .seconds = time.second,
                       .ind = 'Z'};
}

static void write_information(HPDF_Doc pdf, const Document *document) {
    const struct {
        HPDF_InfoType type;
        const char *value;
    } entries[] = {
        {HPDF_INFO_TITLE, document->title},
        {HPDF_INFO_AUTHOR, document->author},
        {HPDF_INFO_SUBJECT, document->subject},
        {HPDF_INFO_CREATOR, document->creator},
    };
    for (size_t i = 0; i < sizeof entries / sizeof *entries; i++)
        if (entries[i].value)
            HPDF_SetInfoAttr(pdf, entries[i].type, entries[i].value);
    if (document->dated)
        HPDF_SetInfoDateAttr(pdf, HPDF_INFO_CREATION_DATE, library_date(document->created));
}

/* What the library has no call for: the language of the text, the title in the window's frame and
 * printing at full size (PDF 32000-1, 7.7.2 and 12.2). */
static void write_catalog(HPDF_Doc pdf, const Document *document) {
    HPDF_Dict wishes = HPDF_Dict_New(pdf->mmgr);
    if (!wishes)
        return;
    HPDF_Dict_Add(pdf->catalog, "ViewerPreferences", wishes);
    HPDF_Dict_AddBoolean(wishes, "DisplayDocTitle", HPDF_TRUE);
    if (document->exact_size)
        HPDF_Dict_AddName(wishes, "PrintScaling", "None");
    if (document->language)
        HPDF_Dict_Add(pdf->catalog, "Lang", HPDF_String_New(pdf->mmgr, document->language, NULL));
    pdf->pdf_version = HPDF_VER_16; /* the first with PrintScaling */
}

static HPDF_Destination whole_page(HPDF_Page page) {
    HPDF_Destination destination = HPDF_Page_CreateDestination(page);
    if (destination)
        HPDF_Destination_SetFit(destination);
    return destination;
}

static void write_bookmark(HPDF_Doc pdf, HPDF_Page page, const char *label) {
    HPDF_Encoder encoder = HPDF_GetEncoder(pdf, "UTF-8");
    HPDF_Outline outline = HPDF_CreateOutline(pdf, NULL, label, encoder);
    if (outline)
        HPDF_Outline_SetDestination(outline, whole_page(page));
}

static void write_pages(HPDF_Doc pdf, Arena *arena, const Document *document,
                        const HPDF_Font fonts[FACE_COUNT]) {
    bool bookmarked = document->pages.count > 1;
    Pictures pictures = {.pdf = pdf, .arena = arena};
    for (size_t i = 0; i < document->pages.count; i++) {
        const Page *page = document->pages.items[i];
        HPDF_Page pdf_page = HPDF_AddPage(pdf);
        if (!pdf_page)
            return;
        canvas_draw(pdf_page, page, fonts, &pictures);
        if (i == 0)
            HPDF_SetOpenAction(pdf, whole_page(pdf_page));
        if (bookmarked && page->bookmark)
            write_bookmark(pdf, pdf_page, page->bookmark);
    }
    bool any = HPDF_GetError(pdf) == HPDF_OK && bookmarked && document->pages.items[0]->bookmark;
    HPDF_SetPageMode(pdf, any ? HPDF_PAGE_MODE_USE_OUTLINE : HPDF_PAGE_MODE_USE_NONE);
}

/* Saving to memory, since the library's file writer does not notice a full disk. */
static bool take_bytes(HPDF_Doc pdf, Arena *arena, Bytes *bytes) {
    if (HPDF_SaveToStream(pdf) != HPDF_OK)
        return false;
    size_t size = HPDF_GetStreamSize(pdf);
    bytes->data = arena_take(arena, size + 1, 1);
    bytes->length = 0;
    HPDF_ResetStream(pdf);
    while (bytes->length < size) {
        HPDF_UINT32 count = (HPDF_UINT32)(size - bytes->length);
        HPDF_STATUS status = HPDF_ReadFromStream(pdf, bytes->data + bytes->length, &count);
        bytes->length += count;
        if (count == 0 || (status != HPDF_OK && status != HPDF_STREAM_EOF))
            break;
    }
    return size > 0 && bytes->length == size;
}

static bool write_document(HPDF_Doc pdf, Arena *arena, const Document *document,
                           const FaceSet *faces, EncoderWay way, Bytes *bytes) {
    HPDF_Font fonts[FACE_COUNT];
    HPDF_SetCompressionMode(pdf, HPDF_COMP_ALL);
    if (!encoder_fonts(pdf, arena, document, faces, way, fonts))
        return false;
    write_information(pdf, document);
    write_catalog(pdf, document);
    write_pages(pdf, arena, document, fonts);
    return HPDF_GetError(pdf) == HPDF_OK && take_bytes(pdf, arena, bytes);
}

/* The library goes on after a failed allocation, and crashes: so none may fail. */
static void *take_for_library(HPDF_UINT bytes) {
    return memory_take(bytes);
}

/* What it compresses with takes memory past it, and has nothing else that could go wrong. */
static bool write_with(const Document *document, const FaceSet *faces, EncoderWay way, Arena *arena,
                       Bytes *bytes, const char **error) {
    if (!document_check(arena, document, faces, error))
        return false;
    HPDF_Doc pdf = HPDF_NewEx(NULL, take_for_library, free, 0, NULL);
    if (!pdf)
        memory_none_left();
    bool written = write_document(pdf, arena, document, faces, way, bytes);
    if (!written && HPDF_GetError(pdf) == HPDF_ZLIB_ERROR)
        memory_none_left();
    if (!written)
        *error = arena_format(arena, "the PDF library failed with status 0x%04lX, detail %lu",
                              (unsigned long)HPDF_GetError(pdf),
                              (unsigned long)HPDF_GetErrorDetail(pdf));
    HPDF_Free(pdf);
    return written;
}

bool pdf_write(const Document *document, const FaceSet *faces, Arena *arena, Bytes *bytes,
               const char **error) {
    return write_with(document, faces, ENCODER_BEST, arena, bytes, error);
}

bool pdf_write_stock(const Document *document, const FaceSet *faces, Arena *arena, Bytes *bytes,
                     const char **error) {
    return write_with(document, faces, ENCODER_STOCK, arena, bytes, error);
}
