/* Every field of the plan, one a line: its path, its figure, and what a page would show. */
#ifndef REPORT_PLAN_FIELDS_H
#define REPORT_PLAN_FIELDS_H

#include "base/text.h"
#include "domain/field.h"

/* Puts a field as a page shows it; `context` is the caller's. NULL: the page shows nothing. */
typedef const char *(*ShowField)(void *context, const Field *field);

/* Appends the lines `path<TAB>figure<TAB>shown`, in the order of the tree. */
void plan_field_lines(Text *text, const Plan *plan, const FieldGroup *fields, ShowField show,
                      void *context);

#endif
