#include "command/taught.h"

const Learning *taught_by(Arena *arena, Taught *taught, const Batch *const *nights, size_t count,
                          const Workshop *workshop) {
    for (size_t i = 0; i < taught->houses.count; i++)
        if (workshop_same(taught->houses.items[i].workshop, workshop))
            return taught->houses.items[i].learning;
    TaughtHouse house = {workshop, learning_of(arena, workshop, nights, count)};
    LIST_ADD(arena, &taught->houses, house);
    return house.learning;
}
