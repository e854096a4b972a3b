/* Nearest: which known name was meant by one that is not known. */
#ifndef BASE_NEAREST_H
#define BASE_NEAREST_H

#include "base/list.h"

#include <stddef.h>

typedef LIST_OF(const char *) Names;

/* Letters to put in, leave out, change, or swap with their neighbour to turn one name into the
 * other (optimal string alignment distance, in bytes, capital letters equal to small ones). */
size_t name_distance(const char *one, const char *other);

/* The name in `names` nearest to `written`; NULL when none is near enough to be meant: at most
 * one slip in three letters, and less than the whole name. The first of equally near ones. */
const char *nearest_name(const char *written, const Names *names);

/* "beech, cherry, oak"; from more than a dozen names, the first twelve "and 5 more". */
char *names_listed(Arena *arena, const Names *names);

#endif
