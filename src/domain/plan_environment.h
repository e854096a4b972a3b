/* Plan, environment: what is around the burn, cabinet, room, weather.
 * The table of its fields stands in plan_environment.c. */
#ifndef DOMAIN_PLAN_ENVIRONMENT_H
#define DOMAIN_PLAN_ENVIRONMENT_H

#include "base/date.h"
#include "base/list.h"
#include "domain/plan_vent.h"

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
    bool over_caution; /* the peak over the caution, or that of a fast front over the limit */
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
    bool over_limit;                 /* over a limit with ordinary smoke */
    bool near_limit;                 /* over one only with rich smoke and the fast front */
    bool near_asleep;                /* near a limit, and the air still bad while nobody is awake */
} PlanRoom;

typedef struct PlanWeather {
    double temp_c, humidity;   /* when lit */
    double coldest_c, dampest; /* over the burn */
    double wind_mps;           /* when lit */
    double windiest_mps;       /* over the burn */
    double
        night_fall_k; /* by how much it cools from nine to six if one reading has to do; else 0 */
    bool forecast;    /* more than one reading */
    /* A forecast's ends, beyond which the weather is taken as standing still; 0: no forecast. */
    Instant known_from, known_to;
    double lead_s;        /* from its first reading to lighting; NAN: no forecast */
    bool forecast_far;    /* so long that it may well come otherwise */
    bool beyond_forecast; /* the burn goes on for hours outside of them */
} PlanWeather;

#endif
