/* Word: the keys under which the words files hold what a plan can say. */
#ifndef DOMAIN_WORD_H
#define DOMAIN_WORD_H

#include "domain/plan.h"
#include "domain/season.h"

/* The key of a value: `verdict.good`, `cause.damp_dust`, `product.cheese` … Each value of the enum
 * has one; NULL for a number that is none of them. */
const char *word_of_verdict(Verdict verdict);
const char *word_of_cause(Cause cause);
const char *word_of_remedy(RemedyKind kind);
const char *word_of_care_level(CareLevel level);
const char *word_of_product(ProductKind kind);
const char *word_of_basis(MoistureBasis basis);
const char *word_of_packing(Packing packing);
const char *word_of_channel(ChannelPath path);
const char *word_of_season_state(SeasonState state);

/* How far one vent is open; words with a figure differ for inlet and outlet. */
const char *word_of_vent(VentOpening opening, bool outlet);

/* How both are to be set, or that it is not known. */
const char *word_of_vents(VentOpening inlet);

#endif
