/* Workshop: what the smokehouse owns. It changes seldom and is shared by all batches. */
#ifndef DOMAIN_WORKSHOP_H
#define DOMAIN_WORKSHOP_H

#include "base/list.h"
#include "base/zone.h"
#include "domain/cabinet.h"
#include "domain/dust.h"
#include "domain/outline.h"
#include "domain/place.h"
#include "domain/tray.h"

typedef enum UnitSystem { UNITS_METRIC, UNITS_US } UnitSystem;
typedef enum Paper { PAPER_A4, PAPER_LETTER } Paper;

/* Whose rules the height of a net quantity follows. */
typedef enum Market { MARKET_EU, MARKET_UK, MARKET_US, MARKET_AU } Market;

/* How bags are filled: each at least as full as marked, or on average (three packers' rules). */
typedef enum FillingRule { FILLING_MINIMUM, FILLING_AVERAGE } FillingRule;

/* A drawing in one colour, that a label shows beside the name. */
typedef struct Logo {
    double width, height; /* of its page, in units of its own */
    bool nonzero;         /* overlapping parts by the nonzero rule, else even-odd */
    Outlines outlines;    /* closed ones, from the page's top left corner; none: there is no logo */
    bool blank;           /* its place is left free, for a stamp or a sticker */
} Logo;

typedef struct Maker {
    Place place;
    const char *logo_file; /* as named from the workshop's file, or "blank"; NULL: none */
    Logo logo;
    const char *name;
    LIST_OF(const char *) address;
    const char *contact; /* an electronic address or a telephone number; NULL: none */
} Maker;

typedef struct Oven {
    bool stated;
    bool fan;
    double heat_transfer_w_m2k; /* NAN: from fan or still air */
    Place place;
} Oven;

typedef struct Scale {
    double resolution_kg;
    double capacity_kg; /* NAN: not stated */
    Place place;
} Scale;

/* Whom the person who runs the night calls when in doubt. */
typedef struct Call {
    Place place;
    const char *name; /* NULL: nobody was named */
    const char *telephone;
} Call;

/* Hours of every night in which nobody is up, on the wall clock. */
typedef struct Sleep {
    bool stated;
    CivilTime from, to; /* dates are not meant */
    Place place;
} Sleep;

/* How dust and filled trays are kept between drying and lighting. */
typedef struct Store {
    bool sealed;
    double temp_c;   /* NAN: as outside */
    double humidity; /* relative, 0 to 1; NAN: as outside */
    Place place;
} Store;

typedef struct Workshop {
    Place place;
    const char *file;
    const char *name;
    const char *timezone; /* IANA name */
    const Zone *zone;
    UnitSystem units;
    const char *language; /* BCP 47 primary tag: en, de, pl */
    Paper paper;
    Market market;
    FillingRule filling;
    Maker maker;
    LIST_OF(Dust) dusts;
    LIST_OF(Tray) trays;
    LIST_OF(Cabinet) cabinets;
    Room room;
    Oven oven;
    Scale scale;
    Store store;
    Call call;
    Sleep sleep;
} Workshop;

/* Whether the clocks there show twelve hours: with US units or US rules (common practice). */
bool workshop_twelve_hours(const Workshop *workshop);

/* Whether both are one: a workshop is known by its file, however often it was read. */
bool workshop_same(const Workshop *one, const Workshop *other);

#endif
