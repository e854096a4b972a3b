/* Wall: what a cabinet's wall lets through, by ISO 6946, and how warm it may get.
 *
 * The resistance of a wall is that of its layers, thickness over conductivity, and of the air films
 * on its two faces. Inside stands the film of a heated room, 0.13 m²K/W: the air of a cabinet
 * creeps. Outside the film depends on the wind: 1/(4 + 4 v + h_r), h_r the radiation of an ordinary
 * surface at 10 °C. The 0.04 m²K/W of building tables is this film at 4 m/s; a cabinet stands in a
 * yard at night, out of the wind as often as not, so still air is what counts unless a wind is
 * stated. That also makes the cabinet warmer, which is the careful side for the product. */
#ifndef MODEL_WALL_H
#define MODEL_WALL_H

#include "domain/cabinet.h"

#include <stddef.h>

/* One layer of a wall. */
typedef struct WallLayer {
    double thickness_m;
    double conductivity_w_mk;
} WallLayer;

/* Film on the inner face, m²K/W: ISO 6946, heat flow sideways. */
#define WALL_INSIDE_FILM_M2K_W 0.13

/* Film on the outer face in a wind, m²K/W; a wind under 0, or none stated, is still air. */
double wall_outside_film_m2k_w(double wind_mps);

/* Sum of thickness over conductivity, m²K/W. */
double wall_layers_m2k_w(const WallLayer *layers, size_t count);

/* Resistance of a kind of wall without its outer film, m²K/W. */
double wall_m2k_w(CabinetWall wall);

/* How warm the cabinet's air may get for the sake of such a wall, °C; INFINITY: no limit. */
double wall_limit_c(CabinetWall wall);

/* Whether such a wall feeds a fire. */
bool wall_burns(CabinetWall wall);

#endif
