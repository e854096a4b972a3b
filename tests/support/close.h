/* Close: comparing numbers with a tolerance, and random numbers that are the same in every run. */
#ifndef SUPPORT_CLOSE_H
#define SUPPORT_CLOSE_H

#include <stdint.h>

/* Fails the running test unless |value − expected| ≤ tolerance (not a number always fails). */
#define assert_close(value, expected, tolerance)                                                   \
    close_check((value), (expected), (tolerance), #value, __FILE__, __LINE__)

/* The same with a tolerance relative to the expected value. */
#define assert_close_share(value, expected, share)                                                 \
    close_check_share((value), (expected), (share), #value, __FILE__, __LINE__)

void close_check(double value, double expected, double tolerance, const char *what,
                 const char *file, int line);
void close_check_share(double value, double expected, double share, const char *what,
                       const char *file, int line);

/* A number in low…high, from a seed that must not be 0 (xorshift64). */
double close_random(uint64_t *seed, double low, double high);

#endif
