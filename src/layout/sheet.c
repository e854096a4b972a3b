#include "layout/sheet.h"

#include "base/utf8.h"
#include "layout/fit.h"
#include "layout/setting.h"

enum { SHOWN_CHARACTERS = 60 };

typedef struct PaperSize {
    double width_mm;
    double height_mm;
} PaperSize;

/* ISO 216 A4; ANSI/ASME Y14.1 A, 8.5 by 11 inches. */
static PaperSize paper_size(Paper paper) {
    return paper == PAPER_LETTER ? (PaperSize){215.9, 279.4} : (PaperSize){210, 297};
}

static Box type_area(const Template *template, PaperSize paper) {
    double margin_mm = template->margin_mm;
    return (Box){margin_mm, margin_mm, paper.width_mm - 2 * margin_mm,
                 paper.height_mm - 2 * margin_mm};
}

static Setting setting_new(const Template *template, const Plan *plan, const FieldGroup *fields,
                           const Locale *locale, const FaceSet *faces, Document *document,
                           Diagnostics *diagnostics) {
    Setting setting = {.template = template,
                       .plan = plan,
                       .fields = fields,
                       .locale = locale,
                       .document = document,
                       .diagnostics = diagnostics,
                       .rows_apart_mm = template->rows_apart_mm,
                       .dropped = ARENA_ARRAY(document->arena, template->panels.count, int),
                       .pen = {.arena = document->arena, .faces = faces, .ink = ink_black()}};
    for (int role = 0; role < TEXT_COUNT; role++) {
        const TextRange *range = &template->texts[role];
        setting.texts[role] = (TextStyle){range->face, range->size_pt, range->leading};
    }
    return setting;
}

/* The start of a text, for a message: without switches of face, cut at a whole character. */
static const char *shown(Arena *arena, const char *string) {
    Text text = text_new(arena);
    int count = 0;
    while (*string) {
        const char *start = string;
        uint32_t code = 0;
        if (!utf8_next(&string, &code))
            string++;
        if (code == (uint32_t)WRAP_STRONG || code == (uint32_t)WRAP_PLAIN)
            continue;
        if (++count > SHOWN_CHARACTERS) {
            text_add(&text, "…");
            break;
        }
        text_add_bytes(&text, start, (size_t)(string - start));
    }
    return text.bytes;
}

static void report_overflow(const Setting *setting, double over_mm) {
    const Batch *batch = setting->plan->batch;
    const LongText *longest = &setting->pen.longest;
    Arena *arena = setting->pen.arena;
    const char *remedy = arena_format(
        arena, "the longest text is '%s' in panel '%s'; shorten it, or take a panel out of %s",
        shown(arena, longest->string ? longest->string : ""), longest->owner ? longest->owner : "",
        setting->template->file);
    report_error(setting->diagnostics, batch->place, remedy,
                 "the sheet of '%s' is %.1f mm too long for its page", batch->name, over_mm);
}

/* Reports the characters that a face lacks; an empty box would be printed in their place. */
static bool letters_known(const Page *page, const Setting *setting) {
    bool known = true;
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        uint32_t code = 0;
        if (mark->kind != MARK_TEXT || !face_missing(setting->pen.faces->faces[mark->as.text.face],
                                                     mark->as.text.string, &code))
            continue;
        char letter[5] = "";
        utf8_encode(code, letter);
        report_error(setting->diagnostics, setting->plan->batch->place,
                     "write it with Latin, Greek or Cyrillic letters",
                     "the typeface has no '%s' (U+%04X), needed for '%s' in panel '%s'", letter,
                     (unsigned)code, shown(setting->pen.arena, mark->as.text.string), mark->owner);
        known = false;
    }
    return known;
}

bool sheet_lay_out(const Template *template, const Plan *plan, const FieldGroup *fields,
                   const Locale *locale, const FaceSet *faces, Document *document,
                   Diagnostics *diagnostics) {
    size_t errors = diagnostics_errors(diagnostics, NULL);
    Setting setting = setting_new(template, plan, fields, locale, faces, document, diagnostics);
    PaperSize paper = paper_size(plan->workshop->paper);
    Box area = type_area(template, paper);
    double over_mm = fit_give_way(&setting, area);
    if (diagnostics_errors(diagnostics, NULL) != errors)
        return false;
    if (over_mm > 0) {
        report_overflow(&setting, over_mm);
        return false;
    }
    Page *page = document_page(document, paper.width_mm, paper.height_mm);
    page->bookmark = plan->batch->name;
    setting.pen.page = page;
    fit_draw(&setting, area);
    if (letters_known(page, &setting) && diagnostics_errors(diagnostics, NULL) == errors)
        return true;
    document->pages.count--;
    return false;
}
