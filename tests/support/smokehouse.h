/* Smokehouse: a made-up workshop and batches for the model's tests, built without any file. */
#ifndef SUPPORT_SMOKEHOUSE_H
#define SUPPORT_SMOKEHOUSE_H

#include "domain/batch.h"

#include <stdint.h>

/* Half past nine in the evening of 4 December 2026, UTC. */
#define SMOKEHOUSE_EVENING ((Instant)1796419800)

typedef struct Smokehouse {
    Arena *arena;
    Workshop workshop;
    Cabinet cabinet;
    Tray fold;    /* mesh, 5 lanes of 150 mm, 20 x 20 mm */
    Tray trough;  /* 2 mm plate, 3 lanes of 400 mm, 30 x 25 mm */
    Dust carrier; /* clean beech, 500–750 µm, 4 % */
    Dust cherry;  /* sieved, 4 % */
    Dust residue; /* charred oak, more than half fines, 4 % */
    Dust sulky;   /* a species that smoulders badly, grain as the carrier */
} Smokehouse;

/* In the arena; outdoors, sealed store, fan oven, 1 g scale. */
Smokehouse *smokehouse_new(Arena *arena);

/* A dust of a plain range. Nothing else stated. */
Dust smokehouse_dust(const char *wood, double moisture, double from_m, double to_m);

/* A batch of the smokehouse with one level fill and steady weather, and no part yet. */
Batch *smokehouse_batch(Smokehouse *house, const Tray *tray, double temp_c, double humidity);

/* Adds a part with a fixed share, or a carrier of which as little as it takes is wanted. */
void smokehouse_part(Smokehouse *house, Batch *batch, const Dust *dust, double share);
void smokehouse_carrier(Smokehouse *house, Batch *batch, const Dust *dust, double weight);

/* Dries in the oven for so long, or to a target, at 100 °C. */
void smokehouse_dry_for(Batch *batch, double minutes);
void smokehouse_dry_to(Batch *batch, double moisture);

/* A workable batch, random in everything: dusts, shares, trays, fills, drying, weather, cabinet,
 * room, store. `seed` must not be 0. */
Batch *smokehouse_random(Arena *arena, uint64_t *seed);

/* A night of the carrier alone in the folded tray, 6 °C and 85 %, with the record that it would
 * have at that speed factor; it went out early with a share under 1 of it burnt. */
Batch *smokehouse_recorded(Smokehouse *house, double speed_factor, double share);

#endif
