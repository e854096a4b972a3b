/* Learnt: what trials and recorded nights changed in what is believed of a workshop's burns, and
 * which measurement would change most next. SI units. */
#ifndef DOMAIN_LEARNT_H
#define DOMAIN_LEARNT_H

#include "domain/field.h"

/* What is believed of a burn. */
typedef struct LearntState {
    double speed_factor;                /* against the model's reference, at the middle … */
    double slow, fast;                  /* … and at the ends of its 80 % band */
    double took_s;                      /* a stretch of channel, at the middle … */
    double took_long_s, took_short_s;   /* … and at the ends */
    double chance;                      /* that the burn lasts */
    int chance_said_in, chance_said_of; /* as it is said; 0 of 10: fewer than one of ten */
} LearntState;

/* A burn before any record, and now. */
typedef struct LearntRow {
    const char *tray;
    const char *fuel;    /* a dust alone, or a blend */
    const char *example; /* the file whose night the blend's figures are of; NULL: a dust alone */
    int nights, lasted;  /* recorded ones with that dust in that tray, or of that blend in it */
    LearntState before, now;
} LearntRow;

/* A measurement, and how far the ends of the nights to come would be known with it. */
typedef struct LearntStep {
    bool trial; /* a stretch to be timed, else a night to be written down */
    const char *tray;
    const char *fuel;
    double off_now, off_then; /* the end of such nights is known to so large a share, 80 % */
} LearntStep;

typedef struct Learnt {
    const char *workshop;
    double stretch_m; /* of channel, whose burn time is told */
    double margin;    /* at which the chance of a dust alone is told */
    int nights;       /* written down */
    int trials;
    LIST_OF(LearntRow) dusts;
    LIST_OF(LearntRow) blends;
    LIST_OF(LearntStep) steps;     /* the best first */
    LIST_OF(const char *) assumed; /* dusts in use whose moisture nobody measured */
    LearningNotes aside;           /* what was left out, and why */
} Learnt;

/* All figures, in the arena; the root group is named "learnt", with rows `dust`, `blend` (each with
 * groups `before` and `now`), `measure`, `assumed` and `learning` (what was left out). */
FieldGroup *learnt_fields(Arena *arena, const Learnt *learnt);

#endif
