/* How long a night takes to work out, in CPU time, and as a ratio to a loop of a hundred thousand
 * exponentials on the same machine, which tells a slow model from a slow machine. */
#include "model/session.h"

#include "support/smokehouse.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { ROUNDS = 200, BEST_OF = 5 };

static double now_ms(void) {
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec * 1e3 + (double)time.tv_nsec / 1e6;
}

/* The sum goes out, so that the loop cannot be left out. */
static double reference_ms(double *sink) {
    double best = INFINITY;
    for (int turn = 0; turn < BEST_OF; turn++) {
        double start = now_ms();
        double sum = 0;
        for (int i = 0; i < 100000; i++) {
            sum += exp(-1e-5 * i);
        }
        *sink += sum;
        best = fmin(best, now_ms() - start);
    }
    return best;
}

static double session_ms(const Batch *batch, SessionDetail detail) {
    double best = INFINITY;
    for (int turn = 0; turn < BEST_OF; turn++) {
        double start = now_ms();
        for (int i = 0; i < ROUNDS; i++) {
            Arena *arena = arena_new();
            Plan plan;
            memset(&plan, 0, sizeof plan);
            session_work_out(arena, batch, NULL, SMOKEHOUSE_EVENING, detail, &plan);
            arena_free(arena);
        }
        best = fmin(best, (now_ms() - start) / ROUNDS);
    }
    return best;
}

static void report(const char *what, double spent_ms, double reference) {
    printf("%-34s %7.3f ms  %6.2f of the reference loop\n", what, spent_ms, spent_ms / reference);
}

int main(void) {
    Arena *arena = arena_new();
    Smokehouse *house = smokehouse_new(arena);
    Batch *batch = smokehouse_batch(house, &house->fold, 6, 0.78);
    smokehouse_part(house, batch, &house->carrier, 0.7);
    smokehouse_part(house, batch, &house->cherry, 0.3);
    smokehouse_dry_for(batch, 15);
    double sink = 0;
    double reference = reference_ms(&sink);
    report("reference loop", reference, reference);
    report("session, figures", session_ms(batch, SESSION_FIGURES), reference);
    report("session, whole", session_ms(batch, SESSION_WHOLE), reference);
    batch->blend.parts.items[0].kind = SHARE_LEAST;
    batch->blend.parts.items[1].dust = &house->residue;
    report("session, least carrier sought", session_ms(batch, SESSION_WHOLE), reference);
    batch->blend.parts.items[0].kind = SHARE_FIXED;
    for (int hour = 0; hour < 24; hour++) {
        LIST_ADD(arena, &batch->weather.readings,
                 ((WeatherReading){.at = SMOKEHOUSE_EVENING + hour * 3600 - 1800,
                                   .temp_c = 8 - hour / 4.0,
                                   .humidity = 0.7 + hour / 100.0}));
    }
    report("session, weather by the hour", session_ms(batch, SESSION_WHOLE), reference);
    arena_free(arena);
    return sink > 0 ? 0 : 1;
}
