/* Obstacles: the places in a drawing that already hold something, so that labels do not collide. */
#ifndef LAYOUT_OBSTACLES_H
#define LAYOUT_OBSTACLES_H

#include "base/arena.h"
#include "base/list.h"
#include "layout/path.h"

#include <stdbool.h>

typedef struct Obstacles {
    Arena *arena;
    Box bounds; /* labels stay inside */
    LIST_OF(Box) boxes;
} Obstacles;

Obstacles obstacles_new(Arena *arena, Box bounds);

/* Whether the box lies inside the bounds and touches nothing taken. */
bool obstacles_free(const Obstacles *taken, Box box);

void obstacles_add(Obstacles *taken, Box box);

#endif
