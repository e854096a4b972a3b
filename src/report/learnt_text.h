/* What was learnt, on the terminal: burn by burn, before and now, and what to measure next. */
#ifndef REPORT_LEARNT_TEXT_H
#define REPORT_LEARNT_TEXT_H

#include "report/terminal.h"

/* Appends what was learnt of a workshop; `fields` are those of domain/learnt.h. */
void learnt_text(Text *text, const FieldGroup *fields, SayWords say, void *context);

#endif
