#include "support/close.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <math.h>

void close_check(double value, double expected, double tolerance, const char *what,
                 const char *file, int line) {
    if (fabs(value - expected) <= tolerance)
        return;
    print_error("%s is %.10g, should be %.10g within %.3g\n", what, value, expected, tolerance);
    _fail(file, line);
}

void close_check_share(double value, double expected, double share, const char *what,
                       const char *file, int line) {
    close_check(value, expected, share * fabs(expected), what, file, line);
}

double close_random(uint64_t *seed, double low, double high) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return low + (high - low) * ((double)(*seed >> 11) / 9007199254740992.0);
}
