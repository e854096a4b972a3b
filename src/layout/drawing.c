#include "layout/drawing.h"

#include <math.h>
#include <string.h>

typedef struct Kind {
    const char *name;
    double (*least)(Layout *layout, const Block *block, double width_mm);
    double (*most)(Layout *layout, const Block *block, double width_mm); /* NULL: any height */
    void (*draw)(Layout *layout, const Block *block);
    double (*natural)(Layout *layout, const Block *block); /* NULL: as wide as its least height */
} Kind;

static const Kind kinds[DRAWING_KINDS] = {
    [DRAWING_CURVE] = {"curve", curve_least_mm, curve_most_mm, curve_draw, NULL},
    [DRAWING_GRAINS] = {"grains", grains_least_mm, grains_least_mm, grains_draw, NULL},
    [DRAWING_LOGO] = {"logo", logo_least_mm, logo_least_mm, logo_draw, logo_natural_mm},
    [DRAWING_MAP] = {"map", map_least_mm, map_most_mm, map_draw, NULL},
    [DRAWING_RIBBON] = {"ribbon", ribbon_least_mm, NULL, ribbon_draw, NULL},
    [DRAWING_SHARES] = {"shares", shares_least_mm, shares_least_mm, shares_draw, NULL},
    [DRAWING_SWATCH] = {"swatch", swatch_least_mm, swatch_least_mm, swatch_draw, swatch_mm},
    [DRAWING_TRAY] = {"tray", tray_least_mm, tray_most_mm, tray_draw, NULL},
    [DRAWING_DAYS] = {"days", days_least_mm, days_least_mm, days_draw, NULL},
    [DRAWING_KEY] = {"key", key_least_mm, key_least_mm, key_draw, NULL},
    [DRAWING_TIMES] = {"times", times_least_mm, times_most_mm, times_draw, NULL},
};

const char *drawing_name(int kind) {
    return kinds[kind].name;
}

/* The row of that name among a block's own and what it stands in. */
static int row_number(const Block *block, const char *name) {
    for (const FieldGroup *row = block->row; row; row = row->parent)
        if (row->number && strcmp(row->name, name) == 0)
            return row->number;
    return 0;
}

const PlanLookIn *drawing_look_in(const Layout *layout, const Block *block) {
    size_t number = (size_t)row_number(block, "look");
    return number && number <= layout->plan->look_ins.count
               ? &layout->plan->look_ins.items[number - 1]
               : NULL;
}

const PlanFill *drawing_fill(const Layout *layout, const Block *block) {
    const PlanLookIn *look_in = drawing_look_in(layout, block);
    size_t number = look_in ? (size_t)look_in->fill : (size_t)row_number(block, "fill");
    return number && number <= layout->plan->fills.count ? &layout->plan->fills.items[number - 1]
                                                         : NULL;
}

const PlanBag *drawing_bag(const Layout *layout, const Block *block) {
    size_t number = (size_t)row_number(block, "bag");
    return number && number <= layout->plan->bags.count ? &layout->plan->bags.items[number - 1]
                                                        : NULL;
}

size_t drawing_part(const Block *block) {
    return (size_t)row_number(block, "part");
}

/* Whether the bag's parts are told apart by hatches. */
static bool is_mixed(const Layout *layout, const Block *block) {
    const PlanBag *bag = drawing_bag(layout, block);
    return bag && bag->parts.count > 1;
}

bool drawing_shown(const Layout *layout, const Block *block) {
    switch ((DrawingKind)block->node->drawing) {
    case DRAWING_CURVE: return layout->plan->samples.count > 1;
    case DRAWING_MAP: return drawing_fill(layout, block) != NULL;
    case DRAWING_TRAY:
        return drawing_look_in(layout, block) != NULL && drawing_fill(layout, block) != NULL;
    case DRAWING_GRAINS: {
        const PlanBag *bag = drawing_bag(layout, block);
        return bag && bag->grain_drawable;
    }
    case DRAWING_LOGO: return logo_shown(layout);
    case DRAWING_SHARES:
    case DRAWING_SWATCH: return is_mixed(layout, block);
    case DRAWING_TIMES: return field_row(layout->fields, "point", 0) != NULL;
    case DRAWING_RIBBON:
    case DRAWING_DAYS:
    case DRAWING_KEY:
    case DRAWING_KINDS: break;
    }
    return true;
}

double drawing_natural_mm(Layout *layout, const Block *block) {
    const Kind *kind = &kinds[block->node->drawing];
    return kind->natural ? kind->natural(layout, block) : block->node->least_mm;
}

double drawing_least_mm(Layout *layout, const Block *block, double width_mm) {
    return kinds[block->node->drawing].least(layout, block, width_mm);
}

double drawing_most_mm(Layout *layout, const Block *block, double width_mm) {
    const Kind *kind = &kinds[block->node->drawing];
    return kind->most ? kind->most(layout, block, width_mm) : 1e4;
}

void drawing_picture(Layout *layout, const Block *block, Box place,
                     void (*make)(Layout *layout, const Block *block, Picture *picture)) {
    DrawnPicture *drawn = block->drawn;
    bool same = drawn->picture && drawn->picture->width_mm == place.width_mm &&
                drawn->picture->height_mm == place.height_mm;
    if (!same) {
        Picture *picture = picture_new(layout->pen.page->arena, place.width_mm, place.height_mm);
        make(layout, block, picture);
        drawn->picture = picture;
    }
    mark_picture(layout->pen.page, drawn->picture, (Point){place.x_mm, place.y_mm});
}

void drawing_draw(Layout *layout, const Block *block) {
    kinds[block->node->drawing].draw(layout, block);
}
