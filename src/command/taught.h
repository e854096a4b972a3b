/* Taught: what the recorded nights of each workshop taught, worked out once a run. */
#ifndef COMMAND_TAUGHT_H
#define COMMAND_TAUGHT_H

#include "domain/batch.h"
#include "model/learning.h"

typedef struct TaughtHouse {
    const Workshop *workshop;
    const Learning *learning;
} TaughtHouse;

typedef struct Taught {
    LIST_OF(TaughtHouse) houses;
} Taught;

/* What those of the nights that are of that workshop taught; in the arena, like the nights. Always
 * asked with the same nights. */
const Learning *taught_by(Arena *arena, Taught *taught, const Batch *const *nights, size_t count,
                          const Workshop *workshop);

#endif
