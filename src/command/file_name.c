#include "command/file_name.h"

#include "base/text.h"
#include "base/utf8.h"

#include <string.h>

enum { NAME_LETTERS_MAX = 60 };

typedef struct Plain {
    uint32_t code;
    const char *letters;
} Plain;

/* As German and Polish spell them where they have no such letter, and the common accents. */
static const Plain plain_letters[] = {
    {0xC4, "ae"}, {0xD6, "oe"}, {0xDC, "ue"}, {0xE4, "ae"}, {0xF6, "oe"}, {0xFC, "ue"},
    {0xDF, "ss"}, {0x104, "a"}, {0x105, "a"}, {0x106, "c"}, {0x107, "c"}, {0x118, "e"},
    {0x119, "e"}, {0x141, "l"}, {0x142, "l"}, {0x143, "n"}, {0x144, "n"}, {0xD3, "o"},
    {0xF3, "o"},  {0x15A, "s"}, {0x15B, "s"}, {0x179, "z"}, {0x17A, "z"}, {0x17B, "z"},
    {0x17C, "z"}, {0xC0, "a"},  {0xC1, "a"},  {0xC2, "a"},  {0xC5, "aa"}, {0xC6, "ae"},
    {0xC7, "c"},  {0xC8, "e"},  {0xC9, "e"},  {0xCA, "e"},  {0xCD, "i"},  {0xD8, "oe"},
    {0xDA, "u"},  {0xE0, "a"},  {0xE1, "a"},  {0xE2, "a"},  {0xE5, "aa"}, {0xE6, "ae"},
    {0xE7, "c"},  {0xE8, "e"},  {0xE9, "e"},  {0xEA, "e"},  {0xED, "i"},  {0xF1, "n"},
    {0xF4, "o"},  {0xF8, "oe"}, {0xFA, "u"},
};

/* What stands for a letter; "" when nothing does. */
static const char *plain(Arena *arena, uint32_t code) {
    if ((code >= 'a' && code <= 'z') || (code >= '0' && code <= '9'))
        return arena_format(arena, "%c", (char)code);
    if (code >= 'A' && code <= 'Z')
        return arena_format(arena, "%c", (char)(code - 'A' + 'a'));
    for (size_t i = 0; i < sizeof plain_letters / sizeof *plain_letters; i++)
        if (plain_letters[i].code == code)
            return plain_letters[i].letters;
    return "";
}

const char *file_name_of(Arena *arena, const char *words) {
    Text name = text_new(arena);
    bool gap = false;
    uint32_t code = 0;
    while (name.length < NAME_LETTERS_MAX) {
        if (!utf8_next(&words, &code))
            return NULL;
        if (!code)
            break;
        const char *letters = plain(arena, code);
        if (*letters && gap && name.length)
            text_add(&name, "-");
        gap = !*letters && code != '\'' && code != 0x2019;
        text_add(&name, letters);
    }
    return name.length ? name.bytes : NULL;
}
