/* Logo reader: a drawing in one colour from an SVG file: <svg viewBox="…"> around one
 * <path d="…">, and nothing else of SVG. */
#ifndef INPUT_LOGO_READER_H
#define INPUT_LOGO_READER_H

#include "base/diagnostic.h"
#include "domain/workshop.h"

#include <stdbool.h>
#include <stddef.h>

/* What a drawing of SVG_STEPS_MAX steps takes, with room (judgement). */
enum { LOGO_BYTES_MAX = 128 * 1024 };

/* Broader or taller ones would be a line in a place made for a square (judgement). */
#define LOGO_ASPECT_MAX 5.0

/* Reads the file, which was named at `named_at`, into *logo. False, and every fault reported, when
 * it is none; *could_not_open says whether it could not be read at all. */
bool read_logo(Diagnostics *diagnostics, const char *path, Place named_at, Logo *logo,
               bool *could_not_open);

#endif
