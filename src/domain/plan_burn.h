/* Plan, burn: when it ends and with what chance, and the night from sample to sample.
 * The table of its fields stands in plan_burn.c. */
#ifndef DOMAIN_PLAN_BURN_H
#define DOMAIN_PLAN_BURN_H

#include "domain/plan_judgement.h"

/* State of the night at one time. */
typedef struct PlanSample {
    Instant at;
    int fill;        /* number of the burning fill, 0: none */
    double along_m;  /* front from the lit end */
    double second_m; /* the front from the other end, as the length from the first; NAN: none */
    int lane;
    double speed_mps;
    double moisture; /* of the bed just ahead of the front */
    double margin;
    double margin_low; /* with the late front of the 80 % band */
    double power_w;
    double outside_temp_c, outside_humidity;
    double cabinet_temp_c, cabinet_humidity;
    double co_mg_m3; /* in the room; 0 outdoors */
    double lasting;  /* chance that it has not gone out by then (PlanLasting) */
} PlanSample;

/* Chance that the night has not gone out by a time. A night whose dust is burnt to its end counts
 * as lasting. */
typedef struct PlanLasting {
    Instant at;
    double lasting;
} PlanLasting;

typedef struct PlanBurn {
    Instant light_at;
    Instant out_at;
    Instant out_about; /* the same as it is printed (model/printed_times.h) */
    /* 80 % band of the last fill's end, as it is printed: rounded outwards. The model run with the
     * speed that one burn in ten beats and the one that one in ten falls short of. All fills of a
     * night share it, as one dust in one air does: should they vary each on its own, the band is a
     * little too wide. */
    Instant out_early, out_late;
    double duration_s; /* light_at to out_at */
    double smoking_s;  /* time with smoke, gaps between fills left out */
    double speed_mps;  /* mean over the first fill */
    double fuel_kg_per_h;
    double speed_factor; /* against the model's reference; 1 until measured */
    double log_spread;   /* of speed */
    int trials;          /* timed trials that went into speed_factor */
    int records;         /* recorded burns that went into speed_factor */
    double margin_at_start;
    double margin_least;
    Instant margin_least_at;
    Cause cause;
    bool dies;
    Instant dies_at; /* 0: it does not */
    /* From the first to the last hour when nobody is there though the burn is weak; 0 and NAN:
     * none. */
    Instant untended_from, untended_to;
    double untended_out;          /* share of such nights that go out in them */
    Instant alone_from, alone_to; /* first to last hour of the burn when nobody is there; 0: none */
    Instant first_look_in_at;     /* when one sees whether the first lighting caught */
    double wanted_s;    /* asked for: smoke time, else the fills' burn times; NAN: nothing */
    double thinnest_m;  /* depth of the thinnest fill */
    double slowest_mps; /* mean speed of the slowest fill's front */
    double fastest_mps;
    double least_layer_m, front_from_mps, front_to_mps; /* what these are held against */
    double dry_burnt_kg;
    double chance;                   /* that it burns to its end (model/chance.h) */
    double chance_good, chance_tend; /* from where on it is good, and worth lighting */
    /* The chance as it is said: so many of so many nights; 0 of 10: fewer than one of ten. */
    int chance_said_in, chance_said_of;
    int nights;        /* recorded nights that taught how such burns hold */
    int nights_lasted; /* of them, those that burnt to their end */
    /* Where most of those that go out do so, on the middle estimate's path; 0 and NAN: hardly any
     * does. */
    Instant likely_out_at;
    int likely_out_fill;
    int likely_out_lane;
    double likely_out_along_m;
} PlanBurn;

#endif
