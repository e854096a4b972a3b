#include "print/picture.h"

#include <hpdf_objects.h>
#include <math.h>

/* Places within a form are whole steps of a hundredth of a millimetre, a quarter of the finest dot
 * of a printer with 600 dots an inch: short to write. */
static const double STEPS_A_MM = 100;

static bool same_point(Point one, Point other) {
    return one.x_mm == other.x_mm && one.y_mm == other.y_mm;
}

static bool same_step(const Step *one, const Step *other) {
    bool curve = one->kind == STEP_CURVE;
    return one->kind == other->kind && same_point(one->to, other->to) &&
           (!curve || (same_point(one->control[0], other->control[0]) &&
                       same_point(one->control[1], other->control[1])));
}

static bool same_style(const Style *one, const Style *other) {
    return one->filled == other->filled && one->nonzero == other->nonzero &&
           one->fill.grey == other->fill.grey && one->line_mm == other->line_mm &&
           one->line.grey == other->line.grey && one->dash_mm == other->dash_mm &&
           one->gap_mm == other->gap_mm && one->cap == other->cap && one->join == other->join;
}

static bool same_path(const PathMark *one, const PathMark *other) {
    bool same = one->steps.count == other->steps.count && same_style(&one->style, &other->style);
    for (size_t i = 0; same && i < one->steps.count; i++)
        same = same_step(&one->steps.items[i], &other->steps.items[i]);
    return same;
}

static bool same_picture(const Picture *one, const Picture *other) {
    bool same = one->paths.count == other->paths.count && one->width_mm == other->width_mm &&
                one->height_mm == other->height_mm;
    for (size_t i = 0; same && i < one->paths.count; i++)
        same = same_path(&one->paths.items[i], &other->paths.items[i]);
    return same;
}

/* ---- Its stream ---- */

/* Upwards as in PDF, from the picture's lower left corner. */
typedef struct Writing {
    HPDF_Stream stream;
    double height_mm;
} Writing;

static void write_number(const Writing *writing, double value) {
    HPDF_Stream_WriteInt(writing->stream, (HPDF_INT)round(value * STEPS_A_MM));
    HPDF_Stream_WriteChar(writing->stream, ' ');
}

static void write_point(const Writing *writing, Point point) {
    write_number(writing, point.x_mm);
    write_number(writing, writing->height_mm - point.y_mm);
}

static void write_step(const Writing *writing, const Step *step) {
    static const char *const operators[] = {
        [STEP_MOVE] = "m\n", [STEP_LINE] = "l\n", [STEP_CURVE] = "c\n", [STEP_CLOSE] = "h\n"};
    if (step->kind == STEP_CURVE) {
        write_point(writing, step->control[0]);
        write_point(writing, step->control[1]);
    }
    if (step->kind != STEP_CLOSE)
        write_point(writing, step->to);
    HPDF_Stream_WriteStr(writing->stream, operators[step->kind]);
}

static void write_ink(const Writing *writing, Ink ink, const char *operator) {
    HPDF_Stream_WriteReal(writing->stream, (HPDF_REAL)(round(ink.grey * 1000) / 1000));
    HPDF_Stream_WriteStr(writing->stream, operator);
}

static void write_style(const Writing *writing, const Style *style) {
    if (style->filled)
        write_ink(writing, style->fill, " g\n");
    if (style->line_mm <= 0)
        return;
    write_ink(writing, style->line, " G\n");
    write_number(writing, style->line_mm);
    HPDF_Stream_WriteStr(writing->stream, "w ");
    HPDF_Stream_WriteInt(writing->stream, (HPDF_INT)style->cap);
    HPDF_Stream_WriteStr(writing->stream, " J ");
    HPDF_Stream_WriteInt(writing->stream, (HPDF_INT)style->join);
    HPDF_Stream_WriteStr(writing->stream, " j\n");
}

static const char *painting(const Style *style) {
    if (!style->filled)
        return style->line_mm > 0 ? "S\n" : "n\n";
    if (style->line_mm > 0)
        return style->nonzero ? "B\n" : "B*\n";
    return style->nonzero ? "f\n" : "f*\n";
}

static void write_path(const Writing *writing, const PathMark *path) {
    if (path->steps.count == 0)
        return;
    write_style(writing, &path->style);
    for (size_t i = 0; i < path->steps.count; i++)
        write_step(writing, &path->steps.items[i]);
    HPDF_Stream_WriteStr(writing->stream, painting(&path->style));
}

/* ---- The form ---- */

static void add_matrix(HPDF_Doc pdf, HPDF_Dict form) {
    HPDF_Array matrix = HPDF_Array_New(pdf->mmgr);
    if (!matrix)
        return;
    HPDF_Dict_Add(form, "Matrix", matrix);
    HPDF_REAL scale = (HPDF_REAL)(1 / STEPS_A_MM / MM_PER_PT);
    const HPDF_REAL values[] = {scale, 0, 0, scale, 0, 0};
    for (int i = 0; i < 6; i++)
        HPDF_Array_AddReal(matrix, values[i]);
}

/* The library makes images only; what it writes of one is a dictionary with a stream too. */
static HPDF_XObject new_form(HPDF_Doc pdf, const Picture *picture) {
    HPDF_Dict form = HPDF_DictStream_New(pdf->mmgr, pdf->xref);
    if (!form)
        return NULL;
    form->header.obj_class |= HPDF_OSUBCLASS_XOBJECT;
    form->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
    HPDF_Dict_AddName(form, "Type", "XObject");
    HPDF_Dict_AddName(form, "Subtype", "Form");
    HPDF_Box box = {0, 0, (HPDF_REAL)ceil(picture->width_mm * STEPS_A_MM),
                    (HPDF_REAL)ceil(picture->height_mm * STEPS_A_MM)};
    HPDF_Dict_Add(form, "BBox", HPDF_Box_Array_New(pdf->mmgr, box));
    add_matrix(pdf, form);
    Writing writing = {form->stream, picture->height_mm};
    for (size_t i = 0; i < picture->paths.count; i++)
        write_path(&writing, &picture->paths.items[i]);
    return form;
}

HPDF_XObject picture_form(Pictures *pictures, const Picture *picture) {
    for (size_t i = 0; i < pictures->written.count; i++) {
        const WrittenPicture *written = &pictures->written.items[i];
        if (written->picture == picture || same_picture(written->picture, picture))
            return written->form;
    }
    HPDF_XObject form = new_form(pictures->pdf, picture);
    LIST_ADD(pictures->arena, &pictures->written, ((WrittenPicture){picture, form}));
    return form;
}
