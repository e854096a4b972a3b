/* Channel: stretches of a tray's centre line, and where they lie on the paper. */
#ifndef LAYOUT_CHANNEL_H
#define LAYOUT_CHANNEL_H

#include "base/arena.h"
#include "domain/plan.h"
#include "layout/path.h"

/* The tray's plane on the paper: its origin and its scale. */
typedef struct ChannelView {
    double x_mm;
    double y_mm;
    double mm_per_m;
} ChannelView;

typedef LIST_OF(Point) ChannelPoints;

Point channel_point(ChannelView view, MapPoint place);

/* The place at a length along a centre line, and the direction of the channel there, clockwise
 * from level to the right. Lengths beyond an end mean that end. */
MapPoint channel_at(const MapPoints *line, double along_m);
double channel_heading(const MapPoints *line, double along_m);

/* The stretch between two lengths, as points on the paper; empty when it has no length. */
ChannelPoints channel_part(Arena *arena, const MapPoints *line, double from_m, double to_m,
                           ChannelView view);

/* Outline of a band of that width about a line, corners mitred. */
ChannelPoints channel_outline(Arena *arena, const ChannelPoints *line, double width_mm);

#endif
