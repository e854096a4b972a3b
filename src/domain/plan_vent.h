/* Plan, vent: how far a vent of the cabinet is to be open. Its fields are made in plan_vent.c. */
#ifndef DOMAIN_PLAN_VENT_H
#define DOMAIN_PLAN_VENT_H

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

#endif
