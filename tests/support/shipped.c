#include "support/shipped.h"

#include "input/xml.h"
#include "print/pdf.h"
#include "support/outside.h"

#include <stdio.h>
#include <stdlib.h>

_Noreturn static void give_up(const char *what, const char *why) {
    fprintf(stderr, "%s: %s\n", what, why ? why : "can not be had");
    exit(1);
}

const FaceSet *shipped_faces(Arena *arena) {
    const char *error = NULL;
    const FaceSet *faces = faces_load(arena, OUTSIDE_FONTS, &error);
    if (!faces)
        give_up(OUTSIDE_FONTS, error);
    return faces;
}

const Pattern *shipped_pattern(Arena *arena, const FaceSet *faces, const char *name) {
    Diagnostics diagnostics = diagnostics_new(arena);
    const char *path = arena_format(arena, "templates/%s.xml", name);
    const Element *root = xml_read(&diagnostics, path, NULL);
    const Pattern *pattern = root ? pattern_read(arena, root, NULL, faces, &diagnostics) : NULL;
    diagnostics_print(&diagnostics, stderr);
    if (!pattern)
        give_up(path, NULL);
    return pattern;
}

Bytes shipped_pdf(Arena *arena, const FaceSet *faces, const Document *document) {
    Bytes bytes = {0};
    const char *error = NULL;
    if (!pdf_write(document, faces, arena, &bytes, &error))
        give_up("the document", error);
    return bytes;
}
