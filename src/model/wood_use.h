/* Wood use: what may be smouldered for food, what only as a spice, and what never.
 *
 * Sources, as the rows name them:
 *   [MEDLINE] US National Library of Medicine, MedlinePlus: the resin of poison ivy, oak and sumac
 *             is carried by their smoke (at second hand)
 *   [LISTS]   several barbecue and smokehouse guides that warn of the same woods, none of them a
 *             study: common practice, no source
 *   [POISON]  textbook poisonous plants, all parts or the wood: from memory
 *   [CXC68]   CXC 68-2009 on polycyclic aromatic hydrocarbons: the fuel decides them; resinous
 *             softwood is discouraged (from memory)
 * What is in no table is unknown, not fit. */
#ifndef MODEL_WOOD_USE_H
#define MODEL_WOOD_USE_H

#include "domain/plan.h"

typedef enum WoodFitness {
    WOOD_FIT,
    WOOD_SPICE,   /* up to a share of the blend's dry mass */
    WOOD_UNKNOWN, /* in no table */
    WOOD_UNFIT    /* resinous or poisonous: never */
} WoodFitness;

typedef struct WoodUse {
    WoodFitness fitness;
    double most_share; /* dry, of a spice; 1 of what is fit */
} WoodUse;

/* By the words of the material and by its form: needles of spruce are a spice, its wood is not to
 * be smouldered at all. NULL is unknown. */
WoodUse wood_use(const char *material, DustForm form);

/* Names what of the blend's parts is unfit, treated, unknown or more spice than is usual, in
 * blend->unfit_woods, treated_dusts, unknown_woods and strong_spices; NULL: none. Needs the
 * parts with their dry shares. */
void wood_use_name(Arena *arena, PlanBlend *blend);

#endif
