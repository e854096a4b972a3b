#include "model/caution.h"

#include <stdbool.h>

static const char warning[] = "warning";
static const char caution[] = "caution";
static const char notice[] = "notice";

static void add(Arena *arena, Plan *plan, const char *key, const char *signal) {
    LIST_ADD(arena, &plan->cautions, (Caution){key, signal});
}

/* Below it no figure is printed: none that rounds to nothing stands beside that gas. */
static const double least_printed_ppm = 1;

/* Smouldering dust gives off carbon monoxide as charcoal does; a window or a fan does not make it
 * safe (CPSC on charcoal). */
static const char *carbon_monoxide_key(const PlanRoom *room) {
    if (!room->stated) {
        return "carbon_monoxide_unknown";
    }
    if (room->outdoors) {
        return "carbon_monoxide_outdoors";
    }
    if (room->over_limit) {
        return "carbon_monoxide_over";
    }
    return room->peak_ppm < least_printed_ppm ? "carbon_monoxide_low" : "carbon_monoxide";
}

static bool away_while_burning(const Batch *batch, const PlanBurn *burn) {
    for (size_t i = 0; i < batch->timing.away.count; i++) {
        const Away *away = &batch->timing.away.items[i];
        if (away->from < burn->out_late && away->to > burn->light_at) {
            return true;
        }
    }
    return false;
}

static bool food_needs_words(const Plan *plan) {
    for (size_t i = 0; i < plan->care.count; i++) {
        if (plan->care.items[i].level != CARE_NOTE) {
            return true;
        }
    }
    return false;
}

void caution_add(Arena *arena, const Batch *batch, Plan *plan) {
    add(arena, plan, carbon_monoxide_key(&plan->room), warning);
    /* where the smoker stands is said with either: it matters most when nobody is there */
    bool alone = away_while_burning(batch, &plan->burn);
    add(arena, plan, alone ? "fire_unattended" : "fire", warning);
    if (plan->cabinet.over_wall && plan->cabinet.walls_burn) {
        add(arena, plan, "walls_burn", warning);
    }
    if (plan->cabinet.too_windy) {
        add(arena, plan, "wind", warning);
    }
    add(arena, plan, "hot", caution);
    add(arena, plan, "dust", caution);
    if (food_needs_words(plan)) {
        add(arena, plan, "food", caution);
    }
    if (plan->drying.asked && !plan->drying.wait_sealed) {
        add(arena, plan, "damp", notice);
    }
    if (plan->weather.beyond_forecast) {
        add(arena, plan, "forecast", notice);
    }
    if (plan->weather.forecast_far) {
        add(arena, plan, "forecast_far", notice);
    }
}

const char *const *caution_keys(size_t *count) {
    static const char *const keys[] = {
        "carbon_monoxide",
        "carbon_monoxide_low",
        "carbon_monoxide_outdoors",
        "carbon_monoxide_over",
        "carbon_monoxide_unknown",
        "fire",
        "fire_unattended",
        "walls_burn",
        "wind",
        "hot",
        "dust",
        "food",
        "damp",
        "forecast",
        "forecast_far",
    };
    *count = sizeof keys / sizeof *keys;
    return keys;
}
