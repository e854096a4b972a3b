/* Season: nights and days of bagging gathered into a calendar, and what they add up to.
 *
 *     SeasonGathering gathering = {.season.now = now};
 *     season_add_night(arena, &gathering, planned, batch);     … for each, in any order
 *     season_add_bagging(arena, &gathering, packing);
 *     season_finish(arena, &gathering);
 *     … gathering.season
 *
 * Of the plans nothing is kept; batches and baggings have to outlive the season. */
#ifndef MODEL_SEASON_H
#define MODEL_SEASON_H

#include "base/arena.h"
#include "domain/packing_plan.h"
#include "domain/season.h"
#include "model/clash.h"

/* Burnt lengths that differ by no more than this share count as what was planned: judgement. */
#define SEASON_SAME_LENGTH 0.05

typedef struct SeasonGathering {
    Season season;
    LIST_OF(ClashUse) uses; /* of each entry, in the order they were added; no batch: nothing */
} SeasonGathering;

/* A night, as it was planned before it (model/as_planned.h), and its batch with what the record
 * says. Of one to come also the steps of the days before that are to come, unless the first was
 * to be begun by now and was not. */
void season_add_night(Arena *arena, SeasonGathering *gathering, const Plan *planned,
                      const Batch *batch);

/* A day of bagging. */
void season_add_bagging(Arena *arena, SeasonGathering *gathering, const PackingPlan *packing);

/* Sorts the entries by time and fills in all the rest. What is planned counts against the shelf as
 * the workshop states it today: nights that are over, or past, have taken their dust from it
 * already. */
void season_finish(Arena *arena, SeasonGathering *gathering);

/* ---- The parts of season_finish, once the entries are sorted ---- */

/* Which entries want the same tray, cabinet or oven at the same time (model/clash.h). */
void season_find_clashes(Arena *arena, SeasonGathering *gathering);

/* What is to come of each dust against its stock, in the order of time. */
void season_find_needs(Arena *arena, Season *season);

/* Months, sums, burn times, chances, deaths and yields. */
void season_sum_up(Arena *arena, Season *season);

#endif
