#include "layout/pen.h"

#include <string.h>

#define ZERO_WIDTH_SPACE "\xE2\x80\x8B"

static FaceRole strong_role(FaceRole face) {
    return face == FACE_CONDENSED || face == FACE_CONDENSED_BOLD ? FACE_CONDENSED_BOLD : FACE_BOLD;
}

TextStyle style_strong(TextStyle style) {
    style.face = strong_role(style.face);
    return style;
}

static const Face *face_of(const Pen *pen, FaceRole role) {
    return pen->faces->faces[role];
}

static WrapText measured(const Pen *pen, TextStyle style, const char *text) {
    return wrap_measure(pen->arena, face_of(pen, style.face), face_of(pen, strong_role(style.face)),
                        text);
}

double pen_pitch_mm(TextStyle style) {
    return style.size_pt * style.leading * MM_PER_PT;
}

double pen_capitals_mm(const Pen *pen, TextStyle style) {
    return face_cap_height_mm(face_of(pen, style.face), style.size_pt);
}

double pen_baseline_mm(const Pen *pen, TextStyle style) {
    return (pen_pitch_mm(style) + pen_capitals_mm(pen, style)) / 2;
}

double pen_width_mm(const Pen *pen, TextStyle style, const char *text) {
    return wrap_mm(measured(pen, style, text).width, style.size_pt);
}

double pen_widest_word_mm(const Pen *pen, TextStyle style, const char *text) {
    return wrap_mm(measured(pen, style, text).widest, style.size_pt);
}

/* One stretch in one face; empty stretches leave no mark. */
static double set_stretch(Pen *pen, TextStyle style, double x_mm, double baseline_mm,
                          const char *from, size_t length) {
    if (length == 0)
        return 0;
    const char *string = arena_copy(pen->arena, from, length);
    mark_text(pen->page, x_mm, baseline_mm, style.face, style.size_pt, pen->ink, string);
    return face_width_mm(face_of(pen, style.face), string, style.size_pt);
}

/* Sets a line stretch by stretch, changing face at the switches; what takes no room is left out. */
static void set_line(Pen *pen, TextStyle style, double x_mm, double baseline_mm,
                     const WrapLine *line) {
    TextStyle now = line->strong ? style_strong(style) : style;
    const char *from = line->from;
    for (const char *at = from; at <= line->end; at++) {
        bool is_switch = at < line->end && (*at == WRAP_STRONG || *at == WRAP_PLAIN);
        bool is_nothing = at + 3 <= line->end && memcmp(at, ZERO_WIDTH_SPACE, 3) == 0;
        if (at < line->end && !is_switch && !is_nothing)
            continue;
        x_mm += set_stretch(pen, now, x_mm, baseline_mm, from, (size_t)(at - from));
        if (is_switch)
            now = *at == WRAP_STRONG ? style_strong(style) : style;
        from = at + (is_nothing ? 3 : 1);
    }
}

static double aligned_x(Align align, double x_mm, double width_mm) {
    if (align == ALIGN_RIGHT)
        return x_mm - width_mm;
    return align == ALIGN_CENTRE ? x_mm - width_mm / 2 : x_mm;
}

void pen_line(Pen *pen, TextStyle style, Align align, double x_mm, double top_mm,
              const char *text) {
    WrapLine line = {.from = text, .end = text + strlen(text)};
    set_line(pen, style, aligned_x(align, x_mm, pen_width_mm(pen, style, text)),
             top_mm + pen_baseline_mm(pen, style), &line);
}

void pen_wrapped(Pen *pen, TextStyle style, Align align, Box place, double top_mm,
                 const WrapLine *line) {
    double width_mm = wrap_mm(line->width, style.size_pt);
    double anchor_mm = align == ALIGN_LEFT    ? place.x_mm
                       : align == ALIGN_RIGHT ? place.x_mm + place.width_mm
                                              : place.x_mm + place.width_mm / 2;
    set_line(pen, style, aligned_x(align, anchor_mm, width_mm),
             top_mm + pen_baseline_mm(pen, style), line);
}

double pen_paragraph(Pen *pen, TextStyle style, Align align, Box place, const char *text) {
    WrapText whole = measured(pen, style, text);
    WrapLines lines = wrap_lines(pen->arena, &whole, wrap_room(place.width_mm, style.size_pt));
    double pitch_mm = pen_pitch_mm(style);
    for (size_t i = 0; i < lines.count; i++)
        pen_wrapped(pen, style, align, place, place.y_mm + (double)i * pitch_mm, &lines.items[i]);
    return (double)lines.count * pitch_mm;
}

void pen_rule(Pen *pen, double x_mm, double y_mm, double width_mm, double line_mm, Ink ink) {
    mark_line(pen->page, (Point){x_mm, y_mm}, (Point){x_mm + width_mm, y_mm},
              style_line(line_mm, ink));
}

void pen_upright(Pen *pen, double x_mm, double y_mm, double height_mm, double line_mm, Ink ink) {
    mark_line(pen->page, (Point){x_mm, y_mm}, (Point){x_mm, y_mm + height_mm},
              style_line(line_mm, ink));
}

void pen_rectangle(Pen *pen, Box box, Style style) {
    mark_rectangle(pen->page, box, style);
}

void pen_sign(Pen *pen, SignKind kind, double x_mm, double y_mm, double size_mm) {
    sign_draw(pen->page, kind, (Point){x_mm, y_mm}, size_mm, pen->ink, ink_white());
}
