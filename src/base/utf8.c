#include "base/utf8.h"

static bool continuation(unsigned char byte) {
    return (byte & 0xC0) == 0x80;
}

bool utf8_next(const char **at, uint32_t *code) {
    static const uint32_t smallest[] = {0, 0, 0x80, 0x800, 0x10000};
    const unsigned char *byte = (const unsigned char *)*at;
    if (*byte < 0x80) {
        *at += *byte != 0;
        *code = *byte;
        return true;
    }
    size_t length = (*byte & 0xE0) == 0xC0   ? 2
                    : (*byte & 0xF0) == 0xE0 ? 3
                    : (*byte & 0xF8) == 0xF0 ? 4
                                             : 0;
    if (length == 0)
        return false;
    uint32_t value = *byte & (0xFFu >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        if (!continuation(byte[i]))
            return false;
        value = value << 6 | (byte[i] & 0x3Fu);
    }
    if (value < smallest[length] || (value >= 0xD800 && value <= 0xDFFF) || value > 0x10FFFF)
        return false;
    *code = value;
    *at += length;
    return true;
}

bool utf8_valid(const char *string) {
    uint32_t code;
    do {
        if (!utf8_next(&string, &code))
            return false;
    } while (code);
    return true;
}

size_t utf8_count(const char *string) {
    size_t count = 0;
    for (; *string; string++)
        if (!continuation((unsigned char)*string))
            count++;
    return count;
}

size_t utf8_encode(uint32_t code, char bytes[5]) {
    static const unsigned lead[] = {0, 0, 0xC0, 0xE0, 0xF0};
    size_t length = code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
    bytes[length] = '\0';
    for (size_t i = length - 1; i > 0; i--) {
        bytes[i] = (char)(0x80 | (code & 0x3F));
        code >>= 6;
    }
    bytes[0] = (char)(lead[length] | code);
    return length;
}
