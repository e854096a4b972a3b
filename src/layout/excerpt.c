#include "layout/excerpt.h"

#include "base/text.h"
#include "base/utf8.h"

enum { SHOWN_CHARACTERS = 60 };

const char *excerpt(Arena *arena, const char *string) {
    Text text = text_new(arena);
    int count = 0;
    while (string && *string) {
        const char *start = string;
        uint32_t code = 0;
        if (!utf8_next(&string, &code))
            string++;
        if (code < ' ')
            continue;
        if (++count > SHOWN_CHARACTERS) {
            text_add(&text, "…");
            break;
        }
        text_add_bytes(&text, start, (size_t)(string - start));
    }
    return text.bytes;
}
