/* Past night: a recorded night run through the model again, as it was and not as it would be
 * planned today: its own hour of lighting, its weather, its blend as it was settled then, and the
 * length that was filled. */
#ifndef MODEL_PAST_NIGHT_H
#define MODEL_PAST_NIGHT_H

#include "base/arena.h"
#include "domain/plan.h"
#include "model/kind.h"
#include "model/night.h"

typedef struct PastNight {
    const Batch *batch; /* as it was: shares fixed, lengths too where they are known */
    const Record *record;
    BurnKind kind;
    bool length_known; /* else the filled length is what the plan chose, at no speed anybody saw */
} PastNight;

/* The night of a batch whose record says when it was lit. */
PastNight past_night_of(Arena *arena, const Batch *past);

/* All its lightings, at a speed factor. */
const Night *past_night_run(Arena *arena, const PastNight *past, double speed_factor);

/* Time since the first lighting at which all was burnt; at which so much of the first fill was. */
double past_night_end_s(const Night *night);
double past_night_time_to_s(const Night *night, double burnt_m);

/* The kind of a plan's burn: its first tray and its blend. */
BurnKind past_night_kind(const Plan *plan);

/* The kind of one dust alone in a tray (NULL: not known). */
BurnKind past_night_kind_of_dust(const Dust *dust, const Tray *tray);

#endif
