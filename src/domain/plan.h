/* Plan: everything that was worked out for one batch. Every number on a page comes from here.
 *
 * A plan is made by the model, held in the arena it was made with, and never changed afterwards.
 * SI units; instants are UTC seconds; moisture is on dry basis; shares are fractions of 1.
 */
#ifndef DOMAIN_PLAN_H
#define DOMAIN_PLAN_H

#include "base/list.h"
#include "domain/batch.h"
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
    CAUSE_COUNT
} Cause;

/* Its words are `reason.CAUSE`; `cause.CAUSE` is the short form. */
typedef struct Reason {
    Cause cause;
    Verdict verdict; /* how far this reason alone pulls the plan down */
} Reason;

/* Shape of a grain curve, for print. */
typedef struct GrainFigures {
    double d10_m, d50_m, d90_m;
    double geometric_mean_m;    /* by mass, ASABE S319 */
    double geometric_deviation; /* ratio, at least 1 */
    double sauter_m;
    double fines_mass_share;
    double fines_volume_share;
    double fines_below_m; /* the aperture that counts as fines */
    double coarse_share;
    double coarse_above_m;
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
    double steadiness;
    GrainFigures grain;
    SolverOutcome solver;
    double carrier_share; /* dry share found; NAN: not asked */
    double best_margin;   /* with the best share, when infeasible; NAN otherwise */
    double best_chance;
    double sieve_below_m; /* sieving out of fines that would help; NAN: none advised */
    double sieve_remove_kg;
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

/* A place along the channel, in the tray's own plane: millimetre-true, origin top left. */
typedef struct MapPoint {
    double x_m;
    double y_m;
    double along_m; /* from the start of the channel */
} MapPoint;

typedef LIST_OF(MapPoint) MapPoints;

/* Where the front is on a full hour (two marks when both ends are lit). */
typedef struct HourMark {
    Instant at;
    MapPoint place;
    double heading_rad; /* direction of the channel there, for a tick across it */
    int lane;           /* from 1 */
    int end;            /* 0: from the lit end, 1: from the second lit end */
} HourMark;

typedef struct WeakStretch {
    double from_m;
    double to_m;
    double least_margin;
    Cause cause;
    Instant from_at;
    Instant to_at;
    MapPoints line; /* the channel between the two */
} WeakStretch;

typedef struct PlanFill {
    const Fill *fill;
    const Tray *tray;
    int number;         /* from 1, in the order of lighting */
    double channel_m;   /* whole centre line */
    double filled_m;    /* filled part */
    bool whole;         /* the whole channel is filled; step, map and words go by this alone */
    bool chosen;        /* filled_m is what a wanted time burns, by the speed_factor believed in */
    int end_lane;       /* lane in which the fill ends, from 1 */
    double end_in_lane; /* how far into that lane, 0 to 1 */
    double depth_m;     /* of the dust at the middle */
    double section_m2;
    double volume_m3;
    double dry_kg;
    double wet_kg;             /* as mixed, to put on the tray */
    double bulk_density_kg_m3; /* dry, as packed */
    double metal_kg_per_m;
    double metal_ratio; /* metal per dry fuel, kg/kg */
    bool both_ends;
    Instant light_at;
    Instant out_at;    /* middle estimate */
    Instant out_about; /* the same as it is printed (model/printed_times.h) */
    Instant out_early; /* 80 % band as it is printed: rounded outwards */
    Instant out_late;
    double margin_at_start;
    double margin_least;
    Instant margin_least_at;
    double margin_least_along_m;
    int margin_least_lane;
    Cause cause;                         /* what costs most at the least margin */
    bool dies;                           /* margin under 1 somewhere */
    Instant dies_at;                     /* when it first falls under 1; 0: it does not */
    double dies_along_m;                 /* NAN: it does not */
    int dies_lane;                       /* 0: it does not */
    MapPoints line;                      /* centre line of the whole channel */
    MapPoint lit_end, finish, fill_mark; /* both ends: finish is where the fronts meet */
    double map_width_m, map_height_m;    /* outer size of the tray for the map */
    LIST_OF(HourMark) hours;
    LIST_OF(WeakStretch) weak;
} PlanFill;

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
    double co_mg_m3;     /* in the room; 0 outdoors */
    double lasting;      /* chance that it has not gone out by then (PlanLasting) */
    double hazard_per_h; /* of those still alight, the share that goes out in an hour from then */
} PlanSample;

/* Chance that the night has not gone out by a time. A night whose dust is burnt to its end counts
 * as lasting. */
typedef struct PlanLasting {
    Instant at;
    double lasting;
    double hazard_per_h;
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
    int margin_least_fill;
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
    double heat_released_j;
    double margin_good, margin_tend; /* what the map calls weak, and the curve's old marks */
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

/* How far a vent is open, in words a person can set it by. */
typedef enum VentOpening {
    VENT_UNSTATED, /* no cabinet */
    VENT_QUARTER,
    VENT_HALF,
    VENT_THREE_QUARTERS,
    VENT_OPEN,
    VENT_PART, /* so many per cent */
    VENT_AREA  /* its full area is not stated */
} VentOpening;

typedef struct PlanVent {
    VentOpening opening;
    double area_m2;
    double share; /* of its full area, as it can be set; NAN: VENT_AREA and VENT_UNSTATED */
} PlanVent;

typedef struct PlanCabinet {
    bool stated;
    PlanVent inlet, outlet;
    double peak_temp_c;
    double peak_fast_c; /* the same with the fast front of the 80 % band */
    double peak_away_c; /* while nobody is there; NAN: somebody always is */
    Instant peak_at;
    double caution_temp_c; /* of the product */
    double limit_temp_c;
    double peak_power_w;
    double mean_humidity;
    double vent_m3_per_h; /* at the peak */
    bool over_caution;    /* the peak over the caution, or that of a fast front over the limit */
    bool over_limit;
    bool over_away; /* over the caution while nobody is there */
    /* A tray that does not go in, its outer size and the floor's; NULL and NAN: all do. */
    const char *tray_too_big;
    double tray_width_m, tray_depth_m, width_m, depth_m;
    const char *tray_near_wall; /* a tray closer than this to a wall that can burn; NULL: none is */
    double wall_clear_m;
    /* The air's peak with the fast front of the band and with as much heat as smoulder was ever
     * measured to give: what the walls have to bear. */
    double peak_hot_c;
    double wall_limit_c; /* NAN: such walls have none */
    bool walls_burn;     /* they are of wood or cardboard */
    bool over_wall;      /* peak_hot_c over it */
    double oxygen_least; /* share of the dry volume */
    Instant oxygen_least_at;
    double oxygen_hot;                /* at that time with the front and heat of peak_hot_c */
    double oxygen_tend, oxygen_limit; /* under which it is to be tended, and not to be lit */
    bool low_oxygen;                  /* under the first, or with that front and heat the second */
    bool no_oxygen;                   /* under the second */
    double condensing_s;              /* time in which the air is saturated */
    Instant condensing_from;          /* when it first is; 0: it is not */
    bool condenses;                   /* for longer than CABINET_CONDENSING_S */
    double vent_mps;                  /* fastest air in the lower vent */
    Instant vent_at;
    double vent_limit_mps; /* from which dust may flame */
    bool too_windy;
} PlanCabinet;

/* The largest mean over any window of that length against what was published for it. */
typedef struct PlanRoomWindow {
    double length_s;
    double mean_mg_m3; /* ordinary smoke, middle speed_factor */
    double rich_mg_m3; /* smoke as rich as was ever measured, and the fast front of the band */
    double limit_mg_m3;
    const char *edition; /* key of the words that name where the limit was published */
    Instant until;       /* the end of the window with the largest ordinary mean */
} PlanRoomWindow;

typedef struct PlanRoom {
    bool stated, outdoors;
    double peak_mg_m3, peak_ppm;
    Instant peak_at;
    LIST_OF(PlanRoomWindow) windows; /* shortest first; none outdoors or where nothing is stated */
    PlanRoomWindow worst;            /* nearest its limit or furthest over it; NAN: none */
    double emitted_kg;               /* carbon monoxide over the night */
    bool over_limit;                 /* over a limit with ordinary smoke */
    bool near_limit;                 /* over one only with rich smoke and the fast front */
    bool near_asleep;                /* near a limit, and the air still bad while nobody is awake */
} PlanRoom;

typedef struct PlanWeather {
    double temp_c, humidity;   /* when lit */
    double coldest_c, dampest; /* over the burn */
    double dew_point_c;
    double wind_mps;     /* when lit */
    double windiest_mps; /* over the burn */
    double
        night_fall_k; /* by how much it cools from nine to six if one reading has to do; else 0 */
    bool forecast;    /* more than one reading */
    /* A forecast's ends, beyond which the weather is taken as standing still; 0: no forecast. */
    Instant known_from, known_to;
    bool beyond_forecast; /* the burn goes on for hours outside of them */
} PlanWeather;

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
    double margin_before;
    double margin_after;
    double chance_before; /* that the night lasts */
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

/* One action of the night; none falls into hours when nobody is there. Its words are `step.KEY`
 * in the words files. */
typedef struct PlanStep {
    const char *key;
    Instant at;      /* 0: no clock time */
    Quantity amount; /* mass, temperature, duration …: the key says which */
    Quantity second;
    const char *name; /* dust, tray …; NULL: none */
    int fill;         /* number of the fill it belongs to, 0: none */
} PlanStep;

/* A look at the smoker. */
typedef struct PlanLookIn {
    Instant at;
    int fill;
    int lane;
    double along_m;  /* where the front should be */
    double second_m; /* and that from the other end, as the length from the first; NAN: none */
    /* Where the first would be if it were as fast, or as slow, as the ends of the 80 % band; NAN:
     * nothing burns then. Found there, the fill is out at out_early or out_late of it. */
    double early_m, late_m;
    double in_lane; /* share of the lane behind it, 0 to 1 */
    double cabinet_temp_c;
    bool away;           /* moved, since nobody is there when it was wanted */
    Instant alone_from;  /* the last look before nobody is there from then … */
    Instant alone_until; /* … until then; 0: it is not */
    Instant alone_since; /* the first after nobody was there since then; 0: it is not */
    bool worst;          /* the last before it most likely goes out */
} PlanLookIn;

/* What to do if …: a decision that may fall in the night. Its words are `decision.KEY` for the
 * condition and `decision.KEY.then` for what to do. */
typedef struct Decision {
    const char *key;
    Quantity limit; /* from where on it is so */
    Quantity second;
} Decision;

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

/* A caution printed where the hazard is. Its words are `caution.KEY`. */
typedef struct Caution {
    const char *key;
    const char *signal; /* "warning", "caution" or "notice" (ISO 3864-2, ANSI Z535.6) */
} Caution;

typedef struct BagPart {
    const char *name;
    double share; /* by mass as packed, falling */
} BagPart;

typedef struct PlanBag {
    const BagOrder *order;
    double net_kg;
    int count;
    double figure_height_m; /* least height of the net quantity's figures */
    LIST_OF(BagPart) parts;
    double grain_from_m, grain_to_m; /* d10 to d90 */
    double moisture;                 /* when packed; NAN: nobody measured it */
    double moisture_wet;             /* the same on wet basis */
    MoistureBasis basis;             /* which of the two is printed */
    Date packed;
    bool untreated;      /* every dust in it was declared untreated */
    double tolerance_kg; /* tolerable negative error */
    double total_kg;
} PlanBag;

/* What was written down of a night that is over. */
typedef struct PlanHappened {
    bool over; /* when it was lit is written down: nothing is to be lit any more */
    Instant lit_at;
    Instant out_at;     /* 0: not written */
    bool died;          /* before the end of the channel */
    double burnt_m;     /* when it died or was stopped; NAN: all of it, or not written */
    int relit;          /* so often */
    Instant relit_at;   /* the first time; 0: never */
    double ash_kg;      /* NAN: not weighed */
    const char *remark; /* NULL: none */
} PlanHappened;

typedef struct Plan {
    const Batch *batch;
    const Workshop *workshop;
    const char *lot;
    Verdict verdict;
    PlanHappened happened;   /* of the batch's record */
    LIST_OF(Reason) reasons; /* gravest first */
    /* With VERDICT_STAY: from when to when somebody has to be there who was not to be; 0: no. */
    Instant stay_from, stay_to;
    PlanBlend blend;
    PlanDrying drying;
    LIST_OF(PlanFill) fills;
    PlanBurn burn;
    PlanCabinet cabinet;
    PlanRoom room;
    PlanWeather weather;
    LIST_OF(PlanSample) samples; /* every 10 minutes, and the ends */
    /* Every 10 minutes (a long night: a whole multiple) from lighting until the slowest front is
     * out; the last is burn.chance. */
    LIST_OF(PlanLasting) survival;
    LIST_OF(Remedy) remedies; /* best first */
    LIST_OF(Care) care;
    LIST_OF(PlanStep) steps;
    LIST_OF(PlanLookIn) look_ins;
    LIST_OF(Decision) decisions;
    LIST_OF(Caution) cautions;
    LIST_OF(PlanBag) bags;
    LearningNotes learning; /* in the order of the past nights */
    LIST_OF(Away) nights;   /* dark hours inside the session, for shading */
} Plan;

#endif
