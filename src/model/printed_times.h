/* Printed times: how exactly the end of a burn is said.
 *
 * The band is rounded outwards, to a quarter of an hour until three records stand behind it and to
 * five minutes from then on; its middle to five minutes. No estimate of a burn is better known than
 * that, and a page that says so to the minute claims it (judgement). */
#ifndef MODEL_PRINTED_TIMES_H
#define MODEL_PRINTED_TIMES_H

#include "domain/plan.h"

/* The two ends of the band and its middle as they are printed. Steps of an hour divide the clocks
 * of all zones in use, so that what is rounded is round on the wall as well. */
Instant printed_early(Instant early, int records);
Instant printed_late(Instant late, int records);
Instant printed_about(Instant out);

/* Rounds the bands of the burn and of every fill, and sets their out_about. */
void printed_times_set(Plan *plan);

#endif
