/* Key: what the marks of a season mean, each with its words, in as many lines as they take. Only
 * those that the page has. */
#include "layout/drawing.h"
#include "layout/season_mark.h"

#define MARK_PART 0.5 /* size of a mark, of the line */
#define GAP_MM 1.0    /* between a mark and its words */
#define APART_MM 4.0  /* between the words and the next mark */

typedef struct Key {
    SeasonMark mark;
    const char *words;
    const char
        *field; /* that has to be over 0; NULL: the grey of weekends, which are in every month */
} Key;

static const Key keys[] = {
    {SEASON_MARK_LASTED, "season.key_lasted", "sums.lasted"},
    {SEASON_MARK_RELIT, "season.key_relit", "sums.relit"},
    {SEASON_MARK_DIED, "season.key_died", "sums.died"},
    {SEASON_MARK_PLANNED, "season.key_planned", "sums.planned"},
    {SEASON_MARK_OTHER, "season.key_other", "sums.others"},
    {SEASON_MARK_BAGS, "season.key_bags", "sums.baggings"},
    {SEASON_MARK_STEP, "season.key_steps", "sums.steps"},
    {SEASON_MARKS, "season.key_clash", "sums.clashes"},
    {SEASON_MARKS, "season.key_weekend", NULL},
};

static bool is_wanted(const FieldGroup *row, const char *name) {
    const Field *field = name ? field_find(row, name) : NULL;
    return !name || (field && field->quantity.value > 0);
}

static void draw_mark(Page *page, const Key *key, Box box) {
    Point middle = {box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2};
    Box bar = {box.x_mm, middle.y_mm, box.width_mm, box.width_mm / 3};
    if (!key->field)
        mark_rectangle(page, box, style_fill(ink_grey(SEASON_WEEKEND_GREY)));
    else if (key->mark == SEASON_MARKS)
        mark_rectangle(page, bar, style_fill(ink_black()));
    else
        season_mark_draw(page, key->mark, middle, box.width_mm);
}

/* Goes through the key; draws it when asked. Returns how many lines it takes. */
static int walk(Layout *layout, const Block *block, double width_mm, bool draw) {
    TextStyle style = block_style(layout, block);
    double pitch_mm = pen_pitch_mm(style), mark_mm = pitch_mm * MARK_PART, x_mm = 0;
    int line = 0;
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        if (!is_wanted(block->row, keys[i].field))
            continue;
        const char *words = layout_words(layout, keys[i].words, block->row);
        double item_mm = mark_mm + GAP_MM + pen_width_mm(&layout->pen, style, words);
        if (x_mm > 0 && x_mm + item_mm > width_mm) {
            line++;
            x_mm = 0;
        }
        if (draw) {
            double left_mm = block->box.x_mm + x_mm, top_mm = block->box.y_mm + line * pitch_mm;
            draw_mark(layout->pen.page, &keys[i],
                      (Box){left_mm, top_mm + (pitch_mm - mark_mm) / 2, mark_mm, mark_mm});
            pen_line(&layout->pen, style, ALIGN_LEFT, left_mm + mark_mm + GAP_MM, top_mm, words);
        }
        x_mm += item_mm + APART_MM;
    }
    return line + 1;
}

double key_least_mm(Layout *layout, const Block *block, double width_mm) {
    return walk(layout, block, width_mm, false) * pen_pitch_mm(block_style(layout, block));
}

void key_draw(Layout *layout, const Block *block) {
    walk(layout, block, block->box.width_mm, true);
}
