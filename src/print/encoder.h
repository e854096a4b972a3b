/* Encoder: puts the typefaces of a document into a PDF, embedded and reduced to what is used.
 *
 * The only file that knows the inside of libharu's text encoder. The library's own way builds its
 * tables for all 65,536 code points and writes a malformed map back to Unicode; the sparse way
 * fills the same tables with the code points that the document uses, which looks the same and is
 * several times faster and smaller. It is taken only with the library version it was tried with.
 */
#ifndef PRINT_ENCODER_H
#define PRINT_ENCODER_H

#include "layout/mark.h"

#include <hpdf.h>
#include <stdbool.h>

typedef enum EncoderWay {
    ENCODER_BEST,  /* sparse where the library allows it, else stock */
    ENCODER_STOCK, /* the library's own way, for comparison */
} EncoderWay;

/* Loads every face that the document's texts use into fonts[role]; the others become NULL. Also
 * makes UTF-8 the encoding of the document's information strings. False on failure; the library's
 * error state then says more. */
bool encoder_fonts(HPDF_Doc pdf, Arena *arena, const Document *document, const FaceSet *faces,
                   EncoderWay way, HPDF_Font fonts[FACE_COUNT]);

#endif
