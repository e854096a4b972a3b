/* Excerpt: the start of a text for a message, without switches of face. */
#ifndef LAYOUT_EXCERPT_H
#define LAYOUT_EXCERPT_H

#include "base/arena.h"

/* At most the first 60 characters, with "…" when there are more. */
const char *excerpt(Arena *arena, const char *string);

#endif
