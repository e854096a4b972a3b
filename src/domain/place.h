/* The place a value of the domain was written at. */
#ifndef DOMAIN_PLACE_H
#define DOMAIN_PLACE_H

#include "base/place.h"

#endif
