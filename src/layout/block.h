/* Block: a pattern's tree with the words of one plan, measured, fitted and drawn.
 *
 * It is built once: every text is filled, and measured in thousandths of its type size. From then
 * on nothing is filled or measured again: a height is found by adding widths of words, for any
 * width and any size. Then it is placed, when every block knows its box, and painted in reading
 * order.
 */
#ifndef LAYOUT_BLOCK_H
#define LAYOUT_BLOCK_H

#include "domain/field.h"
#include "layout/pattern.h"
#include "layout/format.h"
#include "layout/pen.h"

typedef struct Block Block;

typedef LIST_OF(Block *) Blocks;

/* What papers are laid out from, and how far they have given way. */
typedef struct Layout {
    const Pattern *pattern;
    const Plan *plan;
    const FieldGroup *fields; /* of the plan, or of the row the paper is about */
    const Locale *locale;
    Diagnostics *diagnostics;
    Place place; /* of what the paper is about, for messages */
    Pen pen;
    Block *root;
    double *sizes_pt;             /* of the styles, now */
    double given[STEPS_MOST + 1]; /* how far each step was gone: 0 not at all, 1 all the way */
    double scale;                 /* of sizes and spaces, against the pattern's */
    unsigned state;               /* another with every change of the above */
} Layout;

/* One paragraph, filled and measured. */
typedef struct Leaf {
    const char *string;
    WrapText text;
} Leaf;

/* What a text says: paragraphs under one another, or all of it run together. */
typedef struct Wording {
    size_t count;
    Leaf *paragraphs;
    bool runs;   /* the next three are there */
    Leaf whole;  /* none of its parts broken */
    Leaf broken; /* broken anywhere */
} Wording;

/* What a canvas drew last, to be put on the page again. */
typedef struct DrawnPicture {
    const Picture *picture; /* NULL: nothing yet */
} DrawnPicture;

struct Block {
    const Node *node;
    const FieldGroup *row;
    const char *owner; /* NULL: that of what it stands in */
    const Block *parent;
    Blocks blocks;
    Wording full, brief; /* of a text */
    DrawnPicture *drawn; /* of a canvas; else NULL */
    Box box;             /* once it is placed */
    /* What was found in a state, for a width. */
    unsigned shown_state, height_state, natural_state, cells_state;
    bool shown;
    bool stacked; /* a row too narrow to stand side by side */
    double height_width_mm, height_mm, natural_mm, cells_width_mm;
    double *cells_mm; /* widths of the columns: of a table, a grid, or a row by its blocks */
    size_t cells;     /* of a table, a grid: how many */
};

/* A layout of a pattern for a plan, nothing built yet. `fields`: what the paper is about, those of
 * the plan or a row of them. */
Layout layout_new(Arena *arena, const Pattern *pattern, const Plan *plan, const FieldGroup *fields,
                  const Locale *locale, const FaceSet *faces, Diagnostics *diagnostics);

/* Fills and measures everything. False when something cannot be said or set, which is reported. */
bool layout_build(Layout *layout);

/* Fills and measures everything anew for other fields of the same kind, and keeps its sizes. False
 * as above. */
bool layout_rebuild(Layout *layout, const FieldGroup *fields);

/* The pattern's own sizes, `scale` times; nothing has given way. */
void layout_reset(Layout *layout, double scale);

/* Goes a step that far, from 0 to 1. */
void layout_give(Layout *layout, int step, double part);

/* Height of the whole at that width, at the sizes it has now. */
double layout_height_mm(Layout *layout, double width_mm);

/* Gives way step by step until it fits into the box; returns the millimetres by which it still
 * does not. `whole_words`: a word wider than its column does not fit either. */
double layout_fit(Layout *layout, Box box, bool whole_words);

/* A text with a word wider than its column, as it stands now; NULL: none. */
const char *layout_too_wide(Layout *layout, double width_mm);

/* The text that takes most height at that width. */
typedef struct LongText {
    const char *owner;
    const char *string;
    double height_mm;
} LongText;

LongText layout_longest(Layout *layout, double width_mm);

/* Places everything in the box, spare height given to what grows, and draws it on the page. */
void layout_draw(Layout *layout, Page *page, Box box);

/* Visits every block that stands, in reading order, until `visit` returns true. */
bool layout_each(Layout *layout, bool (*visit)(Layout *, Block *, void *), void *with);

/* ---- For canvases, and within the engine ---- */

/* Whether the block is there as things are. */
bool block_shown(const Layout *layout, Block *block);

/* The first block of that name that is shown; NULL: none. */
Block *block_named(const Layout *layout, Block *from, const char *name);

TextStyle block_style(const Layout *layout, const Block *block);
double block_apart_mm(const Layout *layout, const Node *node);

double block_natural_mm(Layout *layout, Block *block);
double block_height_mm(Layout *layout, Block *block, double width_mm);
double block_most_mm(Layout *layout, Block *block, double width_mm);
double block_grow(const Layout *layout, const Block *block);
void block_place(Layout *layout, Block *block, Box box);
void block_paint(Layout *layout, const Block *block);

/* Solves the columns of a row, a table or a grid of that width: cells_mm, cells, stacked. */
void block_solve(Layout *layout, Block *block, double width_mm);

/* The paragraphs a text consists of at that width, as things are. */
const Leaf *text_leaves(const Layout *layout, const Block *block, double width_mm, size_t *count);

/* How far below the top of a block of that width the line stands on which a row sets it. */
double block_level_mm(Layout *layout, Block *block, double width_mm, RowAlign level);

/* Gap below one another of the nodes of a row that is too narrow. */
double block_stack_gap_mm(const Layout *layout);

/* Columns of a grid: side by side, each as wide as what it holds, what is left between them. */
double grid_gap_mm(const Block *grid, double width_mm, double apart_mm);

/* A text measured in the node's style. */
Leaf block_leaf(Layout *layout, const Node *node, const char *string);

/* Words as the page says them, for a row; "?" when they are missing, which is reported. */
const char *layout_words(Layout *layout, const char *key, const FieldGroup *row);
const char *layout_figure(Layout *layout, QuantityKind kind, double value, const char *style);
const char *layout_time(Layout *layout, Instant at, const char *style);

/* Room for the widest full hour on a scale of time. */
double layout_hour_mm(Layout *layout, TextStyle style);

#endif
