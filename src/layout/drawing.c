#include "layout/drawing.h"

const char *drawing_name(int kind) {
    (void)kind;
    return "";
}

bool drawing_shown(const Layout *layout, const Block *block) {
    (void)layout;
    (void)block;
    return false;
}

double drawing_natural_mm(Layout *layout, const Block *block) {
    (void)layout;
    return block->node->least_mm;
}

double drawing_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)layout;
    (void)width_mm;
    return block->node->least_mm;
}

double drawing_most_mm(Layout *layout, const Block *block, double width_mm) {
    (void)layout;
    (void)width_mm;
    return block->node->most_mm;
}

void drawing_draw(Layout *layout, const Block *block) {
    (void)layout;
    (void)block;
}
