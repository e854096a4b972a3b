/* Canvas: draws the marks of one page into a PDF page. */
#ifndef PRINT_CANVAS_H
#define PRINT_CANVAS_H

#include "layout/mark.h"

#include <hpdf.h>

/* Sizes the page and draws every mark of `page`, which must have passed document_check. Failures
 * are left in the library's error state. fonts[role] is set for every face the page uses. */
void canvas_draw(HPDF_Page pdf_page, const Page *page, const HPDF_Font fonts[FACE_COUNT]);

#endif
