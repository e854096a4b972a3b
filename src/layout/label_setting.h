/* LabelSetting: the items of one bag's label with their words, at one choice of sizes; measured or
 * drawn with the same functions. */
#ifndef LAYOUT_LABEL_SETTING_H
#define LAYOUT_LABEL_SETTING_H

#include "layout/format.h"
#include "layout/label_template.h"
#include "layout/pen.h"

/* What an item says on this bag. */
typedef struct LabelWords {
    bool shown;
    bool dropped; /* by give-way */
    const char *text;
    const char *brief; /* the same in fewer words; NULL: none */
    const char *title; /* NULL: none */
} LabelWords;

typedef struct LabelSetting {
    Pen pen;
    const LabelTemplate *template;
    const Locale *locale;
    const PlanBag *bag;
    const FieldGroup *row; /* of the bag */
    bool us_market;
    LabelWords *words; /* by index of the item */
    double sizes_pt[LABEL_TEXTS];
    double scale; /* of sizes and spaces, against the template */
    bool tight, run_in, shortened;
    double spread_mm;     /* spare height for each unit of grow */
    const char *too_wide; /* a piece that did not fit its column; NULL: none */
    Diagnostics *diagnostics;
} LabelSetting;

/* Makes ready a setting whose pen, template, locale, bag, row, market and diagnostics are given:
 * resolves its words and checks them against the faces. False when something in it cannot be said
 * or set, which is reported. */
bool label_setting_begin(LabelSetting *setting);

/* The template's own sizes, `scale` times, before anything gives way. */
void label_setting_size(LabelSetting *setting, double scale);

/* The least size a text may be set in on this bag, by the template or by law. */
double label_setting_least_pt(const LabelSetting *setting, LabelText text);

/* Draws all items from the top of the box on, or measures them when the pen has no page; returns
 * the height. */
double label_setting_draw(LabelSetting *setting, Box box);

/* Sum of the grow of all spaces. */
double label_setting_grow(const LabelSetting *setting);

#endif
