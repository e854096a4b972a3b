#include "layout/label_setting.h"

#include "layout/phrase.h"

#include <math.h>
#include <string.h>

#define NO_BREAK_SPACE "\xC2\xA0"
#define WIDE_SPACE NO_BREAK_SPACE " " /* breaks, and leaves no blank at the start of a line */
#define DOT NO_BREAK_SPACE " \xC2\xB7 " NO_BREAK_SPACE /* between parts on one line */
#define APART_MM 0.6 /* between cautions, and between lines of facts */
#define SIGN_APART_MM 1.4

/* Raises the figures by this much over what the law asks, so that rounding cannot undercut it. */
#define FIGURE_ALLOWANCE_MM 0.01

static const char *say(LabelSetting *setting, const LabelItem *item, const char *key,
                       const FieldGroup *row) {
    return phrase_word(setting->pen.arena, setting->locale, item->place, key, row,
                       setting->diagnostics);
}

static TextStyle style_of(const LabelSetting *setting, LabelText text) {
    const LabelSize *size = &setting->template->texts[text];
    return (TextStyle){size->face, setting->sizes_pt[text], size->leading};
}

static bool is_shown(LabelSetting *setting, const LabelItem *item) {
    if (!item->field)
        return true;
    const Field *field = field_find(setting->row, item->field);
    if (!field) {
        report_error(setting->diagnostics, item->place, NULL, "no field '%s' here", item->field);
        return false;
    }
    if (item->is)
        return field->text && strcmp(field->text, item->is) == 0;
    return format_shown(field);
}

/* The text with blanks at which no line breaks. */
static const char *unbroken(Arena *arena, const char *string) {
    Text text = text_new(arena);
    for (; *string; string++) {
        if (*string == ' ')
            text_add(&text, NO_BREAK_SPACE);
        else
            text_add_bytes(&text, string, 1);
    }
    return text.bytes;
}

/* The composition on one line, or, when `whole`, with each part kept together. */
static const char *parts_text(LabelSetting *setting, const LabelItem *item, bool whole) {
    Arena *arena = setting->pen.arena;
    Text text = text_new(arena);
    const FieldGroup *part = NULL;
    for (size_t i = 0; (part = field_row(setting->row, "part", i)) != NULL; i++) {
        const char *said = say(setting, item, "label.part", part);
        if (!said)
            continue;
        text_add(&text, i == 0 ? "" : whole ? "; " : DOT);
        text_add(&text, whole ? unbroken(arena, said) : said);
    }
    return text.bytes;
}

static const char *item_text(LabelSetting *setting, const LabelItem *item) {
    if (item->kind == ITEM_PARTS)
        return parts_text(setting, item, false);
    if (item->kind == ITEM_NET)
        return format_net(setting->pen.arena, setting->locale, setting->bag->net_kg,
                          setting->us_market);
    return item->words ? say(setting, item, item->words, setting->row) : NULL;
}

/* Reports the first character that a face lacks. */
static void check_face(LabelSetting *setting, TextStyle style, const char *text) {
    uint32_t code = 0;
    if (text && face_missing(setting->pen.faces->faces[style.face], text, &code))
        report_error(setting->diagnostics, setting->bag->order->place, NULL,
                     "the typeface has no character U+%04X, which '%s' holds", (unsigned)code,
                     text);
}

static void resolve(LabelSetting *setting, const LabelItem *item) {
    LabelWords *words = &setting->words[item->index];
    words->shown = is_shown(setting, item);
    if (!words->shown)
        return;
    words->text = item_text(setting, item);
    if (item->kind == ITEM_PARTS)
        words->brief = parts_text(setting, item, true);
    else if (item->brief)
        words->brief = say(setting, item, item->brief, setting->row);
    if (item->kind == ITEM_NET)
        words->title =
            say(setting, item, setting->us_market ? "label.net_weight" : "label.net", setting->row);
    else if (item->title)
        words->title = say(setting, item, item->title, setting->row);
    TextStyle style = style_of(setting, item->text);
    check_face(setting, style, words->text);
    check_face(setting, style, words->brief);
    check_face(setting, style_strong(style), item->strong ? words->text : NULL);
    check_face(setting, style_of(setting, LABEL_TITLE), words->title);
}

bool label_setting_begin(LabelSetting *setting) {
    const LabelTemplate *template = setting->template;
    size_t before = diagnostics_errors(setting->diagnostics, NULL);
    setting->words = ARENA_ARRAY(setting->pen.arena, template->items.count, LabelWords);
    setting->scale = 1;
    for (size_t i = 0; i < template->items.count; i++)
        resolve(setting, template->items.items[i]);
    return diagnostics_errors(setting->diagnostics, NULL) == before;
}

/* The least type of the net quantity: the figures are as high as the capitals. */
static double least_net_pt(const LabelSetting *setting) {
    const LabelSize *size = &setting->template->texts[LABEL_NET];
    double height_mm = setting->bag->figure_height_m * 1000.0 + FIGURE_ALLOWANCE_MM;
    return fmax(size->least_pt,
                face_size_for_cap_height_pt(setting->pen.faces->faces[size->face], height_mm));
}

double label_setting_least_pt(const LabelSetting *setting, LabelText text) {
    return text == LABEL_NET ? least_net_pt(setting) : setting->template->texts[text].least_pt;
}

void label_setting_size(LabelSetting *setting, double scale) {
    const LabelTemplate *template = setting->template;
    setting->scale = scale;
    setting->tight = setting->run_in = setting->shortened = false;
    setting->spread_mm = 0;
    setting->too_wide = NULL;
    for (int i = 0; i < LABEL_TEXTS; i++)
        setting->sizes_pt[i] =
            fmax(template->texts[i].size_pt * scale, label_setting_least_pt(setting, (LabelText)i));
    for (size_t i = 0; i < template->items.count; i++)
        setting->words[i].dropped = false;
}

static const LabelWords *words_of(const LabelSetting *setting, const LabelItem *item) {
    return &setting->words[item->index];
}

static bool is_set(const LabelSetting *setting, const LabelItem *item) {
    return words_of(setting, item)->shown && !words_of(setting, item)->dropped;
}

/* A paragraph; a word wider than the column is remembered as one that does not fit. */
static double paragraph(LabelSetting *setting, TextStyle style, Box box, const char *text) {
    if (!text || !*text)
        return 0;
    if (pen_widest_word_mm(&setting->pen, style, text) > box.width_mm + 0.001)
        setting->too_wide = text;
    return pen_paragraph(&setting->pen, style, ALIGN_LEFT, box, text);
}

/* "WARNING text", or the text alone, with what is strong in the bold face. */
static const char *spoken(LabelSetting *setting, const LabelItem *item) {
    const LabelWords *words = words_of(setting, item);
    const char *text = setting->shortened && words->brief ? words->brief : words->text;
    Arena *arena = setting->pen.arena;
    if (item->strong)
        return arena_format(arena, "%c%s%c", WRAP_STRONG, text, WRAP_PLAIN);
    if (words->title)
        return arena_format(arena, "%c%s%c" NO_BREAK_SPACE NO_BREAK_SPACE "%s", WRAP_STRONG,
                            words->title, WRAP_PLAIN, text);
    return text;
}

/* A fact inside a paragraph: the title, then the figure in the bold face. */
static const char *fact_spoken(LabelSetting *setting, const LabelItem *item) {
    const LabelWords *words = words_of(setting, item);
    const char *title = setting->shortened && words->brief ? words->brief : words->title;
    return arena_format(setting->pen.arena, "%s %c%s%c", title, WRAP_STRONG, words->text,
                        WRAP_PLAIN);
}

static const char *joined(LabelSetting *setting, const LabelItem *item, const char *joint,
                          bool whole) {
    Text text = text_new(setting->pen.arena);
    for (size_t i = 0; i < item->items.count; i++) {
        const LabelItem *inner = item->items.items[i];
        if (!is_set(setting, inner))
            continue;
        const char *said = inner->kind == ITEM_FACT ? fact_spoken(setting, inner)
                                                    : spoken(setting, inner);
        text_add(&text, text.length ? joint : "");
        text_add(&text, whole ? unbroken(setting->pen.arena, said) : said);
    }
    return text.bytes;
}

/* All in one paragraph, each item kept whole unless that would take more lines. */
static double draw_joined(LabelSetting *setting, const LabelItem *item, TextStyle style,
                          const char *joint, Box box) {
    const char *whole = joined(setting, item, joint, true);
    const char *broken = joined(setting, item, joint, false);
    bool narrow = pen_widest_word_mm(&setting->pen, style, whole) > box.width_mm;
    if (narrow || pen_height_mm(&setting->pen, style, box.width_mm, whole) >
                      pen_height_mm(&setting->pen, style, box.width_mm, broken) + 0.001)
        return paragraph(setting, style, box, broken);
    return paragraph(setting, style, box, whole);
}

/* The words of an item one under the other, `apart_mm` between them. */
static double draw_stack(LabelSetting *setting, const LabelItem *item, TextStyle style,
                         double apart_mm, Box box) {
    double height_mm = 0;
    for (size_t i = 0; i < item->items.count; i++) {
        if (!is_set(setting, item->items.items[i]))
            continue;
        height_mm += height_mm > 0 ? apart_mm : 0;
        Box line = {box.x_mm, box.y_mm + height_mm, box.width_mm, 0};
        height_mm += paragraph(setting, style, line, spoken(setting, item->items.items[i]));
    }
    return height_mm;
}

/* With dots between the parts where they stand on one line, else with semicolons; a part that is
 * longer than a line breaks. */
static double draw_parts(LabelSetting *setting, const LabelItem *item, Box box) {
    const LabelWords *words = words_of(setting, item);
    TextStyle style = style_of(setting, item->text);
    bool one_line = pen_width_mm(&setting->pen, style, words->text) <= box.width_mm;
    bool broken = pen_widest_word_mm(&setting->pen, style, words->brief) > box.width_mm;
    return paragraph(setting, style, box, one_line || broken ? words->text : words->brief);
}

static double apart_mm(const LabelSetting *setting) {
    return APART_MM * (setting->tight ? 0.3 : setting->scale);
}

static double fact_width_mm(const LabelSetting *setting, const LabelItem *fact) {
    const LabelWords *words = words_of(setting, fact);
    double title_mm = pen_width_mm(&setting->pen, style_of(setting, LABEL_TITLE), words->title);
    return fmax(title_mm, pen_width_mm(&setting->pen, style_of(setting, LABEL_FACT), words->text));
}

static double draw_fact(LabelSetting *setting, const LabelItem *fact, Box box) {
    const LabelWords *words = words_of(setting, fact);
    double height_mm = paragraph(setting, style_of(setting, LABEL_TITLE), box, words->title);
    box.y_mm += height_mm;
    return height_mm + paragraph(setting, style_of(setting, LABEL_FACT), box, words->text);
}

typedef LIST_OF(const LabelItem *) Facts;

enum { FACTS_ACROSS_MOST = 6 };

/* The widest fact of each of `columns` columns, and their sum. */
static double columns_mm(const LabelSetting *setting, const Facts *facts, size_t columns,
                         double *widths_mm) {
    double sum_mm = 0;
    for (size_t column = 0; column < columns; column++) {
        widths_mm[column] = 0;
        for (size_t i = column; i < facts->count; i += columns)
            widths_mm[column] = fmax(widths_mm[column], fact_width_mm(setting, facts->items[i]));
        sum_mm += widths_mm[column];
    }
    return sum_mm;
}

static size_t columns_that_fit(const LabelSetting *setting, const Facts *facts, double apart_mm,
                               double width_mm, double *widths_mm, double *sum_mm) {
    size_t columns = facts->count < FACTS_ACROSS_MOST ? facts->count : FACTS_ACROSS_MOST;
    for (; columns > 1; columns = (columns + 1) / 2) {
        *sum_mm = columns_mm(setting, facts, columns, widths_mm);
        if (*sum_mm + (double)(columns - 1) * apart_mm <= width_mm)
            return columns;
        if (columns == 2)
            break;
    }
    *sum_mm = widths_mm[0] = width_mm;
    return 1;
}

static double draw_row_of_facts(LabelSetting *setting, const Facts *facts, size_t first,
                                size_t columns, const double *widths_mm, double gap_mm, Box box) {
    double height_mm = 0;
    for (size_t i = first; i < facts->count && i < first + columns; i++) {
        box.width_mm = widths_mm[i - first];
        height_mm = fmax(height_mm, draw_fact(setting, facts->items[i], box));
        box.x_mm += box.width_mm + gap_mm;
    }
    return height_mm;
}

static double draw_facts(LabelSetting *setting, const LabelItem *item, Box box) {
    Facts facts = {0};
    for (size_t i = 0; i < item->items.count; i++)
        if (is_set(setting, item->items.items[i]))
            LIST_ADD(setting->pen.arena, &facts, item->items.items[i]);
    if (facts.count == 0)
        return 0;
    if (setting->run_in)
        return draw_joined(setting, item, style_of(setting, LABEL_TITLE), NO_BREAK_SPACE WIDE_SPACE,
                           box);
    double widths_mm[FACTS_ACROSS_MOST] = {0};
    double sum_mm = 0;
    size_t columns =
        columns_that_fit(setting, &facts, item->apart_mm, box.width_mm, widths_mm, &sum_mm);
    double gap_mm = columns > 1 ? (box.width_mm - sum_mm) / (double)(columns - 1) : 0;
    double height_mm = 0;
    for (size_t i = 0; i < facts.count; i += columns) {
        height_mm += i > 0 ? apart_mm(setting) : 0;
        Box line = {box.x_mm, box.y_mm + height_mm, box.width_mm, 0};
        height_mm += draw_row_of_facts(setting, &facts, i, columns, widths_mm, gap_mm, line);
    }
    return height_mm;
}

/* The words stand beside the sign, one under the other, or run together where room is short. */
static double draw_cautions(LabelSetting *setting, const LabelItem *item, Box box) {
    TextStyle style = style_of(setting, LABEL_CAUTION);
    double pitch_mm = pen_pitch_mm(style);
    double sign_mm = (setting->run_in ? 2 : 3) * pitch_mm;
    pen_sign(&setting->pen, SIGN_WARNING, box.x_mm, box.y_mm + pitch_mm * 0.1, sign_mm * 0.92);
    Box beside = {box.x_mm + sign_mm + SIGN_APART_MM * (setting->tight ? 0.6 : setting->scale),
                  box.y_mm, 0, 0};
    beside.width_mm = box.x_mm + box.width_mm - beside.x_mm;
    double height_mm =
        setting->run_in
            ? paragraph(setting, style, beside, joined(setting, item, WIDE_SPACE, false))
            : draw_stack(setting, item, style, apart_mm(setting), beside);
    return fmax(sign_mm, height_mm);
}

static size_t count_shown(const LabelSetting *setting, const LabelItem *item) {
    size_t count = 0;
    for (size_t i = 0; i < item->items.count; i++)
        count += is_set(setting, item->items.items[i]) ? 1 : 0;
    return count;
}

/* One under the other, or run together where that saves lines that are needed. */
static double draw_run(LabelSetting *setting, const LabelItem *item, Box box) {
    TextStyle style = style_of(setting, item->text);
    const char *together = joined(setting, item, ", ", false);
    double together_mm = pen_height_mm(&setting->pen, style, box.width_mm, together);
    double apart_lines_mm = (double)count_shown(setting, item) * pen_pitch_mm(style);
    if (setting->run_in && together_mm < apart_lines_mm - 0.001)
        return draw_joined(setting, item, style, ", ", box);
    return draw_stack(setting, item, style, 0, box);
}

/* "250 g" behind a small "Net". Where it is too wide the second system takes a line of its own. */
static double draw_net(LabelSetting *setting, const LabelItem *item, Box box) {
    const LabelWords *words = words_of(setting, item);
    TextStyle small = style_of(setting, LABEL_TITLE);
    TextStyle large = style_of(setting, LABEL_NET);
    double indent_mm = pen_width_mm(&setting->pen, small, words->title) + small.size_pt * 0.15;
    Box figures = {box.x_mm + indent_mm, box.y_mm, box.width_mm - indent_mm, 0};
    double top_mm = box.y_mm + pen_baseline_mm(&setting->pen, large) -
                    pen_baseline_mm(&setting->pen, small);
    pen_line(&setting->pen, small, ALIGN_LEFT, box.x_mm, top_mm, words->title);
    return paragraph(setting, large, figures, words->text);
}

static double net_width_mm(const LabelSetting *setting, const LabelItem *item) {
    const LabelWords *words = words_of(setting, item);
    TextStyle small = style_of(setting, LABEL_TITLE);
    return pen_width_mm(&setting->pen, small, words->title) + small.size_pt * 0.15 +
           pen_width_mm(&setting->pen, style_of(setting, LABEL_NET), words->text) + 0.01;
}

static double draw_item(LabelSetting *setting, const LabelItem *item, Box box);

/* The height of an item without drawing it. */
static double height_of(LabelSetting *setting, const LabelItem *item, double width_mm) {
    Page *page = setting->pen.page;
    setting->pen.page = NULL;
    double height_mm = draw_item(setting, item, (Box){0, 0, width_mm, 0});
    setting->pen.page = page;
    return height_mm;
}

/* Space from the foot of an item's box up to its last baseline. */
static double below_baseline_mm(const LabelSetting *setting, const LabelItem *item) {
    TextStyle style = style_of(setting, item->text);
    return pen_pitch_mm(style) - pen_baseline_mm(&setting->pen, style);
}

/* Side by side, the last baselines on one level; under one another when the second would be too
 * narrow. A net quantity takes the width it wants, other items a half. */
static double draw_row(LabelSetting *setting, const LabelItem *item, Box box) {
    const LabelItem *left = item->items.items[0];
    const LabelItem *right = item->items.items[1];
    double left_mm = left->kind == ITEM_NET ? net_width_mm(setting, left)
                                            : (box.width_mm - item->apart_mm) / 2;
    double right_mm = box.width_mm - left_mm - item->apart_mm;
    if (right_mm < item->least_mm) {
        double height_mm = draw_item(setting, left, box) + apart_mm(setting);
        box.y_mm += height_mm;
        return height_mm + draw_item(setting, right, box);
    }
    double left_up_mm = height_of(setting, left, left_mm) - below_baseline_mm(setting, left);
    double right_up_mm = height_of(setting, right, right_mm) - below_baseline_mm(setting, right);
    double up_mm = fmax(left_up_mm, right_up_mm);
    Box left_box = {box.x_mm, box.y_mm + up_mm - left_up_mm, left_mm, 0};
    Box right_box = {box.x_mm + box.width_mm - right_mm, box.y_mm + up_mm - right_up_mm, right_mm,
                     0};
    draw_item(setting, left, left_box);
    draw_item(setting, right, right_box);
    return up_mm + fmax(below_baseline_mm(setting, left), below_baseline_mm(setting, right));
}

static double space_mm(const LabelSetting *setting, const LabelItem *item) {
    double height_mm = setting->tight ? item->least_mm : item->height_mm * setting->scale;
    return height_mm + item->grow * setting->spread_mm;
}

static double draw_item(LabelSetting *setting, const LabelItem *item, Box box) {
    if (!is_set(setting, item))
        return 0;
    switch (item->kind) {
    case ITEM_WORDS:
        return paragraph(setting, style_of(setting, item->text), box, spoken(setting, item));
    case ITEM_PARTS: return draw_parts(setting, item, box);
    case ITEM_FACT: return draw_fact(setting, item, box);
    case ITEM_FACTS: return draw_facts(setting, item, box);
    case ITEM_CAUTIONS: return draw_cautions(setting, item, box);
    case ITEM_RUN: return draw_run(setting, item, box);
    case ITEM_NET: return draw_net(setting, item, box);
    case ITEM_RULE:
        pen_rule(&setting->pen, box.x_mm, box.y_mm + item->height_mm / 2, box.width_mm,
                 item->height_mm, setting->pen.ink);
        return item->height_mm;
    case ITEM_SPACE: return space_mm(setting, item);
    case ITEM_ROW: return draw_row(setting, item, box);
    case ITEM_KINDS: break;
    }
    return 0;
}

double label_setting_draw(LabelSetting *setting, Box box) {
    double height_mm = 0;
    setting->too_wide = NULL;
    setting->pen.longest = (LongText){0};
    for (size_t i = 0; i < setting->template->arrange.count; i++) {
        Box from = {box.x_mm, box.y_mm + height_mm, box.width_mm, 0};
        height_mm += draw_item(setting, setting->template->arrange.items[i], from);
    }
    return height_mm;
}

double label_setting_grow(const LabelSetting *setting) {
    double grow = 0;
    for (size_t i = 0; i < setting->template->items.count; i++)
        grow += setting->template->items.items[i]->grow;
    return grow;
}
