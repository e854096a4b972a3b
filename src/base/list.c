#include "base/list.h"

#include <string.h>

void *list_room(Arena *arena, void *items, size_t count, size_t *capacity, size_t item_size) {
    if (count < *capacity)
        return items;
    size_t wanted = *capacity ? *capacity * 2 : 8;
    void *moved = arena_take(arena, wanted, item_size);
    if (count)
        memcpy(moved, items, count * item_size);
    *capacity = wanted;
    return moved;
}
