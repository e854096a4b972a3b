/* Plan, fuel: blend with its parts and grain, drying.
 * The table of its fields stands in plan_fuel.c. */
#ifndef DOMAIN_PLAN_FUEL_H
#define DOMAIN_PLAN_FUEL_H

#include "base/list.h"
#include "domain/dust.h"

/* Shape of a grain curve, for print. */
/* The sizes that 10 %, 12 % … 90 % by mass are finer than. */
enum { MIDDLE_SIZES = 41 };

typedef struct GrainFigures {
    double d10_m, d50_m, d90_m;
    double geometric_mean_m;    /* by mass, ASABE S319 */
    double geometric_deviation; /* ratio, at least 1 */
    double fines_mass_share;
    double fines_volume_share;
    double fines_below_m; /* the aperture that counts as fines */
    double coarse_share;
    double coarse_above_m;
    double middle_m[MIDDLE_SIZES];
} GrainFigures;

typedef struct PlanPart {
    const Dust *dust;
    bool carrier;
    double dry_share;    /* of the blend's dry mass */
    double wet_share;    /* of the blend as weighed */
    double volume_share; /* of the loose volumes before mixing */
    double wet_kg;       /* to weigh out, a whole number of scale steps */
    double dry_kg;       /* in wet_kg */
    double running_kg;   /* on the scale after this part, one bowl */
    double moisture;
    double moisture_low; /* between these it may well lie; both the same when stated */
    double moisture_high;
    bool moisture_assumed; /* not stated: that of dust in the store (model/store.h) */
    double packed_kg;      /* into the bags of the batch */
    double stock_left_kg;  /* after burning and bagging; NAN: stock not stated */
    bool short_of_stock;
} PlanPart;

typedef enum SolverOutcome { SOLVER_NOT_ASKED, SOLVER_FOUND, SOLVER_INFEASIBLE } SolverOutcome;

typedef struct PlanBlend {
    LIST_OF(PlanPart) parts; /* falling order of wet mass is not assumed: order as written */
    double wet_kg;           /* sum of the weigh-out: all lightings together */
    double dry_kg;
    double moisture;           /* as mixed, before drying */
    bool moisture_assumed;     /* of one dust at least nobody measured it */
    double bulk_density_kg_m3; /* dry mass per loose volume */
    GrainFigures grain;
    SolverOutcome solver;
    double carrier_share; /* dry share found; NAN: not asked */
    double best_chance;   /* with the best share, when infeasible; NAN otherwise */
    /* Names of what must not or had better not be smouldered for food; NULL: none. */
    const char *unfit_woods;   /* resinous or poisonous */
    const char *treated_dusts; /* said to be treated */
    const char *unknown_woods; /* in no table of woods */
    const char *strong_spices; /* needles and herbs, more than is usual as a spice */
} PlanBlend;

typedef struct PlanDrying {
    bool asked;
    bool needed; /* false: the dust is already below the wanted moisture */
    double oven_temp_c;
    double time_s;
    double from_moisture;
    double to_moisture;
    double start_kg; /* wet dust that goes into the oven, all trays */
    double end_kg;   /* mass to see on the scale */
    double water_kg; /* to lose */
    /* Nobody measured how damp the dust is: it is dried until two weighings agree, and its mass
     * then lies between these, in whole steps of the scale; both end_kg when it was measured. */
    bool assumed;
    double end_low_kg, end_high_kg;
    double floor_moisture; /* lowest the oven reaches; NAN: nothing is dried */
    double scale_step_kg;
    bool scale_can_tell; /* the loss is at least two scale steps */
    double wait_s;       /* oven to lighting, cooling included */
    bool wait_sealed;
    double lit_moisture; /* when lit, after regain */
} PlanDrying;

#endif
