/* The plan on the terminal: the same figures and words as on paper, a line each. */
#ifndef REPORT_PLAN_TEXT_H
#define REPORT_PLAN_TEXT_H

#include "report/terminal.h"

/* Appends title, verdict with its reasons, remedies, the clock, the weigh-out, drying, fills,
 * cabinet and room, the product's conditions and the steps. */
void plan_text(Text *text, const FieldGroup *fields, SayWords say, void *context);

#endif
