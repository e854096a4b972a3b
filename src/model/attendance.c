#include "model/attendance.h"

#include "model/fill_plan.h"
#include "model/fire_constants.h"

#include <math.h>

/* One lighting's share of one absence, s since it was lit. */
typedef struct Stretch {
    const Lighting *lighting;
    double from_s, to_s;
    double least_margin;
    double warmest_c;
} Stretch;

static Stretch stretch_of(const Lighting *lighting, const Away *away) {
    const LightingRun *run = &lighting->middle;
    return (Stretch){.lighting = lighting,
                     .from_s = fmax((double)away->from - run->setup.start, 0),
                     .to_s = fmin((double)away->to - run->setup.start, run->path.time_s),
                     .least_margin = INFINITY,
                     .warmest_c = -INFINITY};
}

static void look(Stretch *stretch, double time_s) {
    const LightingRun *run = &stretch->lighting->middle;
    BurnPoint point = burn_at(&run->path, time_s);
    OutsideAir outside;
    CabinetAir air = burn_air(&run->setup, &point, &outside);
    double margin = lighting_margin(stretch->lighting, &point, &air);
    stretch->least_margin = fmin(stretch->least_margin, margin);
    stretch->warmest_c = fmax(stretch->warmest_c, air.temp_c);
}

/* Looks at both ends and at every step of the path between them. */
static void look_through(Stretch *stretch) {
    const BurnPath *path = &stretch->lighting->middle.path;
    look(stretch, stretch->from_s);
    look(stretch, stretch->to_s);
    for (size_t i = 0; i < path->points.count; i++) {
        double time_s = path->points.items[i].time_s;
        if (time_s > stretch->from_s && time_s < stretch->to_s) {
            look(stretch, time_s);
        }
    }
}

static void take(const Stretch *stretch, PlanBurn *burn, PlanCabinet *cabinet) {
    const LightingRun *run = &stretch->lighting->middle;
    cabinet->peak_away_c = fmax(cabinet->peak_away_c, stretch->warmest_c);
    Instant from = fill_plan_instant(run, stretch->from_s);
    bool first = burn->untended_from == 0 || from < burn->untended_from;
    if (stretch->least_margin < FIRE_MARGIN_GOOD && first) {
        burn->untended_from = from;
        burn->untended_to = fill_plan_instant(run, stretch->to_s);
        burn->untended_margin = stretch->least_margin;
    }
}

void attendance_judge(const Night *night, PlanBurn *burn, PlanCabinet *cabinet) {
    burn->untended_from = burn->untended_to = 0;
    burn->untended_margin = NOT_STATED;
    cabinet->peak_away_c = NOT_STATED;
    for (size_t i = 0; i < night->lightings.count; i++) {
        for (size_t k = 0; k < night->batch->timing.away.count; k++) {
            Stretch stretch =
                stretch_of(&night->lightings.items[i], &night->batch->timing.away.items[k]);
            if (stretch.from_s < stretch.to_s) {
                look_through(&stretch);
                take(&stretch, burn, cabinet);
            }
        }
    }
}
