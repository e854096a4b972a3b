/* Grains: what is in the bag, drawn at true size: each grain stands for the same mass of dust, its
 * breadth (the least distance of two parallel lines that hold it, which is what a sieve lets
 * through) is a size of the plan's, its shape a splinter's. Where grains lie and how they are
 * shaped follows from the lot, so that the same bag has the same picture. */
#include "layout/drawing.h"

#include "base/pi.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

enum { GRAINS_MOST = 120, CORNERS_LEAST = 6, CORNERS_MOST = 9, TRIES = 400, ROUNDS = 30 };

/* So high, and for coarse grains so many times the coarsest. */
#define HIGH_MM 5.0
#define HIGH_GRAINS 2.6
/* Of the strip, what the circles around the grains may cover: beyond half of it circles thrown one
 * after another find no place (0.547, the jamming of equal discs); less looks strewn. */
#define COVERED 0.42
#define APART_MM 0.12
/* Length against breadth: from cubes to splinters (judgement). */
#define SQUATTEST 1.15
#define LONGEST 2.3

typedef struct Grain {
    size_t corners;
    Point at[CORNERS_MOST]; /* about its middle */
    double around_mm;       /* radius of the circle that holds it */
    Point middle;
} Grain;

typedef struct Strip {
    double width_mm, height_mm;
    size_t count;
    Grain grains[GRAINS_MOST];
    uint64_t seed;
} Strip;

/* ---- Chance that is the same each time ---- */

/* FNV-1a, 64 bits; then xorshift64* (both from memory). */
static uint64_t seed_of(const char *text) {
    uint64_t seed = 0xCBF29CE484222325U;
    for (; text && *text; text++)
        seed = (seed ^ (uint8_t)*text) * 0x100000001B3U;
    return seed ? seed : 1;
}

static double chance(uint64_t *seed) {
    *seed ^= *seed >> 12;
    *seed ^= *seed << 25;
    *seed ^= *seed >> 27;
    return (double)((*seed * 0x2545F4914F6CDD1DU) >> 11) / 9007199254740992.0;
}

static double chance_between(uint64_t *seed, double least, double most) {
    return least + (most - least) * chance(seed);
}

/* ---- One grain ---- */

static double reach_mm(const Grain *grain, double angle) {
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < grain->corners; i++) {
        double along = grain->at[i].x_mm * cos(angle) + grain->at[i].y_mm * sin(angle);
        least = fmin(least, along);
        most = fmax(most, along);
    }
    return most - least;
}

/* The least breadth is found across one of the hull's edges, which join two corners. */
static double breadth_mm(const Grain *grain) {
    double least = INFINITY;
    for (size_t i = 0; i < grain->corners; i++)
        for (size_t k = 0; k < i; k++) {
            double x = grain->at[i].x_mm - grain->at[k].x_mm;
            double y = grain->at[i].y_mm - grain->at[k].y_mm;
            least = fmin(least, reach_mm(grain, atan2(y, x) + PI / 2));
        }
    return least;
}

static Grain grain_of(double size_mm, uint64_t *seed) {
    Grain grain = {.corners = CORNERS_LEAST +
                              (size_t)(chance(seed) * (CORNERS_MOST - CORNERS_LEAST + 1))};
    double longer = chance_between(seed, SQUATTEST, LONGEST), turn = chance(seed) * PI;
    for (size_t i = 0; i < grain.corners; i++) {
        double angle = 2 * PI * ((double)i + chance_between(seed, -0.3, 0.3)) /
                       (double)grain.corners;
        double out = chance_between(seed, 0.75, 1);
        double along = longer * out * cos(angle), across = out * sin(angle);
        grain.at[i] =
            (Point){along * cos(turn) - across * sin(turn), along * sin(turn) + across * cos(turn)};
    }
    double scale = size_mm / breadth_mm(&grain);
    for (size_t i = 0; i < grain.corners; i++) {
        grain.at[i] = (Point){grain.at[i].x_mm * scale, grain.at[i].y_mm * scale};
        grain.around_mm = fmax(grain.around_mm, hypot(grain.at[i].x_mm, grain.at[i].y_mm));
    }
    return grain;
}

/* The size that so much of the mass is finer than, between those of the plan. */
static double size_mm(const PlanBag *bag, double share) {
    double at = share * (MIDDLE_SIZES - 1);
    int below = (int)fmin(at, MIDDLE_SIZES - 2);
    double from = bag->grain_sizes_m[below], to = bag->grain_sizes_m[below + 1];
    return 1000 * from * pow(to / from, at - below);
}

/* ---- The strip ---- */

static int coarser_first(const void *one, const void *other) {
    double a = ((const Grain *)one)->around_mm, b = ((const Grain *)other)->around_mm;
    return (a < b) - (a > b);
}

/* Equal parts of the mass, from each its middle size. */
static void make_grains(Strip *strip, const PlanBag *bag, size_t count) {
    strip->count = count;
    for (size_t i = 0; i < count; i++)
        strip->grains[i] = grain_of(size_mm(bag, ((double)i + 0.5) / (double)count), &strip->seed);
    qsort(strip->grains, count, sizeof *strip->grains, coarser_first);
}

static double circles_mm2(const Strip *strip) {
    double sum = 0;
    for (size_t i = 0; i < strip->count; i++)
        sum += PI * strip->grains[i].around_mm * strip->grains[i].around_mm;
    return sum;
}

static bool is_free(const Strip *strip, size_t index, Point middle) {
    double around_mm = strip->grains[index].around_mm + APART_MM;
    for (size_t i = 0; i < index; i++) {
        const Grain *other = &strip->grains[i];
        if (hypot(other->middle.x_mm - middle.x_mm, other->middle.y_mm - middle.y_mm) <
            around_mm + other->around_mm)
            return false;
    }
    return true;
}

static bool place_grain(Strip *strip, size_t index) {
    Grain *grain = &strip->grains[index];
    double in_mm = grain->around_mm;
    if (2 * in_mm > strip->height_mm || 2 * in_mm > strip->width_mm)
        return false;
    for (int i = 0; i < TRIES; i++) {
        Point middle = {chance_between(&strip->seed, in_mm, strip->width_mm - in_mm),
                        chance_between(&strip->seed, in_mm, strip->height_mm - in_mm)};
        if (is_free(strip, index, middle)) {
            grain->middle = middle;
            return true;
        }
    }
    return false;
}

static bool place_all(Strip *strip) {
    for (size_t i = 0; i < strip->count; i++)
        if (!place_grain(strip, i))
            return false;
    return true;
}

/* As many grains as the strip holds; where it would hold more than are drawn, it is shorter. None
 * is left out for being too large: then all are fewer. */
static void fill_strip(Strip *strip, const PlanBag *bag) {
    double wide_mm = strip->width_mm;
    size_t count = GRAINS_MOST;
    for (int i = 0; i < ROUNDS && count; i++) {
        make_grains(strip, bag, count);
        double covered = circles_mm2(strip) / (wide_mm * strip->height_mm * COVERED);
        strip->width_mm = fmin(wide_mm * covered, wide_mm);
        if (covered <= 1 && place_all(strip))
            return;
        count = covered > 1.05 ? (size_t)((double)count / covered) : count - 1;
    }
    strip->count = 0;
}

double grains_least_mm(Layout *layout, const Block *block, double width_mm) {
    (void)width_mm;
    const PlanBag *bag = drawing_bag(layout, block);
    return bag ? fmax(HIGH_MM, HIGH_GRAINS * bag->grain_to_m * 1000) : HIGH_MM;
}

static void make(Layout *layout, const Block *block, Picture *picture) {
    Strip *strip = ARENA_NEW(layout->pen.arena, Strip);
    *strip = (Strip){.width_mm = picture->width_mm,
                     .height_mm = picture->height_mm,
                     .seed = seed_of(layout->plan->lot)};
    fill_strip(strip, drawing_bag(layout, block));
    Steps steps = {0};
    for (size_t i = 0; i < strip->count; i++) {
        const Grain *grain = &strip->grains[i];
        Point corners[CORNERS_MOST];
        for (size_t k = 0; k < grain->corners; k++)
            corners[k] = (Point){grain->middle.x_mm + grain->at[k].x_mm,
                                 grain->middle.y_mm + grain->at[k].y_mm};
        path_polygon(picture->arena, &steps, corners, grain->corners);
    }
    picture_path(picture, steps, style_fill(ink_black()));
}

void grains_draw(Layout *layout, const Block *block) {
    drawing_picture(layout, block, block->box, make);
}
