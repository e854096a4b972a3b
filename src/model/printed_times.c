#include "model/printed_times.h"

enum { FIVE_MINUTES_S = 5 * 60, QUARTER_S = 15 * 60, RECORDS_FOR_FINER = 3 };

static Instant step_of(int records) {
    return records < RECORDS_FOR_FINER ? QUARTER_S : FIVE_MINUTES_S;
}

static Instant down(Instant at, Instant step) {
    Instant over = at % step;
    return at - (over < 0 ? over + step : over);
}

Instant printed_early(Instant early, int records) {
    return down(early, step_of(records));
}

Instant printed_late(Instant late, int records) {
    Instant step = step_of(records);
    return down(late + step - 1, step);
}

Instant printed_about(Instant out) {
    return down(out + FIVE_MINUTES_S / 2, FIVE_MINUTES_S);
}

void printed_times_set(Plan *plan) {
    PlanBurn *burn = &plan->burn;
    burn->out_early = printed_early(burn->out_early, burn->records);
    burn->out_late = printed_late(burn->out_late, burn->records);
    burn->out_about = printed_about(burn->out_at);
    for (size_t i = 0; i < plan->fills.count; i++) {
        PlanFill *fill = &plan->fills.items[i];
        fill->out_early = printed_early(fill->out_early, burn->records);
        fill->out_late = printed_late(fill->out_late, burn->records);
        fill->out_about = printed_about(fill->out_at);
    }
}
