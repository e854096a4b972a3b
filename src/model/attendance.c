#include "model/attendance.h"

#include "model/survival.h"

#include <math.h>

/* Raster in which hours of absence are looked through, and the share of nights that may go out in
 * them before that counts as weak. The latter is judgement: fewer are lost in the others. */
static const double LOOK_S = 600;
static const double MAY_GO_OUT = 0.05;

/* One absence within the time that the slowest front may take, s since the first lighting. */
typedef struct Stretch {
    double from_s, to_s;
} Stretch;

static Stretch stretch_of(const Night *night, double end_s, const Away *away) {
    return (Stretch){fmax((double)(away->from - night->light_at), 0),
                     fmin((double)(away->to - night->light_at), end_s)};
}

/* Warmest by the middle estimate: at the ends of the absence and at every step of the path. */
static double warmest_c(const LightingRun *run, double from_s, double to_s) {
    double warmest = -INFINITY;
    for (size_t i = 0; i < run->path.points.count + 2; i++) {
        double time_s = i == 0 ? from_s : i == 1 ? to_s : run->path.points.items[i - 2].time_s;
        if (time_s < from_s || time_s > to_s) {
            continue;
        }
        BurnPoint point = burn_at(&run->path, time_s);
        OutsideAir outside;
        warmest = fmax(warmest, burn_air(&run->setup, &point, &outside).temp_c);
    }
    return warmest;
}

static void find_warmest(const Night *night, const Away *away, PlanCabinet *cabinet) {
    for (size_t i = 0; i < night->lightings.count; i++) {
        const LightingRun *run = &night->lightings.items[i].middle;
        double from_s = fmax((double)away->from - run->setup.start, 0);
        double to_s = fmin((double)away->to - run->setup.start, run->path.time_s);
        if (from_s < to_s) {
            cabinet->peak_away_c = fmax(cabinet->peak_away_c, warmest_c(run, from_s, to_s));
        }
    }
}

/* Whether the burn is weak in the absence: some front in it holds less often than a good night
 * does, or too many nights go out. */
static bool weak(const Chance *chance, Stretch stretch, double out) {
    if (out >= MAY_GO_OUT) {
        return true;
    }
    int steps = (int)ceil((stretch.to_s - stretch.from_s) / LOOK_S);
    for (int i = 0; i < steps; i++) {
        if (!(chance_holding(chance, stretch.from_s + i * LOOK_S) >= survival_good)) {
            return true;
        }
    }
    return !(chance_holding(chance, stretch.to_s) >= survival_good);
}

static void widen(Instant *from, Instant *to, const Night *night, Stretch stretch) {
    Instant begin = night->light_at + (Instant)floor(stretch.from_s);
    Instant end = night->light_at + (Instant)ceil(stretch.to_s);
    *from = *from && *from < begin ? *from : begin;
    *to = *to > end ? *to : end;
}

static void take(const Night *night, const Chance *chance, Stretch stretch, PlanBurn *burn) {
    widen(&burn->alone_from, &burn->alone_to, night, stretch);
    if (!chance || burn->chance >= burn->chance_good) {
        return;
    }
    double out = chance_lasting(chance, stretch.from_s) - chance_lasting(chance, stretch.to_s);
    if (weak(chance, stretch, out)) {
        widen(&burn->untended_from, &burn->untended_to, night, stretch);
        burn->untended_out = out + (isnan(burn->untended_out) ? 0 : burn->untended_out);
    }
}

void attendance_judge(const Night *night, const Chance *chance, PlanBurn *burn,
                      PlanCabinet *cabinet) {
    const LightingRun *last = &night->lightings.items[night->lightings.count - 1].middle;
    double end_s = chance ? chance_end_s(chance)
                          : last->setup.start - (double)night->light_at + last->path.time_s;
    burn->untended_from = burn->untended_to = burn->alone_from = burn->alone_to = 0;
    burn->untended_out = NOT_STATED;
    cabinet->peak_away_c = NOT_STATED;
    for (size_t i = 0; i < night->batch->timing.away.count; i++) {
        const Away *away = &night->batch->timing.away.items[i];
        Stretch stretch = stretch_of(night, end_s, away);
        if (stretch.from_s < stretch.to_s) {
            find_warmest(night, away, cabinet);
            take(night, chance, stretch, burn);
        }
    }
}
