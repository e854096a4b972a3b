#include "print/canvas.h"

#include <hpdf_pages.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* What was last told to the page, so that it is not told twice. */
typedef struct Canvas {
    HPDF_Page page;
    double height_mm;
    const HPDF_Font *fonts;
    Pictures *pictures;
    bool in_text;
    const TextMark *text; /* whose face and size are set */
    Ink fill;
    Style stroke; /* ink, width, dashes, cap and join */
} Canvas;

/* A length in points, to a thousandth (0.35 µm): the library writes tiny numbers badly, and cuts
 * instead of rounding, so the float is chosen just above. */
static HPDF_REAL points(double mm) {
    double rounded = round(mm / MM_PER_PT * 1000) / 1000;
    float value = (float)rounded;
    if ((double)value < rounded)
        value = nextafterf(value, INFINITY);
    return value;
}

static HPDF_REAL points_up(const Canvas *canvas, double y_mm) {
    return points(canvas->height_mm - y_mm);
}

static HPDF_REAL level(Ink ink) {
    return (HPDF_REAL)(round(ink.grey * 1000) / 1000);
}

static void use_fill(Canvas *canvas, Ink ink) {
    if (ink.grey != canvas->fill.grey)
        HPDF_Page_SetGrayFill(canvas->page, level(ink));
    canvas->fill = ink;
}

/* Written by hand, since the library's own call takes whole points only. */
static void use_dashes(Canvas *canvas, double dash_mm, double gap_mm) {
    char operator[64] = "[] 0 d\n";
    if (dash_mm > 0)
        snprintf(operator, sizeof operator, "[%.3f %.3f] 0 d\n", dash_mm / MM_PER_PT,
                 (gap_mm > 0 ? gap_mm : dash_mm) / MM_PER_PT);
    HPDF_PageAttr attributes = canvas->page->attr;
    HPDF_Stream_WriteStr(attributes->stream, operator);
}

static void use_stroke(Canvas *canvas, const Style *style) {
    Style *set = &canvas->stroke;
    if (style->line.grey != set->line.grey)
        HPDF_Page_SetGrayStroke(canvas->page, level(style->line));
    if (style->line_mm != set->line_mm)
        HPDF_Page_SetLineWidth(canvas->page, points(style->line_mm));
    if (style->dash_mm != set->dash_mm || style->gap_mm != set->gap_mm)
        use_dashes(canvas, style->dash_mm, style->gap_mm);
    if (style->cap != set->cap)
        HPDF_Page_SetLineCap(canvas->page, (HPDF_LineCap)style->cap);
    if (style->join != set->join)
        HPDF_Page_SetLineJoin(canvas->page, (HPDF_LineJoin)style->join);
    *set = *style;
}

static void leave_text(Canvas *canvas) {
    if (canvas->in_text)
        HPDF_Page_EndText(canvas->page);
    canvas->in_text = false;
}

/* Face and size hold beyond the end of a text object. */
static void use_type(Canvas *canvas, const TextMark *text) {
    const TextMark *set = canvas->text;
    if (!set || text->face != set->face || text->size_pt != set->size_pt)
        HPDF_Page_SetFontAndSize(canvas->page, canvas->fonts[text->face], (HPDF_REAL)text->size_pt);
    canvas->text = text;
}

static void draw_text(Canvas *canvas, const TextMark *text) {
    if (text->string[0] == '\0')
        return;
    if (!canvas->in_text)
        HPDF_Page_BeginText(canvas->page);
    canvas->in_text = true;
    use_fill(canvas, text->ink);
    use_type(canvas, text);
    HPDF_Page_SetTextMatrix(canvas->page, 1, 0, 0, 1, points(text->baseline.x_mm),
                            points_up(canvas, text->baseline.y_mm));
    HPDF_Page_ShowText(canvas->page, text->string);
}

static void draw_step(Canvas *canvas, const Step *step) {
    HPDF_REAL x = points(step->to.x_mm);
    HPDF_REAL y = points_up(canvas, step->to.y_mm);
    if (step->kind == STEP_MOVE)
        HPDF_Page_MoveTo(canvas->page, x, y);
    else if (step->kind == STEP_LINE)
        HPDF_Page_LineTo(canvas->page, x, y);
    else if (step->kind == STEP_CURVE)
        HPDF_Page_CurveTo(canvas->page, points(step->control[0].x_mm),
                          points_up(canvas, step->control[0].y_mm), points(step->control[1].x_mm),
                          points_up(canvas, step->control[1].y_mm), x, y);
    else
        HPDF_Page_ClosePath(canvas->page);
}

static void draw_path(Canvas *canvas, const PathMark *path) {
    bool stroked = path->style.line_mm > 0;
    if (path->steps.count == 0 || (!stroked && !path->style.filled))
        return;
    leave_text(canvas);
    if (path->style.filled)
        use_fill(canvas, path->style.fill);
    if (stroked)
        use_stroke(canvas, &path->style);
    for (size_t i = 0; i < path->steps.count; i++)
        draw_step(canvas, &path->steps.items[i]);
    bool nonzero = path->style.nonzero;
    if (stroked && path->style.filled)
        nonzero ? HPDF_Page_FillStroke(canvas->page) : HPDF_Page_EofillStroke(canvas->page);
    else if (stroked)
        HPDF_Page_Stroke(canvas->page);
    else
        nonzero ? HPDF_Page_Fill(canvas->page) : HPDF_Page_Eofill(canvas->page);
}

/* What a form sets is gone behind the restoring of the state around it. */
static void draw_picture(Canvas *canvas, const PictureMark *mark) {
    HPDF_XObject form = picture_form(canvas->pictures, mark->picture);
    if (!form)
        return;
    leave_text(canvas);
    HPDF_Page_GSave(canvas->page);
    HPDF_Page_Concat(canvas->page, 1, 0, 0, 1, points(mark->corner.x_mm),
                     points_up(canvas, mark->corner.y_mm + mark->picture->height_mm));
    HPDF_Page_ExecuteXObject(canvas->page, form);
    HPDF_Page_GRestore(canvas->page);
}

void canvas_draw(HPDF_Page pdf_page, const Page *page, const HPDF_Font fonts[FACE_COUNT],
                 Pictures *pictures) {
    HPDF_Page_SetWidth(pdf_page, points(page->width_mm));
    HPDF_Page_SetHeight(pdf_page, points(page->height_mm));
    /* A new page paints black, with a solid line one point wide, butt caps and mitred joins. */
    Canvas canvas = {.page = pdf_page,
                     .height_mm = page->height_mm,
                     .fonts = fonts,
                     .pictures = pictures,
                     .stroke.line_mm = MM_PER_PT};
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT)
            draw_text(&canvas, &mark->as.text);
        else if (mark->kind == MARK_PICTURE)
            draw_picture(&canvas, &mark->as.picture);
        else
            draw_path(&canvas, &mark->as.path);
    }
    leave_text(&canvas);
}
