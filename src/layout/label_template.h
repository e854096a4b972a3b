/* LabelTemplate: how a bag label is arranged, read from templates/label.xml or one like it.
 *
 *     <label margin="4 mm" least-margin="2 mm" made-for-width="99.1 mm"
 *            made-for-height="67.7 mm" largest="2">
 *       <text name="name" face="bold" size="20 pt" least="9 pt" leading="1.1"/> …
 *       <arrange>
 *         <words name="title" words="label.name" text="name"/>
 *         <parts/>
 *         <rule line="0.5 mm"/>
 *         <facts apart="4 mm"> <fact title="label.lot" words="label.lot_mark"/> … </facts>
 *         <space height="2 mm" least="0.6 mm" grow="1"/>
 *         <cautions> <words words="label.use" strong="yes"/>
 *                    <words words="label.keep" brief="label.keep_brief"/> … </cautions>
 *         <row apart="5 mm" least="30 mm"> <net/> <run> <words words="label.maker"/> </run> </row>
 *       </arrange>
 *       <give-way>
 *         <shrink texts="name"/> <tighten/> <run-in/> <shrink texts="caution" to="7 pt"/>
 *         <shorten/> <drop item="kind"/>
 *       </give-way>
 *     </label>
 *
 * Sizes are for a label of the size it was made for; on a larger one they grow while there is room,
 * at most `largest` times. `if` names a field that has to hold something for the item to be shown,
 * `is` the word it has to hold. The net quantity is never set lower than the law asks. What has to
 * be on every bag can be neither left out nor dropped.
 */
#ifndef LAYOUT_LABEL_TEMPLATE_H
#define LAYOUT_LABEL_TEMPLATE_H

#include "base/diagnostic.h"
#include "base/element.h"
#include "layout/pen.h"

#include <stdbool.h>

typedef enum LabelText {
    LABEL_NAME,
    LABEL_KIND,
    LABEL_PARTS,
    LABEL_TITLE, /* over a fact, and before the net quantity */
    LABEL_FACT,
    LABEL_CAUTION,
    LABEL_NET,
    LABEL_MAKER,
    LABEL_TEXTS
} LabelText;

typedef enum LabelItemKind {
    ITEM_WORDS,
    ITEM_PARTS,    /* the composition */
    ITEM_FACT,     /* a small title over a figure */
    ITEM_FACTS,    /* facts side by side, in as many columns as there is room for */
    ITEM_CAUTIONS, /* words beside a warning sign */
    ITEM_RUN,      /* words one after the other in one paragraph */
    ITEM_NET,
    ITEM_RULE,
    ITEM_SPACE,
    ITEM_ROW, /* two items side by side, their feet on one level */
    ITEM_KINDS
} LabelItemKind;

typedef struct LabelItem LabelItem;

struct LabelItem {
    Place place;
    LabelItemKind kind;
    int index;         /* among all items of the template */
    const char *name;  /* for give-way; NULL: none */
    const char *words; /* key */
    const char *brief; /* key of the same (of a fact: its title) in fewer words; NULL: none */
    const char *title; /* key: of a fact's title, of the signal word before a caution */
    const char *field; /* shown only where this holds something; NULL: always */
    const char *is;    /* … and holds this word */
    bool strong;
    LabelText text;
    double height_mm; /* of a space; thickness of a rule */
    double least_mm;  /* of a space when tightened; of a row: narrowest second item, else stacked */
    double apart_mm;  /* facts, row: between neighbours */
    double grow;      /* space: part of the spare height it takes */
    LIST_OF(LabelItem *) items;
};

typedef struct LabelSize {
    FaceRole face;
    double size_pt;
    double least_pt;
    double leading;
} LabelSize;

typedef enum LabelGiveKind {
    LABEL_SHRINK,
    LABEL_TIGHTEN, /* spaces to their least */
    LABEL_RUN_IN,  /* what stands under one another goes into one paragraph */
    LABEL_SHORTEN, /* the brief words */
    LABEL_DROP
} LabelGiveKind;

typedef struct LabelGive {
    LabelGiveKind kind;
    bool texts[LABEL_TEXTS]; /* shrink: which */
    double to_pt;            /* shrink: how far; 0: to the least of each */
    int item;                /* drop: index */
} LabelGive;

typedef struct LabelTemplate {
    Place place;
    double margin_mm, least_margin_mm;
    double made_for_width_mm, made_for_height_mm;
    double largest;
    LabelSize texts[LABEL_TEXTS];
    LIST_OF(LabelItem *) arrange; /* from the top */
    LIST_OF(LabelItem *) items;   /* all, by index */
    LIST_OF(LabelGive) give_way;
} LabelTemplate;

/* The least type on a label: 6 pt is an x-height of 1.1 mm in the shipped faces; the 0.9 mm that
 * food law asks of small packs (Regulation (EU) 1169/2011, article 13, from memory) is the only
 * published floor for a label's small print. */
#define LABEL_LEAST_PT 6.0

/* Reads a template. Every fault is reported with its place; NULL when there was one. */
const LabelTemplate *label_template_read(Arena *arena, const Element *root,
                                         Diagnostics *diagnostics);

/* Name of a text in templates: "caution". */
const char *label_text_name(LabelText text);

#endif
