/* Season pages: an overview, then the months, as PDF. */
#ifndef COMMAND_SEASON_PAGES_H
#define COMMAND_SEASON_PAGES_H

#include "command/run.h"
#include "domain/season.h"
#include "layout/pattern.h"

/* Lays the season out on the workshop's paper and writes it. Lists that are too long for a page go
 * on on further ones. What goes wrong is said and noted. */
void season_pages_print(Run *run, const Season *season, const Workshop *workshop,
                        const Locale *locale, const Pattern *template);

#endif
