#include "support/marks.h"

#include <math.h>

Box path_box(const Steps *steps) {
    double left = INFINITY, top = INFINITY, right = -INFINITY, bottom = -INFINITY;
    for (size_t i = 0; i < steps->count; i++) {
        const Step *step = &steps->items[i];
        Point points[3] = {step->to, step->control[0], step->control[1]};
        size_t count = step->kind == STEP_CLOSE ? 0 : step->kind == STEP_CURVE ? 3 : 1;
        for (size_t j = 0; j < count; j++) {
            left = fmin(left, points[j].x_mm);
            right = fmax(right, points[j].x_mm);
            top = fmin(top, points[j].y_mm);
            bottom = fmax(bottom, points[j].y_mm);
        }
    }
    if (left > right)
        return (Box){0};
    return (Box){left, top, right - left, bottom - top};
}

static int read_i16(const uint8_t *at) {
    int value = at[0] << 8 | at[1];
    return value < 0x8000 ? value : value - 0x10000;
}

/* OpenType 1.9: ascender and descender in `hhea`, units per em in `head`. */
double type_ascent_mm(const Face *face, double size_pt) {
    size_t length;
    return read_i16(face_table(face, "hhea", &length) + 4) * size_pt * MM_PER_PT /
           read_i16(face_table(face, "head", &length) + 18);
}

double type_descent_mm(const Face *face, double size_pt) {
    size_t length;
    return -read_i16(face_table(face, "hhea", &length) + 6) * size_pt * MM_PER_PT /
           read_i16(face_table(face, "head", &length) + 18);
}

static Box text_box(const TextMark *text, const FaceSet *faces) {
    const Face *face = faces->faces[text->face];
    double ascent = type_ascent_mm(face, text->size_pt);
    return (Box){text->baseline.x_mm, text->baseline.y_mm - ascent,
                 face_width_mm(face, text->string, text->size_pt),
                 ascent + type_descent_mm(face, text->size_pt)};
}

Box mark_box(const Mark *mark, const FaceSet *faces) {
    if (mark->kind == MARK_TEXT)
        return text_box(&mark->as.text, faces);
    if (mark->kind == MARK_PICTURE) {
        const PictureMark *picture = &mark->as.picture;
        return (Box){picture->corner.x_mm, picture->corner.y_mm, picture->picture->width_mm,
                     picture->picture->height_mm};
    }
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
    print_number(text, ink.grey);
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
    if (style->filled)
        print_ink(text, "fill", style->fill);
    if (style->line_mm <= 0)
        return;
    print_ink(text, "line", style->line);
    text_addf(text, " width %.2f", style->line_mm);
    if (style->dash_mm > 0)
        text_addf(text, " dash %.2f %.2f", style->dash_mm, style->gap_mm);
    text_add(text, style->cap == CAP_ROUND ? " round-cap" : "");
    text_add(text, style->join == JOIN_ROUND ? " round-join" : "");
}

static void print_path(Text *text, const PathMark *path) {
    text_add(text, "path");
    for (size_t i = 0; i < path->steps.count; i++)
        print_step(text, &path->steps.items[i]);
    print_style(text, &path->style);
}

static void print_picture(Text *text, const PictureMark *mark) {
    text_add(text, "picture");
    print_point(text, mark->corner);
    for (size_t i = 0; i < mark->picture->paths.count; i++) {
        text_add(text, " ");
        print_path(text, &mark->picture->paths.items[i]);
    }
}

void marks_print(Text *text, const Page *page) {
    text_addf(text, "page %.2f %.2f\n", page->width_mm, page->height_mm);
    for (size_t i = 0; i < page->marks.count; i++) {
        const Mark *mark = &page->marks.items[i];
        if (mark->kind == MARK_TEXT)
            print_text(text, &mark->as.text);
        else if (mark->kind == MARK_PICTURE)
            print_picture(text, &mark->as.picture);
        else
            print_path(text, &mark->as.path);
        text_addf(text, "%s%s\n", mark->owner ? " @" : "", mark->owner ? mark->owner : "");
    }
}
