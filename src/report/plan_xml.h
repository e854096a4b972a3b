/* The plan as XML: every figure a page can show, each as an attribute named like its field, with
 * its unit in plain writing. Groups are elements, rows repeat. */
#ifndef REPORT_PLAN_XML_H
#define REPORT_PLAN_XML_H

#include "base/text.h"
#include "domain/field.h"

/* Appends a whole XML document (UTF-8). `version` is the program's. Characters that XML 1.0 does
 * not allow never reach a plan: the readers refuse them. */
void plan_xml(Text *text, const Plan *plan, const FieldGroup *fields, const char *version);

#endif
