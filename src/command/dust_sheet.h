/* Dust sheets: the pages on which a dust that nobody measured is measured. */
#ifndef COMMAND_DUST_SHEET_H
#define COMMAND_DUST_SHEET_H

#include "command/printing.h"

/* Whether the job's workshop has a dust to make a sheet of: the one that --dust names, else any
 * without a stated moisture. Says so when it has none, and is an error, noted in `status`, when it
 * has not the one that was named. */
bool dust_sheet_wanted(Run *run, const Job *job, ExitStatus *status);

/* Lays out a page for each such dust. Reports and returns false when one can not be made. */
bool dust_sheet_lay_out(Run *run, const Job *job, const Pattern *template, Document *document);

#endif
