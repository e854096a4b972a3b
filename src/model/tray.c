#include "model/tray.h"

#include "base/pi.h"
#include "domain/spiral.h"
#include "model/bounds.h"

#include <math.h>

static const double SPIRAL_STEP_RAD = 0.175;

/* Angle at a length from the outer end: Newton on the arc length, which is convex in the angle. */
static double spiral_angle(Spiral spiral, double along_m) {
    double wanted_m = spiral_arc_m(spiral, spiral.outer_rad) - along_m;
    double angle = spiral.outer_rad;
    for (int turn = 0; turn < 60; turn++) {
        double off_m = spiral_arc_m(spiral, angle) - wanted_m;
        double step = off_m / (spiral.rate_m * sqrt(1 + angle * angle));
        angle = clamp(angle - step, spiral.inner_rad, spiral.outer_rad);
        if (fabs(step) < 1e-13 * (1 + angle)) {
            break;
        }
    }
    return angle;
}

double tray_packing_factor(Packing packing) {
    switch (packing) {
    case PACKING_SPRINKLED: return 0.30 / 0.40;
    case PACKING_TAMPED: return 0.48 / 0.40;
    case PACKING_LEVELLED: break;
    }
    return 1;
}

static void heap_on(Section *section, double width_m, double angle_rad) {
    double angle = isnan(angle_rad) ? TRAY_REPOSE_RAD : clamp(angle_rad, 0.0873, 1.0472);
    double height_m = width_m / 2 * tan(angle);
    section->area_m2 += width_m * height_m / 2;
    section->depth_m += height_m;
    section->top_m = width_m / cos(angle);
}

Section tray_section(const Tray *tray, const Fill *fill) {
    double level = clamp(fill->level, 0.01, 1);
    double bottom_m = tray->bottom_width_m;
    double width_m = bottom_m + (tray->channel_width_m - bottom_m) * level;
    double depth_m = tray->channel_depth_m * level;
    Section section = {.area_m2 = (bottom_m + width_m) / 2 * depth_m, .depth_m = depth_m};
    section.top_m = width_m;
    section.wall_m = bottom_m + 2 * hypot(depth_m, (width_m - bottom_m) / 2);
    if (fill->heaped) {
        heap_on(&section, width_m, fill->heap_angle_rad);
    }
    double mesh = tray->wall == WALL_MESH ? 0.5 : 0;
    section.air_m = section.top_m + mesh * section.wall_m;
    section.uptake_depth_m = section.depth_m / (1 + mesh);
    section.metal_kg_per_m = section.wall_m * tray->metal_kg_m2;
    section.wall_share = section.wall_m / (section.wall_m + section.top_m);
    return section;
}

int tray_lane_count(const Tray *tray) {
    switch (tray->path) {
    case PATH_LANES: return tray->lanes;
    case PATH_SPIRAL: {
        Spiral spiral = spiral_of(tray);
        double turns = (spiral.outer_rad - spiral.inner_rad) / (2 * PI);
        return (int)fmax(ceil(turns - 1e-9), 1);
    }
    case PATH_STRAIGHT: break;
    }
    return 1;
}

static int lane_of_lanes(const Tray *tray, double along_m, double *in_lane) {
    double span_m = tray->lane_length_m + tray->pitch_m;
    int behind = (int)clamp(floor(along_m / span_m), 0, tray->lanes - 1);
    *in_lane = clamp((along_m - behind * span_m) / tray->lane_length_m, 0, 1);
    return behind + 1;
}

static int lane_of_spiral(const Tray *tray, double along_m, double *in_lane) {
    Spiral spiral = spiral_of(tray);
    double turned = (spiral.outer_rad - spiral_angle(spiral, along_m)) / (2 * PI);
    int behind = (int)clamp(floor(turned), 0, tray_lane_count(tray) - 1);
    *in_lane = clamp(turned - behind, 0, 1);
    return behind + 1;
}

int tray_lane_at(const Tray *tray, double along_m, double *in_lane) {
    double channel_m = tray_channel_m(tray);
    double along = clamp(along_m, 0, channel_m);
    double inside = along / channel_m;
    int lane = 1;
    if (tray->path == PATH_LANES) {
        lane = lane_of_lanes(tray, along, &inside);
    } else if (tray->path == PATH_SPIRAL) {
        lane = lane_of_spiral(tray, along, &inside);
    }
    if (in_lane) {
        *in_lane = inside;
    }
    return lane;
}

static MapPoint point_of_lanes(const Tray *tray, double along_m, double *heading_rad) {
    double in_lane;
    int behind = lane_of_lanes(tray, along_m, &in_lane) - 1;
    double over_m = along_m - behind * (tray->lane_length_m + tray->pitch_m) - tray->lane_length_m;
    bool turning = over_m > 0 && behind < tray->lanes - 1;
    bool back = behind % 2 == 1;
    double x_m = (back ? 1 - in_lane : in_lane) * tray->lane_length_m;
    double y_m = behind * tray->pitch_m + (turning ? over_m : 0);
    *heading_rad = turning ? PI / 2 : back ? PI : 0;
    double edge_m = tray->channel_width_m / 2;
    return (MapPoint){x_m + edge_m, y_m + edge_m, along_m};
}

/* Starts at the right and runs clockwise as drawn, inwards. */
static MapPoint point_of_spiral(const Tray *tray, double along_m, double *heading_rad) {
    Spiral spiral = spiral_of(tray);
    double angle = spiral_angle(spiral, along_m);
    double radius_m = spiral.rate_m * angle;
    double turned = spiral.outer_rad - angle;
    double middle_m = (tray->outer_m + tray->channel_width_m) / 2;
    *heading_rad = remainder(turned + PI / 2 + atan2(1, fmax(angle, 1e-9)), 2 * PI);
    return (MapPoint){middle_m + radius_m * cos(turned), middle_m + radius_m * sin(turned),
                      along_m};
}

MapPoint tray_point(const Tray *tray, double along_m, double *heading_rad) {
    double along = clamp(along_m, 0, tray_channel_m(tray));
    double heading = 0;
    double edge_m = tray->channel_width_m / 2;
    MapPoint point = {along + edge_m, edge_m, along};
    if (tray->path == PATH_LANES) {
        point = point_of_lanes(tray, along, &heading);
    } else if (tray->path == PATH_SPIRAL) {
        point = point_of_spiral(tray, along, &heading);
    }
    if (heading_rad) {
        *heading_rad = heading;
    }
    return point;
}

void tray_map_size(const Tray *tray, double *width_m, double *height_m) {
    double edge_m = tray->channel_width_m;
    if (tray->path == PATH_SPIRAL) {
        *width_m = *height_m = tray->outer_m + edge_m;
        return;
    }
    int lanes = tray->path == PATH_LANES ? tray->lanes : 1;
    *width_m = tray->lane_length_m + edge_m;
    *height_m = (lanes - 1) * tray->pitch_m + edge_m;
}

static void add_corners(Arena *arena, const Tray *tray, double from_m, double to_m,
                        MapPoints *line) {
    double span_m = tray->lane_length_m + tray->pitch_m;
    for (int lane = 0; lane < tray->lanes; lane++) {
        double ends[2] = {lane * span_m, lane * span_m + tray->lane_length_m};
        for (int end = 0; end < 2; end++) {
            if (ends[end] > from_m && ends[end] < to_m) {
                LIST_ADD(arena, line, tray_point(tray, ends[end], NULL));
            }
        }
    }
}

static void add_arc(Arena *arena, const Tray *tray, double from_m, double to_m, MapPoints *line) {
    Spiral spiral = spiral_of(tray);
    double whole_m = spiral_arc_m(spiral, spiral.outer_rad);
    double first = spiral_angle(spiral, from_m);
    double last = spiral_angle(spiral, to_m);
    int inner = (int)ceil((first - last) / SPIRAL_STEP_RAD);
    for (int i = 1; i < inner; i++) {
        double angle = first - i * SPIRAL_STEP_RAD;
        LIST_ADD(arena, line, tray_point(tray, whole_m - spiral_arc_m(spiral, angle), NULL));
    }
}

MapPoints tray_line(Arena *arena, const Tray *tray, double from_m, double to_m) {
    double channel_m = tray_channel_m(tray);
    double from = clamp(from_m, 0, channel_m);
    double to = clamp(to_m, from, channel_m);
    MapPoints line = {0};
    LIST_ADD(arena, &line, tray_point(tray, from, NULL));
    if (tray->path == PATH_LANES) {
        add_corners(arena, tray, from, to, &line);
    } else if (tray->path == PATH_SPIRAL) {
        add_arc(arena, tray, from, to, &line);
    }
    LIST_ADD(arena, &line, tray_point(tray, to, NULL));
    return line;
}
