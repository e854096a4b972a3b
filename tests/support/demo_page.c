#include "support/demo_page.h"

#include "layout/sign.h"

static void draw_texts(Page *page) {
    page->owner = "texts";
    mark_text(page, 15, 25, FACE_BOLD, 36, ink_black(), "Light at 21:30");
    mark_text(page, 15, 36, FACE_BOLD, 16, ink_black(), "Bold " DEMO_LINE);
    mark_text(page, 15, 44, FACE_REGULAR, 12, ink_black(), "Regular " DEMO_LINE);
    mark_text(page, 15, 51, FACE_MEDIUM, 12, ink_grey(0.35), "Medium " DEMO_LINE);
    mark_text(page, 15, 58, FACE_CONDENSED, 12, ink_grey(0.4), "Condensed " DEMO_LINE);
    mark_text(page, 15, 65, FACE_CONDENSED_BOLD, 12, ink_black(), "Narrow bold " DEMO_LINE);
    mark_text(page, 15, 72, FACE_CONDENSED_BOLD, 10, ink_grey(0.3), "SPACED CAPITALS");
    mark_text(page, 15, 78, FACE_REGULAR, 7, ink_black(), "seven points: 0123456789 grams");
}

static void draw_paths(Page *page) {
    page->owner = "paths";
    mark_line(page, (Point){15, 84}, (Point){195, 84}, style_line(0.1, ink_black()));
    mark_line(page, (Point){15, 88}, (Point){195, 88}, style_dashed(0.3, ink_black(), 1.7, 1.1));
    mark_rectangle(page, (Box){15, 92, 30, 20}, style_both(ink_grey(0.9), 0.4, ink_black()));
    mark_circle(page, (Point){95, 102}, 10, style_both(ink_grey(0.8), 0.5, ink_black()));
    Steps ring = {0};
    path_circle(page->arena, &ring, (Point){120, 102}, 10);
    path_circle(page->arena, &ring, (Point){120, 102}, 6);
    mark_path(page, &ring, style_fill(ink_grey(0.5)));
    Point zigzag[] = {{135, 112}, {142, 92}, {149, 112}, {156, 92}, {163, 112}};
    Style thick = style_line(1.2, ink_grey(0.2));
    thick.cap = CAP_ROUND;
    thick.join = JOIN_ROUND;
    mark_polyline(page, zigzag, 5, thick);
    Point hollow[] = {{168, 92}, {195, 92}, {195, 112}, {181, 100}, {168, 112}};
    mark_polygon(page, hollow, 5, style_line(0.3, ink_black()));
    mark_hatch(page, hollow, 5, -45, 1.5, style_line(0.15, ink_black()));
}

static void draw_signs(Page *page) {
    static const double sizes_mm[] = {3, 5, 9};
    page->owner = "signs";
    double y_mm = 120;
    for (int row = 0; row < 3; row++) {
        for (int kind = 0; kind < SIGN_COUNT; kind++)
            sign_draw(page, (SignKind)kind, (Point){15 + 14.0 * kind, y_mm}, sizes_mm[row],
                      ink_grey(0.15), ink_white());
        y_mm += sizes_mm[row] + 4;
    }
}

void demo_draw(Page *page) {
    draw_texts(page);
    draw_paths(page);
    draw_signs(page);
}

Document *demo_document(Arena *arena) {
    Document *document = document_new(arena, "Łosoś – Δ 2 °C", "pl");
    document->author = "Toad Ditch Smokehouse";
    document->subject = "A page of everything";
    document->creator = "burnsheet test";
    Page *page = document_page(document, 210, 297);
    demo_draw(page);
    return document;
}
