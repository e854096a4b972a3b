/* Plan, judgement: verdict and its reasons, remedies, care of the food, what past nights could not
 * teach.
 * The table of its fields stands in plan_judgement.c. */
#ifndef DOMAIN_PLAN_JUDGEMENT_H
#define DOMAIN_PLAN_JUDGEMENT_H

#include "base/list.h"
#include "domain/plan_vent.h"
#include "domain/quantity.h"

typedef enum Verdict {
    VERDICT_GOOD,        /* light */
    VERDICT_TEND,        /* light and tend */
    VERDICT_STAY,        /* light only if somebody stays in hours when nobody was to be there */
    VERDICT_DO_NOT_LIGHT /* do not light */
} Verdict;

/* What costs the burn most, or what forbids the night. */
typedef enum Cause {
    CAUSE_NONE,
    CAUSE_DAMP_DUST,      /* water in the dust when lit */
    CAUSE_DAMP_AIR,       /* water taken up while waiting for the front */
    CAUSE_FINES,          /* choked by fines */
    CAUSE_COARSE,         /* grains too coarse to keep the glow */
    CAUSE_SULKY,          /* a species that smoulders badly */
    CAUSE_METAL,          /* heat drunk by the tray */
    CAUSE_CABINET_WARM,   /* too warm for the product */
    CAUSE_ROOM_CO,        /* carbon monoxide in the room */
    CAUSE_ROOM_UNKNOWN,   /* nothing stated about the room */
    CAUSE_FOOD,           /* a food-safety condition is broken */
    CAUSE_FOOD_UNKNOWN,   /* a food-safety condition of which nothing was stated */
    CAUSE_SHORT_OF_DUST,  /* less on the shelf than the blend needs */
    CAUSE_NO_BLEND,       /* no share of the carrier will do it */
    CAUSE_TOO_SHORT,      /* the burn ends before the wanted smoke time or wanted hour */
    CAUSE_ROOM_CO_NEAR,   /* the room would pass the limit with smoke as rich as was measured */
    CAUSE_UNTENDED,       /* the burn is weak in hours when nobody is there */
    CAUSE_WARM_UNTENDED,  /* the cabinet is warm in hours when nobody is there */
    CAUSE_ROOM_CO_ASLEEP, /* near a limit of the room's air while nobody is awake */
    CAUSE_WOOD_UNFIT,     /* a wood that is never to be smouldered for food */
    CAUSE_WOOD_TREATED,   /* a dust that was said to be treated */
    CAUSE_WOOD_UNKNOWN,   /* a wood in no table */
    CAUSE_SPICE_STRONG,   /* more needles or herbs than is usual as a spice */
    CAUSE_LAYER_THIN,     /* too thin a layer for any front */
    CAUSE_FRONT_SLOW,     /* a front slower than any that was measured */
    CAUSE_FRONT_FAST,     /* a front faster than any that was measured */
    CAUSE_TOO_LONG,       /* the burn goes on long after the wanted smoke time */
    CAUSE_TRAY_BIG,       /* the tray does not go into its cabinet */
    CAUSE_TRAY_NEAR_WALL, /* it stands close to a wall that can burn */
    CAUSE_HOUR_PAST,      /* the hour of lighting was over when the plan was made */
    CAUSE_WALL_HOT,       /* too warm for the cabinet's walls */
    CAUSE_OXYGEN,         /* too little fresh air for the glow */
    CAUSE_CONDENSATION,   /* water condenses in the cabinet */
    CAUSE_WIND,           /* so much air through the cabinet that the dust may flame */
    CAUSE_LIT_ALONE,      /* nobody is there to see whether it caught */
    CAUSE_BEGIN_LATE,     /* what is to be done in the days before had to begin earlier */
    CAUSE_NOT_READY,      /* it was begun, but the product is not ready when the fire is lit */
    CAUSE_WEATHER_USUAL,  /* no forecast, only what is usual at that time of the year */
    CAUSE_JUDGED          /* grain or metal was judged and not measured */
} Cause;

/* Its words are `reason.CAUSE`; `cause.CAUSE` is the short form. */
typedef struct Reason {
    Cause cause;
    Verdict verdict; /* how far this reason alone pulls the plan down */
} Reason;

typedef enum RemedyKind {
    REMEDY_DRY,          /* amount: moisture to dry to; second: minutes in the oven */
    REMEDY_SIEVE,        /* amount: aperture; second: mass to take out */
    REMEDY_CARRIER,      /* amount: dry share of the carrier */
    REMEDY_HEAP,         /* heap the fill; amount: mass on the tray then */
    REMEDY_LIGHTER_FILL, /* amount: filled share of the depth, or mass at lighter packing */
    REMEDY_WIDER_VENT,   /* amount: area of the inlet; second: of the outlet */
    REMEDY_SHORTER_BURN, /* amount: burn time */
    REMEDY_OTHER_HOUR,   /* amount: instant of lighting */
    REMEDY_OUTDOORS,     /* take it outdoors or lead the smoke outside */
    REMEDY_AIR_ROOM,     /* amount: air changes per hour */
    REMEDY_OTHER_TRAY    /* name: the tray; amount: mass on it */
} RemedyKind;

typedef struct Remedy {
    RemedyKind kind;
    const char *name; /* dust or tray it is about; NULL: none */
    Quantity amount;
    Quantity second;
    PlanVent inlet, outlet; /* wider vents only */
    double chance_before;   /* that the night lasts */
    double chance_after;
    int chance_said_in, chance_said_of; /* the latter as it is said (PlanBurn) */
    double temp_after_c; /* cabinet peak, where the remedy is for warmth; NAN otherwise */
    Verdict verdict_after;
    const struct Remedy *with; /* a second change to make together with it; NULL: none */
} Remedy;

typedef enum CareLevel { CARE_NOTE, CARE_CAUTION, CARE_FORBIDS } CareLevel;

/* A condition of the product. Its words are `care.KEY` in the words files. */
typedef struct Care {
    const char *key;
    CareLevel level;
    Quantity value; /* what was found or stated */
    Quantity limit; /* what the source asks */
} Care;

/* What a past night could not teach, and why. Its words are `learning.KEY`. */
typedef struct LearningNote {
    const char *key;
    const char *file;  /* its name without a folder; NULL: not from a file */
    Place place;       /* of the record or trial */
    const char *dust;  /* of a trial; NULL: a night */
    Quantity said;     /* what it says: a duration */
    Quantity from, to; /* what the others make one expect instead */
    int others;        /* how many they are */
} LearningNote;

typedef LIST_OF(LearningNote) LearningNotes;

#endif
