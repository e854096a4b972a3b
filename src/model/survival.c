#include "model/survival.h"

#include "model/fill_plan.h"
#include "model/tray.h"

#include <math.h>

const double survival_good = 0.90;
const double survival_tend = 0.65;

/* Recorded nights of the kind that earn a finer figure than 19 of 20: with 20 nights that all
 * lasted, 19 in 20 is about what they prove. Judgement. */
static const int NIGHTS_FOR_FINER = 20;
/* A chance to go out smaller than this is none to speak of. */
static const double NONE_TO_SPEAK_OF = 0.01;
static const double WHISKER = 1e-9;
static const double STEP_S = 600;
static const double STEPS_MOST = 600;

ChanceSaid survival_said(double chance, int nights) {
    if (chance >= 0.98 - WHISKER && nights >= NIGHTS_FOR_FINER) {
        return (ChanceSaid){49, 50};
    }
    if (chance >= 0.95 - WHISKER) {
        return (ChanceSaid){19, 20};
    }
    return (ChanceSaid){chance > 0 ? (int)floor(chance * 10 + WHISKER) : 0, 10};
}

/* Where it most likely goes out: on the middle estimate's path. */
static void likely_end(const Night *night, const Chance *chance, PlanBurn *burn) {
    burn->likely_out_along_m = NOT_STATED;
    if (burn->chance > 1 - NONE_TO_SPEAK_OF) {
        return;
    }
    ChancePlace place = chance_worst_place(chance);
    const Lighting *lighting = &night->lightings.items[place.lighting];
    double time_s = burn_time_at_s(&lighting->middle.path, place.along_m);
    burn->likely_out_at = fill_plan_instant(&lighting->middle, time_s);
    burn->likely_out_fill = (int)place.lighting + 1;
    burn->likely_out_along_m = place.along_m;
    burn->likely_out_lane = tray_lane_at(lighting->fill->tray, place.along_m, NULL);
}

void survival_burn(const Night *night, const Chance *chance, const Holding *holding,
                   PlanBurn *burn) {
    burn->chance = chance ? chance_lasts(chance) : NOT_STATED;
    burn->chance_good = survival_good;
    burn->chance_tend = survival_tend;
    burn->nights = holding->nights;
    burn->nights_lasted = holding->lasted;
    ChanceSaid said = survival_said(burn->chance, holding->nights);
    burn->chance_said_in = said.in;
    burn->chance_said_of = said.of;
    if (chance) {
        likely_end(night, chance, burn);
    }
}

static double step_s_of(double end_s) {
    return STEP_S * ceil(fmax(end_s / STEPS_MOST / STEP_S, 1));
}

void survival_add(Arena *arena, const Night *night, const Chance *chance, Plan *plan) {
    double end_s = ceil(chance_end_s(chance));
    double step_s = step_s_of(end_s);
    for (double at_s = 0; at_s <= end_s;) {
        PlanLasting row = {night->light_at + (Instant)at_s, chance_lasting(chance, at_s)};
        LIST_ADD(arena, &plan->survival, row);
        at_s = at_s < end_s ? fmin(at_s + step_s, end_s) : end_s + step_s;
    }
    for (size_t i = 0; i < plan->samples.count; i++) {
        PlanSample *sample = &plan->samples.items[i];
        sample->lasting = chance_lasting(chance, (double)(sample->at - night->light_at));
    }
}
