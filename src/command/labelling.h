/* Labelling: the bag labels of a file, for what prints them and what only checks that they fit. */
#ifndef COMMAND_LABELLING_H
#define COMMAND_LABELLING_H

#include "command/run.h"
#include "layout/label.h"

/* The templates of labels, the one that the command line names in place of the usual one of its
 * kind. False after saying what is wrong; the run's status is noted. */
bool labelling_patterns(Run *run, LabelPatterns *patterns);

/* Lays the labels of all bags of a batch or a bagging out, each in the language and by the law that
 * its order says, on the sheets that `labels` has begun. The stock has been asked for before
 * (run_stocks). False, and reported, when one of them cannot be made. */
bool labelling_lay_out(Run *run, const Job *job, const LabelPatterns *patterns, LabelRun *labels,
                       Document *document);

#endif
