/* Progress: how far a run over many files has come, and how long it will still take, for whoever
 * sits at the terminal. Where standard error is no terminal, or the files are few, nothing is
 * said. */
#ifndef COMMAND_PROGRESS_H
#define COMMAND_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Fewer files than this are done before anybody asks: judgement. */
enum { PROGRESS_LEAST = 10 };

typedef struct Progress {
    bool told; /* whether anything is said at all */
    bool on_screen;
    size_t total;
    int64_t begun_ms, said_ms;
} Progress;

Progress progress_begin(size_t total);

/* So many are done. Said at most a few times a second. */
void progress_step(Progress *progress, size_t done);

/* Takes what was said off the screen, before anything else is. */
void progress_wipe(Progress *progress);

/* What is said: "12 of 400" and, once there is something to go by, "about 3 min left". Into `text`
 * of `size` bytes. */
void progress_text(char *text, size_t size, size_t done, size_t total, int64_t spent_ms);

#endif
