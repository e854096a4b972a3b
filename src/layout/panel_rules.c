/* Rules: what may come up in the night and what to do then; and lines of free words. */
#include "layout/panel.h"

#include <math.h>

#define ARROW_MM 3.0
#define GAP_MM 1.6
#define ROW_PAD_MM 0.8
#define HAIRLINE_MM 0.15
#define CONDITION_PART 0.36 /* of the width, at most */

typedef struct Rule {
    const char *when;
    const char *then;
} Rule;

typedef LIST_OF(Rule) Rules;

static bool item_shown(Setting *setting, const PanelItem *item) {
    if (!item->field)
        return true;
    const Field *field = field_find(setting->fields, item->field);
    return field && format_shown(field) &&
           (field->type != FIELD_YES || field->quantity.value != 0);
}

static Rules gather_rules(Setting *setting, const Panel *panel) {
    Arena *arena = setting->pen.arena;
    Rules rules = {0};
    for (size_t i = 0; i < setting->plan->decisions.count; i++) {
        const FieldGroup *row = field_row(setting->fields, "decision", i);
        const char *key = arena_format(arena, "decision.%s", setting->plan->decisions.items[i].key);
        const char *then = arena_format(arena, "%s.then", key);
        LIST_ADD(arena, &rules,
                 (Rule){setting_row_words(setting, key, row),
                        setting_row_words(setting, then, row)});
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
static double condition_mm(Setting *setting, TextStyle style, const Rules *rules,
                           double width_mm) {
    double widest_mm = 0;
    for (size_t i = 0; i < rules->count; i++)
        widest_mm = fmax(widest_mm, pen_width_mm(&setting->pen, style, rules->items[i].when));
    return fmin(widest_mm, width_mm * CONDITION_PART);
}

static void draw_arrow(Pen *pen, double x_mm, double middle_mm) {
    if (pen->page)
        sign_arrow(pen->page, (Point){x_mm, middle_mm}, (Point){x_mm + ARROW_MM, middle_mm}, 0.3,
                   1.5, ink_black());
}

double rules_draw(Setting *setting, const Panel *panel, Box box) {
    Pen *pen = &setting->pen;
    TextStyle style = setting->texts[panel->text];
    Rules rules = gather_rules(setting, panel);
    double when_mm = condition_mm(setting, style_strong(style), &rules, box.width_mm);
    double then_x_mm = when_mm + 2 * GAP_MM + ARROW_MM;
    double top_mm = box.y_mm;
    for (size_t i = 0; i < rules.count; i++) {
        if (i > 0)
            pen_rule(pen, box.x_mm, box.y_mm, box.width_mm, HAIRLINE_MM, ink_black());
        box.y_mm += i > 0 ? ROW_PAD_MM : 0;
        Box when = {box.x_mm, box.y_mm, when_mm, 0};
        Box then = {box.x_mm + then_x_mm, box.y_mm, fmax(box.width_mm - then_x_mm, 1), 0};
        double left_mm =
            pen_paragraph(pen, style_strong(style), ALIGN_LEFT, when, rules.items[i].when);
        draw_arrow(pen, box.x_mm + when_mm + GAP_MM, box.y_mm + pen_pitch_mm(style) / 2);
        double right_mm = pen_paragraph(pen, style, ALIGN_LEFT, then, rules.items[i].then);
        box.y_mm += fmax(left_mm, right_mm) + ROW_PAD_MM;
    }
    return box.y_mm - top_mm;
}

double words_draw(Setting *setting, const Panel *panel, Box box) {
    double top_mm = box.y_mm;
    for (size_t i = 0; i < panel->items.count; i++)
        if (item_shown(setting, &panel->items.items[i]))
            box.y_mm += pen_paragraph(&setting->pen, setting->texts[panel->text], ALIGN_LEFT, box,
                                      setting_words(setting, panel->items.items[i].words));
    return box.y_mm - top_mm;
}
