/* Cautions, conditions of the product, remedies, and the footer. */
#include "domain/word.h"
#include "layout/panel.h"

#include <math.h>
#include <string.h>

#define BAR_MM 1.2 /* heavy rule beside a caution */
#define GAP_MM 1.4
#define COLUMN_MM 43.0 /* least width of one of several columns */
#define COLUMNS_APART_MM 5.0
#define ROW_GAP_MM 1.2
#define NUMBER_MM 5.0
#define SIGN_LINES 1.45 /* size of a triangle, in lines of text */

enum { MOST_COLUMNS = 4 };

typedef double (*DrawItem)(Setting *setting, const Panel *panel, size_t item, Box box);

/* A list of items and how each is drawn. */
typedef struct Items {
    const Panel *panel;
    const size_t *indices;
    size_t count;
    DrawItem draw;
} Items;

/* Draws items row by row in so many columns; returns the height. */
static double draw_rows(Setting *setting, const Items *items, size_t columns, Box box) {
    double apart_mm = COLUMNS_APART_MM * (double)(columns - 1);
    double width_mm = (box.width_mm - apart_mm) / (double)columns;
    double y_mm = box.y_mm;
    for (size_t first = 0; first < items->count; first += columns) {
        double height_mm = 0;
        for (size_t i = first; i < items->count && i < first + columns; i++) {
            double x_mm = box.x_mm + (double)(i - first) * (width_mm + COLUMNS_APART_MM);
            height_mm = fmax(height_mm, items->draw(setting, items->panel, items->indices[i],
                                                    (Box){x_mm, y_mm, width_mm, 0}));
        }
        y_mm += height_mm + (first + columns < items->count ? ROW_GAP_MM : 0);
    }
    return y_mm - box.y_mm;
}

/* Draws items in the number of columns that takes the least height; where two take the same, in
 * the fewer. Returns the height. */
static double draw_in_columns(Setting *setting, const Items *items, Box box) {
    size_t most =
        (size_t)fmax(floor((box.width_mm + COLUMNS_APART_MM) / (COLUMN_MM + COLUMNS_APART_MM)), 1);
    most = most > MOST_COLUMNS ? MOST_COLUMNS : most;
    most = most > items->count && items->count > 0 ? items->count : most;
    Page *page = setting->pen.page;
    setting->pen.page = NULL;
    size_t best = 1;
    double best_mm = INFINITY;
    for (size_t columns = 1; columns <= most; columns++) {
        double height_mm = draw_rows(setting, items, columns, box);
        if (height_mm < best_mm - 0.01) {
            best_mm = height_mm;
            best = columns;
        }
    }
    setting->pen.page = page;
    return draw_rows(setting, items, best, box);
}

/* ---- Cautions ---- */

static bool is_listed(const Panel *panel, const char *key) {
    for (size_t i = 0; i < panel->only.count; i++)
        if (strcmp(panel->only.items[i], key) == 0)
            return true;
    return false;
}

/* Whether another panel of the sheet, shown on this plan, has asked for the caution by name. */
static bool is_taken(Setting *setting, const Panel *panel, const char *key) {
    for (size_t i = 0; i < setting->template->panels.count; i++) {
        const Panel *other = setting->template->panels.items[i];
        if (other != panel && other->kind == PANEL_CAUTIONS && is_listed(other, key) &&
            panel_shown(setting, other))
            return true;
    }
    return false;
}

static size_t gather_cautions(Setting *setting, const Panel *panel, size_t *items) {
    size_t count = 0;
    for (size_t i = 0; i < setting->plan->cautions.count; i++) {
        const char *key = setting->plan->cautions.items[i].key;
        bool mine = panel->only.count ? is_listed(panel, key) : !is_taken(setting, panel, key);
        if (mine)
            items[count++] = i;
    }
    return count;
}

bool cautions_shown(Setting *setting, const Panel *panel) {
    if (!panel->only.count)
        return setting->plan->cautions.count > 0;
    for (size_t i = 0; i < setting->plan->cautions.count; i++)
        if (is_listed(panel, setting->plan->cautions.items[i].key))
            return true;
    return false;
}

/* The triangle, the signal word in bold capitals and the text, a heavy rule beside them. A notice
 * is about things, not people, and has no triangle (ANSI Z535.4). */
static double draw_caution(Setting *setting, const Panel *panel, size_t item, Box box) {
    Pen *pen = &setting->pen;
    const FieldGroup *row = field_row(setting->fields, "caution", item);
    bool notice = strcmp(setting->plan->cautions.items[item].signal, "notice") == 0;
    TextStyle style = setting->texts[panel->text];
    double sign_mm = pen_pitch_mm(style) * SIGN_LINES;
    double x_mm = box.x_mm + BAR_MM + GAP_MM;
    if (!notice) {
        pen_sign(pen, SIGN_WARNING, x_mm, box.y_mm + pen_pitch_mm(style) * 0.1, sign_mm);
        x_mm += sign_mm + GAP_MM;
    }
    const char *text = arena_format(
        pen->arena, "%s  %s", setting_strong(setting, setting_field_words(setting, row, "signal")),
        setting_field_words(setting, row, "text"));
    Box place = {x_mm, box.y_mm, fmax(box.x_mm + box.width_mm - x_mm, 1), 0};
    double height_mm = pen_paragraph(pen, style, ALIGN_LEFT, place, text);
    height_mm = notice ? height_mm : fmax(height_mm, sign_mm * 1.1);
    pen_rectangle(pen, (Box){box.x_mm, box.y_mm, BAR_MM, height_mm}, style_fill(ink_black()));
    return height_mm;
}

double cautions_draw(Setting *setting, const Panel *panel, Box box) {
    size_t *items = ARENA_ARRAY(setting->pen.arena, setting->plan->cautions.count, size_t);
    size_t count = gather_cautions(setting, panel, items);
    return draw_in_columns(setting, &(Items){panel, items, count, draw_caution}, box);
}

/* ---- Care ---- */

static double draw_grave(Setting *setting, const Panel *panel, size_t item, Box box) {
    Pen *pen = &setting->pen;
    const FieldGroup *row = field_row(setting->fields, "care", item);
    TextStyle style = setting->texts[panel->text];
    double sign_mm = pen_pitch_mm(style) * 0.9;
    pen_sign(pen, SIGN_WARNING, box.x_mm, box.y_mm, sign_mm);
    box.x_mm += sign_mm + GAP_MM;
    box.width_mm = fmax(box.width_mm - sign_mm - GAP_MM, 1);
    bool forbids = setting->plan->care.items[item].level == CARE_FORBIDS;
    return pen_paragraph(pen, forbids ? style_strong(style) : style, ALIGN_LEFT, box,
                         setting_field_words(setting, row, "text"));
}

static bool is_note(const Setting *setting, size_t item) {
    return setting->plan->care.items[item].level == CARE_NOTE;
}

static size_t gather_care(Setting *setting, bool notes, size_t *items) {
    size_t count = 0;
    for (size_t i = 0; i < setting->plan->care.count; i++)
        if (is_note(setting, i) == notes)
            items[count++] = i;
    return count;
}

/* Notes go when the panel has to give way; what can hurt somebody stays. */
static bool shows_notes(const Setting *setting, const Panel *panel) {
    return !setting->dropped[panel->index];
}

bool care_shown(Setting *setting, const Panel *panel) {
    for (size_t i = 0; i < setting->plan->care.count; i++)
        if (!is_note(setting, i) || shows_notes(setting, panel))
            return true;
    return false;
}

/* What can hurt somebody, line by line; then the notes as one paragraph. */
double care_draw(Setting *setting, const Panel *panel, Box box) {
    double top_mm = box.y_mm;
    size_t *items = ARENA_ARRAY(setting->pen.arena, setting->plan->care.count, size_t);
    size_t count = gather_care(setting, false, items);
    box.y_mm += draw_in_columns(setting, &(Items){panel, items, count, draw_grave}, box);
    box.y_mm += count ? ROW_GAP_MM : 0;
    if (!shows_notes(setting, panel))
        return box.y_mm - top_mm;
    Text notes = text_new(setting->pen.arena);
    count = gather_care(setting, true, items);
    for (size_t i = 0; i < count; i++)
        text_addf(
            &notes, "%s%s", i ? "  ·  " : "",
            setting_field_words(setting, field_row(setting->fields, "care", items[i]), "text"));
    if (count)
        box.y_mm +=
            pen_paragraph(&setting->pen, setting->texts[panel->text], ALIGN_LEFT, box, notes.bytes);
    return box.y_mm - top_mm;
}

/* ---- Remedies ---- */

/* "Dry to 4 %, 11 min in the oven and also …: then about 9 in 10 … – GOOD TO LIGHT" */
static const char *remedy_text(Setting *setting, size_t index) {
    const FieldGroup *row = field_row(setting->fields, "remedy", index);
    const Remedy *remedy = &setting->plan->remedies.items[index];
    Text text = text_new(setting->pen.arena);
    text_add(&text, setting_field_words(setting, row, "text"));
    if (remedy->with)
        text_addf(&text, "; %s %s", setting_words(setting, "remedy.and"),
                  setting_field_words(setting, field_row(row, "with", 0), "text"));
    text_addf(
        &text, ": %s – %s", setting_row_words(setting, "remedy.after", row),
        setting_strong(setting, setting_words(setting, word_of_verdict(remedy->verdict_after))));
    return text.bytes;
}

double remedies_draw(Setting *setting, const Panel *panel, Box box) {
    Pen *pen = &setting->pen;
    TextStyle style = setting->texts[panel->text];
    double top_mm = box.y_mm;
    size_t count = setting->plan->remedies.count;
    if (setting->dropped[panel->index] && count > 1)
        count = 1;
    for (size_t i = 0; i < count; i++) {
        pen_line(pen, style_strong(style), ALIGN_LEFT, box.x_mm, box.y_mm,
                 arena_format(pen->arena, "%zu", i + 1));
        const char *text = remedy_text(setting, i);
        box.y_mm += pen_paragraph(
            pen, style, ALIGN_LEFT,
            (Box){box.x_mm + NUMBER_MM, box.y_mm, fmax(box.width_mm - NUMBER_MM, 1), 0}, text);
    }
    return box.y_mm - top_mm;
}

/* ---- Footer ---- */

static const char *printed(Setting *setting) {
    Arena *arena = setting->pen.arena;
    const Document *document = setting->document;
    const char *creator = document->creator ? document->creator : "";
    if (!document->dated)
        return creator;
    return arena_format(arena, "%s  ·  %s %s", creator, setting_words(setting, "footer.printed"),
                        setting_time(setting, document->created, "stamp"));
}

double footer_draw(Setting *setting, const Panel *panel, Box box) {
    Pen *pen = &setting->pen;
    TextStyle style = setting->texts[panel->text];
    pen_rule(pen, box.x_mm, box.y_mm, box.width_mm, 0.15, ink_black());
    const char *text =
        arena_format(pen->arena, "%s  ·  %s  ·  %s",
                     setting_strong(setting, setting_words(setting, "footer.estimates")),
                     setting_words(setting, "footer.line"), printed(setting));
    box.y_mm += 0.6;
    return 0.6 + pen_paragraph(pen, style, ALIGN_LEFT, box, text);
}
