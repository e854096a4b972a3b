/* Setting: what a session sheet is set from, and how its texts look just now.
 *
 * Panels ask it for words, figures and styles; they decide only where things stand. A word that
 * is missing is reported and shown as "?", so that one run finds all that are missing.
 */
#ifndef LAYOUT_SETTING_H
#define LAYOUT_SETTING_H

#include "domain/field.h"
#include "layout/format.h"
#include "layout/pen.h"
#include "layout/template.h"

typedef struct Setting {
    const Template *template;
    const Plan *plan;
    const FieldGroup *fields;
    const Locale *locale;
    const Document *document;
    Diagnostics *diagnostics;
    TextStyle texts[TEXT_COUNT]; /* at the sizes reached so far */
    double rows_apart_mm;
    int tight;    /* 1: rows stand closer, drawings are smaller; 2: tables close up too */
    int *dropped; /* how often a panel had to give way, by its index */
    Pen pen;
} Setting;

/* Whether the plan says not to light. */
bool setting_refused(const Setting *setting);

/* The words of a key, filled from the plan, or from a row of it first. */
const char *setting_words(Setting *setting, const char *key);
const char *setting_row_words(Setting *setting, const char *key, const FieldGroup *row);

/* The words that a word field of the row names ("text"); "?" when there is no such field. In the
 * second their figures are strong (layout/wrap.h). */
const char *setting_field_words(Setting *setting, const FieldGroup *row, const char *field);
const char *setting_strong_words(Setting *setting, const FieldGroup *row, const char *field);

/* A figure in the language and units of the page, by a style of layout/format.h. */
const char *setting_figure(Setting *setting, QuantityKind kind, double value, const char *style);
const char *setting_time(Setting *setting, Instant at, const char *style);

/* A text with its figures strong: `text` between the switches of layout/wrap.h. */
const char *setting_strong(Setting *setting, const char *text);

#endif
