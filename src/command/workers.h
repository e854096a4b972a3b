/* Workers: many tasks shared out to processes, so that all processors are at work, with the same
 * result as one after the other.
 *
 * Each worker is a copy of the program as it is (fork), takes every n-th task, and hands back what
 * the task wrote to standard output and standard error; the parent writes that in the order of the
 * tasks. What a task leaves in memory is lost with its worker: it may only write files.
 */
#ifndef COMMAND_WORKERS_H
#define COMMAND_WORKERS_H

#include <stdbool.h>
#include <stddef.h>

enum { WORKERS_MOST = 64 };

typedef struct WorkerTasks {
    void *context;
    /* Does one, in a worker. The number returned is handed to `done`. */
    int (*work)(void *context, size_t task);
    /* Called in the parent, in the order of the tasks, before what the task said is written. */
    void (*done)(void *context, size_t task, int result);
    /* Called in place of that, once, for the task of a worker that ended before it was done; what
     * is left for that worker is not done either. */
    void (*lost)(void *context, size_t task);
} WorkerTasks;

/* How many processors there are for this program; at least 1. */
int workers_processors(void);

/* Does `count` tasks by `workers` processes (2 to WORKERS_MOST). False, with nothing done, when the
 * machine has none left to give. */
bool workers_do(int workers, size_t count, const WorkerTasks *tasks);

#endif
