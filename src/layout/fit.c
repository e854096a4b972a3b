#include "layout/fit.h"

#include <math.h>

enum { SHRINK_LEVELS = 8, SHARE_ROUNDS = 8 };

static bool block_shown(Setting *setting, const Block *block) {
    if (block->kind == BLOCK_PANEL)
        return panel_shown(setting, &block->panel);
    for (size_t i = 0; i < block->blocks.count; i++)
        if (block_shown(setting, block->blocks.items[i]))
            return true;
    for (size_t i = 0; i < block->loose.count; i++)
        if (block_shown(setting, block->loose.items[i]))
            return true;
    return false;
}

/* Sum of the shares of the blocks of a row that are shown, and how many those are. */
static double shown_share(Setting *setting, const Block *row, size_t *count) {
    double share = 0;
    *count = 0;
    for (size_t i = 0; i < row->blocks.count; i++) {
        if (!block_shown(setting, row->blocks.items[i]))
            continue;
        share += row->blocks.items[i]->share;
        ++*count;
    }
    return share;
}

/* Width of one block of a row: its share of what the gaps leave. */
static double block_width_mm(Setting *setting, const Block *row, const Block *block,
                             double width_mm) {
    size_t count = 0;
    double share = shown_share(setting, row, &count);
    double apart_mm = setting->template->columns_apart_mm * (double)(count > 0 ? count - 1 : 0);
    return (width_mm - apart_mm) * block->share / share;
}

static Extent block_extent(Setting *setting, const Block *block, double width_mm);

/* A copy of a block of a row as a column to which more can be added. */
static Block *column_of(Arena *arena, const Block *block) {
    Block *column = ARENA_NEW(arena, Block);
    *column = *block;
    column->kind = BLOCK_COLUMN;
    column->blocks.items = NULL;
    column->blocks.count = column->blocks.capacity = 0;
    if (block->kind == BLOCK_PANEL) {
        Block *panel = ARENA_NEW(arena, Block);
        *panel = *block;
        LIST_ADD(arena, &column->blocks, panel);
    }
    for (size_t i = 0; block->kind == BLOCK_COLUMN && i < block->blocks.count; i++)
        LIST_ADD(arena, &column->blocks, block->blocks.items[i]);
    return column;
}

/* The shown column of a row that is the shortest as it stands; NULL when none is shown. */
static Block *shortest(Setting *setting, const Block *row, double width_mm) {
    Block *found = NULL;
    double least_mm = INFINITY;
    for (size_t i = 0; i < row->blocks.count; i++) {
        Block *block = row->blocks.items[i];
        if (!block_shown(setting, block))
            continue;
        Extent extent = block_extent(setting, block, block_width_mm(setting, row, block, width_mm));
        if (extent.least_mm < least_mm) {
            least_mm = extent.least_mm;
            found = block;
        }
    }
    return found;
}

/* The row with its loose panels in their places; the row itself when it has none. */
static const Block *settled(Setting *setting, const Block *row, double width_mm) {
    if (!row->loose.count)
        return row;
    Arena *arena = setting->pen.arena;
    Block *copy = ARENA_NEW(arena, Block);
    *copy = (Block){.kind = BLOCK_ROW, .place = row->place};
    for (size_t i = 0; i < row->blocks.count; i++)
        LIST_ADD(arena, &copy->blocks, column_of(arena, row->blocks.items[i]));
    for (size_t i = 0; i < row->loose.count; i++) {
        if (!block_shown(setting, row->loose.items[i]))
            continue;
        Block *column = shortest(setting, copy, width_mm);
        if (!column) {
            column = column_of(arena, row->loose.items[i]);
            LIST_ADD(arena, &copy->blocks, column);
        } else {
            LIST_ADD(arena, &column->blocks, row->loose.items[i]);
        }
    }
    return copy;
}

static Extent row_extent(Setting *setting, const Block *loose_row, double width_mm) {
    const Block *row = settled(setting, loose_row, width_mm);
    Extent extent = {0, 0};
    for (size_t i = 0; i < row->blocks.count; i++) {
        const Block *block = row->blocks.items[i];
        if (!block_shown(setting, block))
            continue;
        Extent part = block_extent(setting, block, block_width_mm(setting, row, block, width_mm));
        extent.least_mm = fmax(extent.least_mm, part.least_mm);
        extent.most_mm = fmax(extent.most_mm, part.most_mm);
    }
    extent.most_mm = fmax(extent.most_mm, extent.least_mm);
    return extent;
}

static Extent column_extent(Setting *setting, const Block *column, double width_mm) {
    Extent extent = {0, 0};
    double apart_mm = 0;
    for (size_t i = 0; i < column->blocks.count; i++) {
        if (!block_shown(setting, column->blocks.items[i]))
            continue;
        Extent part = block_extent(setting, column->blocks.items[i], width_mm);
        extent.least_mm += apart_mm + part.least_mm;
        extent.most_mm += apart_mm + part.most_mm;
        apart_mm = setting->rows_apart_mm;
    }
    return extent;
}

static Extent block_extent(Setting *setting, const Block *block, double width_mm) {
    if (block->kind == BLOCK_PANEL)
        return panel_extent(setting, &block->panel, width_mm);
    return block->kind == BLOCK_ROW ? row_extent(setting, block, width_mm)
                                    : column_extent(setting, block, width_mm);
}

double fit_height_mm(Setting *setting, double width_mm) {
    return block_extent(setting, setting->template->arrange, width_mm).least_mm;
}

/* ---- Giving way ---- */

/* Puts the texts of a step a part of the way from their size to their least. */
static void shrink(Setting *setting, const GiveWay *give, double part) {
    for (int role = 0; role < TEXT_COUNT; role++) {
        const TextRange *range = &setting->template->texts[role];
        if (give->texts[role])
            setting->texts[role].size_pt = range->size_pt +
                                           (range->least_pt - range->size_pt) * part;
    }
}

static double overflow_mm(Setting *setting, Box box) {
    double height_mm = fit_height_mm(setting, box.width_mm);
    return height_mm > box.height_mm + 1e-6 ? height_mm - box.height_mm : 0;
}

/* Shrinks as little as makes the page fit, found by halving; all the way when it takes that. */
static double shrink_to_fit(Setting *setting, const GiveWay *give, Box box) {
    int fits = SHRINK_LEVELS;
    shrink(setting, give, 1);
    double over_mm = overflow_mm(setting, box);
    if (over_mm > 0)
        return over_mm;
    for (int too_large = -1; fits - too_large > 1;) {
        int level = (fits + too_large) / 2;
        shrink(setting, give, (double)level / SHRINK_LEVELS);
        if (overflow_mm(setting, box) <= 0)
            fits = level;
        else
            too_large = level;
    }
    shrink(setting, give, (double)fits / SHRINK_LEVELS);
    return 0;
}

static void tighten(Setting *setting) {
    setting->tight++;
    setting->rows_apart_mm = setting->template->least_apart_mm;
}

static double give_once(Setting *setting, const GiveWay *give, Box box) {
    if (give->kind == GIVE_SHRINK)
        return shrink_to_fit(setting, give, box);
    if (give->kind == GIVE_DROP)
        setting->dropped[give->panel]++;
    else
        tighten(setting);
    return overflow_mm(setting, box);
}

/* Takes back one step, or as much of it as the page still fits with. */
static void recover_once(Setting *setting, const GiveWay *give, Box box) {
    if (give->kind == GIVE_SHRINK) {
        shrink_to_fit(setting, give, box);
    } else if (give->kind == GIVE_DROP) {
        setting->dropped[give->panel]--;
        if (overflow_mm(setting, box) > 0)
            setting->dropped[give->panel]++;
    } else {
        setting->tight--; /* the drawings or tables by themselves, if not rows too */
        if (overflow_mm(setting, box) > 0)
            setting->tight++;
        setting->rows_apart_mm = setting->template->rows_apart_mm;
        if (overflow_mm(setting, box) > 0)
            setting->rows_apart_mm = setting->template->least_apart_mm;
    }
}

/* Takes back, from the last step on, what need not have been given any more once a later one had
 * made more room than it had to. */
static void recover(Setting *setting, Box box, size_t taken) {
    while (taken-- > 0)
        recover_once(setting, &setting->template->give_way.items[taken], box);
}

double fit_give_way(Setting *setting, Box box) {
    size_t errors = diagnostics_errors(setting->diagnostics, NULL);
    double over_mm = overflow_mm(setting, box);
    if (diagnostics_errors(setting->diagnostics, NULL) != errors)
        return 0; /* a word is missing: the height means nothing */
    size_t taken = 0;
    while (over_mm > 0 && taken < setting->template->give_way.count)
        over_mm = give_once(setting, &setting->template->give_way.items[taken++], box);
    if (over_mm <= 0 && taken > 1)
        recover(setting, box, taken - 1);
    return over_mm;
}

/* ---- Drawing ---- */

/* How much a block wants to grow: its own weight, or that of what stands in it. */
static double block_grow(Setting *setting, const Block *block) {
    if (!block_shown(setting, block))
        return 0;
    if (block->kind == BLOCK_PANEL)
        return block->panel.grow;
    double grow = 0;
    for (size_t i = 0; i < block->blocks.count; i++)
        grow = fmax(grow, block_grow(setting, block->blocks.items[i]));
    return grow;
}

/* Gives spare height to the blocks of a column by their weight, to none more than it can use.
 * What one leaves goes to the others in the next round; returned is what is left in the end. */
static double share_out(const Extent *extents, const double *grows, double *heights_mm,
                        size_t count, double spare_mm) {
    for (int round = 0; round < SHARE_ROUNDS && spare_mm > 0.01; round++) {
        double weight = 0;
        for (size_t i = 0; i < count; i++)
            if (heights_mm[i] < extents[i].most_mm)
                weight += grows[i];
        if (weight <= 0)
            break;
        double given_mm = 0;
        for (size_t i = 0; i < count; i++) {
            if (heights_mm[i] >= extents[i].most_mm)
                continue;
            double more_mm = fmin(spare_mm * grows[i] / weight, extents[i].most_mm - heights_mm[i]);
            heights_mm[i] += more_mm;
            given_mm += more_mm;
        }
        spare_mm -= given_mm;
    }
    return spare_mm > 0 ? spare_mm : 0;
}

static void draw_block(Setting *setting, const Block *block, Box box);

static void draw_column(Setting *setting, const Block *column, Box box) {
    size_t count = column->blocks.count;
    Extent *extents = ARENA_ARRAY(setting->pen.arena, count, Extent);
    double *grows = ARENA_ARRAY(setting->pen.arena, count, double);
    double *heights_mm = ARENA_ARRAY(setting->pen.arena, count, double);
    double spare_mm = box.height_mm + setting->rows_apart_mm;
    for (size_t i = 0; i < count; i++) {
        if (!block_shown(setting, column->blocks.items[i]))
            continue;
        extents[i] = block_extent(setting, column->blocks.items[i], box.width_mm);
        grows[i] = block_grow(setting, column->blocks.items[i]);
        heights_mm[i] = extents[i].least_mm;
        spare_mm -= extents[i].least_mm + setting->rows_apart_mm;
    }
    double left_mm = share_out(extents, grows, heights_mm, count, spare_mm);
    for (size_t i = 0; i < count; i++) {
        if (!block_shown(setting, column->blocks.items[i]))
            continue;
        if (column == setting->template->arrange && i + 1 == count)
            box.y_mm += left_mm; /* the last block stands at the foot of the page */
        draw_block(setting, column->blocks.items[i],
                   (Box){box.x_mm, box.y_mm, box.width_mm, heights_mm[i]});
        box.y_mm += heights_mm[i] + setting->rows_apart_mm;
    }
}

static void draw_row(Setting *setting, const Block *loose_row, Box box) {
    const Block *row = settled(setting, loose_row, box.width_mm);
    for (size_t i = 0; i < row->blocks.count; i++) {
        const Block *block = row->blocks.items[i];
        if (!block_shown(setting, block))
            continue;
        double width_mm = block_width_mm(setting, row, block, box.width_mm);
        draw_block(setting, block, (Box){box.x_mm, box.y_mm, width_mm, box.height_mm});
        box.x_mm += width_mm + setting->template->columns_apart_mm;
    }
}

static void draw_block(Setting *setting, const Block *block, Box box) {
    if (block->kind == BLOCK_PANEL)
        panel_draw(setting, &block->panel, box);
    else if (block->kind == BLOCK_ROW)
        draw_row(setting, block, box);
    else
        draw_column(setting, block, box);
}

void fit_draw(Setting *setting, Box box) {
    draw_block(setting, setting->template->arrange, box);
}
