/* Sleep: the hours of every night in which nobody is up, as a workshop states them, made hours of
 * absence of a batch. */
#ifndef INPUT_SLEEP_H
#define INPUT_SLEEP_H

#include "domain/batch.h"

/* Reads "HH:MM" of a clock with 24 hours. False on anything else; the date is of no meaning. */
bool sleep_clock(Arena *arena, const char *text, CivilTime *clock);

/* Adds the nights that the batch may burn in to the hours in which nobody looks in: on the wall
 * clock, so that a change of clocks makes one of them longer or shorter. Who lights a tray in them
 * is up for half an hour. Nothing where the workshop states none. */
void sleep_add(Arena *arena, const Workshop *workshop, Timing *timing);

#endif
