/* Manual: the lists of the manual page that are made from the rules, in mdoc.
 *
 *     .\" list of dust: made by `make schema`
 *     …
 *     .\" end of list
 *
 * stands for the attributes of an element; "units" in the place of its name for the measures. What
 * is written around and between the lists is left as it is.
 */
#ifndef SUPPORT_MANUAL_H
#define SUPPORT_MANUAL_H

#include "schema/rule.h"

/* The page with its lists made anew; NULL, and in *fault what is wrong, when a list has no end or
 * is of no element, or an element with attributes has no list. */
char *manual_with_lists(Arena *arena, const char *page, Roots roots, const char **fault);

#endif
