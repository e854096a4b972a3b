/* Pdf: writes a document as a PDF in memory. The only folder that knows libharu. */
#ifndef PRINT_PDF_H
#define PRINT_PDF_H

#include "base/file.h"
#include "layout/mark.h"

#include <stdbool.h>

/* Writes the document with its typefaces embedded and reduced to what is used, its text open to
 * search and copying. The same document gives the same bytes. On failure returns false and sets
 * *error: a fault of the document (see document_check) or the library's status. */
bool pdf_write(const Document *document, const FaceSet *faces, Arena *arena, Bytes *bytes,
               const char **error);

/* As pdf_write, with the library's own slow way of encoding text: for comparison in the tests. */
bool pdf_write_stock(const Document *document, const FaceSet *faces, Arena *arena, Bytes *bytes,
                     const char **error);

#endif
