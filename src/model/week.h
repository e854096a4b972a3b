/* Week: the hours at which several batches are lit, chosen together.
 *
 * Each batch has hours to choose from, each with what is said of it; no two nights may want one
 * thing at once (model/clash.h). Of all ways to give each batch an hour the best is taken: the
 * fewest that are not lit, then the fewest that somebody has to stay up for, then the fewest that
 * want tending; then the greatest product of the chances, which is the chance that all last where
 * one night says nothing of the other (a judgement: with the sum, the nights to be expected, a
 * batch would be given up for a little more of two others, and each is somebody's food); then the
 * earliest. So of one batch alone it is the earliest of its best hours.
 *
 * The search is exact. It goes through all hours in the order of time and keeps, for every set of
 * batches that have theirs, the ways that are not beaten by another one both as good and leaving
 * as much open, and could still be better than the best way in which each in turn takes what the
 * others left. */
#ifndef MODEL_WEEK_H
#define MODEL_WEEK_H

#include "model/clash.h"

/* One hour at which a batch may be lit. */
typedef struct WeekHour {
    Instant light_at;
    Verdict verdict;
    double chance;
    ClashUse use; /* a night that is not to be lit takes nothing, whatever stands here */
    bool fixed;   /* the only hour of a batch that states it: it stands, whatever it clashes with */
} WeekHour;

typedef struct WeekBatch {
    const char *file; /* tells equal ways apart, so that the order of the batches does not */
    LIST_OF(WeekHour) hours;
} WeekBatch;

/* So many that state no hour are chosen together at most: the work doubles with every one. */
enum { WEEK_BATCHES_MOST = 8 };

/* Where a batch finds no hour. */
#define WEEK_NO_HOUR ((size_t)-1)

/* How an hour compares with another one of the same batch: below 0 better, 0 equal, by verdict,
 * then the chance to a hundredth, then the earlier. */
int week_compare(const WeekHour *hour, const WeekHour *than);

/* Whether two hours of two batches can not both be: both are lit, and clash. */
bool week_apart(const WeekHour *a, const WeekHour *b);

/* Sets chosen[i] to the number of the hour, from 0, that batch i of `count` is given, or
 * WEEK_NO_HOUR; at most WEEK_BATCHES_MOST of them may be without a fixed one. Memory from the arena
 * is given back. */
void week_choose(Arena *arena, const WeekBatch *batches, size_t count, size_t *chosen);

#endif
