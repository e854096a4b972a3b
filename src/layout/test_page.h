/* Test page: where a printer puts the labels of a stock, to be held over a blank sheet against the
 * light before any label is printed on it.
 *
 * Every label with its outline, its number and a cross at each corner; a ruler in millimetres from
 * the paper's edge both ways, by which a real ruler tells whether the printer scales; what printers
 * are taken to leave bare along the edge, dashed; the print offset that everything was moved by. Of
 * a roll one label, what may be printed of it; of one that is cut, a piece of 100 mm. */
#ifndef LAYOUT_TEST_PAGE_H
#define LAYOUT_TEST_PAGE_H

#include "layout/format.h"
#include "layout/mark.h"
#include "layout/stock.h"

typedef struct TestPage {
    const Stock *stock;
    const Locale *locale;
    const FaceSet *faces;
    double offset_x_mm, offset_y_mm; /* right and down */
} TestPage;

/* Adds the page to the document, everything in its arena. False, and reported, when the words lack
 * something. */
bool test_page_lay_out(const TestPage *test, Document *document, Diagnostics *diagnostics);

#endif
