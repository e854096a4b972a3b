/* Logo: the maker's drawing in one colour, or the place left free for it, at the top right of a
 * label: as large as its place holds, never stretched. */
#include "layout/drawing.h"

#include <math.h>

/* The place on labels of the pattern's own size; it grows with them. As high as a name and what is
 * said below it, so that it takes no line from them (judgement). */
#define LOGO_HIGH_MM 9.0
#define LOGO_WIDE_MM 20.0
#define BLANK_WIDE_MM 14.0

static const Logo *logo_of(const Layout *layout) {
    return &layout->plan->workshop->maker.logo;
}

bool logo_shown(const Layout *layout) {
    const Logo *logo = logo_of(layout);
    return logo->blank || logo->outlines.count > 0;
}

/* Millimetres a unit of the drawing, so that it just fills a place so wide and high. */
static double scale_of(const Logo *logo, double width_mm, double height_mm) {
    return fmin(width_mm / logo->width, height_mm / logo->height);
}

double logo_natural_mm(Layout *layout, const Block *block) {
    (void)block;
    const Logo *logo = logo_of(layout);
    double width_mm = logo->blank ? BLANK_WIDE_MM
                                  : logo->width * scale_of(logo, LOGO_WIDE_MM, LOGO_HIGH_MM);
    return width_mm * layout->scale;
}

double logo_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)block;
    const Logo *logo = logo_of(layout);
    double high_mm = LOGO_HIGH_MM * layout->scale;
    return logo->blank ? high_mm : fmin(logo->height * width_mm / logo->width, high_mm);
}

static Point placed(OutlinePoint point, double scale) {
    return (Point){point.x * scale, point.y * scale};
}

static void make(Layout *layout, const Block *block, Picture *picture) {
    (void)block;
    static const StepKind kinds[] = {[OUTLINE_MOVE] = STEP_MOVE,
                                     [OUTLINE_LINE] = STEP_LINE,
                                     [OUTLINE_CURVE] = STEP_CURVE,
                                     [OUTLINE_CLOSE] = STEP_CLOSE};
    const Logo *logo = logo_of(layout);
    double scale = scale_of(logo, picture->width_mm, picture->height_mm);
    Steps steps = {0};
    for (size_t i = 0; i < logo->outlines.count; i++) {
        const OutlineStep *step = &logo->outlines.items[i];
        LIST_ADD(picture->arena, &steps,
                 ((Step){.kind = kinds[step->kind],
                         .to = placed(step->to, scale),
                         .control = {placed(step->control[0], scale),
                                     placed(step->control[1], scale)}}));
    }
    Style style = style_fill(ink_black());
    style.nonzero = logo->nonzero;
    picture_path(picture, steps, style);
}

void logo_draw(Layout *layout, const Block *block) {
    const Logo *logo = logo_of(layout);
    if (logo->blank)
        return;
    double scale = scale_of(logo, block->box.width_mm,
                            fmin(block->box.height_mm, LOGO_HIGH_MM * layout->scale));
    Box place = {block->box.x_mm + block->box.width_mm - logo->width * scale, block->box.y_mm,
                 logo->width * scale, logo->height * scale};
    drawing_picture(layout, block, place, make);
}
