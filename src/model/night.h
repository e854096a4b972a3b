/* Night: all lightings of a batch in turn, with one fuel. */
#ifndef MODEL_NIGHT_H
#define MODEL_NIGHT_H

#include "model/belief.h"
#include "model/burn.h"
#include "model/drying.h"

typedef enum NightDepth {
    NIGHT_MIDDLE, /* the middle estimate only */
    NIGHT_TIMES,  /* and both ends of the 80 % band */
    NIGHT_CHANCE, /* the middle, and at the speeds over which its chance is taken */
    NIGHT_FAST,   /* and the fast end of the 80 % band */
    NIGHT_BAND    /* and both its ends */
} NightDepth;

/* One run of a lighting. */
typedef struct LightingRun {
    BurnSetup setup;
    BurnPath path;
} LightingRun;

typedef struct Lighting {
    const Fill *fill;
    Bed bed;
    HoldFactors factors;
    double channel_m;
    double filled_m;
    bool chosen; /* filled_m is what a wanted time burns */
    double dry_kg;
    double lit_moisture;
    LightingRun middle, early, late; /* early only with NIGHT_FAST, both with _BAND, _TIMES */
} Lighting;

/* The night's lightings with a front of one of the speeds that it may have. */
typedef struct NightSpeed {
    double weight;     /* share of all nights that it stands for; together 1 */
    LightingRun *runs; /* one for each lighting */
} NightSpeed;

typedef struct NightDrying {
    DryingLoad load;
    double time_s;   /* 0: nothing to do */
    double moisture; /* when out of the oven */
    double wait_s;   /* oven to first lighting, cooling included */
} NightDrying;

/* Where the margin is least. */
typedef struct LeastMargin {
    double margin;
    size_t lighting;
    size_t point; /* of the middle path */
} LeastMargin;

typedef struct Night {
    const Batch *batch;
    CabinetModel cabinet;
    Instant light_at;
    double fast; /* how much faster than the middle the fast front of the 80 % band is */
    NightDrying drying;
    LIST_OF(Lighting) lightings; /* repeats counted singly, at least one, in order of lighting */
    LIST_OF(NightSpeed) speeds;  /* slowest first; none with NIGHT_MIDDLE */
} Night;

/* So many speeds stand for all: twice as many move the chance by less than 0.003. */
enum { NIGHT_SPEEDS = 8 };

/* Each lighting starts when the one before is out. While it waits for that it lies as the store
 * keeps it. `moisture`: of the fuel as mixed, before drying. Held by the arena. */
Night *night_of(Arena *arena, const Batch *batch, const Fuel *fuel, double moisture,
                const Belief *belief, Instant light_at, NightDepth depth);

/* Works the lightings out at so many speeds (at most QUADRATURE_MOST) instead. */
void night_at_speeds(Arena *arena, Night *night, const SpeedFactor *speed, int count);

/* Whether some fill of the batch goes only as far as a wanted time burns, and so by a belief. */
bool night_chooses_length(const Batch *batch);

/* The least margin over all lightings, at the points of their middle paths. */
LeastMargin night_least_margin(const Night *night);

/* Margin of a lighting at a point of a path, in the cabinet's air then: that of the worse
 * front. */
double lighting_margin(const Lighting *lighting, const BurnPoint *point, const CabinetAir *air);

/* The front with the wetter bed: 0, or 1 when both ends are lit. */
int lighting_worse_front(const Lighting *lighting, const BurnPoint *point);

/* Air in which dust is kept: as the store states, else as outside. */
OutsideAir night_store_air(const Batch *batch, double at);

#endif
