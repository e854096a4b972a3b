#include "layout/mark.h"

Ink ink_grey(double level) {
    return (Ink){level};
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

Picture *picture_new(Arena *arena, double width_mm, double height_mm) {
    Picture *picture = ARENA_NEW(arena, Picture);
    *picture = (Picture){.arena = arena, .width_mm = width_mm, .height_mm = height_mm};
    return picture;
}

void picture_path(Picture *picture, Steps steps, Style style) {
    LIST_ADD(picture->arena, &picture->paths, ((PathMark){steps, style}));
}

Mark *mark_picture(Page *page, const Picture *picture, Point corner) {
    return add(page, (Mark){.kind = MARK_PICTURE, .as.picture = {corner, picture}});
}
