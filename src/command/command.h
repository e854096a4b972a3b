/* Command: one verb of the program. Each has a file of its own that defines its Command. */
#ifndef COMMAND_COMMAND_H
#define COMMAND_COMMAND_H

#include "command/options.h"

#ifndef BURNSHEET_VERSION
#define BURNSHEET_VERSION "unknown"
#endif

/* Exit statuses, told to the user in the help and the manual page. A run with several batches ends
 * with the highest of them. */
typedef enum ExitStatus {
    STATUS_DONE = 0,
    STATUS_FAULTS = 1, /* a batch has faults or a page can not fit */
    STATUS_USAGE = 2,
    STATUS_FILES = 3 /* something could not be read or written */
} ExitStatus;

typedef struct Command {
    const char *name;
    const char *arguments; /* for the usage line: "BATCH..." */
    const char *summary;   /* for the list of commands */
    const char *missing;   /* said when there is no argument; NULL: "no file given" */
    const char *options;   /* letters of the options it takes, see options.h */
    ExitStatus (*run)(const Options *options);
} Command;

extern const Command command_sheet;
extern const Command command_labels;
extern const Command command_slip;
extern const Command command_plan;
extern const Command command_trace;
extern const Command command_record;
extern const Command command_learn;
extern const Command command_season;
extern const Command command_check;
extern const Command command_new;

#endif
