/* Canvas: draws the marks of one page into a PDF page. */
#ifndef PRINT_CANVAS_H
#define PRINT_CANVAS_H

#include "print/picture.h"

/* Sizes the page and draws every mark of `page`, which must have passed document_check. Failures
 * are left in the library's error state. fonts[role] is set for every face the page uses;
 * `pictures` are those of the document so far. */
void canvas_draw(HPDF_Page pdf_page, const Page *page, const HPDF_Font fonts[FACE_COUNT],
                 Pictures *pictures);

#endif
