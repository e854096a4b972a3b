/* Emergency number: what to dial when somebody is ill of smoke or it burns. */
#ifndef DOMAIN_EMERGENCY_H
#define DOMAIN_EMERGENCY_H

#include "domain/workshop.h"

/* The number that reaches ambulance and fire brigade where a market's rules hold: digits only, as
 * they are dialled; a market that is none of these: "112", which GSM telephones carry everywhere.
 * Source: from memory (112: Directive (EU) 2018/1972, article 109; 999: the United Kingdom; 911:
 * the North American numbering plan; 000: Australia). */
const char *emergency_number(Market market);

#endif
