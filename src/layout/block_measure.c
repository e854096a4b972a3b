/* Measuring: heights for a width and widths wished for, by adding what was measured once. What was
 * found holds until the layout's state changes. */
#include "layout/block.h"
#include "layout/drawing.h"

#include <math.h>
#include <string.h>

#define STACK_GAP_MM 0.6

enum { GRID_MOST = 6 };

static bool is_given(const Layout *layout, int step) {
    return step > 0 && step <= STEPS_MOST && layout->given[step] > 0;
}

static bool holds_nodes(NodeKind kind) {
    return kind <= NODE_GRID;
}

/* Rules, signs and spaces stand only beside something else. */
static bool is_content(NodeKind kind) {
    return holds_nodes(kind) || kind == NODE_TEXT || kind == NODE_CANVAS;
}

static bool find_shown(const Layout *layout, Block *block) {
    const Node *node = block->node;
    if (is_given(layout, node->drop) || (node->from && !is_given(layout, node->from)))
        return false;
    if (node->kind == NODE_TEXT)
        return block->full.count > 0 || block->full.runs;
    if (node->kind == NODE_CANVAS)
        return drawing_shown(layout, block);
    if (!holds_nodes(node->kind))
        return true;
    bool any_content = false;
    for (size_t i = 0; i < node->nodes.count; i++)
        any_content = any_content || is_content(node->nodes.items[i]->kind);
    for (size_t i = 0; i < block->blocks.count; i++) {
        Block *inner = block->blocks.items[i];
        if ((is_content(inner->node->kind) || !any_content) && block_shown(layout, inner))
            return true;
    }
    return false;
}

bool block_shown(const Layout *layout, Block *block) {
    if (block->shown_state != layout->state) {
        block->shown = find_shown(layout, block);
        block->shown_state = layout->state;
    }
    return block->shown;
}

Block *block_named(const Layout *layout, Block *from, const char *name) {
    if (!block_shown(layout, from))
        return NULL;
    if (from->node->name && strcmp(from->node->name, name) == 0)
        return from;
    for (size_t i = 0; i < from->blocks.count; i++) {
        Block *found = block_named(layout, from->blocks.items[i], name);
        if (found)
            return found;
    }
    return NULL;
}

TextStyle block_style(const Layout *layout, const Block *block) {
    int index = block->node->style;
    if (index < 0)
        return (TextStyle){FACE_REGULAR, LEAST_TYPE_PT, 1.2};
    const TypeStyle *style = &layout->pattern->styles.items[index];
    return (TextStyle){style->face, layout->sizes_pt[index], style->leading};
}

double block_apart_mm(const Layout *layout, const Node *node) {
    double given = node->tighten ? layout->given[node->tighten] : 0;
    double apart_mm = node->apart_mm * layout->scale;
    return apart_mm - (apart_mm - node->least_apart_mm) * given;
}

/* A space that a style keeps free is as high as its capitals. */
static double space_mm(const Layout *layout, const Block *block) {
    double apart_mm = block_apart_mm(layout, block->node);
    bool styled = block->node->style >= 0;
    return styled ? fmax(apart_mm, pen_capitals_mm(&layout->pen, block_style(layout, block)))
                  : apart_mm;
}

double block_stack_gap_mm(const Layout *layout) {
    return STACK_GAP_MM * layout->scale;
}

/* ---- Texts ---- */

static size_t leaf_lines(const Leaf *leaf, double width_mm, double size_pt) {
    return wrap_count(&leaf->text, wrap_room(width_mm, size_pt));
}

/* A text run together keeps its parts whole where that takes no more lines. */
static const Leaf *running_leaf(const Wording *wording, double width_mm, double size_pt) {
    int room = wrap_room(width_mm, size_pt);
    bool simple = wording->broken.text.width <= room || wording->whole.text.widest > room;
    if (simple || leaf_lines(&wording->whole, width_mm, size_pt) >
                      leaf_lines(&wording->broken, width_mm, size_pt))
        return &wording->broken;
    return &wording->whole;
}

const Leaf *text_leaves(const Layout *layout, const Block *block, double width_mm, size_t *count) {
    const Node *node = block->node;
    const Wording *wording = is_given(layout, node->shorten) ? &block->brief : &block->full;
    double size_pt = layout->sizes_pt[node->style];
    bool runs = wording->runs && (!node->lines || is_given(layout, node->run_in));
    *count = wording->count;
    if (!runs)
        return wording->paragraphs;
    const Leaf *running = running_leaf(wording, width_mm, size_pt);
    size_t lines = 0;
    for (size_t i = 0; i < wording->count; i++)
        lines += leaf_lines(&wording->paragraphs[i], width_mm, size_pt);
    double pitch_mm = pen_pitch_mm(block_style(layout, block));
    double apart_mm = block_apart_mm(layout, node) * (double)(wording->count - 1);
    double most_mm = (double)leaf_lines(running, width_mm, size_pt) * pitch_mm;
    if (wording->count && (double)lines * pitch_mm + apart_mm <= most_mm + 1e-6)
        return wording->paragraphs;
    *count = 1;
    return running;
}

static double text_height_mm(const Layout *layout, const Block *block, double width_mm) {
    size_t count = 0;
    const Leaf *leaves = text_leaves(layout, block, width_mm, &count);
    TextStyle style = block_style(layout, block);
    size_t lines = 0;
    for (size_t i = 0; i < count; i++)
        lines += leaf_lines(&leaves[i], width_mm, style.size_pt);
    double apart_mm = count > 1 ? block_apart_mm(layout, block->node) * (double)(count - 1) : 0;
    return (double)lines * pen_pitch_mm(style) + apart_mm;
}

static double text_natural_mm(const Layout *layout, const Block *block) {
    size_t count = 0;
    const Leaf *leaves = text_leaves(layout, block, 1e6, &count);
    int widest = 0;
    for (size_t i = 0; i < count; i++)
        widest = leaves[i].text.width > widest ? leaves[i].text.width : widest;
    return wrap_mm(widest, layout->sizes_pt[block->node->style]);
}

/* ---- Widths ---- */

static double sign_mm(const Layout *layout, const Block *block) {
    const Node *node = block->node;
    return node->upright ? node->size * pen_pitch_mm(block_style(layout, block))
                         : node->size * layout->scale;
}

/* What a block would be wide if it had all the room. */
static double find_natural(Layout *layout, Block *block) {
    const Node *node = block->node;
    switch (node->kind) {
    case NODE_TEXT: return text_natural_mm(layout, block);
    case NODE_SIGN: return sign_mm(layout, block);
    case NODE_RULE: return node->upright ? node->line_mm : 0;
    case NODE_SPACE: return 0;
    case NODE_CANVAS: return drawing_natural_mm(layout, block);
    case NODE_TABLE: block_solve(layout, block, 1e5); break;
    default: break;
    }
    double sum_mm = 0;
    double most_mm = 0;
    size_t count = 0;
    for (size_t i = 0; i < block->blocks.count; i++) {
        if (!block_shown(layout, block->blocks.items[i]))
            continue;
        double natural_mm = block_natural_mm(layout, block->blocks.items[i]);
        sum_mm += natural_mm + (count++ ? block_apart_mm(layout, node) : 0);
        most_mm = fmax(most_mm, natural_mm);
    }
    bool across = node->kind == NODE_ROW || node->kind == NODE_GRID;
    return (across ? sum_mm : most_mm) + 2 * node->side_mm;
}

double block_natural_mm(Layout *layout, Block *block) {
    if (block->node->width_kind == WIDTH_MM)
        return block->node->width;
    if (block->natural_state != layout->state) {
        block->natural_mm = find_natural(layout, block);
        block->natural_state = layout->state;
    }
    return block->natural_mm;
}

/* A column to be solved: how its width is given, and what it would like. */
typedef struct Wish {
    WidthKind kind;
    double width; /* as written */
    double natural_mm;
} Wish;

static Wish wish_of(Layout *layout, Block *block) {
    const Node *node = block->node;
    double natural_mm = node->width_kind == WIDTH_FIT ? block_natural_mm(layout, block) : 0;
    return (Wish){node->width_kind, node->width, natural_mm};
}

/* Gives lengths their lengths, what fits its width, parts of the whole theirs, and shares out what
 * is left. Parts fill the whole where nothing shares; what only fits gives way where it must. */
static void solve(const Wish *wishes, double *widths_mm, size_t count, double width_mm) {
    double weights = 0, parts = 0, fits_mm = 0, left_mm = width_mm;
    for (size_t i = 0; i < count; i++) {
        weights += wishes[i].kind == WIDTH_WEIGHT ? wishes[i].width : 0;
        parts += wishes[i].kind == WIDTH_PART ? wishes[i].width : 0;
        fits_mm += wishes[i].kind == WIDTH_FIT ? wishes[i].natural_mm : 0;
        left_mm -= wishes[i].kind == WIDTH_MM ? wishes[i].width : 0;
    }
    double fit = fits_mm > left_mm && fits_mm > 0 ? fmax(left_mm, 0) / fits_mm : 1;
    left_mm -= fits_mm * fit;
    double whole_mm = weights > 0 ? width_mm : parts > 0 ? left_mm / parts : 0;
    left_mm = fmax(left_mm - whole_mm * parts, 0);
    for (size_t i = 0; i < count; i++) {
        const Wish *wish = &wishes[i];
        widths_mm[i] = wish->kind == WIDTH_MM     ? wish->width
                       : wish->kind == WIDTH_FIT  ? wish->natural_mm * fit
                       : wish->kind == WIDTH_PART ? wish->width * whole_mm
                       : weights > 0              ? left_mm * wish->width / weights
                                                  : 0;
    }
}

static void solve_row(Layout *layout, Block *row, double width_mm) {
    size_t count = 0;
    Wish wishes[CELLS_MOST];
    double widths_mm[CELLS_MOST];
    for (size_t i = 0; i < row->blocks.count; i++)
        if (block_shown(layout, row->blocks.items[i]) && count < CELLS_MOST)
            wishes[count++] = wish_of(layout, row->blocks.items[i]);
    double apart_mm = block_apart_mm(layout, row->node) * (count ? (double)(count - 1) : 0);
    solve(wishes, widths_mm, count, width_mm - apart_mm);
    count = 0;
    row->stacked = false;
    for (size_t i = 0; i < row->blocks.count; i++) {
        if (!block_shown(layout, row->blocks.items[i]) || count >= CELLS_MOST)
            continue;
        bool shares = wishes[count].kind == WIDTH_WEIGHT;
        row->stacked = row->stacked || (shares && widths_mm[count] < row->node->stack_mm);
        row->cells_mm[i] = widths_mm[count++];
    }
}

/* What a cell asks for beside the cells above it. A length that keeps the place of a text which is
 * not there does not take away the room that the texts above fit into. */
static Wish wish_below(Wish above, Wish wish) {
    if (above.kind == WIDTH_FIT && wish.kind == WIDTH_MM)
        return (Wish){WIDTH_FIT, above.width, fmax(above.natural_mm, wish.width)};
    wish.natural_mm = fmax(wish.natural_mm, above.natural_mm);
    return wish;
}

/* The columns that all rows of a table share. */
static void solve_table(Layout *layout, Block *table, double width_mm) {
    Wish wishes[CELLS_MOST] = {{0}};
    table->cells = 0;
    for (size_t r = 0; r < table->blocks.count; r++) {
        Block *row = table->blocks.items[r];
        if (!block_shown(layout, row))
            continue;
        for (size_t i = 0; i < row->blocks.count && i < CELLS_MOST; i++) {
            wishes[i] = wish_below(wishes[i], wish_of(layout, row->blocks.items[i]));
            table->cells = i + 1 > table->cells ? i + 1 : table->cells;
        }
    }
    const Node *rows = table->node->nodes.items[0];
    double apart_mm = block_apart_mm(layout, rows) *
                      (table->cells ? (double)(table->cells - 1) : 0);
    solve(wishes, table->cells_mm, table->cells, width_mm - apart_mm - 2 * rows->side_mm);
}

static size_t shown_count(const Layout *layout, const Block *block) {
    size_t count = 0;
    for (size_t i = 0; i < block->blocks.count; i++)
        count += block_shown(layout, block->blocks.items[i]) ? 1 : 0;
    return count;
}

/* Height of a grid in so many columns. */
static double grid_height_mm(Layout *layout, Block *grid, size_t columns) {
    double height_mm = 0;
    double row_mm = 0;
    size_t at = 0;
    for (size_t i = 0; i < grid->blocks.count; i++) {
        Block *inner = grid->blocks.items[i];
        if (!block_shown(layout, inner))
            continue;
        if (at && at % columns == 0) {
            height_mm += row_mm + grid->node->down_mm;
            row_mm = 0;
        }
        row_mm = fmax(row_mm, block_height_mm(layout, inner, grid->cells_mm[at % columns]));
        at++;
    }
    return height_mm + row_mm;
}

/* Columns of one width, in the number that takes the least height; where two take the same, in the
 * fewer. */
static void solve_even_grid(Layout *layout, Block *grid, double width_mm) {
    double apart_mm = block_apart_mm(layout, grid->node);
    size_t most = (size_t)fmax(floor((width_mm + apart_mm) / (grid->node->least_mm + apart_mm)), 1);
    size_t count = shown_count(layout, grid);
    most = most > count ? count : most > GRID_MOST ? GRID_MOST : most;
    size_t best = 1;
    double best_mm = INFINITY;
    for (size_t columns = 1; columns <= most; columns++) {
        double each_mm = (width_mm - apart_mm * (double)(columns - 1)) / (double)columns;
        for (size_t i = 0; i < columns; i++)
            grid->cells_mm[i] = each_mm;
        double height_mm = grid_height_mm(layout, grid, columns);
        if (height_mm < best_mm - 0.01) {
            best_mm = height_mm;
            best = columns;
        }
    }
    grid->cells = best;
    for (size_t i = 0; i < best; i++)
        grid->cells_mm[i] = (width_mm - apart_mm * (double)(best - 1)) / (double)best;
}

/* The widest of each of so many columns, and their sum. */
static double grid_naturals_mm(Layout *layout, Block *grid, size_t columns) {
    double sum_mm = 0;
    size_t at = 0;
    for (size_t i = 0; i < columns; i++)
        grid->cells_mm[i] = 0;
    for (size_t i = 0; i < grid->blocks.count; i++) {
        if (!block_shown(layout, grid->blocks.items[i]))
            continue;
        double *cell_mm = &grid->cells_mm[at++ % columns];
        *cell_mm = fmax(*cell_mm, block_natural_mm(layout, grid->blocks.items[i]));
    }
    for (size_t i = 0; i < columns; i++)
        sum_mm += grid->cells_mm[i];
    return sum_mm;
}

/* As many columns as there is room for, each as wide as what stands in it. */
static void solve_grid(Layout *layout, Block *grid, double width_mm) {
    double apart_mm = block_apart_mm(layout, grid->node);
    size_t columns = shown_count(layout, grid);
    columns = columns > GRID_MOST ? GRID_MOST : columns;
    for (; columns > 1; columns = (columns + 1) / 2) {
        double sum_mm = grid_naturals_mm(layout, grid, columns);
        if (sum_mm + (double)(columns - 1) * apart_mm <= width_mm)
            break;
        if (columns == 2)
            columns = 1;
    }
    grid->cells = columns > 1 ? columns : 1;
    if (grid->cells == 1)
        grid->cells_mm[0] = width_mm;
}

double grid_gap_mm(const Block *grid, double width_mm, double apart_mm) {
    if (grid->node->least_mm > 0 || grid->cells < 2)
        return apart_mm;
    for (size_t i = 0; i < grid->cells; i++)
        width_mm -= grid->cells_mm[i];
    return width_mm / (double)(grid->cells - 1);
}

static size_t most_cells(const Block *block) {
    if (block->node->kind == NODE_TABLE)
        return CELLS_MOST;
    return block->blocks.count > GRID_MOST ? block->blocks.count : GRID_MOST;
}

void block_solve(Layout *layout, Block *block, double width_mm) {
    if (block->cells_state == layout->state && block->cells_width_mm == width_mm)
        return;
    if (!block->cells_mm)
        block->cells_mm = ARENA_ARRAY(layout->pen.arena, most_cells(block), double);
    bool in_table = block->parent && block->parent->node->kind == NODE_TABLE;
    if (block->node->kind == NODE_TABLE) {
        solve_table(layout, block, width_mm);
    } else if (block->node->kind == NODE_GRID && block->node->least_mm > 0) {
        solve_even_grid(layout, block, width_mm);
    } else if (block->node->kind == NODE_GRID) {
        solve_grid(layout, block, width_mm);
    } else if (in_table && block->parent->cells_mm) {
        size_t count = block->blocks.count < CELLS_MOST ? block->blocks.count : CELLS_MOST;
        memcpy(block->cells_mm, block->parent->cells_mm, count * sizeof *block->cells_mm);
    } else {
        solve_row(layout, block, width_mm);
    }
    block->cells_state = layout->state;
    block->cells_width_mm = width_mm;
}

/* ---- Heights ---- */

static double column_height_mm(Layout *layout, Block *column, double width_mm) {
    double height_mm = 0;
    size_t count = 0;
    for (size_t i = 0; i < column->blocks.count; i++) {
        Block *inner = column->blocks.items[i];
        if (block_shown(layout, inner))
            height_mm += block_height_mm(layout, inner, width_mm) +
                         (count++ ? block_apart_mm(layout, column->node) : 0);
    }
    return height_mm;
}

/* The level on which the nodes of a row stand themselves. */
static double cells_level_mm(Layout *layout, Block *row, RowAlign level) {
    double most_mm = 0;
    RowAlign own = row->node->level == ROW_TOP ? level : row->node->level;
    for (size_t i = 0; i < row->blocks.count; i++)
        if (block_shown(layout, row->blocks.items[i]))
            most_mm =
                fmax(most_mm, block_level_mm(layout, row->blocks.items[i], row->cells_mm[i], own));
    return most_mm;
}

double block_level_mm(Layout *layout, Block *block, double width_mm, RowAlign level) {
    const Node *node = block->node;
    double height_mm = block_height_mm(layout, block, width_mm);
    TextStyle style = block_style(layout, block);
    if (level == ROW_TOP)
        return 0;
    if (level == ROW_MIDDLE)
        return height_mm / 2;
    if (node->kind == NODE_SIGN && node->upright)
        return pen_baseline_mm(&layout->pen, style);
    if (node->kind == NODE_TEXT) {
        double up_mm = pen_baseline_mm(&layout->pen, style);
        return level == ROW_BASE ? up_mm : height_mm - pen_pitch_mm(style) + up_mm;
    }
    double inner_mm = width_mm - 2 * node->side_mm;
    if (node->kind == NODE_ROW && !block->stacked)
        return node->pad_mm + cells_level_mm(layout, block, level);
    for (size_t n = 0; n < block->blocks.count && node->kind == NODE_COLUMN; n++) {
        size_t i = level == ROW_BASE ? n : block->blocks.count - 1 - n;
        Block *inner = block->blocks.items[i];
        if (!block_shown(layout, inner) || !is_content(inner->node->kind))
            continue;
        double up_mm = block_level_mm(layout, inner, inner_mm, level);
        return level == ROW_BASE
                   ? node->pad_mm + up_mm
                   : height_mm - node->pad_mm - block_height_mm(layout, inner, inner_mm) + up_mm;
    }
    return height_mm;
}

/* Highest above the level on which the nodes of a row stand, and deepest below. */
static double row_height_mm(Layout *layout, Block *row, double width_mm) {
    block_solve(layout, row, width_mm);
    double up_mm = 0;
    double down_mm = 0;
    double stacked_mm = 0;
    size_t count = 0;
    for (size_t i = 0; i < row->blocks.count; i++) {
        Block *inner = row->blocks.items[i];
        if (!block_shown(layout, inner))
            continue;
        double inner_mm = row->stacked ? width_mm : row->cells_mm[i];
        double height_mm = block_height_mm(layout, inner, inner_mm);
        double level_mm = block_level_mm(layout, inner, inner_mm, row->node->level);
        up_mm = fmax(up_mm, level_mm);
        down_mm = fmax(down_mm, height_mm - level_mm);
        stacked_mm += height_mm + (count++ ? block_stack_gap_mm(layout) : 0);
    }
    return row->stacked ? stacked_mm : up_mm + down_mm;
}

static double find_height(Layout *layout, Block *block, double width_mm) {
    const Node *node = block->node;
    switch (node->kind) {
    case NODE_TABLE:
        block_solve(layout, block, width_mm); /* then like a column */
    /* fall through */
    case NODE_COLUMN: return column_height_mm(layout, block, width_mm);
    case NODE_ROW: return row_height_mm(layout, block, width_mm);
    case NODE_GRID:
        block_solve(layout, block, width_mm);
        return grid_height_mm(layout, block, block->cells);
    case NODE_TEXT: return text_height_mm(layout, block, width_mm);
    case NODE_SIGN: {
        double pitch_mm = pen_pitch_mm(block_style(layout, block));
        return node->upright ? fmax(pitch_mm, sign_mm(layout, block)) : sign_mm(layout, block);
    }
    case NODE_RULE: return node->upright ? 0 : node->line_mm;
    case NODE_SPACE: return space_mm(layout, block);
    case NODE_CANVAS: return fmax(drawing_least_mm(layout, block, width_mm), node->least_mm);
    case NODE_WORDS:
    case NODE_KINDS: break;
    }
    return 0;
}

double block_height_mm(Layout *layout, Block *block, double width_mm) {
    if (block->height_state == layout->state && block->height_width_mm == width_mm)
        return block->height_mm;
    const Node *node = block->node;
    double inner_mm = fmax(width_mm - 2 * node->side_mm, 1);
    double height_mm = find_height(layout, block, inner_mm) + 2 * node->pad_mm;
    block->height_mm = height_mm;
    block->height_state = layout->state;
    block->height_width_mm = width_mm;
    return height_mm;
}

double layout_height_mm(Layout *layout, double width_mm) {
    return block_height_mm(layout, layout->root, width_mm);
}

/* ---- Spare room ---- */

double block_grow(const Layout *layout, const Block *block) {
    double grow = block->node->grow;
    for (size_t i = 0; grow == 0 && i < block->blocks.count; i++)
        if (block_shown(layout, block->blocks.items[i]))
            grow = fmax(grow, block_grow(layout, block->blocks.items[i]));
    return grow;
}

static double nodes_most_mm(Layout *layout, Block *block, double width_mm) {
    bool row = block->node->kind == NODE_ROW && !block->stacked;
    double sum_mm = 0;
    double most_mm = 0;
    size_t count = 0;
    double gap_mm = fmax(block->node->most_apart_mm, block_apart_mm(layout, block->node));
    for (size_t i = 0; i < block->blocks.count; i++) {
        Block *inner = block->blocks.items[i];
        if (!block_shown(layout, inner))
            continue;
        double inner_mm = block_most_mm(layout, inner, row ? block->cells_mm[i] : width_mm);
        sum_mm += inner_mm + (count++ ? gap_mm : 0);
        most_mm = fmax(most_mm, inner_mm);
    }
    return row ? most_mm : sum_mm;
}

double block_most_mm(Layout *layout, Block *block, double width_mm) {
    const Node *node = block->node;
    double height_mm = block_height_mm(layout, block, width_mm);
    double inner_mm = fmax(width_mm - 2 * node->side_mm, 1);
    double most_mm = height_mm;
    if (node->kind == NODE_SPACE && node->grow > 0)
        most_mm = 1e4;
    else if (node->kind == NODE_CANVAS)
        most_mm = fmin(drawing_most_mm(layout, block, inner_mm), node->most_mm);
    else if (holds_nodes(node->kind) && node->kind != NODE_GRID)
        most_mm = nodes_most_mm(layout, block, inner_mm) + 2 * node->pad_mm;
    return fmax(most_mm, height_mm);
}
