/* Plan maker: whole plans for layout tests, made by hand instead of by the model, so that any
 * shape of plan can be laid out. The figures hang together but are nobody's burn. */
#ifndef SUPPORT_PLAN_MAKER_H
#define SUPPORT_PLAN_MAKER_H

#include "domain/plan.h"

typedef struct PlanRecipe {
    Verdict verdict;
    Paper paper;
    UnitSystem units;
    ChannelPath path;
    int lanes;     /* or turns of a spiral */
    double filled; /* share of the channel */
    bool both_ends;
    bool dies;
    int parts;
    int fills;
    int look_ins;
    int reasons;
    int remedies;
    int care;
    bool cabinet;
    bool drying;
    const char *call;      /* whom to call; NULL: nobody is named */
    const char *telephone; /* the number */
    const char *name;      /* every name of the plan: batch, product, dusts, trays */
} PlanRecipe;

/* A night like most: one tray of five lanes, two dusts, good to light. */
PlanRecipe recipe_usual(void);

/* A night out of a seed: from one part, one lane and short names to twelve parts, eight fills,
 * forty lanes and absurdly long names. */
PlanRecipe recipe_random(Arena *arena, unsigned seed);

const Plan *plan_from_recipe(Arena *arena, const PlanRecipe *recipe);

#endif
