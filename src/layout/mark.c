#include "layout/mark.h"

#include "base/utf8.h"

#include <math.h>

Ink ink_rgb(double red, double green, double blue) {
    return (Ink){red, green, blue};
}

Ink ink_grey(double level) {
    return (Ink){level, level, level};
}

Ink ink_black(void) {
    return ink_grey(0);
}

Ink ink_white(void) {
    return ink_grey(1);
}

Style style_line(double line_mm, Ink ink) {
    return (Style){.line_mm = line_mm, .line = ink};
}

Style style_dashed(double line_mm, Ink ink, double dash_mm, double gap_mm) {
    return (Style){.line_mm = line_mm, .line = ink, .dash_mm = dash_mm, .gap_mm = gap_mm};
}

Style style_fill(Ink ink) {
    return (Style){.filled = true, .fill = ink};
}

Style style_both(Ink fill, double line_mm, Ink line) {
    return (Style){.filled = true, .fill = fill, .line_mm = line_mm, .line = line};
}

Document *document_new(Arena *arena, const char *title, const char *language) {
    Document *document = ARENA_NEW(arena, Document);
    document->arena = arena;
    document->title = title;
    document->language = language;
    return document;
}

Page *document_page(Document *document, double width_mm, double height_mm) {
    Page *page = ARENA_NEW(document->arena, Page);
    page->arena = document->arena;
    page->width_mm = width_mm;
    page->height_mm = height_mm;
    LIST_ADD(document->arena, &document->pages, page);
    return page;
}

static Mark *add(Page *page, Mark mark) {
    mark.owner = page->owner;
    LIST_ADD(page->arena, &page->marks, mark);
    return &page->marks.items[page->marks.count - 1];
}

Mark *mark_text(Page *page, double x_mm, double baseline_mm, FaceRole face, double size_pt, Ink ink,
                const char *string) {
    TextMark text = {.baseline = {x_mm, baseline_mm},
                     .face = face,
                     .size_pt = size_pt,
                     .string = arena_string(page->arena, string),
                     .ink = ink};
    return add(page, (Mark){.kind = MARK_TEXT, .as.text = text});
}

/* Takes the steps over, uncopied. */
static Mark *add_path(Page *page, Steps steps, Style style) {
    return add(page, (Mark){.kind = MARK_PATH, .as.path = {steps, style}});
}

Mark *mark_path(Page *page, const Steps *steps, Style style) {
    Steps copy = {0};
    for (size_t i = 0; i < steps->count; i++)
        LIST_ADD(page->arena, &copy, steps->items[i]);
    return add_path(page, copy, style);
}

Mark *mark_line(Page *page, Point from, Point to, Style style) {
    Point ends[] = {from, to};
    return mark_polyline(page, ends, 2, style);
}

Mark *mark_polyline(Page *page, const Point *points, size_t count, Style style) {
    Steps steps = {0};
    for (size_t i = 0; i < count; i++)
        LIST_ADD(page->arena, &steps, (Step){.kind = i ? STEP_LINE : STEP_MOVE, .to = points[i]});
    return add_path(page, steps, style);
}

Mark *mark_polygon(Page *page, const Point *points, size_t count, Style style) {
    Steps steps = {0};
    path_polygon(page->arena, &steps, points, count);
    return add_path(page, steps, style);
}

Mark *mark_rectangle(Page *page, Box box, Style style) {
    Steps steps = {0};
    path_rectangle(page->arena, &steps, box);
    return add_path(page, steps, style);
}

Mark *mark_rounded(Page *page, Box box, double radius_mm, Style style) {
    Steps steps = {0};
    path_rounded(page->arena, &steps, box, radius_mm);
    return add_path(page, steps, style);
}

Mark *mark_circle(Page *page, Point centre, double radius_mm, Style style) {
    Steps steps = {0};
    path_circle(page->arena, &steps, centre, radius_mm);
    return add_path(page, steps, style);
}

Mark *mark_hatch(Page *page, const Point *points, size_t count, double angle_deg, double spacing_mm,
                 Style style) {
    Steps steps = {0};
    path_hatch(page->arena, &steps, points, count, angle_deg, spacing_mm);
    return steps.count ? add_path(page, steps, style) : NULL;
}

double mark_text_width_mm(const TextMark *text, const FaceSet *faces) {
    double tracking_mm = text->tracking_pt * MM_PER_PT;
    return face_width_mm(faces->faces[text->face], text->string, text->size_pt) +
           (double)utf8_count(text->string) * tracking_mm;
}

static Box text_box(const TextMark *text, const FaceSet *faces) {
    const Face *face = faces->faces[text->face];
    double width = mark_text_width_mm(text, faces);
    double ascent = face_ascent_mm(face, text->size_pt);
    double height = ascent + face_descent_mm(face, text->size_pt);
    if (text->angle_deg == 90)
        return (Box){text->baseline.x_mm - ascent, text->baseline.y_mm - width, height, width};
    return (Box){text->baseline.x_mm, text->baseline.y_mm - ascent, width, height};
}

Box mark_box(const Mark *mark, const FaceSet *faces) {
    if (mark->kind == MARK_TEXT)
        return text_box(&mark->as.text, faces);
    Box box = path_box(&mark->as.path.steps);
    double half = mark->as.path.style.line_mm / 2;
    return (Box){box.x_mm - half, box.y_mm - half, box.width_mm + 2 * half,
                 box.height_mm + 2 * half};
}

/* Two decimals, and never a zero with a minus. */
static void print_number(Text *text, double value) {
    double rounded = round(value * 100) / 100;
    text_addf(text, " %.2f", rounded == 0 ? 0.0 : rounded);
}

static void print_ink(Text *text, const char *name, Ink ink) {
    text_addf(text, " %s", name);
    print_number(text, ink.red);
    if (ink.red == ink.green && ink.green == ink.blue)
        return;
    print_number(text, ink.green);
    print_number(text, ink.blue);
}

static void print_point(Text *text, Point point) {
    print_number(text, point.x_mm);
    print_number(text, point.y_mm);
}

static void print_text(Text *text, const TextMark *mark) {
    text_add(text, "text");
    print_point(text, mark->baseline);
    text_addf(text, " %s %.2fpt", face_role_name(mark->face), mark->size_pt);
    print_ink(text, "ink", mark->ink);
    if (mark->angle_deg)
        text_addf(text, " angle %d", mark->angle_deg);
    if (mark->tracking_pt != 0)
        text_addf(text, " tracking %.2fpt", mark->tracking_pt);
    text_addf(text, " \"%s\"", mark->string);
}

static void print_step(Text *text, const Step *step) {
    static const char letters[] = {
        [STEP_MOVE] = 'M', [STEP_LINE] = 'L', [STEP_CURVE] = 'C', [STEP_CLOSE] = 'Z'};
    text_addf(text, " %c", letters[step->kind]);
    if (step->kind == STEP_CURVE) {
        print_point(text, step->control[0]);
        print_point(text, step->control[1]);
    }
    if (step->kind != STEP_CLOSE)
        print_point(text, step->to);
}

static void print_style(Text *text, const Style *style) {
    static const char *const caps[] = {"", " round-cap", " square-cap"};
    static const char *const joins[] = {"", " round-join", " bevel-join"};
    if (style->filled)
        print_ink(text, "fill", style->fill);
    if (style->line_mm <= 0)
        return;
    print_ink(text, "line", style->line);
    text_addf(text, " width %.2f", style->line_mm);
    if (style->dash_mm > 0)
        text_addf(text, " dash %.2f %.2f", style->dash_mm, style->gap_mm);
    text_add(text, caps[style->cap]);
    text_add(text, joins[style->join]);
}

static void print_path(Text *text, const PathMark *path) {
    text_add(text, "path");
    for (size_t i = 0; i < path->steps.count; i++)
        print_step(text, &path->steps.items[i]);
    print_style(text, &path->style);
}

void marks_print(Text *text, const Page *page) {
    text_addf(text, "page %.2f %.2f\n", page->width_mm, page->height_mm);
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT)
            print_text(text, &mark->as.text);
        else
            print_path(text, &mark->as.path);
        text_addf(text, "%s%s\n", mark->owner ? " @" : "", mark->owner ? mark->owner : "");
    }
}
