/* Window: the hours at which a batch may be lit, each worked out, and what is told of the choice
 * among them.
 *
 * Tried is every quarter of an hour from the window's start; of longer windows every half, every
 * whole, every second hour, so that there are not too many. Nobody lights in hours of which it is
 * said that nobody is there, nor, in a window over several days, within three hours after them, for
 * what comes before lighting may take as long. In such a window of which nothing is said of sleep
 * nobody lights at night either, from 23:00 to 9:00 (a judgement).
 * Hours whose night the forecast does not reach are left out, as long as there are others: held at
 * its last reading, the weather of an afternoon would make a night look as good as it never was. */
#ifndef MODEL_WINDOW_H
#define MODEL_WINDOW_H

#include "model/belief.h"
#include "model/week.h"

/* What is told of an hour, beside what it is chosen by. */
typedef struct WindowNote {
    int said_in, said_of;
    Cause cause;
} WindowNote;

typedef struct Window {
    const Batch *batch;
    WeekBatch hours;   /* in the order of time, one at least */
    WindowNote *notes; /* of each */
    Instant known_to;  /* see PlanChoice */
} Window;

/* The window of a batch. One that is not TIMING_BEST has a single hour, which is fixed. In the
 * arena. */
Window window_of(Arena *arena, const Batch *batch, const Belief *belief);

/* Chooses the hours of `count` windows together (model/week.h has how many at most), and sets
 * light_at[i], 0 where batch i finds no hour, and choices[i] to what its plan tells of it. */
void windows_choose(Arena *arena, const Window *windows, size_t count, PlanChoice *choices,
                    Instant *light_at);

#endif
