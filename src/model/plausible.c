#include "model/plausible.h"

#include "model/tray.h"
#include "model/wall.h"

#include <math.h>

/* What was asked of the burn: the smoke time, else the burn times when every fill has one. */
static double wanted_s(const Batch *batch) {
    if (batch->product.smoke_time_s > 0) {
        return batch->product.smoke_time_s;
    }
    double all_s = 0;
    for (size_t i = 0; i < batch->fills.count; i++) {
        const Fill *fill = &batch->fills.items[i];
        all_s += fill->burn_time_s * (fill->repeat > 1 ? fill->repeat : 1);
    }
    return all_s > 0 ? all_s : NOT_STATED;
}

/* Either way round: the tray's outer size over the cabinet's floor, so far off every wall. */
static bool fits(const Cabinet *cabinet, double width_m, double depth_m, double clear_m) {
    double wide = fmax(cabinet->width_m, cabinet->depth_m) - 2 * clear_m;
    double narrow = fmin(cabinet->width_m, cabinet->depth_m) - 2 * clear_m;
    return fmax(width_m, depth_m) <= wide && fmin(width_m, depth_m) <= narrow;
}

static const char *name_of(const Tray *tray) {
    return tray->name ? tray->name : tray->id;
}

static void find_tray_too_big(const Batch *batch, Plan *plan) {
    PlanCabinet *into = &plan->cabinet;
    into->tray_too_big = into->tray_near_wall = NULL;
    into->wall_clear_m = PLAUSIBLE_WALL_CLEAR_M;
    into->tray_width_m = into->tray_depth_m = into->width_m = into->depth_m = NOT_STATED;
    const Cabinet *cabinet = batch->cabinet;
    for (size_t i = 0; cabinet && i < plan->fills.count && !into->tray_too_big; i++) {
        const Tray *tray = plan->fills.items[i].tray;
        double width_m = 0;
        double depth_m = 0;
        tray_map_size(tray, &width_m, &depth_m);
        bool clear = fits(cabinet, width_m, depth_m, PLAUSIBLE_WALL_CLEAR_M);
        if (!clear && wall_burns(cabinet->wall)) {
            into->tray_near_wall = name_of(tray);
        }
        if (!fits(cabinet, width_m, depth_m, 0)) {
            into->tray_too_big = name_of(tray);
            into->tray_width_m = width_m;
            into->tray_depth_m = depth_m;
            into->width_m = cabinet->width_m;
            into->depth_m = cabinet->depth_m;
        }
    }
}

/* Mean speed of a fill's front. */
static double speed_mps(const PlanFill *fill) {
    double time_s = (double)(fill->out_at - fill->light_at);
    return fill->filled_m / (fill->both_ends ? 2 : 1) / fmax(time_s, 1);
}

void plausible_figures(const Batch *batch, Plan *plan) {
    PlanBurn *burn = &plan->burn;
    burn->wanted_s = wanted_s(batch);
    burn->least_layer_m = PLAUSIBLE_LAYER_M;
    burn->front_from_mps = PLAUSIBLE_FRONT_FROM_MPS;
    burn->front_to_mps = PLAUSIBLE_FRONT_TO_MPS;
    burn->thinnest_m = burn->slowest_mps = INFINITY;
    burn->fastest_mps = 0;
    for (size_t i = 0; i < plan->fills.count; i++) {
        const PlanFill *fill = &plan->fills.items[i];
        burn->thinnest_m = fmin(burn->thinnest_m, fill->depth_m);
        burn->slowest_mps = fmin(burn->slowest_mps, speed_mps(fill));
        burn->fastest_mps = fmax(burn->fastest_mps, speed_mps(fill));
    }
    find_tray_too_big(batch, plan);
}

bool plausible_hour_past(const Batch *batch, Instant light_at) {
    return batch->planned_at && !batch->record.stated &&
           batch->planned_at > light_at + PLAUSIBLE_LATE_S;
}
