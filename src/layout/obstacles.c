#include "layout/obstacles.h"

Obstacles obstacles_new(Arena *arena, Box bounds) {
    return (Obstacles){arena, bounds, {0}};
}

static bool inside(Box outer, Box box) {
    return box.x_mm >= outer.x_mm && box.y_mm >= outer.y_mm &&
           box.x_mm + box.width_mm <= outer.x_mm + outer.width_mm &&
           box.y_mm + box.height_mm <= outer.y_mm + outer.height_mm;
}

static bool overlap(Box a, Box b) {
    return a.x_mm < b.x_mm + b.width_mm && b.x_mm < a.x_mm + a.width_mm &&
           a.y_mm < b.y_mm + b.height_mm && b.y_mm < a.y_mm + a.height_mm;
}

bool obstacles_free(const Obstacles *taken, Box box) {
    if (!inside(taken->bounds, box))
        return false;
    for (size_t i = 0; i < taken->boxes.count; i++)
        if (overlap(taken->boxes.items[i], box))
            return false;
    return true;
}

void obstacles_add(Obstacles *taken, Box box) {
    LIST_ADD(taken->arena, &taken->boxes, box);
}
