/* Shipped: faces and page templates as the program has them, and documents as it writes them, for
 * tests. What can not be had ends the program after saying why. */
#ifndef SUPPORT_SHIPPED_H
#define SUPPORT_SHIPPED_H

#include "base/file.h"
#include "layout/mark.h"
#include "layout/pattern.h"

const FaceSet *shipped_faces(Arena *arena);

/* templates/NAME.xml */
const Pattern *shipped_pattern(Arena *arena, const FaceSet *faces, const char *name);

/* The bytes of the PDF. */
Bytes shipped_pdf(Arena *arena, const FaceSet *faces, const Document *document);

#endif
