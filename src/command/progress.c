#include "command/progress.h"

#include <stdio.h>
#include <time.h>
#include <unistd.h>

/* How often it is said, and from when on the rest is guessed. */
enum { SAY_EVERY_MS = 200, GUESS_FROM_MS = 1000, MINUTE_MS = 60 * 1000, SECOND_MS = 1000 };

/* No clock of the wall: it may be set meanwhile. */
static int64_t now_ms(void) {
    struct timespec now;
    if (clock_gettime(CLOCK_MONOTONIC, &now) != 0)
        return 0;
    return (int64_t)now.tv_sec * SECOND_MS + now.tv_nsec / 1000000;
}

Progress progress_begin(size_t total) {
    bool told = total >= PROGRESS_LEAST && isatty(STDERR_FILENO);
    int64_t begun_ms = told ? now_ms() : 0;
    return (Progress){
        .told = told, .total = total, .begun_ms = begun_ms, .said_ms = begun_ms - SAY_EVERY_MS};
}

/* Rounded up: what is over sooner than was said annoys nobody. */
void progress_text(char *text, size_t size, size_t done, size_t total, int64_t spent_ms) {
    int64_t left_ms = done ? spent_ms * (int64_t)(total - done) / (int64_t)done : 0;
    if (!done || spent_ms < GUESS_FROM_MS)
        snprintf(text, size, "%zu of %zu", done, total);
    else if (left_ms < 2 * MINUTE_MS)
        snprintf(text, size, "%zu of %zu, about %lld s left", done, total,
                 (long long)((left_ms + SECOND_MS - 1) / SECOND_MS));
    else
        snprintf(text, size, "%zu of %zu, about %lld min left", done, total,
                 (long long)((left_ms + MINUTE_MS - 1) / MINUTE_MS));
}

void progress_step(Progress *progress, size_t done) {
    if (!progress->told)
        return;
    int64_t now = now_ms();
    if (done >= progress->total) {
        progress_wipe(progress);
        return;
    }
    if (now - progress->said_ms < SAY_EVERY_MS)
        return;
    char text[80];
    progress_text(text, sizeof text, done, progress->total, now - progress->begun_ms);
    fprintf(stderr, "\r\033[K%s", text);
    fflush(stderr);
    progress->said_ms = now;
    progress->on_screen = true;
}

void progress_wipe(Progress *progress) {
    if (progress->on_screen)
        fputs("\r\033[K", stderr);
    progress->on_screen = false;
}
