/* A page with every kind of mark, every sign and every script that is promised. */
#ifndef SUPPORT_DEMO_PAGE_H
#define SUPPORT_DEMO_PAGE_H

#include "layout/mark.h"

/* Characters of every kind a page holds. U+2265 is the highest code point of the bold face. */
#define DEMO_LINE                                                                                  \
    "\u2264 \u2265 \u2212 \u00b0C \u00b5m \u0141\u00f3d\u017a \u0416\u0443\u043a "                 \
    "\u03a9\u03bc\u03ad\u03b3\u03b1"

/* A document of one A4 page in the arena. */
Document *demo_document(Arena *arena);

/* Draws the page's contents into a page of at least 190 by 270 mm. */
void demo_draw(Page *page);

#endif
