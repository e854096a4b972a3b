/* New values: what `new` fills into the files to begin from. */
#ifndef COMMAND_NEW_VALUES_H
#define COMMAND_NEW_VALUES_H

#include "base/date.h"
#include "command/options.h"
#include "command/starter.h"
#include "domain/workshop.h"

typedef struct NewAsked {
    const char *kind; /* of the product; NULL: none */
    const char *name; /* on paper; NULL: a made-up one, in the language of the page */
    Instant now;
    const Options *options;
} NewAsked;

/* For a workshop: names, the machine's time zone, and the rest by the options. The market is the
 * one the zone and the units speak for: judgement, and said to be a guess. */
void new_workshop_values(Starter *starter, const NewAsked *asked);

/* For a batch or a bagging of that workshop: its first dust and tray, the evening, the month. */
void new_night_values(Starter *starter, const NewAsked *asked, const Workshop *workshop);

/* The attributes of <weather> as it is usual there at that time of the year, for the starter of a
 * batch. */
const char *new_usual_weather(Starter *starter, const Options *options, const Workshop *workshop,
                              Date date);

#endif
