/* Pi, for which C11 itself has no name. */
#ifndef BASE_PI_H
#define BASE_PI_H

#define PI 3.14159265358979323846

#endif
