/* Constants of holding: how much margins differ from the model's, as spreads of the natural
 * logarithm. All judgement; together they make 0.22. Two constants behind the margin (bed
 * diffusion, metal's rise) are known to a factor of two, and its heat is set by practice. */
#ifndef MODEL_HOLDING_CONSTANTS_H
#define MODEL_HOLDING_CONSTANTS_H

/* What all burns of a smokehouse share; what burns in one tray share; what burns of one dust
 * share, by its part of the blend; from one burn to the next. */
#define HOLDING_SHOP_SPREAD 0.10
#define HOLDING_TRAY_SPREAD 0.10
#define HOLDING_DUST_SPREAD 0.12
#define HOLDING_BURN_SPREAD 0.12

/* How far the log margin at a place where a burn died may be off, either way: the place and the
 * model's course of the margin are only roughly right (judgement). And how far the place. */
#define HOLDING_PLACE_FLOOR 0.05
#define HOLDING_PLACE_ERROR_M 0.02

#endif
