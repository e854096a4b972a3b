/* UTF-8 against iconv(3) of the C library: which bytes are a character, and which one. */
#include "base/utf8.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <iconv.h>
#include <stdio.h>
#include <string.h>

static iconv_t outside;

static int open_outside(void **state) {
    (void)state;
    outside = iconv_open("UCS-4LE", "UTF-8");
    return outside == (iconv_t)-1 ? -1 : 0;
}

static int close_outside(void **state) {
    (void)state;
    return iconv_close(outside);
}

/* The first character of some bytes as iconv reads it; false: there is none. */
static bool first_outside(const char *bytes, size_t length, uint32_t *code) {
    char copy[8];
    unsigned char read[4];
    char *in = memcpy(copy, bytes, length);
    char *out = (char *)read;
    size_t left = sizeof read;
    iconv(outside, NULL, NULL, NULL, NULL);
    iconv(outside, &in, &length, &out, &left);
    *code = read[0] | (uint32_t)read[1] << 8 | (uint32_t)read[2] << 16 | (uint32_t)read[3] << 24;
    /* This iconv reads on to the end of what ISO 10646 once was; RFC 3629 ends at U+10FFFF. */
    return left == 0 && *code <= 0x10FFFF;
}

static void assert_same(const unsigned char *bytes, size_t length) {
    char string[8] = {0};
    memcpy(string, bytes, length);
    uint32_t wanted = 0, code = 0;
    bool good = first_outside(string, strlen(string), &wanted);
    const char *at = string;
    if (utf8_next(&at, &code) != good || (good && code != wanted))
        fail_msg("%02x %02x %02x %02x: U+%04X, by iconv %s U+%04X", bytes[0], bytes[1], bytes[2],
                 bytes[3], code, good ? "" : "none,", wanted);
    if (!good)
        assert_ptr_equal(at, string);
}

static void one_and_two_bytes_all(void **state) {
    (void)state;
    for (unsigned first = 1; first < 256; first++)
        for (unsigned second = 0; second < 256; second++)
            assert_same((unsigned char[]){(uint8_t)first, (uint8_t)second, 0, 0}, 2);
}

/* Every lead byte and every second byte, with the ends of what may follow and their neighbours. */
static void three_and_four_bytes(void **state) {
    (void)state;
    static const uint8_t ends[] = {0x00, 0x01, 0x7F, 0x80, 0x81, 0xBE, 0xBF, 0xC0, 0xFF};
    enum { ENDS = sizeof ends };
    for (unsigned first = 0xE0; first < 256; first++)
        for (unsigned second = 1; second < 256; second++)
            for (int i = 0; i < ENDS * ENDS; i++)
                assert_same((unsigned char[]){(uint8_t)first, (uint8_t)second, ends[i / ENDS],
                                              ends[i % ENDS]},
                            4);
}

static void every_character_there_and_back(void **state) {
    (void)state;
    for (uint32_t code = 1; code <= 0x10FFFF; code++) {
        if (code >= 0xD800 && code <= 0xDFFF)
            continue;
        char bytes[5];
        uint32_t by_iconv = 0, read = 0;
        size_t length = utf8_encode(code, bytes);
        const char *at = bytes;
        if (strlen(bytes) != length || !first_outside(bytes, length, &by_iconv) ||
            by_iconv != code || !utf8_next(&at, &read) || read != code || at != bytes + length)
            fail_msg("U+%04X is written as U+%04X and read as U+%04X", code, by_iconv, read);
    }
}

static void whole_strings(void **state) {
    (void)state;
    assert_true(utf8_valid(""));
    assert_true(utf8_valid("Łosoś ½ ☂ 😀"));
    assert_int_equal(utf8_count("Łosoś ½ ☂ 😀"), 11);
    assert_int_equal(utf8_count(""), 0);
    assert_false(utf8_valid("good until\xC3"));
    assert_false(utf8_valid("\xED\xA0\x80"));
    const char *at = "";
    uint32_t code = 1;
    assert_true(utf8_next(&at, &code));
    assert_int_equal(code, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_and_two_bytes_all),
        cmocka_unit_test(three_and_four_bytes),
        cmocka_unit_test(every_character_there_and_back),
        cmocka_unit_test(whole_strings),
    };
    return cmocka_run_group_tests_name("UTF-8: iconv of the C library", tests, open_outside,
                                       close_outside);
}
