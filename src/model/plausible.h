/* Plausible: too little, too much, too big. What a plan's figures are held against, so that
 * nothing is said with confidence of a night that nobody has ever burnt. */
#ifndef MODEL_PLAUSIBLE_H
#define MODEL_PLAUSIBLE_H

#include "domain/plan.h"

/* Least depth of a layer in which a front keeps alight. 2–3 mm for some dusts in still air (Palmer
 * & Skeet 1952, Fire Research Note 11, trains of cocoa, grass and cork; under 3 mm in a draught,
 * Palmer & Perry 1952, Fire Research Note 48, beech; looked up): the upper end. */
#define PLAUSIBLE_LAYER_M 0.003

/* Speeds of a front that were measured: 50 mm/h (downward in pine flour: Kim, Kim & Rie 2017,
 * looked up) to 250 (an incense stick, looked up). */
#define PLAUSIBLE_FRONT_FROM_MPS (0.050 / 3600)
#define PLAUSIBLE_FRONT_TO_MPS (0.250 / 3600)

/* A burn may be so much longer or shorter than asked before somebody has to see to it (judgement).
 */
#define PLAUSIBLE_TIME_OFF 0.25

/* A sheet printed so long after its hour of lighting is of no use any more: every time on it is
 * wrong by as much. Judgement. */
#define PLAUSIBLE_LATE_S (60 * 60)

/* How far a tray has to stay off walls that can burn, all round, if nobody watches them. Judgement;
 * local rules for hearths ask for more. */
#define PLAUSIBLE_WALL_CLEAR_M 0.025

/* Sets the burn's wanted_s, thinnest_m, slowest_mps, fastest_mps and what they are held against,
 * and the cabinet's tray that does not fit in, or stands close to a wall that burns. Needs the
 * plan's fills. */
void plausible_figures(const Batch *batch, Plan *plan);

/* Whether the hour of lighting was over when the plan was made: the batch says when that was, has
 * no record, and it is more than PLAUSIBLE_LATE_S ago. */
bool plausible_hour_past(const Batch *batch, Instant light_at);

#endif
