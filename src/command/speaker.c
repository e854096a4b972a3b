#include "command/speaker.h"

#include "layout/phrase.h"

const char *speaker_say(void *context, const char *key, const FieldGroup *row) {
    const Speaker *speaker = context;
    return phrase_word(speaker->arena, speaker->locale, (Place){0}, key, row,
                       &speaker->run->reader.diagnostics);
}
