/* Look-ins: when to look at the smoker so that a glow that went out is seen soonest. */
#ifndef MODEL_LOOK_INS_H
#define MODEL_LOOK_INS_H

#include "base/arena.h"
#include "domain/plan.h"

/* When somebody may look. */
typedef struct LookInTime {
    Instant at;
    bool sure; /* somebody looks then in any case */
} LookInTime;

typedef LIST_OF(LookInTime) LookInTimes;

/* Look-ins are so far apart, and from sure look-ins; so long after lighting one sees whether it
 * caught: common practice, no source. */
enum { LOOK_INS_APART_S = 30 * 60, LOOK_INS_FIRST_S = 20 * 60 };

/* Chance that the night has gone out by that time, from the plan's survival (between its rows along
 * straight lines), and on top of it a share of nights that go out at any time alike, for what no
 * model knows: a door left open, a gust. 0 before lighting. */
double look_ins_out_by(const Plan *plan, Instant at);

/* Expected time from going out to being seen, s, over all such nights: those that go out between
 * two looks are seen at the later. `times`: rising, the first of them not before lighting; what
 * goes out after the last is not counted. Only those are looks that are sure or `chosen`. */
double look_ins_unseen_s(Arena *arena, const Plan *plan, const LookInTimes *times,
                         const bool *chosen);

/* Chooses at most `most` of the times that are not sure, no two nearer than LOOK_INS_APART_S, with
 * which look_ins_unseen_s is least (dynamic programming over the times, exact). The last time has
 * to be sure. Returns an array, one for each time, held by the arena. */
bool *look_ins_choose(Arena *arena, const Plan *plan, const LookInTimes *times, int most);

#endif
