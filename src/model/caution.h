/* Caution: the hazards of the night, with the signal word that their meaning asks for.
 *
 * WARNING: could kill or maim; CAUTION: could hurt; NOTICE: spoils things, hurts nobody
 * (ANSI Z535.6; ISO 3864-2 has no NOTICE).
 */
#ifndef MODEL_CAUTION_H
#define MODEL_CAUTION_H

#include "base/arena.h"
#include "domain/plan.h"

/* Adds four to seven cautions to plan->cautions, gravest first. Needs the plan's room, drying,
 * burn and care. */
void caution_add(Arena *arena, const Batch *batch, Plan *plan);

/* Every key that caution_add can give (words `caution.KEY`), and how many. */
const char *const *caution_keys(size_t *count);

#endif
