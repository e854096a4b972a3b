/* Sign: the small drawn symbols that the typefaces lack, as paths. */
#ifndef LAYOUT_SIGN_H
#define LAYOUT_SIGN_H

#include "layout/mark.h"

typedef enum SignKind {
    SIGN_BOX,     /* an empty box to tick */
    SIGN_TICK,    /* a tick, to lay over a box or to stand alone */
    SIGN_WARNING, /* triangle with exclamation mark, after ISO 7010 W001 */
    SIGN_FLAME,   /* the lit end */
    SIGN_FINISH,  /* chequered flag, where the burn ends */
    SIGN_ARROW,   /* to the right */
    SIGN_TURN,    /* round the end of a lane: in at the top left, back at the bottom left */
    SIGN_LOOK,    /* an eye: look in here */
    SIGN_E_MARK, /* ℮, as high as the sign; its set form is that of Directive 71/316/EEC, Annex II,
                   * 3, drawn here from memory */
    SIGN_COUNT
} SignKind;

/* Draws the sign into a square of `size_mm` (made for 3 to 9 mm) with its top left corner at that
 * place. `paper` fills what is open within a sign: the triangle, the eye. */
void sign_draw(Page *page, SignKind kind, Point corner, double size_mm, Ink ink, Ink paper);

/* Name of a sign in templates: "box", "tick", "warning", "flame", "finish", "arrow", "turn",
 * "look", "e-mark". */
const char *sign_name(SignKind kind);

#endif
