/* Tray: the channel's length, its cross-section when filled, and places along it.
 *
 * Lanes run to and fro, and turn straight across by one pitch: n lanes of length l are
 * n l + (n - 1) pitch long, measured on the centre line. A turn belongs to the lane it leaves. A
 * spiral is Archimedean and starts at its outer end. Lanes whose walls touch share that wall, but
 * the front heats the whole of it, since the neighbour is not alight: no metal is halved.
 */
#ifndef MODEL_TRAY_H
#define MODEL_TRAY_H

#include "base/arena.h"
#include "domain/plan.h"

/* The dust in the channel, cut across. All figures are over 0. */
typedef struct Section {
    double area_m2;
    double depth_m;        /* at the middle, a heap included */
    double top_m;          /* open surface, along its slopes */
    double wall_m;         /* wall and floor that the dust touches */
    double air_m;          /* top counts 1, mesh 1/2, plate 0 */
    double uptake_depth_m; /* depth over the sides that air reaches, weighed alike */
    double metal_kg_per_m; /* of the wall and floor that the dust touches */
    double wall_share;     /* wall_m over the whole outline */
} Section;

/* Angle of repose of wood dust where the batch states none: 40 degrees (common practice, no
 * source; dry sawdust stands at 35 to 45). Stated angles are kept within 5 to 60 degrees. */
#define TRAY_REPOSE_RAD 0.6981317007977318

/* Level, part-filled or heaped; upright or sloping walls. */
Section tray_section(const Tray *tray, const Fill *fill);

/* Share of the levelled bulk density: sprinkled 0.30/0.40, levelled 1, tamped 0.48/0.40 (solid
 * fractions of the figures for sawdust: 0.40 Briggs, Table 7-1; the two others a judgement). */
double tray_packing_factor(Packing packing);

/* Number of lanes; whole and begun turns of a spiral; 1 of a straight channel. */
int tray_lane_count(const Tray *tray);

/* Lane (or turn of the spiral) at a place, from 1, and how far into it (0 to 1). `along_m` is kept
 * within the channel. */
int tray_lane_at(const Tray *tray, double along_m, double *in_lane);

/* The place on the map, in the tray's plane; heading in radians, 0 to the right, pi/2 down. */
MapPoint tray_point(const Tray *tray, double along_m, double *heading_rad);

/* Size of the tray for the map: outer edges of the channel. */
void tray_map_size(const Tray *tray, double *width_m, double *height_m);

/* Centre line between two places, corners included (a spiral: a point every 10 degrees or so). */
MapPoints tray_line(Arena *arena, const Tray *tray, double from_m, double to_m);

#endif
