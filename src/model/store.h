/* Store: how damp dust is that nobody measured, by the air it lies in.
 *
 * Nobody has a moisture meter, so this is the usual case. It is an assumption and is said to be one
 * wherever it is printed; on a label it is not printed at all. The weather of one night has nothing
 * to do with it: dust takes days to weeks to follow the air. */
#ifndef MODEL_STORE_H
#define MODEL_STORE_H

#include "domain/workshop.h"

#include <stdbool.h>

/* Moisture, dry basis. */
typedef struct StoreMoisture {
    double middle;
    double low, high; /* between them it may well lie */
} StoreMoisture;

/* In balance with the store's air as stated; else that of a room: sealed 18 °C at 55 %, between 40
 * and 70; open, which may be a shed, at 65 %, between 45 and 85. A stated humidity is taken as good
 * to a tenth (all judgement). */
StoreMoisture store_moisture(const Store *store);

/* Whether a moisture measured on one day says nothing any more on another: dust kept open follows
 * the air of its room within two months, sealed dust stays as it was for a year (judgement). False
 * when the day of measuring is not stated. */
bool store_measure_is_old(const Store *store, Date measured, Date on);

#endif
