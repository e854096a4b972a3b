/* Holding: what is believed of how well a smokehouse's burns hold, against the model's margin.
 *
 * The margin that a front has is the model's times an unknown factor. Its logarithm, the offset,
 * is normal: part of it all burns of a kind share (smokehouse, tray, dusts), part is each burn's
 * own. A burn lasts while log margin + offset stays above 0. */
#ifndef MODEL_HOLDING_H
#define MODEL_HOLDING_H

typedef struct Holding {
    double log_mean;      /* of the offset; 0 when nothing was measured */
    double common_spread; /* of what the next burns of this kind share; over 0 */
    double burn_spread;   /* from one burn to the next; over 0 */
    int nights;           /* recorded nights that told something */
    int lasted;           /* of them, those that burnt to their end */
} Holding;

/* Nothing measured: mean 0, and together a spread of 0.22, so that a margin of 1.35 lasts in about
 * nine nights of ten and one of 1.10 in two of three. */
Holding holding_unmeasured(void);

#endif
