/* Fitting: giving way step by step, and as far as it has to. Only heights are added anew. */
#include "layout/block.h"

#include <math.h>

/* Raises the figures by this much over what the law asks, so that rounding cannot undercut it. */
#define FIGURE_ALLOWANCE_MM 0.01
#define SLACK_MM 1e-6

enum { LEVELS = 8 };

/* The height that a field of the plan asks of letters; 0: none. */
static double asked_mm(const Layout *layout, const char *path) {
    const Field *field = path ? field_find(layout->fields, path) : NULL;
    bool asked = field && isfinite(field->quantity.value);
    return asked ? field->quantity.value * 1000 + FIGURE_ALLOWANCE_MM : 0;
}

/* The least size of a style by the height that the plan asks of its letters. */
static double letters_pt(const Layout *layout, const TypeStyle *style) {
    const Face *face = layout->pen.faces->faces[style->face];
    double capitals_mm = asked_mm(layout, style->capitals);
    double small_mm = asked_mm(layout, style->small_letters);
    return fmax(face_size_for_cap_height_pt(face, capitals_mm),
                face_size_for_x_height_pt(face, small_mm));
}

static void set_sizes(Layout *layout) {
    for (size_t i = 0; i < layout->pattern->styles.count; i++) {
        const TypeStyle *style = &layout->pattern->styles.items[i];
        double size_pt = style->sizes_pt[0] * layout->scale;
        for (size_t n = 1; n < style->count; n++)
            size_pt -= (size_pt - style->sizes_pt[n]) * layout->given[style->steps[n]];
        layout->sizes_pt[i] = fmax(size_pt, letters_pt(layout, style));
    }
    layout->state++;
}

void layout_reset(Layout *layout, double scale) {
    layout->scale = scale;
    for (int step = 0; step <= STEPS_MOST; step++)
        layout->given[step] = 0;
    set_sizes(layout);
}

void layout_give(Layout *layout, int step, double part) {
    layout->given[step] = part;
    set_sizes(layout);
}

/* ---- What does not fit ---- */

static bool is_too_wide(Layout *layout, Block *block, void *with) {
    if (block->node->kind != NODE_TEXT || block->height_state != layout->state)
        return false;
    size_t count = 0;
    const Leaf *leaves = text_leaves(layout, block, block->height_width_mm, &count);
    int room = wrap_room(block->height_width_mm + 0.001, layout->sizes_pt[block->node->style]);
    for (size_t i = 0; i < count; i++)
        if (leaves[i].text.widest > room) {
            *(const char **)with = leaves[i].string;
            return true;
        }
    return false;
}

const char *layout_too_wide(Layout *layout, double width_mm) {
    const char *found = NULL;
    layout_height_mm(layout, width_mm);
    layout_each(layout, is_too_wide, &found);
    return found;
}

static const char *owner_of(const Block *block) {
    while (!block->owner && block->parent)
        block = block->parent;
    return block->owner;
}

static bool is_longest(Layout *layout, Block *block, void *with) {
    LongText *longest = with;
    bool measured = block->node->kind == NODE_TEXT && block->height_state == layout->state;
    if (!measured || block->height_mm <= longest->height_mm)
        return false;
    size_t count = 0;
    const Leaf *leaves = text_leaves(layout, block, block->height_width_mm, &count);
    const char *string = count ? leaves[0].string : "";
    size_t most = 0;
    for (size_t i = 0; i < count; i++)
        if (leaves[i].text.pieces.count > most) {
            most = leaves[i].text.pieces.count;
            string = leaves[i].string;
        }
    *longest = (LongText){owner_of(block), string, block->height_mm};
    return false;
}

LongText layout_longest(Layout *layout, double width_mm) {
    LongText longest = {0};
    layout_height_mm(layout, width_mm);
    layout_each(layout, is_longest, &longest);
    return longest;
}

/* ---- Giving way ---- */

typedef struct Fitting {
    Layout *layout;
    Box box;
    bool whole_words;
} Fitting;

/* Millimetres too high; a hair where a word is too wide. */
static double over_mm(const Fitting *fitting) {
    double height_mm = layout_height_mm(fitting->layout, fitting->box.width_mm);
    if (height_mm > fitting->box.height_mm + SLACK_MM)
        return height_mm - fitting->box.height_mm;
    bool wide = fitting->whole_words && layout_too_wide(fitting->layout, fitting->box.width_mm);
    return wide ? SLACK_MM : 0;
}

/* Whether type goes down or nodes move closer at the step, so that it may go part of the way. */
static bool is_gradual(const Pattern *pattern, int step) {
    for (size_t i = 0; i < pattern->nodes.count; i++)
        if (pattern->nodes.items[i]->tighten == step)
            return true;
    for (size_t i = 0; i < pattern->styles.count; i++)
        for (size_t n = 1; n < pattern->styles.items[i].count; n++)
            if (pattern->styles.items[i].steps[n] == step)
                return true;
    return false;
}

/* Goes a step as little as makes it fit, found by halving; all the way when it takes that. */
static double give(const Fitting *fitting, int step) {
    Layout *layout = fitting->layout;
    layout_give(layout, step, 1);
    double left_mm = over_mm(fitting);
    if (left_mm > 0 || !is_gradual(layout->pattern, step))
        return left_mm;
    int fits = LEVELS;
    for (int too_large = 0; fits - too_large > 1;) {
        int level = (fits + too_large) / 2;
        layout_give(layout, step, (double)level / LEVELS);
        if (over_mm(fitting) <= 0)
            fits = level;
        else
            too_large = level;
    }
    layout_give(layout, step, (double)fits / LEVELS);
    return 0;
}

/* Takes back, from the last step on, what need not have been given any more once a later one had
 * made more room than it had to. */
static void take_back(const Fitting *fitting, int taken) {
    for (int step = taken - 1; step > 0; step--) {
        if (!fitting->layout->pattern->used[step])
            continue;
        layout_give(fitting->layout, step, 0);
        if (over_mm(fitting) > 0)
            give(fitting, step);
    }
}

double layout_fit(Layout *layout, Box box, bool whole_words) {
    Fitting fitting = {layout, box, whole_words};
    layout_reset(layout, 1);
    double left_mm = over_mm(&fitting);
    int taken = 0;
    while (left_mm > 0 && taken < layout->pattern->steps)
        if (layout->pattern->used[++taken])
            left_mm = give(&fitting, taken);
    if (left_mm <= 0 && taken > 1)
        take_back(&fitting, taken);
    return left_mm;
}
