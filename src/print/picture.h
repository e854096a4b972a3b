/* Picture: what is drawn again and again, written into the PDF once, as a form (PDF 32000-1,
 * 8.10), and placed by its name. */
#ifndef PRINT_PICTURE_H
#define PRINT_PICTURE_H

#include "layout/mark.h"

#include <hpdf.h>

typedef struct WrittenPicture {
    const Picture *picture;
    HPDF_XObject form;
} WrittenPicture;

/* The pictures of a document that were written so far. */
typedef struct Pictures {
    HPDF_Doc pdf;
    Arena *arena;
    LIST_OF(WrittenPicture) written;
} Pictures;

/* The form of a picture, written at its first use; one that draws the same counts as the same.
 * NULL when the library failed, which is left in its error state. */
HPDF_XObject picture_form(Pictures *pictures, const Picture *picture);

#endif
