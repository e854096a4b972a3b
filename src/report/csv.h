/* CSV: rows of fields as a table for a spreadsheet (RFC 4180): a heading, a comma between cells,
 * lines ended by CR LF. Numbers are in the units that a column's name ends in. */
#ifndef REPORT_CSV_H
#define REPORT_CSV_H

#include "base/text.h"
#include "base/zone.h"
#include "domain/field.h"

/* The names of the row's fields, the units after them. The first, the row's number, is no figure
 * and left out of both. */
void csv_heading(Text *text, const FieldGroup *row);

/* What nobody stated is an empty cell. */
void csv_row(Text *text, const FieldGroup *row, const Zone *zone);

#endif
