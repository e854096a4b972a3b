/* Record form: the `<record>` of a night to fill in, as XML.
 *
 * Nothing in it counts before a person answers it. What the fire does (when it was out, where the
 * glow was, how warm it got) is a bare question mark, and the plan's figure stands in a comment
 * beside it: a planned figure left standing would come back as an observation and confirm itself.
 * What hands do by the plan (the hour of lighting, how far the tray was filled, the dust used)
 * is the plan's figure behind a question mark, to be confirmed by taking the mark out. */
#ifndef REPORT_RECORD_FORM_H
#define REPORT_RECORD_FORM_H

#include "domain/plan.h"
#include "report/terminal.h"

/* Appends it, lines ending with '\n' and indented by two blanks a level, the element itself by
 * none. The comments are in the language of `say`. */
void record_form(Text *text, const Plan *plan, const FieldGroup *fields, SayWords say,
                 void *context);

#endif
