/* Chance: how many nights like this one burn to their end.
 *
 * Two things are not known: how fast the front goes (model/speed_factor.h) and how far the true
 * margin is from the model's (model/holding.h). A night lasts when, in every lighting, the least of
 *
 *     log margin along the path  +  what burns of this kind share  +  this burn's own part
 *
 * stays above 0. The speed matters because a slow front meets dust that has waited longer in damp
 * air. The chance is an integral over the speed (Gauss–Legendre in its probability, so that any
 * distribution will do), over the shared part (trapezium rule over the normal distribution, which
 * for so smooth a function is as good as Gauss–Hermite), and in closed form over each burn's own
 * part. No dice: the same input gives the same chance. */
#ifndef MODEL_CHANCE_H
#define MODEL_CHANCE_H

#include "base/arena.h"
#include "model/holding.h"
#include "model/night.h"

/* A place on a night's path: which lighting, and how far along it. */
typedef struct ChancePlace {
    size_t lighting;
    double along_m; /* of the first front; 0: it does not catch */
    double share;   /* of all such nights, those that go out there: when lit, or on the quarter of
                       the lighting's way with that place in its middle */
} ChancePlace;

typedef struct Chance Chance;

/* The courses of a night at each of its speeds. The night has to be worked out at least as deep
 * as NIGHT_CHANCE. Held by the arena. */
const Chance *chance_of(Arena *arena, const Night *night, const Holding *holding);

/* Chance that the night burns to its end, 0 to 1. */
double chance_lasts(const Chance *chance);

/* Chance that it has not gone out `elapsed_s` after the first lighting; burnt to its end counts as
 * lasting. Never rises; 1 before lighting, chance_lasts from chance_end_s on. */
double chance_lasting(const Chance *chance, double elapsed_s);

/* Chance that a front holds in the state it is in at that time, whatever was before: 1 where
 * nothing burns. Least over a stretch, it tells how weak that stretch is. */
double chance_holding(const Chance *chance, double elapsed_s);

/* When the slowest of the speeds is out, s after the first lighting. */
double chance_end_s(const Chance *chance);

/* Where most of the nights that go out do so. */
ChancePlace chance_worst_place(const Chance *chance);

#endif
