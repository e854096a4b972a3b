/* Rules: what may come up in the night and what to do then; and lines of free words. */
#include "layout/panel.h"

#include <math.h>

#define ARROW_MM 3.0
#define GAP_MM 1.6
#define ROW_PAD_MM 0.8
#define TIGHT_PAD_MM 0.35 /* where tables close up */
#define HAIRLINE_MM 0.15
#define CONDITION_PART 0.36 /* of the width, at most */
#define TWO_COLUMNS_MM 140.0

typedef struct Rule {
    const char *when;
    const char *then;
} Rule;

typedef LIST_OF(Rule) Rules;

static bool item_shown(Setting *setting, const PanelItem *item) {
    if (!item->field)
        return true;
    const Field *field = field_find(setting->fields, item->field);
    return field && format_shown(field) && (field->type != FIELD_YES || field->quantity.value != 0);
}

static Rules gather_rules(Setting *setting, const Panel *panel) {
    Arena *arena = setting->pen.arena;
    Rules rules = {0};
    for (size_t i = 0; i < setting->plan->decisions.count; i++) {
        const FieldGroup *row = field_row(setting->fields, "decision", i);
        const char *key = arena_format(arena, "decision.%s", setting->plan->decisions.items[i].key);
        const char *then = arena_format(arena, "%s.then", key);
        LIST_ADD(
            arena, &rules,
            (Rule){setting_row_words(setting, key, row), setting_row_words(setting, then, row)});
    }
    for (size_t i = 0; i < panel->items.count; i++) {
        const PanelItem *item = &panel->items.items[i];
        if (!item_shown(setting, item))
            continue;
        const char *then = arena_format(arena, "%s.then", item->words);
        LIST_ADD(arena, &rules,
                 (Rule){setting_words(setting, item->words), setting_words(setting, then)});
    }
    return rules;
}

/* Width of the conditions' column: of the widest, but not over its part of the panel. */
static double condition_mm(Setting *setting, TextStyle style, const Rules *rules, size_t first,
                           size_t count, double width_mm) {
    double widest_mm = 0;
    for (size_t i = first; i < first + count; i++)
        widest_mm = fmax(widest_mm, pen_width_mm(&setting->pen, style, rules->items[i].when));
    return fmin(widest_mm, width_mm * CONDITION_PART);
}

static void draw_arrow(Pen *pen, double x_mm, double middle_mm) {
    if (pen->page)
        sign_arrow(pen->page, (Point){x_mm, middle_mm}, (Point){x_mm + ARROW_MM, middle_mm}, 0.3,
                   1.5, ink_black());
}

/* One rule: the condition, an arrow, what to do. Returns its height. */
static double draw_rule(Setting *setting, TextStyle style, const Rule *rule, double when_mm,
                        Box box) {
    Pen *pen = &setting->pen;
    double then_x_mm = when_mm + 2 * GAP_MM + ARROW_MM;
    Box when = {box.x_mm, box.y_mm, when_mm, 0};
    Box then = {box.x_mm + then_x_mm, box.y_mm, fmax(box.width_mm - then_x_mm, 1), 0};
    double left_mm = pen_paragraph(pen, style_strong(style), ALIGN_LEFT, when, rule->when);
    draw_arrow(pen, box.x_mm + when_mm + GAP_MM, box.y_mm + pen_pitch_mm(style) / 2);
    return fmax(left_mm, pen_paragraph(pen, style, ALIGN_LEFT, then, rule->then));
}

/* The rules from `first` on, one under the other, hairlines between. */
static double draw_rules(Setting *setting, TextStyle style, const Rules *rules, size_t first,
                         size_t count, Box box) {
    double when_mm = condition_mm(setting, style_strong(style), rules, first, count, box.width_mm);
    double pad_mm = setting->tight > 1 ? TIGHT_PAD_MM : ROW_PAD_MM;
    double top_mm = box.y_mm;
    for (size_t i = first; i < first + count; i++) {
        if (i > first) {
            pen_rule(&setting->pen, box.x_mm, box.y_mm, box.width_mm, HAIRLINE_MM, ink_black());
            box.y_mm += pad_mm;
        }
        box.y_mm += draw_rule(setting, style, &rules->items[i], when_mm, box);
        box.y_mm += i + 1 < first + count ? pad_mm : 0;
    }
    return box.y_mm - top_mm;
}

/* How many rules stand in the left column so that the two end as evenly as they can. */
static size_t even_split(Setting *setting, TextStyle style, const Rules *rules, Box box) {
    Page *page = setting->pen.page;
    setting->pen.page = NULL;
    size_t best = rules->count;
    double best_mm = INFINITY;
    for (size_t left = (rules->count + 1) / 2; left <= rules->count; left++) {
        double height_mm = fmax(draw_rules(setting, style, rules, 0, left, box),
                                draw_rules(setting, style, rules, left, rules->count - left, box));
        if (height_mm < best_mm) {
            best_mm = height_mm;
            best = left;
        }
    }
    setting->pen.page = page;
    return best;
}

double rules_draw(Setting *setting, const Panel *panel, Box box) {
    TextStyle style = setting->texts[panel->text];
    Rules rules = gather_rules(setting, panel);
    if (box.width_mm < TWO_COLUMNS_MM || rules.count < 2)
        return draw_rules(setting, style, &rules, 0, rules.count, box);
    double apart_mm = setting->template->columns_apart_mm;
    box.width_mm = (box.width_mm - apart_mm) / 2;
    size_t left = even_split(setting, style, &rules, box);
    double left_mm = draw_rules(setting, style, &rules, 0, left, box);
    box.x_mm += box.width_mm + apart_mm;
    return fmax(left_mm, draw_rules(setting, style, &rules, left, rules.count - left, box));
}

double words_draw(Setting *setting, const Panel *panel, Box box) {
    double top_mm = box.y_mm;
    for (size_t i = 0; i < panel->items.count; i++)
        if (item_shown(setting, &panel->items.items[i]))
            box.y_mm += pen_paragraph(&setting->pen, setting->texts[panel->text], ALIGN_LEFT, box,
                                      setting_words(setting, panel->items.items[i].words));
    return box.y_mm - top_mm;
}
