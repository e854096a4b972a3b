#include "domain/tray.h"

#include "domain/spiral.h"

double tray_channel_m(const Tray *tray) {
    switch (tray->path) {
    case PATH_LANES: return tray->lanes * tray->lane_length_m + (tray->lanes - 1) * tray->pitch_m;
    case PATH_SPIRAL: {
        Spiral spiral = spiral_of(tray);
        return spiral_arc_m(spiral, spiral.outer_rad) - spiral_arc_m(spiral, spiral.inner_rad);
    }
    case PATH_STRAIGHT: break;
    }
    return tray->lane_length_m;
}
