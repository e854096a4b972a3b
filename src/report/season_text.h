/* A season on the terminal: the same figures and words as on its pages. */
#ifndef REPORT_SEASON_TEXT_H
#define REPORT_SEASON_TEXT_H

#include "report/terminal.h"

/* Appends what it adds up to, the calendar by month, clashes, dust, burn times, chances, deaths,
 * yields and the files with faults. `fields` are those of the whole season (domain/season.h). */
void season_text(Text *text, const FieldGroup *fields, SayWords say, void *context);

#endif
