/* Batch: what is smoked tonight, with which blend, in which tray, and when. */
#ifndef DOMAIN_BATCH_H
#define DOMAIN_BATCH_H

#include "base/date.h"
#include "base/list.h"
#include "domain/place.h"
#include "domain/workshop.h"

typedef enum ProductKind {
    PRODUCT_CHEESE,
    PRODUCT_BUTTER,
    PRODUCT_FISH,
    PRODUCT_SALT,
    PRODUCT_MEAT,
    PRODUCT_OTHER
} ProductKind;

typedef enum CureMethod { CURE_DRY, CURE_PUMPED, CURE_IMMERSED } CureMethod;

/* A nitrite cure as its maker mixed it. */
typedef struct Cure {
    bool stated;
    CureMethod method;
    double cure_kg;    /* mass of cure mix used */
    double nitrite;    /* sodium nitrite in the mix, fraction by mass; never assumed */
    double water_kg;   /* immersed: water of the brine; pumped: NAN */
    double pump_share; /* pumped: pickle taken up, fraction of green mass */
    double pickle_kg;  /* pumped: whole pickle that holds the cure */
    Place place;
} Cure;

/* Freezing of fish against parasites: what it went through, or what is still to be done. */
typedef struct Freezing {
    bool stated;
    double temp_c;
    double time_s;
    bool farmed;   /* pellet-fed net-pen or tank fish, which food codes exempt */
    bool planned;  /* it is among what is to be done in the days before */
    Instant begun; /* planned: it went into the freezer; 0: not yet */
    double thaw_s; /* planned: time in the refrigerator afterwards */
    Place place;
} Freezing;

typedef enum SaltingMethod { SALTING_DRY, SALTING_BRINE, SALTING_EQUILIBRIUM } SaltingMethod;

/* Salting that is to be done in the days before, or has begun. */
typedef struct Salting {
    bool stated;
    SaltingMethod method;
    double salt;     /* dry: share of the meat; equilibrium: of meat and water; NAN: by strength */
    double strength; /* of the brine as it is made, fraction by mass; NAN: by salt */
    bool in_degrees; /* the strength was stated in degrees of the salometer */
    double water_kg; /* of the brine; NAN: none */
    double time_s;   /* in the salt or brine */
    double temp_c;   /* of the cold in which all of it is done */
    double rinse_s;  /* 0: only wiped */
    double dry_s;    /* open on a rack until tacky */
    Instant begun;   /* it went into the salt; 0: not yet, or nobody said */
    Place place;
} Salting;

typedef struct Product {
    Place place;
    ProductKind kind;
    const char *name;
    const char *lot;     /* of the food as it came; NULL: not stated */
    double mass_kg;      /* NAN: not stated */
    int pieces;          /* 0: not stated */
    double smoke_time_s; /* wanted time in smoke; NAN: not stated */
    double salt;         /* of the product after curing, fraction by mass; NAN: not stated */
    double water;        /* of the product after curing, fraction by mass; NAN: not stated */
    bool cured;          /* salting or curing is finished */
    bool cured_stated;   /* whether that was said, yes or no */
    bool vacuum_packed;  /* to be vacuum packed afterwards */
    bool not_raw;        /* "other" that was said to be no raw flesh: nuts, garlic, cooked food */
    double limit_temp_c; /* own ceiling; NAN: the kind's */
    Cure cure;
    Freezing freezing;
    Salting salting;
} Product;

typedef enum ShareKind {
    SHARE_FIXED, /* a fraction of the blend, or of the rest when there is a carrier */
    SHARE_LEAST  /* a carrier: as little as it takes */
} ShareKind;

typedef struct BlendPart {
    Place place;
    const Dust *dust;
    ShareKind kind;
    double share;    /* fixed: fraction; least: relative weight among several carriers */
    double at_least; /* asked-for least share of the finished blend; 0: none asked */
} BlendPart;

typedef struct Blend {
    Place place;
    const char *name;
    bool by_volume;       /* shares are of loose volume, else of mass as weighed */
    double target_margin; /* for carriers; NAN: the chance of a good plan */
    LIST_OF(BlendPart) parts;
} Blend;

typedef enum Packing { PACKING_SPRINKLED, PACKING_LEVELLED, PACKING_TAMPED } Packing;

/* One lighting (or `repeat` of them, one after another). Several fills burn in turn. */
typedef struct Fill {
    Place place;
    const Tray *tray;
    double level;          /* filled share of the channel's depth, over 0 to 1 */
    bool heaped;           /* heaped over the rim at the angle of repose */
    double heap_angle_rad; /* NAN: the usual angle of repose */
    Packing packing;
    bool both_ends;     /* lit at both ends */
    int repeat;         /* 1 to 8 */
    double burn_time_s; /* wanted: fill only so far; NAN: as far as the smoke time needs */
    bool whole;         /* the whole channel, whatever smoke time is wanted */
    double filled_m;    /* so much was filled, whatever was wanted; 0 or NAN: nothing known */
} Fill;

typedef struct Predry {
    Place place;
    bool stated;
    double oven_temp_c;
    double time_s; /* NAN: found from the target */
    double target; /* moisture, dry basis; NAN: follows from the time */
    double wait_s; /* between oven and lighting, besides cooling; NAN: 0 */
} Predry;

typedef struct WeatherReading {
    Instant at; /* of a single reading 0 */
    double temp_c;
    double humidity; /* relative, 0 to 1 */
    double wind_mps; /* as weather services give it; NAN: not stated, counts as still */
    Place place;
} WeatherReading;

typedef struct Weather {
    Place place;
    LIST_OF(WeatherReading) readings; /* in rising order of time */
    /* A single reading is that of one hour, from which the temperature goes on as it does in an
     * ordinary day. */
    bool swings;         /* false: what was read holds all the time */
    bool clear;          /* the night cools more under a clear sky */
    bool usual;          /* what is usual at that time of the year, and no forecast */
    Instant read_at;     /* the hour of the reading … */
    double read_clock_s; /* … and that on the wall clock, s since midnight */
} Weather;

typedef enum TimingKind { TIMING_LIGHT_AT, TIMING_FINISH_BY, TIMING_BEST } TimingKind;

typedef struct Away {
    Instant from;
    Instant to;
    Place place;
} Away;

typedef struct Timing {
    Place place;
    TimingKind kind;
    Instant at;         /* light at, or finish by; best: the window's start */
    Instant to;         /* best: the window's end */
    LIST_OF(Away) away; /* nobody can look in, nor light a further fill */
    int look_ins;       /* at most so many, besides those after lighting and at the end */
} Timing;

typedef struct BagOrder {
    Place place;
    double net_kg;
    int count;
    const char *stock;   /* name of a label stock */
    int first;           /* first free label on the first sheet, from 1 */
    double face_width_m; /* the bag's face, where the law goes by its area; NAN: the label */
    double face_height_m;
    Date packed;          /* year 0: the session's date */
    const char *language; /* of its label; NULL: the workshop's */
    bool market_stated;
    Market market;          /* whose rules its label follows, when that is stated */
    const Tray *tray;       /* of which its label tells how long it burns; NULL: of none */
    bool numbered;          /* its labels say which of the bags each is */
    const char *label_name; /* what its label calls the blend; NULL: the blend's own name */
} BagOrder;

typedef struct Reading {
    Instant at;
    double front_m;        /* NAN: not read */
    double cabinet_temp_c; /* NAN: not read */
    double humidity;       /* relative, in the cabinet, 0 to 1; NAN: not read */
    const char *remark;    /* NULL: none */
    Place place;
} Reading;

/* What was written down afterwards. */
typedef struct Record {
    Place place;
    bool stated;         /* false too while 'lit' is still open: a form to fill in */
    Instant lit;         /* 0: not written */
    Instant out;         /* 0: not written */
    bool went_out_early; /* died before the end of the channel */
    double filled_m;     /* length that was filled; 0 or NAN: not written */
    double used_kg;      /* dust put on the trays, before drying; 0 or NAN: not written */
    double burnt_m;      /* length burnt when it died or was stopped; NAN: all of it */
    double ash_kg;       /* NAN: not weighed */
    double product_kg;   /* mass of the product afterwards; NAN: not weighed */
    const char *by;      /* who ran the night; NULL: not written */
    LIST_OF(Instant) relit;
    LIST_OF(Reading) readings;
    const char *remark;
} Record;

typedef struct Batch {
    Place place;
    const char *file; /* as the user named it */
    const char *name;
    const char *lot; /* NULL: made from date and file name */
    const Workshop *workshop;
    const Cabinet *cabinet;
    Product product;
    Blend blend;
    LIST_OF(Fill) fills;
    Predry predry;
    Weather weather;
    Timing timing;
    LIST_OF(BagOrder) bags;
    Record record;
    Instant planned_at; /* when it is planned and printed; 0: nobody said */
} Batch;

#endif
