/* Mark: what layout hands to print. A Document is Pages, a Page is Marks, in reading order; a later
 * mark is painted over an earlier one. Nothing is decided after this: the writer only draws.
 *
 * Places are millimetres from the top left corner of the paper, x to the right and y DOWN. Type
 * sizes are points. Texts are UTF-8 and stand on their baseline. Everything lives in the arena of
 * the page. A new mark takes the page's current `owner`, the name of the panel being drawn, which
 * messages and tests use.
 */
#ifndef LAYOUT_MARK_H
#define LAYOUT_MARK_H

#include "base/arena.h"
#include "base/date.h"
#include "base/list.h"
#include "layout/face.h"
#include "layout/path.h"

#include <stdbool.h>
#include <stddef.h>

/* From 0 black to 1 white: any printer has it. */
typedef struct Ink {
    double grey;
} Ink;

Ink ink_black(void);
Ink ink_white(void);
Ink ink_grey(double level);

/* Numbered as in PDF. */
typedef enum LineCap { CAP_BUTT, CAP_ROUND } LineCap;
typedef enum LineJoin { JOIN_MITER, JOIN_ROUND } LineJoin;

/* How a path is painted. A zeroed Style paints nothing. */
typedef struct Style {
    bool filled;
    bool nonzero;   /* overlapping parts filled by the nonzero rule; else by the even-odd rule */
    Ink fill;       /* when filled */
    double line_mm; /* width of the outline; 0 for none */
    Ink line;
    double dash_mm; /* length of a dash; 0 for a solid line */
    double gap_mm;  /* between dashes, when dashed */
    LineCap cap;
    LineJoin join;
} Style;

Style style_line(double line_mm, Ink ink);
Style style_dashed(double line_mm, Ink ink, double dash_mm, double gap_mm);
Style style_fill(Ink ink);
Style style_both(Ink fill, double line_mm, Ink line);

typedef enum MarkKind { MARK_TEXT, MARK_PATH, MARK_PICTURE } MarkKind;

typedef struct TextMark {
    Point baseline; /* where the first letter starts */
    FaceRole face;
    double size_pt;
    const char *string;
    Ink ink;
} TextMark;

typedef struct PathMark {
    Steps steps;
    Style style;
} PathMark;

/* Paths that are written into a document once, however often they are on its pages. Places count
 * from the picture's own top left corner. */
typedef struct Picture {
    Arena *arena;
    double width_mm, height_mm; /* nothing of it lies outside */
    LIST_OF(PathMark) paths;
} Picture;

typedef struct PictureMark {
    Point corner; /* top left, on the page */
    const Picture *picture;
} PictureMark;

typedef struct Mark {
    MarkKind kind;
    const char *owner;
    union {
        TextMark text;
        PathMark path;
        PictureMark picture;
    } as;
} Mark;

typedef LIST_OF(Mark) Marks;

typedef struct Page {
    Arena *arena;
    double width_mm;
    double height_mm;
    const char *bookmark; /* label in the outline; NULL for none */
    const char *owner;    /* given to marks added from now on */
    Marks marks;
} Page;

typedef LIST_OF(Page *) Pages;

typedef struct Document {
    Arena *arena;
    const char *title;
    const char *author; /* NULL: left out; so the next ones */
    const char *subject;
    const char *creator;  /* program and version */
    const char *language; /* BCP 47 tag of the text, as "en" or "pl" */
    bool dated;
    Instant created; /* when dated */
    bool exact_size; /* asks the viewer not to scale when printing, as label stock needs */
    Pages pages;
} Document;

/* An empty document in the arena. Set its fields afterwards; strings are not copied. */
Document *document_new(Arena *arena, const char *title, const char *language);

/* Adds a page of that size at the end. */
Page *document_page(Document *document, double width_mm, double height_mm);

/* Adds a mark to the page and returns it, valid until the next one is added. Strings and steps are
 * copied. */
Mark *mark_text(Page *page, double x_mm, double baseline_mm, FaceRole face, double size_pt, Ink ink,
                const char *string);
Mark *mark_path(Page *page, const Steps *steps, Style style);
Mark *mark_line(Page *page, Point from, Point to, Style style);
Mark *mark_rectangle(Page *page, Box box, Style style);
Mark *mark_circle(Page *page, Point centre, double radius_mm, Style style);
Mark *mark_polyline(Page *page, const Point *points, size_t count, Style style);
Mark *mark_polygon(Page *page, const Point *points, size_t count, Style style);

/* Hatches a polygon (see path_hatch), as one mark; NULL when no line falls inside. */
Mark *mark_hatch(Page *page, const Point *points, size_t count, double angle_deg, double spacing_mm,
                 Style style);

/* An empty picture in the arena, which has to live as long as the pages it is put on. */
Picture *picture_new(Arena *arena, double width_mm, double height_mm);

/* Adds a path to the picture; the steps are taken over, uncopied. */
void picture_path(Picture *picture, Steps steps, Style style);

/* Puts the picture on the page; it is not copied, and nothing is added to it any more. */
Mark *mark_picture(Page *page, const Picture *picture, Point corner);

#endif
