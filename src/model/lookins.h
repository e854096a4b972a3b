/* Look-ins: when to look at the smoker so that a glow that went out is seen soonest. */
#ifndef MODEL_LOOKINS_H
#define MODEL_LOOKINS_H

#include "base/arena.h"
#include "domain/plan.h"

/* When somebody may look. */
typedef struct LookTime {
    Instant at;
    bool sure; /* somebody looks then in any case */
} LookTime;

typedef LIST_OF(LookTime) LookTimes;

/* Look-ins are so far apart, and from sure looks; so long after lighting one sees whether it
 * caught: common practice, no source. */
enum { LOOKINS_APART_S = 30 * 60, LOOKINS_FIRST_S = 20 * 60 };

/* Chance that the night has gone out by that time, from the plan's survival (between its rows along
 * straight lines), and on top of it a share of nights that go out at any time alike, for what no
 * model knows: a door left open, a gust. 0 before lighting. */
double lookins_out_by(const Plan *plan, Instant at);

/* Expected time from going out to being seen, s, over all such nights: those that go out between
 * two looks are seen at the later. `times`: rising, the first of them not before lighting; what
 * goes out after the last is not counted. Only those are looks that are sure or `chosen`. */
double lookins_unseen_s(Arena *arena, const Plan *plan, const LookTimes *times, const bool *chosen);

/* Chooses at most `most` of the times that are not sure, no two nearer than LOOKINS_APART_S, with
 * which lookins_unseen_s is least (dynamic programming over the times, exact). The last time has to
 * be sure. Returns an array, one for each time, held by the arena. */
bool *lookins_choose(Arena *arena, const Plan *plan, const LookTimes *times, int most);

#endif
