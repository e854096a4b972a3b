/* Pattern: how a paper is arranged, read from templates/sheet.xml, label.xml and their like. One
 * tree of a few kinds of nodes serves every paper; only what is drawn is written in C.
 *
 *     <sheet margin="8 mm">
 *       <style name="row" face="condensed" size="3.5 mm" then="2: 3 mm; 6: 2.6 mm"/> …
 *       <column apart="3 mm" least-apart="1 mm" tighten="1">
 *         <text words="{verdict}" style="headline"/>
 *         <row apart="4 mm" when="lit">
 *           <table width="45 %"> <row each="blend.part"> … cells … </row> </table>
 *           <column width="55 %"> <text each="step" words="{text}" drop="7"/> … </column>
 *         </row>
 *         <canvas kind="curve" grow="1" drop="4"/>
 *       </column>
 *     </sheet>
 *
 * Nodes
 *   column  its nodes under one another          row     side by side
 *   table   of rows, whose cells share columns   grid    in as many columns as there is room for
 *   text    one paragraph, or several <words>    rule    a line, level or upright
 *   sign    a small drawn sign                   space   nothing, so high (or wide)
 *   canvas  what C draws into its room: kind="curve"
 *
 * When a node stands: `if="field"` names fields that have to hold something, blanks between;
 * "field=word" one that holds that word, "!field" one that must not. `when` is "lit" or "refused".
 * `each="step"` repeats the node for every row of the plan's fields, which its words then speak of.
 *
 * Words are keys of the words files; {field} in a key stands for the text of that field, so that
 * words="{text}" says what a row's own `text` names.
 *
 * When the page is full it gives way step by step, from the lowest on. What a node or a style does
 * at a step stands on it: a style goes down in size (`then`), a node goes (`drop`) or comes for
 * another (`from`), moves closer (`tighten`; trays: to narrower lanes), says it in fewer words
 * (`shorten`, which takes `brief`), runs its words together (`run-in`). A step goes only as far as
 * it has to, and what a later step made needless is taken back.
 */
#ifndef LAYOUT_PATTERN_H
#define LAYOUT_PATTERN_H

#include "base/diagnostic.h"
#include "base/element.h"
#include "layout/face.h"

#include <stdbool.h>

/* Steps are written as 1, 2 … or, between two others or before the first, as 0.1, and counted in
 * tenths. */
enum { STEP_TENTHS = 10, STEPS_MOST = 40 * STEP_TENTHS, SIZES_MOST = 6, CELLS_MOST = 12 };

/* How a text looks, and how small it gets at which step. */
typedef struct TypeStyle {
    Place place;
    const char *name;
    FaceRole face;
    double leading;
    size_t count;
    int steps[SIZES_MOST]; /* the first is 0: as long as nothing gives way */
    double sizes_pt[SIZES_MOST];
    const char *capitals;      /* field with the least height of its capitals; NULL: none */
    const char *small_letters; /* field with that of its small letters; NULL: none */
} TypeStyle;

typedef enum NodeKind {
    NODE_COLUMN,
    NODE_ROW,
    NODE_TABLE,
    NODE_GRID,
    NODE_TEXT,
    NODE_WORDS,
    NODE_SIGN,
    NODE_RULE,
    NODE_SPACE,
    NODE_CANVAS,
    NODE_KINDS
} NodeKind;

typedef enum NodeWhen { WHEN_ANY, WHEN_NIGHT_LIT, WHEN_NIGHT_REFUSED } NodeWhen;

/* Across a row: a part of what is left, a length, a part of the whole, or what it holds. */
typedef enum WidthKind { WIDTH_WEIGHT, WIDTH_MM, WIDTH_PART, WIDTH_FIT } WidthKind;

/* How the nodes of a row stand to each other. */
typedef enum RowAlign {
    ROW_TOP,
    ROW_MIDDLE,
    ROW_BASE, /* first lines on one level */
    ROW_FOOT  /* last lines on one level */
} RowAlign;

typedef struct Node Node;

typedef LIST_OF(Node *) Nodes;

struct Node {
    Place place;
    NodeKind kind;
    int index;        /* among all nodes of the pattern */
    const char *name; /* of its marks' owner; NULL: that of what it stands in */
    const Node *parent;
    Nodes nodes;

    const char *each;      /* NULL: once */
    const char *condition; /* NULL: none */
    NodeWhen when;
    int drop, from; /* steps; 0: never, always */

    WidthKind width_kind;
    double width;
    double grow;                       /* part of spare height it takes */
    double apart_mm, least_apart_mm;   /* between its nodes; a space's height, which with
                                        * a style is no less than its capitals */
    double most_apart_mm;              /* where there is height to spare */
    int tighten;                       /* step; 0: never */
    double down_mm;                    /* of a grid: between its rows */
    double pad_mm, side_mm;            /* within its edges, above and beside */
    double stack_mm;                   /* row: narrower and its nodes go below another */
    double least_mm, most_mm;          /* height of a canvas; least width in a grid */
    double line_mm;                    /* of a rule; frame, lines between the rows */
    double fill;                       /* grey behind it; NAN: none */
    bool white;                        /* its ink */
    bool upright;                      /* a rule */
    RowAlign level;                    /* of a row */
    int align;                         /* Align of a text */
    int style;                         /* index of its TypeStyle; -1: none */
    const char *words, *brief;         /* keys */
    const char *lead, *lead_brief;     /* keys of what stands before; NULL: nothing */
    int shorten, run_in;               /* steps */
    bool strong, figures, strong_lead; /* the words; their figures; what leads them */
    bool lines;                        /* each <words> starts a line */
    const char *joint;                 /* between <words> */
    int drawing;                       /* SignKind, or kind of canvas */
    double size;                       /* of a sign: mm, or with a style parts of its line */
    const char *of;                    /* canvas: name of the node it is about */
};

typedef struct Pattern {
    Place place;
    const char *file;
    const char *paper; /* root element: "sheet" */
    double margin_mm, least_margin_mm;
    double made_for_width_mm, made_for_height_mm; /* of a label */
    double largest;                               /* of a label: so many times its sizes at most */
    LIST_OF(TypeStyle) styles;
    Node *root;                /* a column */
    Nodes nodes;               /* all, by index */
    int steps;                 /* of giving way: the last */
    bool used[STEPS_MOST + 1]; /* whether anything gives way at a step */
} Pattern;

/* The least type: 7 pt is near the end of what a cheap printer keeps clear. On a label 6 pt, an
 * x-height of 1.1 mm in the shipped faces; the 0.9 mm that food law asks of small packs (Regulation
 * (EU) 1169/2011, article 13, from memory) is the only published floor for a label's small
 * print. */
#define LEAST_TYPE_PT 7.0
#define LABEL_LEAST_PT 6.0

/* On the second label of a pair, on stock as small as it gets: 5 pt, an x-height of 0.93 mm in the
 * shipped faces, the last half point above that floor of 0.9 mm. */
#define LABEL_SECOND_LEAST_PT 5.0

/* The root elements there are. */
#define PATTERN_PAPERS                                                                             \
    "sheet desk label label_front label_second slip trace season dust_sheet record"

/* Reads a pattern, whose root is one of `papers` ("sheet desk"; NULL: any there is). Every fault is
 * reported with its place; NULL when there was one. What the law or safety wants on a paper
 * (pattern_check.c) cannot be left out, made conditional on the verdict or dropped. */
const Pattern *pattern_read(Arena *arena, const Element *root, const char *papers,
                            const FaceSet *faces, Diagnostics *diagnostics);

/* Reports what has to be on the paper and is not in the pattern. */
void pattern_check(const Pattern *pattern, Diagnostics *diagnostics);

#endif
