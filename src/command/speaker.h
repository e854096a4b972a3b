/* Speaker: hands the words of a language to those in report/ who write them. */
#ifndef COMMAND_SPEAKER_H
#define COMMAND_SPEAKER_H

#include "command/run.h"

typedef struct Speaker {
    Run *run;
    Arena *arena; /* of what is said */
    const Locale *locale;
} Speaker;

/* A SayWords (report/terminal.h), its context a Speaker; what is missing is noted in the run. */
const char *speaker_say(void *context, const char *key, const FieldGroup *row);

#endif
