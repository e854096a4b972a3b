/* Constants of the speed factor: how much speeds differ, as spreads of the natural logarithm. All
 * judgement; together they make the 0.40 that stands for a burn of which nothing was measured. */
#ifndef MODEL_SPEED_CONSTANTS_H
#define MODEL_SPEED_CONSTANTS_H

/* Uncalibrated spread of one burn, as the width of its 80 % band: judgement on the published
 * 50–250 mm/h; wide enough that the one looked-up speed of wood dust lies in the band about the
 * reference (fire_constants.h). It is the parts below that make it. */
#define SPEED_LOG_SPREAD 0.40
/* What all burns of a smokehouse share; what burns in one tray share; what burns of one blend
 * share (set so that all together make SPEED_LOG_SPREAD). */
#define SPEED_SHOP_SPREAD 0.20
#define SPEED_TRAY_SPREAD 0.20
#define SPEED_DUST_SPREAD 0.215
/* From one burn to the next, all else alike, is not known but learnt: its square has an inverse
 * gamma prior of that shape about that spread (scale = shape · spread²), kept between the bounds.
 * Judgement: the weakest prior under which the 80 % band, after ten records, holds 75 to 85 of 100
 * further burns whether burns truly differ by 0.06, 0.12 or 0.25
 * (tests/model/test_speed_factor.c). */
#define SPEED_BURN_SHAPE 0.5
#define SPEED_BURN_SPREAD 0.09
#define SPEED_BURN_LEAST 0.03
#define SPEED_BURN_MOST 0.60
/* From one short timed trial to the next. */
#define SPEED_TRIAL_SPREAD 0.15

/* The 80 % band: chance that a burn is shorter than its early, and than its late end. */
#define SPEED_EARLY_CHANCE 0.10
#define SPEED_LATE_CHANCE 0.90

/* SpeedFactors beyond these are slips of the pen, not dust. */
#define SPEED_LEAST 0.2
#define SPEED_MOST 5.0

/* An observation further than so many spreads from what the others make one expect is set aside.
 * To judge that, burns are not granted more than so much from one to the next, lest two wrong ones
 * excuse each other. */
#define SPEED_OUTLIER_SPREADS 3.0
#define SPEED_ASIDE_BURN_MOST 0.25

#endif
