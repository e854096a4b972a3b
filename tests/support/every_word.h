/* Every word that domain/word.h gives for a value. */
#ifndef SUPPORT_EVERY_WORD_H
#define SUPPORT_EVERY_WORD_H

#include "base/arena.h"

#include <stddef.h>

const char *const *every_word(Arena *arena, size_t *count);

#endif
