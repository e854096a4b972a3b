/* Together: batches of one run that share a tray, a cabinet or the oven, and of which some may be
 * lit at one of several hours, get their hours chosen together (model/week.h). */
#ifndef COMMAND_TOGETHER_H
#define COMMAND_TOGETHER_H

#include "command/records.h"
#include "command/run.h"

/* Sets `hour` of each job that has others to reckon with, or `no_hour` and reports which others
 * leave it none. Batches that state their hour keep it, and are in the way of the others. Jobs of
 * one file get one hour; the order of the jobs does not matter. */
void together_choose(Run *run, Job *jobs, size_t count, Records *records);

#endif
