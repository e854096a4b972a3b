#include "command/taught.h"

#include <string.h>

bool same_house(const Workshop *one, const Workshop *other) {
    return one == other || !strcmp(one->file, other->file);
}

static const Learning *learn(Arena *arena, const Batch *const *nights, size_t count,
                             const Workshop *workshop) {
    const Batch **own = ARENA_ARRAY(arena, count, const Batch *);
    size_t own_count = 0;
    for (size_t i = 0; i < count; i++)
        if (same_house(nights[i]->workshop, workshop))
            own[own_count++] = nights[i];
    return learning_of(arena, workshop, own, own_count);
}

const Learning *taught_by(Arena *arena, Taught *taught, const Batch *const *nights, size_t count,
                          const Workshop *workshop) {
    for (size_t i = 0; i < taught->houses.count; i++)
        if (same_house(taught->houses.items[i].workshop, workshop))
            return taught->houses.items[i].learning;
    TaughtHouse house = {workshop, learn(arena, nights, count, workshop)};
    LIST_ADD(arena, &taught->houses, house);
    return house.learning;
}
