/* Memory: taking it from the system, for whatever can not come from an arena: what other libraries
 * allocate, and the arena itself. None of these ever returns nothing: a library that goes on
 * after a failed allocation hands back half a tree, or crashes. */
#ifndef BASE_MEMORY_H
#define BASE_MEMORY_H

#include <stddef.h>

/* Says on standard error that no memory is left and ends the program with exit status 3. */
_Noreturn void memory_none_left(void);

/* malloc and realloc that end the program where they would return nothing; given back with
 * free. Of 0 bytes there is a piece, too. */
void *memory_take(size_t bytes);
void *memory_retake(void *piece, size_t bytes);

/* A copy of a NUL-ended string, in the same way. */
char *memory_copy(const char *text);

#endif
