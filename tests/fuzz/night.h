/* Night: one input of the fuzzer that holds a whole evening, `<night>` with a workshop, tonight's
 * batch and any number of past ones, read as the program reads files. */
#ifndef FUZZ_NIGHT_H
#define FUZZ_NIGHT_H

#include "domain/plan.h"
#include "input/reader.h"

#include <stddef.h>
#include <stdint.h>

typedef struct FuzzNight {
    Arena *arena;
    Reader reader;
    const Batch *batch; /* NULL: none, or it has faults */
    LIST_OF(const Batch *) past;
} FuzzNight;

/* Writes the parts to files in the folder of a run, which the environment variable FUZZ_FOLDER
 * names, and reads them. Everything is in `arena`. */
FuzzNight fuzz_night_read(Arena *arena, const uint8_t *bytes, size_t size);

/* The plan of tonight's batch. */
const Plan *fuzz_night_plan(const FuzzNight *night);

/* Stops the program when a message would steer the terminal it is shown on. */
void fuzz_night_check_said(FuzzNight *night);

/* Where in the folder of a run a file of that name lies. */
const char *fuzz_path(Arena *arena, const char *name);

/* Writes a file there. */
void fuzz_write(Arena *arena, const char *name, const void *bytes, size_t length);

/* Stops the program, which the fuzzer takes for a finding. */
_Noreturn void fuzz_found(const char *what);

#endif
