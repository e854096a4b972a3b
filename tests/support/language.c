#include "support/language.h"

#include "input/xml.h"

#include <stdlib.h>
#include <string.h>

const Words *language_words(Arena *arena, const char *language) {
    Diagnostics diagnostics = diagnostics_new(arena);
    const char *path = arena_format(arena, "templates/words/%s.xml", language);
    const Element *root = xml_read(&diagnostics, path, NULL);
    const Words *words = root ? words_read(arena, root, &diagnostics) : NULL;
    diagnostics_print(&diagnostics, stderr);
    if (!words)
        exit(1);
    return words;
}

const Words *language_parse(Arena *arena, const char *text, Diagnostics *diagnostics) {
    const Element *root = xml_parse(diagnostics, "words.xml", text, strlen(text));
    return root ? words_read(arena, root, diagnostics) : NULL;
}

Locale language_locale(Arena *arena, const char *language, UnitSystem units) {
    return (Locale){.words = language_words(arena, language),
                    .units = units,
                    .zone = zone_load(arena, "Europe/Dublin"),
                    .scale_step_kg = 0.001};
}
