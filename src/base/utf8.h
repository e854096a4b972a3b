/* UTF-8: decoding with every fault noticed (RFC 3629). */
#ifndef BASE_UTF8_H
#define BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Reads the code point at *at and moves *at behind it. Returns false, and leaves *at, at a byte
 * that starts no valid sequence (stray, cut short, overlong, surrogate, above U+10FFFF).
 * At the closing NUL it returns true with *code = 0 and does not move. */
bool utf8_next(const char **at, uint32_t *code);

/* Whether the whole string is valid UTF-8. */
bool utf8_valid(const char *string);

/* Number of code points of a valid string. */
size_t utf8_count(const char *string);

/* Writes the code point (at most U+10FFFF, no surrogate) into `bytes`, NUL-ended; returns its
 * length. */
size_t utf8_encode(uint32_t code, char bytes[5]);

#endif
