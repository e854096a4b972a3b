/* Arena: memory for one run or one batch, taken piece by piece and given back all at once.
 *
 * Every piece is zeroed and aligned for any type. Nothing taken from an arena is freed singly.
 * When the machine has no memory left the program says so on standard error and stops with
 * exit status 3: there is nothing useful a batch report can do then, and no file is half
 * written, since files are written under a temporary name.
 */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <stddef.h>

typedef struct Arena Arena;

/* A new, empty arena. The caller owns it and hands it to arena_free. Never NULL. */
Arena *arena_new(void);

/* Gives back everything taken from the arena, and the arena itself. NULL is ignored. */
void arena_free(Arena *arena);

/* How far an arena is filled. */
typedef struct ArenaMark {
    const void *block;
    size_t used;
} ArenaMark;

/* Gives back all that was taken since the mark was set, and only that: for trials of which nothing
 * is kept. Marks are given back the last one first; one given back is gone. */
ArenaMark arena_mark(const Arena *arena);
void arena_back_to(Arena *arena, ArenaMark mark);

/* `count` zeroed items of `size` bytes. A product beyond SIZE_MAX counts as no memory left. */
void *arena_take(Arena *arena, size_t count, size_t size);

/* Copies `length` bytes of `text` and ends them with a NUL. */
char *arena_copy(Arena *arena, const char *text, size_t length);

/* Copies a NUL-ended string; NULL stays NULL. */
char *arena_string(Arena *arena, const char *text);

/* printf into the arena. */
char *arena_format(Arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

#define ARENA_NEW(arena, type) ((type *)arena_take((arena), 1, sizeof(type)))
#define ARENA_ARRAY(arena, count, type) ((type *)arena_take((arena), (count), sizeof(type)))

#endif
