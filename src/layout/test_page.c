#include "layout/test_page.h"

#include "domain/field_member.h"
#include "layout/pattern.h"
#include "layout/pen.h"
#include "layout/phrase.h"

#include <math.h>

/* Judgement: thin enough to tell where a line lies to a tenth of a millimetre, and seen through a
 * sheet of labels. */
#define LINE_MM 0.15
#define CROSS_MM 2.0 /* arm */
#define DASH_MM 1.5
#define CUT_MM 100.0 /* piece of a roll that is cut */
#define RULER_MM 1.0 /* from what printers leave bare */
#define TICK_MM 1.2  /* of a millimetre; of five and ten more */
#define FIGURE_EVERY_MM 10
#define MARGIN_MM 2.0
#define RULER_ROOM_MM 8.0
#define LARGEST_PT 10.0

enum { SAID = 3 }; /* stock, offset, what to do with it */

typedef struct Drawing {
    const TestPage *test;
    Page *page;
    Pen pen;
    const char *lines[SAID];
} Drawing;

static const TextStyle number_style = {FACE_CONDENSED_BOLD, 9, 1.15};
static const TextStyle figure_style = {FACE_CONDENSED, 6, 1.15};

/* A point as it is printed: moved by the offset, and kept on the paper. */
static Point moved(const Drawing *drawing, double x_mm, double y_mm) {
    const TestPage *test = drawing->test;
    return (Point){fmin(fmax(x_mm + test->offset_x_mm, 0), drawing->page->width_mm),
                   fmin(fmax(y_mm + test->offset_y_mm, 0), drawing->page->height_mm)};
}

static void line(const Drawing *drawing, double x_mm, double y_mm, double to_x_mm, double to_y_mm) {
    mark_line(drawing->page, moved(drawing, x_mm, y_mm), moved(drawing, to_x_mm, to_y_mm),
              style_line(LINE_MM, ink_black()));
}

static Box moved_box(const Drawing *drawing, Box box) {
    Point from = moved(drawing, box.x_mm, box.y_mm);
    Point to = moved(drawing, box.x_mm + box.width_mm, box.y_mm + box.height_mm);
    return (Box){from.x_mm, from.y_mm, to.x_mm - from.x_mm, to.y_mm - from.y_mm};
}

static void cross(const Drawing *drawing, double x_mm, double y_mm) {
    line(drawing, x_mm - CROSS_MM, y_mm, x_mm + CROSS_MM, y_mm);
    line(drawing, x_mm, y_mm - CROSS_MM, x_mm, y_mm + CROSS_MM);
}

/* A label's outline; on a roll, which has no neighbours, of what may be printed of it. */
static Box outline(const Drawing *drawing, int index) {
    const Stock *stock = drawing->test->stock;
    Box label = stock_label(stock, index);
    if (!stock->roll)
        return label;
    label.height_mm = drawing->page->height_mm;
    return stock_inside(stock, label, 0);
}

/* The room of a label where every printer prints. */
static Box inside(const Drawing *drawing, int index) {
    const Stock *stock = drawing->test->stock;
    Box box = outline(drawing, index);
    if (!stock->roll)
        return stock_inside(stock, box, MARGIN_MM);
    return (Box){box.x_mm + MARGIN_MM, box.y_mm + MARGIN_MM, box.width_mm - 2 * MARGIN_MM,
                 box.height_mm - 2 * MARGIN_MM};
}

static void draw_label(Drawing *drawing, int index) {
    Box label = outline(drawing, index);
    drawing->page->owner = arena_format(drawing->page->arena, "label %d", index + 1);
    mark_rectangle(drawing->page, moved_box(drawing, label), style_line(LINE_MM, ink_black()));
    for (int corner = 0; corner < 4; corner++)
        cross(drawing, label.x_mm + (corner & 1 ? label.width_mm : 0),
              label.y_mm + (corner & 2 ? label.height_mm : 0));
    const char *number = arena_format(drawing->page->arena, "%d", index + 1);
    Box room = inside(drawing, index);
    Point at = moved(drawing, room.x_mm + room.width_mm,
                     room.y_mm + room.height_mm - pen_pitch_mm(number_style));
    pen_line(&drawing->pen, number_style, ALIGN_RIGHT, at.x_mm, at.y_mm, number);
}

static double tick_mm(int mm) {
    return mm % 10 == 0 ? 2 * TICK_MM : mm % 5 == 0 ? 1.5 * TICK_MM : TICK_MM;
}

/* Between the bare edges; its figures are millimetres from the edge of the paper. */
static void draw_ruler(Drawing *drawing, bool across, double bare_mm) {
    double start_mm = drawing->test->stock->edge_mm;
    double end_mm = across ? drawing->page->width_mm - start_mm
                           : drawing->page->height_mm - bare_mm;
    double at_mm = bare_mm + RULER_MM;
    drawing->page->owner = across ? "ruler across" : "ruler down";
    for (int mm = (int)ceil(across ? start_mm : at_mm); mm <= (int)floor(end_mm); mm++) {
        double to_mm = at_mm + tick_mm(mm);
        line(drawing, across ? mm : start_mm + RULER_MM, across ? at_mm : mm,
             across ? mm : start_mm + RULER_MM + tick_mm(mm), across ? to_mm : mm);
        if (mm % FIGURE_EVERY_MM || mm < start_mm + RULER_ROOM_MM || mm > end_mm - MARGIN_MM)
            continue;
        const char *figure = arena_format(drawing->page->arena, "%d", mm);
        double half_mm = pen_pitch_mm(figure_style) / 2;
        Point at = moved(drawing, across ? mm : start_mm + RULER_MM + 2.4 * TICK_MM,
                         across ? at_mm + 2 * TICK_MM : mm - half_mm);
        pen_line(&drawing->pen, figure_style, across ? ALIGN_CENTRE : ALIGN_LEFT, at.x_mm, at.y_mm,
                 figure);
    }
}

/* What printers leave bare; a roll's is its outline. */
static void draw_edge(Drawing *drawing) {
    const Stock *stock = drawing->test->stock;
    if (stock->roll || stock->edge_mm <= 0)
        return;
    drawing->page->owner = "edge";
    Box box = {stock->edge_mm, stock->edge_mm, stock->page_width_mm - 2 * stock->edge_mm,
               stock->page_height_mm - 2 * stock->edge_mm};
    mark_rectangle(drawing->page, moved_box(drawing, box),
                   style_dashed(LINE_MM, ink_grey(0.5), DASH_MM, DASH_MM));
}

/* A label in the middle of the page, clear of the rulers. */
static Box text_room(const Drawing *drawing) {
    const Stock *stock = drawing->test->stock;
    Box room = inside(drawing, stock->rows / 2 * stock->columns + stock->columns / 2);
    double left_mm = fmax(room.x_mm, stock->edge_mm + RULER_ROOM_MM);
    double top_mm = fmax(room.y_mm, (stock->roll ? 0 : stock->edge_mm) + RULER_ROOM_MM);
    return (Box){left_mm, top_mm, room.x_mm + room.width_mm - left_mm,
                 room.y_mm + room.height_mm - pen_pitch_mm(number_style) - top_mm};
}

static TextStyle said_style(size_t line, double size_pt) {
    return (TextStyle){line ? FACE_CONDENSED : FACE_CONDENSED_BOLD, size_pt, 1.1};
}

/* The height of what is said in that width. */
static double said_mm(const Drawing *drawing, double width_mm, double size_pt) {
    double height_mm = 0;
    for (size_t i = 0; i < SAID; i++) {
        TextStyle style = said_style(i, size_pt);
        const Face *face = drawing->test->faces->faces[style.face];
        WrapText text = wrap_measure(drawing->pen.arena, face, face, drawing->lines[i]);
        size_t lines = wrap_count(&text, wrap_room(width_mm, size_pt));
        height_mm += (double)lines * pen_pitch_mm(style);
    }
    return height_mm;
}

static void draw_text(Drawing *drawing) {
    Box room = text_room(drawing);
    double size_pt = LARGEST_PT;
    while (size_pt > LABEL_LEAST_PT && said_mm(drawing, room.width_mm, size_pt) > room.height_mm)
        size_pt -= 0.5;
    Point at = moved(drawing, room.x_mm, room.y_mm);
    Box place = {at.x_mm, at.y_mm, room.width_mm, room.height_mm};
    drawing->page->owner = "text";
    for (size_t i = 0; i < SAID; i++)
        place.y_mm += pen_paragraph(&drawing->pen, said_style(i, size_pt), ALIGN_LEFT, place,
                                    drawing->lines[i]);
}

static void add_length(Arena *arena, FieldGroup *group, const char *name, const Locale *locale,
                       double length_mm) {
    int decimals = fabs(length_mm - round(length_mm)) < 0.05 ? 0 : 1;
    field_add_text(arena, group, name, format_number(arena, locale, length_mm, decimals));
}

static bool read_lines(const TestPage *test, Arena *arena, Diagnostics *diagnostics,
                       const char **lines) {
    static const char *const keys[] = {"test_page.stock", "test_page.offset", "test_page.use"};
    const Stock *stock = test->stock;
    FieldGroup *group = field_group_new(arena, NULL, "test_page", 0);
    field_add_text(arena, group, "name", stock->name);
    add_length(arena, group, "width", test->locale, stock->label_width_mm);
    add_length(arena, group, "height", test->locale, stock->least_height_mm);
    add_length(arena, group, "right", test->locale, test->offset_x_mm);
    add_length(arena, group, "down", test->locale, test->offset_y_mm);
    for (size_t i = 0; i < SAID; i++) {
        lines[i] = phrase_word(arena, test->locale, (Place){0}, keys[i], group, diagnostics);
        if (!lines[i])
            return false;
    }
    return true;
}

bool test_page_lay_out(const TestPage *test, Document *document, Diagnostics *diagnostics) {
    const Stock *stock = test->stock;
    bool cut = stock->least_height_mm < stock->label_height_mm;
    double height_mm = cut ? fmin(fmax(CUT_MM, stock->least_height_mm), stock->label_height_mm)
                           : stock->page_height_mm;
    Drawing drawing = {.test = test};
    if (!read_lines(test, document->arena, diagnostics, drawing.lines))
        return false;
    drawing.page = document_page(document, stock->page_width_mm, height_mm);
    drawing.pen = (Pen){document->arena, test->faces, drawing.page, ink_black()};
    draw_edge(&drawing);
    for (int i = 0; i < stock_count(stock); i++)
        draw_label(&drawing, i);
    double bare_mm = stock->roll ? 0 : stock->edge_mm;
    draw_ruler(&drawing, true, bare_mm);
    draw_ruler(&drawing, false, bare_mm);
    draw_text(&drawing);
    return true;
}
