/* The headline: when to light, when it will be out, whether to light at all, and why. A plan that
 * says "do not light" shows nothing else large. */
#include "domain/word.h"
#include "layout/panel.h"

#include <math.h>
#include <string.h>

#define REFUSAL_SCALE 1.6
#define BAR_PAD_MM 2.2  /* above and below the capitals in the black bar */
#define BAR_RULE_MM 1.0 /* over a headline that is no bar */
#define SIDE_GAP_MM 1.8 /* between a large text and what stands beside it */
#define CELLS_APART_MM 5.0
#define SIDE_PART 0.37   /* size of what stands beside, of the large text, at most */
#define LEAST_SCALE 0.84 /* of the capitals, to hold two cells on a row: 7.6 mm of 9 */
#define SIGN_PART 1.0    /* size of the verdict's sign, of the capitals */

enum { CELLS = 4 };

/* One large text with two small lines beside it. */
typedef struct Cell {
    const char *large;
    bool light;        /* in the plain face */
    const char *above; /* NULL: nothing beside it */
    const char *below;
    bool verdict; /* has the verdict's sign before it */
    bool narrow;  /* what stands beside it is set small, for want of room */
} Cell;

static TextStyle large_style(const Setting *setting, const Cell *cell) {
    TextStyle style = setting->texts[TEXT_HEADLINE];
    return cell->light ? style_plain(style) : style;
}

/* Of the lead, but no larger than leaves its two lines clear of each other beside the capitals. */
static TextStyle side_style(const Setting *setting, const Cell *cell) {
    TextStyle style = setting->texts[cell->narrow ? TEXT_NOTE : TEXT_LEAD];
    style.size_pt = fmin(style.size_pt, setting->texts[TEXT_HEADLINE].size_pt * SIDE_PART);
    return style;
}

static double side_width_mm(Setting *setting, const Cell *cell) {
    if (!cell->above)
        return 0;
    TextStyle style = side_style(setting, cell);
    return SIDE_GAP_MM + fmax(pen_width_mm(&setting->pen, style, cell->above),
                              pen_width_mm(&setting->pen, style, cell->below));
}

static double sign_width_mm(Setting *setting, const Cell *cell) {
    TextStyle style = setting->texts[TEXT_HEADLINE];
    return cell->verdict ? pen_capitals_mm(&setting->pen, style) * SIGN_PART + SIDE_GAP_MM : 0;
}

static double cell_width_mm(Setting *setting, const Cell *cell) {
    return sign_width_mm(setting, cell) +
           pen_width_mm(&setting->pen, large_style(setting, cell), cell->large) +
           side_width_mm(setting, cell);
}

/* The verdict's own sign: a tick where it is good to light, an eye where it wants tending. */
static void draw_sign(Setting *setting, double x_mm, double y_mm) {
    TextStyle style = setting->texts[TEXT_HEADLINE];
    double size_mm = pen_capitals_mm(&setting->pen, style) * SIGN_PART;
    double top_mm = y_mm + pen_baseline_mm(&setting->pen, style) - size_mm;
    SignKind kind = setting->plan->verdict == VERDICT_GOOD ? SIGN_TICK : SIGN_LOOK;
    pen_sign(&setting->pen, kind, x_mm, top_mm, size_mm);
}

/* The two small lines stand on the line of the capitals' top and on the baseline. */
static void draw_side(Setting *setting, const Cell *cell, double x_mm, double y_mm) {
    TextStyle large = setting->texts[TEXT_HEADLINE];
    TextStyle small = side_style(setting, cell);
    Pen *pen = &setting->pen;
    double baseline_mm = y_mm + pen_baseline_mm(pen, large);
    double top_mm = baseline_mm - pen_capitals_mm(pen, large);
    double rise_mm = pen_baseline_mm(pen, small);
    pen_line(pen, small, ALIGN_LEFT, x_mm, top_mm + pen_capitals_mm(pen, small) - rise_mm,
             cell->above);
    pen_line(pen, small, ALIGN_LEFT, x_mm, baseline_mm - rise_mm, cell->below);
}

/* Draws a cell into that width, wrapped if it must be; returns its height. */
static double draw_cell(Setting *setting, const Cell *cell, Box box) {
    double sign_mm = sign_width_mm(setting, cell);
    double side_mm = side_width_mm(setting, cell);
    TextStyle style = large_style(setting, cell);
    if (cell->verdict)
        draw_sign(setting, box.x_mm, box.y_mm);
    box.x_mm += sign_mm;
    box.width_mm -= sign_mm + side_mm;
    double width_mm = fmin(pen_width_mm(&setting->pen, style, cell->large), box.width_mm);
    double height_mm = pen_paragraph(&setting->pen, style, ALIGN_LEFT, box, cell->large);
    if (cell->above)
        draw_side(setting, cell, box.x_mm + width_mm + SIDE_GAP_MM, box.y_mm);
    return height_mm;
}

/* Where the second of two cells begins; 0 when the two do not fit beside each other. */
static double second_x_mm(Setting *setting, const Cell cells[2], double first_mm, double width_mm) {
    double second_mm = cell_width_mm(setting, &cells[1]);
    double least_mm = fmax(first_mm, cell_width_mm(setting, &cells[0])) + CELLS_APART_MM;
    if (least_mm + second_mm > width_mm)
        return 0;
    return fmin(fmax(least_mm, (width_mm + CELLS_APART_MM) / 2), width_mm - second_mm);
}

/* Two cells beside each other, or one under the other. */
static double draw_pair(Setting *setting, const Cell cells[2], double second_mm, Box box) {
    if (second_mm <= 0) {
        double first_mm = draw_cell(setting, &cells[0], box);
        box.y_mm += first_mm;
        return first_mm + draw_cell(setting, &cells[1], box);
    }
    Box left = {box.x_mm, box.y_mm, second_mm - CELLS_APART_MM, 0};
    Box right = {box.x_mm + second_mm, box.y_mm, box.width_mm - second_mm, 0};
    double height_mm = draw_cell(setting, &cells[0], left);
    return fmax(height_mm, draw_cell(setting, &cells[1], right));
}

/* Whether the first so many of two rows hold their cells beside each other. */
static bool rows_fit(Setting *setting, const Cell cells[CELLS], int rows, double width_mm) {
    for (int row = 0; row < rows; row++)
        if (second_x_mm(setting, cells + 2 * row, 0, width_mm) <= 0)
            return false;
    return true;
}

/* Makes the capitals smaller, as far as the least of them, if two rows will hold it all then, or
 * the first row at least the hours: more rows of the full size take room that the steps need. */
static void shrink_to_rows(Setting *setting, Cell cells[CELLS], double width_mm) {
    double full_pt = setting->texts[TEXT_HEADLINE].size_pt;
    for (int i = 0; i < CELLS; i++)
        cells[i].narrow = true;
    for (int rows = CELLS / 2; rows > 0; rows--) {
        for (double scale = 1; scale > LEAST_SCALE - 0.01; scale -= 0.02) {
            setting->texts[TEXT_HEADLINE].size_pt = full_pt * scale;
            if (rows_fit(setting, cells, rows, width_mm))
                return;
        }
    }
    setting->texts[TEXT_HEADLINE].size_pt = full_pt;
}

/* Two rows of two, on one grid where both fit. */
static double draw_cells(Setting *setting, Cell cells[CELLS], Box box) {
    for (int i = 0; i < CELLS; i += 2) {
        cells[i].narrow = cells[i + 1].narrow = false;
        bool tight = second_x_mm(setting, cells + i, 0, box.width_mm) <= 0;
        cells[i].narrow = cells[i + 1].narrow = tight;
    }
    double first_mm = fmax(cell_width_mm(setting, &cells[0]), cell_width_mm(setting, &cells[2]));
    double upper_mm = second_x_mm(setting, cells, first_mm, box.width_mm);
    double lower_mm = second_x_mm(setting, cells + 2, first_mm, box.width_mm);
    if (upper_mm > 0 && lower_mm > 0)
        upper_mm = lower_mm = fmin(upper_mm, lower_mm);
    if (upper_mm <= 0)
        upper_mm = second_x_mm(setting, cells, 0, box.width_mm);
    if (lower_mm <= 0)
        lower_mm = second_x_mm(setting, cells + 2, 0, box.width_mm);
    double height_mm = draw_pair(setting, cells, upper_mm, box);
    box.y_mm += height_mm;
    return height_mm + draw_pair(setting, cells + 2, lower_mm, box);
}

/* "Cheese overnight · Farmhouse cheddar · Mesh maze" */
static const char *subject(Setting *setting) {
    const Plan *plan = setting->plan;
    Text text = text_new(setting->pen.arena);
    text_add(&text, setting_strong(setting, plan->batch->name));
    if (plan->batch->product.name)
        text_addf(&text, "  ·  %s", plan->batch->product.name);
    for (size_t i = 0; i < plan->fills.count; i++) {
        const Tray *tray = plan->fills.items[i].tray;
        bool again = false;
        for (size_t j = 0; j < i; j++)
            again = again || plan->fills.items[j].tray == tray;
        if (!again)
            text_addf(&text, "  ·  %s", tray->name);
    }
    return text.bytes;
}

static double draw_subject(Setting *setting, Box box) {
    Pen *pen = &setting->pen;
    TextStyle style = setting->texts[TEXT_BODY];
    const char *lot = setting_words(setting, "headline.lot");
    double lot_mm = pen_width_mm(pen, style, lot);
    if (lot_mm > box.width_mm / 2) {
        double height_mm = pen_paragraph(pen, style, ALIGN_LEFT, box, subject(setting));
        box.y_mm += height_mm;
        return height_mm + pen_paragraph(pen, style, ALIGN_LEFT, box, lot);
    }
    pen_line(pen, style, ALIGN_RIGHT, box.x_mm + box.width_mm, box.y_mm, lot);
    box.width_mm -= lot_mm + CELLS_APART_MM;
    return pen_paragraph(pen, style, ALIGN_LEFT, box, subject(setting));
}

/* `cause.fines` is the short form of the sentence `reason.fines`. */
static const char *reason(Setting *setting, Cause cause) {
    const char *suffix = word_of_cause(cause) + sizeof "cause" - 1;
    return setting_words(setting, arena_format(setting->pen.arena, "reason%s", suffix));
}

static double draw_reasons(Setting *setting, const Panel *panel, Box box) {
    TextStyle style = setting->texts[panel->text];
    double top_mm = box.y_mm;
    if (!setting->plan->reasons.count)
        box.y_mm +=
            pen_paragraph(&setting->pen, style, ALIGN_LEFT, box, reason(setting, CAUSE_NONE));
    for (size_t i = 0; i < setting->plan->reasons.count; i++) {
        const char *text = reason(setting, setting->plan->reasons.items[i].cause);
        bool grave = setting->plan->reasons.items[i].verdict == VERDICT_DO_NOT_LIGHT;
        box.y_mm += pen_paragraph(&setting->pen, grave ? style_strong(style) : style, ALIGN_LEFT,
                                  box, text);
    }
    return box.y_mm - top_mm;
}

/* "Out about 06:40" with "Sat" over "5 Dec" beside it. */
static Cell time_cell(Setting *setting, const char *key, Instant at) {
    Arena *arena = setting->pen.arena;
    const char *day = setting_time(setting, at, "day");
    size_t weekday = strcspn(day, " ");
    return (Cell){.large = arena_format(arena, "%s %s", setting_words(setting, key),
                                        setting_time(setting, at, "bare")),
                  .above = arena_copy(arena, day, weekday),
                  .below = day[weekday] ? day + weekday + 1 : ""};
}

/* "04:30–08:30" with "8 in 10 end" over the day, or both days, that they end on. */
static Cell band_cell(Setting *setting) {
    const PlanBurn *burn = &setting->plan->burn;
    Arena *arena = setting->pen.arena;
    const char *day = setting_time(setting, burn->out_early, "day");
    const char *late = setting_time(setting, burn->out_late, "day");
    if (strcmp(day, late) != 0)
        day = arena_format(arena, "%.*s–%.*s", (int)strcspn(day, " "), day, (int)strcspn(late, " "),
                           late);
    return (Cell){.large = arena_format(arena, "%s–%s",
                                        setting_time(setting, burn->out_early, "bare"),
                                        setting_time(setting, burn->out_late, "bare")),
                  .light = true,
                  .above = setting_words(setting, "headline.band"),
                  .below = day};
}

static double draw_times(Setting *setting, Box box) {
    const PlanBurn *burn = &setting->plan->burn;
    Cell cells[CELLS] = {time_cell(setting, "headline.light_at", burn->light_at),
                         time_cell(setting, "headline.out_about", burn->out_about),
                         {setting_words(setting, word_of_verdict(setting->plan->verdict)), false,
                          NULL, NULL, true, false},
                         band_cell(setting)};
    double full_pt = setting->texts[TEXT_HEADLINE].size_pt;
    shrink_to_rows(setting, cells, box.width_mm);
    double height_mm = draw_cells(setting, cells, box);
    setting->texts[TEXT_HEADLINE].size_pt = full_pt;
    return height_mm;
}

/* White on black over the whole width: no other part of the page looks like it. */
static double draw_refusal(Setting *setting, Box box) {
    Pen *pen = &setting->pen;
    TextStyle style = setting->texts[TEXT_HEADLINE];
    style.size_pt *= REFUSAL_SCALE;
    const char *verdict = setting_words(setting, word_of_verdict(VERDICT_DO_NOT_LIGHT));
    Box inner = {box.x_mm + 4, box.y_mm + BAR_PAD_MM, box.width_mm - 8, 0};
    double height_mm = pen_height_mm(pen, style, inner.width_mm, verdict) + 2 * BAR_PAD_MM;
    pen_rectangle(pen, (Box){box.x_mm, box.y_mm, box.width_mm, height_mm}, style_fill(ink_black()));
    pen->ink = ink_white();
    pen_paragraph(pen, style, ALIGN_CENTRE, inner, verdict);
    pen->ink = ink_black();
    return height_mm;
}

double headline_draw(Setting *setting, const Panel *panel, Box box) {
    double top_mm = box.y_mm;
    if (setting_refused(setting)) {
        box.y_mm += draw_refusal(setting, box) + 2;
        box.y_mm += draw_reasons(setting, panel, box) + 1;
        TextStyle lead = style_plain(setting->texts[panel->text]);
        box.y_mm += pen_paragraph(&setting->pen, lead, ALIGN_LEFT, box,
                                  setting_words(setting, "headline.print_again")) +
                    1;
        box.y_mm += draw_subject(setting, box);
        box.y_mm += pen_paragraph(&setting->pen, setting->texts[TEXT_BODY], ALIGN_LEFT, box,
                                  setting_words(setting, "headline.if_lit"));
        return box.y_mm - top_mm;
    }
    pen_rule(&setting->pen, box.x_mm, box.y_mm + BAR_RULE_MM / 2, box.width_mm, BAR_RULE_MM,
             ink_black());
    box.y_mm += BAR_RULE_MM + 0.8;
    box.y_mm += draw_subject(setting, box);
    box.y_mm += draw_times(setting, box);
    box.y_mm += draw_reasons(setting, panel, box);
    return box.y_mm - top_mm;
}
