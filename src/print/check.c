#include "print/check.h"

#include "base/utf8.h"

#include <math.h>
#include <string.h>

/* Limits of libharu 2.3.0 (hpdf_consts.h), in points. Larger pages and type are refused by it,
 * larger coordinates silently moved, so all are refused here. */
static const double LEAST_SIDE_PT = 3;
static const double MOST_SIDE_PT = 14400;
static const double MOST_SIZE_PT = 600;
static const double MOST_LINE_PT = 100;
enum { MOST_STRING_BYTES = 16000, MOST_PAGES = 32767 };

/* How far a text may reach over the edge of the paper by rounding alone. */
static const double EDGE_MM = 0.01;

typedef struct Check {
    Arena *arena;
    const FaceSet *faces;
    const Page *page;
    const Mark *mark;
    size_t page_number;
} Check;

static bool clamp(double value, double least, double most) {
    return isfinite(value) && value >= least && value <= most;
}

static bool placed(Point point) {
    double most = MOST_SIDE_PT * MM_PER_PT;
    return clamp(point.x_mm, -most, most) && clamp(point.y_mm, -most, most);
}

static bool printable_ink(Ink ink) {
    return clamp(ink.grey, 0, 1);
}

static const char *missing_fault(Check *check, const TextMark *text, uint32_t code) {
    const char *role = face_role_name(text->face);
    if (code == 0xFFFD && !utf8_valid(text->string))
        return "is not valid UTF-8";
    char character[5];
    utf8_encode(code, character);
    if (code < 0x20 || (code >= 0x7F && code < 0xA0))
        return arena_format(check->arena, "holds the control character U+%04X", code);
    return arena_format(check->arena, "holds U+%04X '%s', which the %s typeface lacks", code,
                        character, role);
}

/* A text that runs off the paper would be cut without a word. */
static bool on_paper(const Check *check, const TextMark *text) {
    double width_mm = face_width_mm(check->faces->faces[text->face], text->string, text->size_pt);
    Point at = text->baseline;
    return at.x_mm >= -EDGE_MM && at.x_mm + width_mm <= check->page->width_mm + EDGE_MM &&
           at.y_mm >= -EDGE_MM && at.y_mm <= check->page->height_mm + EDGE_MM;
}

static const char *text_fault(Check *check, const TextMark *text) {
    uint32_t code;
    if (strlen(text->string) > MOST_STRING_BYTES)
        return "is too long for one line";
    if (face_missing(check->faces->faces[text->face], text->string, &code))
        return missing_fault(check, text, code);
    if (!placed(text->baseline))
        return "has no proper place";
    if (!clamp(text->size_pt, 0.1, MOST_SIZE_PT))
        return arena_format(check->arena, "has the impossible type size %g pt", text->size_pt);
    if (!printable_ink(text->ink))
        return "has an ink outside 0 to 1";
    return on_paper(check, text) ? NULL : "reaches over the edge of the paper";
}

static const char *style_fault(const Style *style) {
    if (!clamp(style->line_mm, 0, MOST_LINE_PT * MM_PER_PT))
        return "has an impossible line width";
    if (!clamp(style->dash_mm, 0, 1000) || !clamp(style->gap_mm, 0, 1000))
        return "has impossible dashes";
    if (!printable_ink(style->fill) || !printable_ink(style->line))
        return "has an ink outside 0 to 1";
    return NULL;
}

static const char *path_fault(const PathMark *path) {
    bool started = false;
    for (size_t i = 0; i < path->steps.count; i++) {
        const Step *step = &path->steps.items[i];
        bool curve = step->kind == STEP_CURVE;
        if (step->kind != STEP_MOVE && !started)
            return "does not begin with a move";
        started = step->kind != STEP_CLOSE;
        if (started && !placed(step->to))
            return "has a point with no proper place";
        if (curve && (!placed(step->control[0]) || !placed(step->control[1])))
            return "has a curve with no proper place";
    }
    return style_fault(&path->style);
}

/* A picture lies where its corner is, within the sides that a page may have. */
static const char *picture_fault(const PictureMark *mark) {
    double most = MOST_SIDE_PT * MM_PER_PT;
    const Picture *picture = mark->picture;
    if (!placed(mark->corner) || !clamp(picture->width_mm, 0, most) ||
        !clamp(picture->height_mm, 0, most))
        return "of a picture has no proper place";
    const char *fault = NULL;
    for (size_t i = 0; i < picture->paths.count && !fault; i++)
        fault = path_fault(&picture->paths.items[i]);
    return fault;
}

static const char *drawn_fault(const Mark *mark) {
    return mark->kind == MARK_PICTURE ? picture_fault(&mark->as.picture)
                                      : path_fault(&mark->as.path);
}

static bool mark_well(Check *check, const char **error) {
    const Mark *mark = check->mark;
    bool text = mark->kind == MARK_TEXT;
    const char *fault = text ? text_fault(check, &mark->as.text) : drawn_fault(mark);
    if (!fault)
        return true;
    const char *subject = text ? mark->as.text.string : "a path";
    const char *quote = text ? "'" : "";
    if (text && !utf8_valid(subject))
        subject = "a text", quote = "";
    *error = arena_format(check->arena, "page %zu, panel '%s': %s%s%s %s", check->page_number,
                          mark->owner ? mark->owner : "none", quote, subject, quote, fault);
    return false;
}

static bool page_well(Check *check, const char **error) {
    const Page *page = check->page;
    double least = LEAST_SIDE_PT * MM_PER_PT;
    double most = MOST_SIDE_PT * MM_PER_PT;
    if (!clamp(page->width_mm, least, most) || !clamp(page->height_mm, least, most)) {
        *error = arena_format(check->arena, "page %zu: impossible paper of %g by %g mm",
                              check->page_number, page->width_mm, page->height_mm);
        return false;
    }
    for (size_t i = 0; i < page->marks.count; i++) {
        check->mark = &page->marks.items[i];
        if (!mark_well(check, error))
            return false;
    }
    return true;
}

static bool words_well(Arena *arena, const Document *document, const char **error) {
    const char *words[] = {document->title, document->author, document->subject, document->creator,
                           document->language};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (words[i] && (!utf8_valid(words[i]) || strlen(words[i]) > MOST_STRING_BYTES)) {
            *error = arena_format(arena, "the document's title, author, subject, creator "
                                         "or language is too long or not valid UTF-8");
            return false;
        }
    for (size_t i = 0; i < document->pages.count; i++) {
        const char *bookmark = document->pages.items[i]->bookmark;
        if (bookmark && (!utf8_valid(bookmark) || strlen(bookmark) > MOST_STRING_BYTES)) {
            *error = arena_format(arena, "page %zu: bookmark too long or not valid UTF-8", i + 1);
            return false;
        }
    }
    return true;
}

bool document_check(Arena *arena, const Document *document, const FaceSet *faces,
                    const char **error) {
    if (document->pages.count == 0 || document->pages.count > MOST_PAGES) {
        *error =
            arena_format(arena, "a document of %zu pages cannot be written", document->pages.count);
        return false;
    }
    if (!words_well(arena, document, error))
        return false;
    Check check = {.arena = arena, .faces = faces};
    for (size_t i = 0; i < document->pages.count; i++) {
        check.page = document->pages.items[i];
        check.page_number = i + 1;
        if (!page_well(&check, error))
            return false;
    }
    return true;
}
