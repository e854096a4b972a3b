/* List: an array that grows, kept in an arena and typed by its items.
 *
 *     typedef LIST_OF(double) Doubles;
 *     Doubles list = {0};
 *     LIST_ADD(arena, &list, 2.5);
 *
 * `items` may move while the list grows: keep indices, not pointers, until it is complete.
 */
#ifndef BASE_LIST_H
#define BASE_LIST_H

#include "base/arena.h"

#include <stddef.h>

#define LIST_OF(type)                                                                              \
    struct {                                                                                       \
        type *items;                                                                               \
        size_t count;                                                                              \
        size_t capacity;                                                                           \
    }

/* Makes room for one more item and returns the items, moved if they had to be. */
void *list_room(Arena *arena, void *items, size_t count, size_t *capacity, size_t item_size);

#define LIST_ADD(arena, list, ...)                                                                 \
    ((list)->items = list_room((arena), (list)->items, (list)->count, &(list)->capacity,           \
                               sizeof *(list)->items),                                             \
     (list)->items[(list)->count++] = (__VA_ARGS__))

#endif
