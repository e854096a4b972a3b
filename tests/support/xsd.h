/* XSD: the schemas for editors, written from the rules. An editor with them names elements and
 * attributes as they are written, and marks most slips; the program's own messages say more. */
#ifndef SUPPORT_XSD_H
#define SUPPORT_XSD_H

#include "schema/rule.h"

/* The schema of files with that root. It includes "values.xsd". */
char *xsd_of(Arena *arena, const ElementRule *root);

/* The schema of the kinds of values. */
char *xsd_values(Arena *arena);

#endif
