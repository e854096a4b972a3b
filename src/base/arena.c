#include "base/arena.h"

#include "base/memory.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK_BYTES = 64 * 1024 };

typedef struct Block {
    struct Block *next;
    size_t used;
    size_t size;
    max_align_t bytes[];
} Block;

struct Arena {
    Block *blocks;
};

Arena *arena_new(void) {
    Arena *arena = memory_take(sizeof(Arena));
    *arena = (Arena){0};
    return arena;
}

void arena_free(Arena *arena) {
    if (!arena)
        return;
    for (Block *block = arena->blocks; block;) {
        Block *next = block->next;
        free(block);
        block = next;
    }
    free(arena);
}

ArenaMark arena_mark(const Arena *arena) {
    return (ArenaMark){arena->blocks, arena->blocks ? arena->blocks->used : 0};
}

void arena_back_to(Arena *arena, ArenaMark mark) {
    while (arena->blocks && arena->blocks != mark.block) {
        Block *next = arena->blocks->next;
        free(arena->blocks);
        arena->blocks = next;
    }
    if (arena->blocks)
        arena->blocks->used = mark.used;
}

static Block *add_block(Arena *arena, size_t bytes) {
    size_t size = bytes > BLOCK_BYTES ? bytes : BLOCK_BYTES;
    if (size > SIZE_MAX - sizeof(Block))
        memory_none_left();
    Block *block = memory_take(sizeof(Block) + size);
    *block = (Block){.next = arena->blocks, .size = size};
    arena->blocks = block;
    return block;
}

/* As it comes, not zeroed. */
static void *take(Arena *arena, size_t count, size_t size) {
    const size_t unit = _Alignof(max_align_t);
    if (size && count > (SIZE_MAX - unit) / size)
        memory_none_left();
    size_t bytes = (count * size + unit - 1) / unit * unit;
    Block *block = arena->blocks;
    if (!block || block->size - block->used < bytes)
        block = add_block(arena, bytes);
    void *piece = (char *)block->bytes + block->used;
    block->used += bytes;
    return piece;
}

void *arena_take(Arena *arena, size_t count, size_t size) {
    return memset(take(arena, count, size), 0, count * size);
}

char *arena_copy(Arena *arena, const char *text, size_t length) {
    char *copy = take(arena, length + 1, 1);
    if (length)
        memcpy(copy, text, length);
    copy[length] = '\0';
    return copy;
}

char *arena_string(Arena *arena, const char *text) {
    return text ? arena_copy(arena, text, strlen(text)) : NULL;
}

char *arena_format(Arena *arena, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    va_list again;
    va_copy(again, arguments);
    char brief[256]; /* most are: formatted once */
    int length = vsnprintf(brief, sizeof brief, format, arguments);
    va_end(arguments);
    size_t size = (size_t)(length < 0 ? 0 : length) + 1;
    char *text = arena_take(arena, size, 1);
    if (size <= sizeof brief)
        memcpy(text, brief, size - 1);
    else
        vsnprintf(text, size, format, again);
    va_end(again);
    return text;
}
