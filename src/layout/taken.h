/* Taken: the places in a drawing that already hold something, so that labels do not collide. */
#ifndef LAYOUT_TAKEN_H
#define LAYOUT_TAKEN_H

#include "base/arena.h"
#include "base/list.h"
#include "layout/path.h"

#include <stdbool.h>

typedef struct Taken {
    Arena *arena;
    Box bounds; /* labels stay inside */
    LIST_OF(Box) boxes;
} Taken;

Taken taken_new(Arena *arena, Box bounds);

/* Whether the box lies inside the bounds and touches nothing taken. */
bool taken_free(const Taken *taken, Box box);

void taken_add(Taken *taken, Box box);

#endif
