/* Placing and painting: every block gets its box, then each draws itself in reading order. */
#include "layout/block.h"
#include "layout/drawing.h"

#include <math.h>

enum { SHARE_ROUNDS = 8 };

/* ---- Placing ---- */

static Box inner_box(const Block *block) {
    const Node *node = block->node;
    return (Box){block->box.x_mm + node->side_mm, block->box.y_mm + node->pad_mm,
                 block->box.width_mm - 2 * node->side_mm, block->box.height_mm - 2 * node->pad_mm};
}

/* Gives spare height to the blocks of a column by their weight, to none more than it can use.
 * What one leaves goes to the others in the next round; returned is what is left in the end. */
static double share_out(Layout *layout, const Blocks *blocks, double *heights_mm, double width_mm,
                        double spare_mm) {
    for (int round = 0; round < SHARE_ROUNDS && spare_mm > 0.01; round++) {
        double weight = 0;
        for (size_t i = 0; i < blocks->count; i++)
            if (block_shown(layout, blocks->items[i]) &&
                heights_mm[i] < block_most_mm(layout, blocks->items[i], width_mm) - 1e-6)
                weight += block_grow(layout, blocks->items[i]);
        if (weight <= 0)
            break;
        double given_mm = 0;
        for (size_t i = 0; i < blocks->count; i++) {
            if (!block_shown(layout, blocks->items[i]))
                continue;
            double most_mm = block_most_mm(layout, blocks->items[i], width_mm);
            double share = block_grow(layout, blocks->items[i]) / weight;
            double more_mm = fmax(fmin(spare_mm * share, most_mm - heights_mm[i]), 0);
            heights_mm[i] += more_mm;
            given_mm += more_mm;
        }
        spare_mm -= given_mm;
    }
    return fmax(spare_mm, 0);
}

static void place_column(Layout *layout, Block *column, Box box) {
    const Blocks *blocks = &column->blocks;
    double *heights_mm = ARENA_ARRAY(layout->pen.arena, blocks->count, double);
    double apart_mm = block_apart_mm(layout, column->node);
    double spare_mm = box.height_mm;
    size_t count = 0;
    for (size_t i = 0; i < blocks->count; i++) {
        if (!block_shown(layout, blocks->items[i]))
            continue;
        heights_mm[i] = block_height_mm(layout, blocks->items[i], box.width_mm);
        spare_mm -= heights_mm[i] + (count++ ? apart_mm : 0);
    }
    spare_mm = share_out(layout, blocks, heights_mm, box.width_mm, spare_mm);
    if (count > 1 && column->node->most_apart_mm > apart_mm)
        apart_mm = fmin(apart_mm + spare_mm / (double)(count - 1), column->node->most_apart_mm);
    for (size_t i = 0; i < blocks->count; i++) {
        if (!block_shown(layout, blocks->items[i]))
            continue;
        box.height_mm = heights_mm[i];
        block_place(layout, blocks->items[i], box);
        box.y_mm += heights_mm[i] + apart_mm;
    }
}

static void place_stacked(Layout *layout, Block *row, Box box) {
    for (size_t i = 0; i < row->blocks.count; i++) {
        Block *inner = row->blocks.items[i];
        if (!block_shown(layout, inner))
            continue;
        box.height_mm = block_height_mm(layout, inner, box.width_mm);
        block_place(layout, inner, box);
        box.y_mm += box.height_mm + block_stack_gap_mm(layout);
    }
}

/* A node at the top of a row, and what is drawn always, is as high as the row. */
static bool stretches(const Block *row, const Block *inner) {
    bool drawn = inner->node->kind == NODE_CANVAS ||
                 (inner->node->kind == NODE_RULE && inner->node->upright);
    return row->node->level == ROW_TOP || drawn;
}

static void place_row(Layout *layout, Block *row, Box box) {
    block_solve(layout, row, box.width_mm);
    if (row->stacked) {
        place_stacked(layout, row, box);
        return;
    }
    double level_mm = 0;
    for (size_t i = 0; i < row->blocks.count; i++)
        if (block_shown(layout, row->blocks.items[i]))
            level_mm = fmax(level_mm, block_level_mm(layout, row->blocks.items[i], row->cells_mm[i],
                                                     row->node->level));
    if (row->node->level == ROW_MIDDLE)
        level_mm = box.height_mm / 2;
    for (size_t i = 0; i < row->blocks.count; i++) {
        Block *inner = row->blocks.items[i];
        if (!block_shown(layout, inner))
            continue;
        double width_mm = row->cells_mm[i];
        Box place = {box.x_mm, box.y_mm, width_mm, box.height_mm};
        if (!stretches(row, inner)) {
            place.y_mm += level_mm - block_level_mm(layout, inner, width_mm, row->node->level);
            place.height_mm = block_height_mm(layout, inner, width_mm);
        }
        block_place(layout, inner, place);
        box.x_mm += width_mm + block_apart_mm(layout, row->node);
    }
}

static void place_grid(Layout *layout, Block *grid, Box box) {
    block_solve(layout, grid, box.width_mm);
    double gap_mm = grid_gap_mm(grid, box.width_mm, block_apart_mm(layout, grid->node));
    Box place = {box.x_mm, box.y_mm, 0, 0};
    double row_mm = 0;
    size_t at = 0;
    for (size_t i = 0; i < grid->blocks.count; i++) {
        Block *inner = grid->blocks.items[i];
        if (!block_shown(layout, inner))
            continue;
        size_t column = at++ % grid->cells;
        if (column == 0 && at > 1) {
            place = (Box){box.x_mm, place.y_mm + row_mm + grid->node->down_mm, 0, 0};
            row_mm = 0;
        }
        place.width_mm = grid->cells_mm[column];
        place.height_mm = block_height_mm(layout, inner, place.width_mm);
        block_place(layout, inner, place);
        row_mm = fmax(row_mm, place.height_mm);
        place.x_mm += place.width_mm + gap_mm;
    }
}

void block_place(Layout *layout, Block *block, Box box) {
    block->box = box;
    Box inner = inner_box(block);
    switch (block->node->kind) {
    case NODE_TABLE:
        block_solve(layout, block, inner.width_mm); /* then like a column */
    /* fall through */
    case NODE_COLUMN: place_column(layout, block, inner); break;
    case NODE_ROW: place_row(layout, block, inner); break;
    case NODE_GRID: place_grid(layout, block, inner); break;
    default: break;
    }
}

/* ---- Painting ---- */

static void paint_text(Layout *layout, const Block *block) {
    TextStyle style = block_style(layout, block);
    size_t count = 0;
    const Leaf *leaves = text_leaves(layout, block, block->box.width_mm, &count);
    int room = wrap_room(block->box.width_mm, style.size_pt);
    double y_mm = block->box.y_mm;
    for (size_t i = 0; i < count; i++) {
        WrapLines lines = wrap_lines(layout->pen.arena, &leaves[i].text, room);
        for (size_t n = 0; n < lines.count; n++) {
            pen_wrapped(&layout->pen, style, (Align)block->node->align, block->box, y_mm,
                        &lines.items[n]);
            y_mm += pen_pitch_mm(style);
        }
        y_mm += block_apart_mm(layout, block->node);
    }
}

static void paint_sign(Layout *layout, const Block *block) {
    const Node *node = block->node;
    TextStyle style = block_style(layout, block);
    double pitch_mm = pen_pitch_mm(style);
    double size_mm = node->upright ? node->size * pitch_mm : node->size * layout->scale;
    double drop_mm = node->upright ? fmax((pitch_mm - size_mm) / 2, 0) : 0;
    pen_sign(&layout->pen, (SignKind)node->drawing, block->box.x_mm, block->box.y_mm + drop_mm,
             size_mm);
}

static void paint_rule(Layout *layout, const Block *block) {
    double half_mm = block->node->line_mm / 2;
    if (block->node->upright)
        pen_upright(&layout->pen, block->box.x_mm + half_mm, block->box.y_mm, block->box.height_mm,
                    2 * half_mm, layout->pen.ink);
    else
        pen_rule(&layout->pen, block->box.x_mm, block->box.y_mm + half_mm, block->box.width_mm,
                 2 * half_mm, layout->pen.ink);
}

static void paint_ground(Layout *layout, const Block *block) {
    const Node *node = block->node;
    if (isfinite(node->fill))
        pen_rectangle(&layout->pen, block->box, style_fill(ink_grey(node->fill)));
    if (node->line_mm > 0 && (node->kind == NODE_COLUMN || node->kind == NODE_ROW))
        pen_rectangle(&layout->pen, block->box, style_line(node->line_mm, layout->pen.ink));
}

/* The lines between the rows of a table. */
static void paint_lines(Layout *layout, const Block *table) {
    const Block *above = NULL;
    for (size_t i = 0; i < table->blocks.count; i++) {
        Block *row = table->blocks.items[i];
        if (!block_shown(layout, row))
            continue;
        double foot_mm = above ? above->box.y_mm + above->box.height_mm : 0;
        if (above)
            pen_rule(&layout->pen, table->box.x_mm, (foot_mm + row->box.y_mm) / 2,
                     table->box.width_mm, table->node->line_mm, layout->pen.ink);
        above = row;
    }
}

void block_paint(Layout *layout, const Block *block) {
    const Node *node = block->node;
    Ink ink = layout->pen.ink;
    layout->pen.ink = node->white ? ink_white() : ink;
    const char *owner = layout->pen.page->owner;
    layout->pen.page->owner = block->owner ? block->owner : owner;
    if (node->kind <= NODE_GRID)
        paint_ground(layout, block);
    if (node->kind == NODE_TABLE && node->line_mm > 0)
        paint_lines(layout, block);
    if (node->kind == NODE_TEXT)
        paint_text(layout, block);
    else if (node->kind == NODE_SIGN)
        paint_sign(layout, block);
    else if (node->kind == NODE_RULE)
        paint_rule(layout, block);
    else if (node->kind == NODE_CANVAS)
        drawing_draw(layout, block);
    for (size_t i = 0; i < block->blocks.count; i++)
        if (block_shown(layout, block->blocks.items[i]))
            block_paint(layout, block->blocks.items[i]);
    layout->pen.ink = ink;
    layout->pen.page->owner = owner;
}

void layout_draw(Layout *layout, Page *page, Box box) {
    layout->pen.page = page;
    block_place(layout, layout->root, box);
    block_paint(layout, layout->root);
    layout->pen.page = NULL;
}

static bool each(Layout *layout, Block *block, bool (*visit)(Layout *, Block *, void *),
                 void *with) {
    if (!block_shown(layout, block))
        return false;
    if (visit(layout, block, with))
        return true;
    for (size_t i = 0; i < block->blocks.count; i++)
        if (each(layout, block->blocks.items[i], visit, with))
            return true;
    return false;
}

bool layout_each(Layout *layout, bool (*visit)(Layout *, Block *, void *), void *with) {
    return each(layout, layout->root, visit, with);
}
