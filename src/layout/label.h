/* Labels: the pages of labels for all bags of a plan.
 *
 * Each bag order takes the stock it names, from its first free label on. Orders on the same stock
 * follow each other on its sheets (domain/label_sheet.h), those of several plans too where they
 * share `sheets` and a document. A text that is too long gives way as the pattern says; a label
 * that cannot hold what must be on it is an error that says which stock would do.
 */
#ifndef LAYOUT_LABEL_H
#define LAYOUT_LABEL_H

#include "layout/format.h"
#include "domain/label_sheet.h"
#include "layout/pattern.h"
#include "layout/mark.h"
#include "layout/stock.h"

#include <stdbool.h>

typedef struct LabelOptions {
    double offset_x_mm, offset_y_mm; /* moves everything printed, right and down */
    bool outlines;                   /* draws the edge of each label, to cut or to test */
    FirstLabels firsts;              /* first free labels that the command line says */
} LabelOptions;

/* What labels look like: of a bag that takes one, and of one that takes a pair. */
typedef struct LabelPatterns {
    const Pattern *whole, *front, *second;
} LabelPatterns;

/* The sheets of a document that are being filled, and the page of each that is open. */
typedef struct LabelRun {
    LabelSheets sheets;
    Pages pages;
} LabelRun;

typedef struct LabelRequest {
    LabelPatterns patterns;
    const StockSet *stocks;
    const Plan *plan;
    const FieldGroup *fields; /* plan_fields of it */
    const Locale *locale;
    const FaceSet *faces;
    LabelOptions options;
    LabelRun *run; /* the sheets begun by earlier labels of the document; NULL: none are */
} LabelRequest;

/* Adds the pages to the document, everything in `arena`. False, and reported, when a bag's label
 * cannot be made; the document then holds no page of this plan. */
bool labels_lay_out(Arena *arena, const LabelRequest *request, Document *document,
                    Diagnostics *diagnostics);

#endif
