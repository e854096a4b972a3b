/* Template: how a session sheet is arranged, read from templates/sheet.xml or one like it.
 *
 *     <sheet>
 *       <page margin="10 mm" columns-apart="6 mm" rows-apart="4 mm" least-apart="2.5 mm"/>
 *       <text name="step" face="condensed" size="3.5 mm" least="2.8 mm"/> …
 *       <arrange>
 *         <panel kind="headline"/>
 *         <row>
 *           <column width="50 %"> <panel kind="steps"/> … </column>
 *           <column width="50 %"> … </column>
 *           <loose> <panel kind="care"/> </loose>
 *         </row>
 *       </arrange>
 *       <give-way>
 *         <shrink texts="step figure"/> <tighten/> <drop panel="curve"/>
 *       </give-way>
 *     </sheet>
 *
 * A size in mm is the height of the capitals, one in pt the size of the type. Loose panels go below
 * whichever column of their row is the shortest. A panel with="curve" stands only where the curve
 * does, one without="curve" only where it had to give way or has nothing to show; the panel named
 * comes before it in the file. Panels take all their words from the words files. What must be on
 * every sheet (the verdict, the cautions, that the figures are estimates) cannot be left out or
 * dropped.
 */
#ifndef LAYOUT_TEMPLATE_H
#define LAYOUT_TEMPLATE_H

#include "base/diagnostic.h"
#include "base/element.h"
#include "layout/face.h"

#include <stdbool.h>

/* What a text is for. The template says how each looks. */
typedef enum TextRole {
    TEXT_HEADLINE, /* light at, out by, the verdict */
    TEXT_LEAD,     /* the verdict's reason */
    TEXT_TITLE,    /* heads of panels */
    TEXT_STEP,     /* steps, decisions */
    TEXT_FIGURE,   /* weights and times to act on */
    TEXT_BODY,     /* what is read at leisure */
    TEXT_NOTE,     /* heads of tables, labels in drawings */
    TEXT_COUNT
} TextRole;

/* How a text may look, from the size wished for down to the least. */
typedef struct TextRange {
    Place place;
    FaceRole face;
    double size_pt;
    double least_pt;
    double leading;
} TextRange;

typedef enum PanelKind {
    PANEL_HEADLINE,
    PANEL_REMEDIES, /* what would help a plan that is not good */
    PANEL_WEIGH_OUT,
    PANEL_DRYING,
    PANEL_TRAY_MAP,
    PANEL_CURVE,
    PANEL_STEPS,
    PANEL_RULES, /* if this, then that */
    PANEL_LOG,
    PANEL_RECORD,
    PANEL_CAUTIONS,
    PANEL_CARE,  /* conditions of the product */
    PANEL_WORDS, /* any text of the words files */
    PANEL_FOOTER,
    PANEL_KINDS
} PanelKind;

/* On which plans a panel stands. */
typedef enum PanelWhen { WHEN_ALWAYS, WHEN_LIT, WHEN_REFUSED } PanelWhen;

/* One line of a panel of rules or words. */
typedef struct PanelItem {
    Place place;
    const char *words; /* key */
    const char *field; /* shown only where this field holds something; NULL: always */
} PanelItem;

typedef struct Panel {
    Place place;
    PanelKind kind;
    const char *name;  /* how give-way and messages call it */
    const char *title; /* words key; NULL: no title */
    PanelWhen when;
    int with;      /* index of a panel only beside which it stands; -1: none */
    int without;   /* index of a panel only in whose stead it stands; -1: none */
    double grow;   /* part of the spare height it takes */
    TextRole text; /* of its running text */
    int index;     /* among the panels of the sheet, from 0 */
    LIST_OF(PanelItem) items;
    LIST_OF(const char *) only; /* cautions: these keys; empty: those no other panel shows */
} Panel;

typedef enum BlockKind { BLOCK_PANEL, BLOCK_ROW, BLOCK_COLUMN } BlockKind;

typedef struct Block Block;

struct Block {
    BlockKind kind;
    Place place;
    double share; /* of the width, against its neighbours in a row */
    Panel panel;  /* when it is one */
    LIST_OF(Block *) blocks;
    LIST_OF(Block *) loose; /* of a row: panels that find their column themselves */
};

typedef enum GiveKind { GIVE_SHRINK, GIVE_TIGHTEN, GIVE_DROP } GiveKind;

typedef struct GiveWay {
    Place place;
    GiveKind kind;
    bool texts[TEXT_COUNT]; /* shrink: which */
    int panel;              /* drop: index */
} GiveWay;

typedef struct Template {
    Place place;
    const char *file;
    double margin_mm;
    double columns_apart_mm;
    double rows_apart_mm;
    double least_apart_mm; /* rows, when tightened */
    TextRange texts[TEXT_COUNT];
    Block *arrange;                /* a column */
    LIST_OF(const Panel *) panels; /* by index */
    LIST_OF(GiveWay) give_way;
} Template;

/* The least type size on any page (7 pt: near the end of what a cheap printer keeps clear). */
#define LEAST_TYPE_PT 7.0

/* Reads a template. Every fault is reported with its place; NULL when there was one. */
const Template *template_read(Arena *arena, const Element *root, const FaceSet *faces,
                              Diagnostics *diagnostics);

/* Name of a kind of panel or of a text in templates: "weigh-out", "step". */
const char *panel_kind_name(PanelKind kind);
const char *text_role_name(TextRole role);

#endif
