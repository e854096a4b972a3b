/* Place: where in a file something was written, so that a later message can point at it. */
#ifndef BASE_PLACE_H
#define BASE_PLACE_H

#include <math.h>
#include <stdbool.h>

typedef struct Place {
    const char *file; /* as the user named it; NULL when the value was not written anywhere */
    int line;         /* from 1; 0 when unknown */
    int column;       /* from 1, in characters; 0 when unknown */
    int length;       /* characters from there that are meant; 0 when unknown */
} Place;

/* A number that nobody stated is NAN in the structs of the domain; every such member says
 * "NAN: not stated". */
#define NOT_STATED NAN

static inline bool is_stated(double value) {
    return !isnan(value);
}

#endif
