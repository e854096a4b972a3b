/* The burn as a table of comma-separated values (RFC 4180), one line a sample. */
#ifndef REPORT_PLAN_CSV_H
#define REPORT_PLAN_CSV_H

#include "base/text.h"
#include "domain/field.h"

/* Appends a heading line and the rows `sample` of the plan's fields in their order. A column has
 * the name of its field and ends in its unit; what is not stated is left empty. */
void plan_csv(Text *text, const Plan *plan, const FieldGroup *fields);

#endif
