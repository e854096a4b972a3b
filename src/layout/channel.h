/* Channel: stretches of a tray's centre line, and where they lie on the paper. */
#ifndef LAYOUT_CHANNEL_H
#define LAYOUT_CHANNEL_H

#include "base/arena.h"
#include "domain/plan.h"
#include "layout/path.h"

/* The tray's plane on the paper: its origin and its scales. Lanes may be stretched along their
 * length: whoever reads a place along them then reads it the more easily. */
typedef struct ChannelView {
    double x_mm;
    double y_mm;
    double across_mm_per_m;
    double down_mm_per_m;
} ChannelView;

/* The same scale both ways. */
ChannelView channel_view(double x_mm, double y_mm, double mm_per_m);

typedef LIST_OF(Point) ChannelPoints;

Point channel_point(ChannelView view, MapPoint place);

/* The place at a length along a centre line, and the direction of the channel there, clockwise
 * from level to the right. Lengths beyond an end mean that end. */
MapPoint channel_at(const MapPoints *line, double along_m);
double channel_heading(const MapPoints *line, double along_m);

/* The length along the channel that lies so many millimetres of paper onward from another, or back
 * where they are negative; no further than an end. */
double channel_onward(const MapPoints *line, double along_m, double by_mm, ChannelView view);

/* The stretch between two lengths, as points on the paper; empty when it has no length. */
ChannelPoints channel_part(Arena *arena, const MapPoints *line, double from_m, double to_m,
                           ChannelView view);

/* Outline of a band of that width about a line, corners mitred. */
ChannelPoints channel_outline(Arena *arena, const ChannelPoints *line, double width_mm);

#endif
