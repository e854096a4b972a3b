/* The burn as a table of comma-separated values (RFC 4180), one line a sample. */
#ifndef REPORT_PLAN_CSV_H
#define REPORT_PLAN_CSV_H

#include "base/text.h"
#include "domain/plan.h"

/* Appends a heading line and the samples in their order. Units stand in the headings. */
void plan_csv(Text *text, const Plan *plan);

#endif
