#include "layout/channel.h"

#include <math.h>
#include <stdbool.h>

#define MOST_MITRE 3.0 /* half widths that a corner may reach out */

ChannelView channel_view(double x_mm, double y_mm, double mm_per_m) {
    return (ChannelView){x_mm, y_mm, mm_per_m, mm_per_m};
}

Point channel_point(ChannelView view, MapPoint place) {
    return (Point){view.x_mm + place.x_m * view.across_mm_per_m,
                   view.y_mm + place.y_m * view.down_mm_per_m};
}

/* Index of the point at or before the length, with one behind it. */
static size_t segment_at(const MapPoints *line, double along_m) {
    size_t i = 0;
    while (i + 2 < line->count && line->items[i + 1].along_m <= along_m)
        i++;
    return i;
}

MapPoint channel_at(const MapPoints *line, double along_m) {
    if (line->count < 2)
        return line->count ? line->items[0] : (MapPoint){0};
    size_t i = segment_at(line, along_m);
    MapPoint a = line->items[i];
    MapPoint b = line->items[i + 1];
    double length_m = b.along_m - a.along_m;
    double part = length_m > 0 ? fmin(fmax((along_m - a.along_m) / length_m, 0), 1) : 0;
    return (MapPoint){a.x_m + (b.x_m - a.x_m) * part, a.y_m + (b.y_m - a.y_m) * part,
                      a.along_m + length_m * part};
}

double channel_heading(const MapPoints *line, double along_m) {
    if (line->count < 2)
        return 0;
    size_t i = segment_at(line, along_m);
    MapPoint a = line->items[i];
    MapPoint b = line->items[i + 1];
    return atan2(b.y_m - a.y_m, b.x_m - a.x_m);
}

double channel_onward(const MapPoints *line, double along_m, double by_mm, ChannelView view) {
    bool on = by_mm > 0;
    double left_mm = fabs(by_mm);
    size_t i = line->count < 2 ? 0 : segment_at(line, along_m);
    double at_m = channel_at(line, along_m).along_m;
    while (i + 1 < line->count) {
        Point from = channel_point(view, line->items[i]);
        Point to = channel_point(view, line->items[i + 1]);
        double start_m = line->items[i].along_m;
        double end_m = line->items[i + 1].along_m;
        double mm_per_m = hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm) /
                          fmax(end_m - start_m, 1e-9);
        double room_mm = (on ? end_m - at_m : at_m - start_m) * mm_per_m;
        if (room_mm >= left_mm)
            return at_m + (on ? 1 : -1) * left_mm / mm_per_m;
        left_mm -= room_mm;
        at_m = on ? end_m : start_m;
        if (!on && i == 0)
            break;
        i = on ? i + 1 : i - 1;
    }
    return at_m;
}

ChannelPoints channel_part(Arena *arena, const MapPoints *line, double from_m, double to_m,
                           ChannelView view) {
    ChannelPoints points = {0};
    if (line->count < 2 || !(to_m > from_m))
        return points;
    MapPoint start = channel_at(line, from_m);
    MapPoint end = channel_at(line, to_m);
    LIST_ADD(arena, &points, channel_point(view, start));
    for (size_t i = 0; i < line->count; i++)
        if (line->items[i].along_m > start.along_m && line->items[i].along_m < end.along_m)
            LIST_ADD(arena, &points, channel_point(view, line->items[i]));
    LIST_ADD(arena, &points, channel_point(view, end));
    return points;
}

/* Unit vector across the segment from point i to the next, turned a quarter clockwise. */
static Point normal_of(const ChannelPoints *line, size_t i) {
    double x = line->items[i + 1].x_mm - line->items[i].x_mm;
    double y = line->items[i + 1].y_mm - line->items[i].y_mm;
    double length = hypot(x, y);
    return length > 0 ? (Point){-y / length, x / length} : (Point){0, 0};
}

/* The corner of the band beside point i, on one side (+1 or -1). */
static Point corner(const ChannelPoints *line, size_t i, double half_mm, double side) {
    size_t last = line->count - 2;
    Point before = normal_of(line, i > 0 ? i - 1 : 0);
    Point after = normal_of(line, i < last ? i : last);
    double x = before.x_mm + after.x_mm;
    double y = before.y_mm + after.y_mm;
    double square = x * x + y * y;
    double reach = square > 0 ? fmin(2 / square, MOST_MITRE) : 0;
    return (Point){line->items[i].x_mm + side * half_mm * x * reach,
                   line->items[i].y_mm + side * half_mm * y * reach};
}

ChannelPoints channel_outline(Arena *arena, const ChannelPoints *line, double width_mm) {
    ChannelPoints outline = {0};
    if (line->count < 2)
        return outline;
    for (size_t i = 0; i < line->count; i++)
        LIST_ADD(arena, &outline, corner(line, i, width_mm / 2, 1));
    for (size_t i = line->count; i-- > 0;)
        LIST_ADD(arena, &outline, corner(line, i, width_mm / 2, -1));
    return outline;
}
