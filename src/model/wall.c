#include "model/wall.h"

#include <math.h>

enum { LAYERS_MOST = 3 };

/* A kind of wall: its layers, from inside; how warm the air within may get; whether it burns. */
typedef struct WallKind {
    WallLayer layers[LAYERS_MOST];
    size_t count;
    double limit_c;
    bool burns;
} WallKind;

/* Conductivities: softwood 0.13, steel 50, brick 0.77 W/m K (ISO 10456 and building tables, from
 * memory); insulation 0.040 (mineral wool or foam of the plain sort, from memory); double
 * corrugated board 0.06 (from memory, 0.05 to 0.07). Thicknesses are what such cabinets are made of
 * (common practice, no source): 20 mm board, a 1 mm sheet, 40 mm between two sheets, half a brick,
 * 7 mm of board.
 *
 * Limits: wood and cardboard 50 °C, judgement: far under the 200 °C at which wood chars, since the
 * air above a tray is much hotter than the cabinet's mean, and since dry paper next to a glow is
 * how such cabinets are lost. Insulated 75 °C: polystyrene foam softens from about 80 °C (from
 * memory). Sheet and brick have none. */
static const WallKind kinds[] = {
    [CABINET_WOOD] = {{{0.020, 0.13}}, 1, 50, true},
    [CABINET_STEEL] = {{{0.001, 50}}, 1, INFINITY, false},
    [CABINET_INSULATED] = {{{0.001, 50}, {0.040, 0.040}, {0.001, 50}}, 3, 75, false},
    [CABINET_BRICK] = {{{0.115, 0.77}}, 1, INFINITY, false},
    [CABINET_CARDBOARD] = {{{0.007, 0.06}}, 1, 50, true},
};

/* ISO 6946, annex for wind: convection 4 + 4 v (v in m/s) and radiation 4 sigma T³ = 5.1 W/m²K at
 * 10 °C times an emissivity of 0.9. Its table of films from 1 to 10 m/s comes out of this. */
static const double CONVECTION_W_M2K = 4;
static const double CONVECTION_WIND_J_M3K = 4;
static const double RADIATION_W_M2K = 0.9 * 5.1;

static const WallKind *kind_of(CabinetWall wall) {
    size_t count = sizeof kinds / sizeof *kinds;
    return &kinds[(size_t)wall < count ? (size_t)wall : 0];
}

double wall_outside_film_m2k_w(double wind_mps) {
    return 1 / (CONVECTION_W_M2K + CONVECTION_WIND_J_M3K * fmax(wind_mps, 0) + RADIATION_W_M2K);
}

double wall_layers_m2k_w(const WallLayer *layers, size_t count) {
    double resistance = 0;
    for (size_t i = 0; i < count; i++) {
        resistance += layers[i].thickness_m / layers[i].conductivity_w_mk;
    }
    return resistance;
}

double wall_m2k_w(CabinetWall wall) {
    const WallKind *kind = kind_of(wall);
    return WALL_INSIDE_FILM_M2K_W + wall_layers_m2k_w(kind->layers, kind->count);
}

double wall_limit_c(CabinetWall wall) {
    return kind_of(wall)->limit_c;
}

bool wall_burns(CabinetWall wall) {
    return kind_of(wall)->burns;
}
