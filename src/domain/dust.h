/* Dust: one kind of wood dust, chip or herb on the shelf, as its owner described it. */
#ifndef DOMAIN_DUST_H
#define DOMAIN_DUST_H

#include "base/date.h"
#include "base/list.h"
#include "domain/place.h"

typedef enum DustForm { FORM_DUST, FORM_CHIP, FORM_LEAF } DustForm;

/* Moisture is kept on dry basis inside; the basis it was stated on is remembered for print. */
typedef enum MoistureBasis { BASIS_DRY, BASIS_WET } MoistureBasis;

/* One sieve of an analysis: what stayed on it. The pan has aperture 0. */
typedef struct SieveClass {
    double aperture_m;
    double retained; /* kg, or a fraction when the analysis is by percent */
    Place place;
} SieveClass;

/* Classes in falling order of aperture, the pan last. Empty: a plain range was stated instead. */
typedef struct SieveAnalysis {
    LIST_OF(SieveClass) classes;
    bool by_percent;
    double sample_kg; /* mass put on the top sieve; NAN: not stated */
    Place place;
} SieveAnalysis;

/* A timed trial of this dust alone: so much channel took so long. */
typedef struct Trial {
    double length_m;
    double took_s;
    const char *tray_id; /* NULL: not stated */
    double moisture;     /* dry basis, when it was lit; NAN: the dust's own */
    double temp_c;       /* outside air; NAN: not stated */
    Place place;
} Trial;

typedef struct Dust {
    Place place;
    const char *id;
    const char *name;
    const char *label_name; /* what a label calls it; NULL: its species */
    const char *material;   /* wood species or herb, in the words of the species table */
    DustForm form;
    bool charred;
    double moisture; /* dry basis, kg water per kg dry; NAN: not stated */
    MoistureBasis stated_basis;
    Date measured; /* year 0: not stated */
    SieveAnalysis sieve;
    double grain_from_m; /* plain range; NAN: not stated */
    double grain_to_m;
    bool grain_judged;         /* an end of the range is only known by a kitchen sieve */
    double bulk_density_kg_m3; /* weighed as it lay, with its moisture; NAN: not stated */
    double steadiness;         /* against the carrier = 1; NAN: from the species table */
    const char *lot;           /* NULL: none */
    Date received;             /* year 0: not stated */
    double stock_kg;           /* wet, as it lies; NAN: not stated */
    bool untreated;            /* declared: no paint, glue, varnish or preservative */
    bool untreated_stated;     /* whether that was said, yes or no */
    LIST_OF(Trial) trials;
} Dust;

#endif
