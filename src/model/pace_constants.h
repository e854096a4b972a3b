/* Constants of pace: how much speeds differ, as spreads of the natural logarithm. All judgement;
 * together they make the 0.30 that stands for a burn of which nothing was measured. */
#ifndef MODEL_PACE_CONSTANTS_H
#define MODEL_PACE_CONSTANTS_H

/* Uncalibrated spread of one burn: judgement on the published 50–250 mm/h. */
#define PACE_LOG_SPREAD 0.30
/* What all burns of a smokehouse share; what burns in one tray share. */
#define PACE_SHOP_SPREAD 0.15
#define PACE_TRAY_SPREAD 0.15
/* From one burn to the next, all else alike; and of a short timed trial. */
#define PACE_BURN_SPREAD 0.12
#define PACE_TRIAL_SPREAD 0.15
/* The rest of the 0.30, squared: what burns of one blend share. */
#define PACE_DUST_VARIANCE                                                                         \
    (PACE_LOG_SPREAD * PACE_LOG_SPREAD - PACE_SHOP_SPREAD * PACE_SHOP_SPREAD -                     \
     PACE_TRAY_SPREAD * PACE_TRAY_SPREAD - PACE_BURN_SPREAD * PACE_BURN_SPREAD)

/* The 80 % band: chance that a burn is shorter than its early, and than its late end. */
#define PACE_EARLY_CHANCE 0.10
#define PACE_LATE_CHANCE 0.90

/* Paces beyond these are slips of the pen, not dust. */
#define PACE_LEAST 0.2
#define PACE_MOST 5.0

#endif
