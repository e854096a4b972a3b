/* Sheet: the session sheet of one plan, laid out on exactly one page. */
#ifndef LAYOUT_SHEET_H
#define LAYOUT_SHEET_H

#include "domain/field.h"
#include "layout/format.h"
#include "layout/mark.h"
#include "layout/template.h"

#include <stdbool.h>

/* Adds one page, on the workshop's paper, to the document. `fields` are those of the plan, in the
 * words and units of `locale`. False, with no page added and the reason reported, when a word is
 * missing, the typeface lacks a character, or the page does not fit after the template has given
 * way: the message says by how many millimetres and which text is the longest. Nothing is ever
 * left out or cut for want of room but the panels that the template says. */
bool sheet_lay_out(const Template *template, const Plan *plan, const FieldGroup *fields,
                   const Locale *locale, const FaceSet *faces, Document *document,
                   Diagnostics *diagnostics);

#endif
