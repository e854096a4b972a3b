/* A trace on the terminal: what a lot went into and what is in it, two lines a step. */
#ifndef REPORT_TRACE_TEXT_H
#define REPORT_TRACE_TEXT_H

#include "report/terminal.h"

/* Appends both ways, each step as far in as it is from the lot asked for. `fields` are those of
 * the whole trace (domain/trace.h). */
void trace_text(Text *text, const FieldGroup *fields, SayWords say, void *context);

#endif
