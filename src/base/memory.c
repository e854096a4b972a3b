#include "base/memory.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NO_MEMORY_STATUS = 3 };

_Noreturn void memory_none_left(void) {
    fputs("burnsheet: fatal: no memory left\n", stderr);
    exit(NO_MEMORY_STATUS);
}

static void *there(void *piece) {
    if (!piece)
        memory_none_left();
    return piece;
}

void *memory_take(size_t bytes) {
    return there(malloc(bytes ? bytes : 1));
}

void *memory_retake(void *piece, size_t bytes) {
    return there(realloc(piece, bytes ? bytes : 1));
}

char *memory_copy(const char *text) {
    size_t size = strlen(text) + 1;
    return memcpy(memory_take(size), text, size);
}
