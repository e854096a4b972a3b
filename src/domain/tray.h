/* Tray: a channel that is filled with dust and smoulders from its lit end. */
#ifndef DOMAIN_TRAY_H
#define DOMAIN_TRAY_H

#include "domain/place.h"

typedef enum ChannelPath { PATH_LANES, PATH_SPIRAL, PATH_STRAIGHT } ChannelPath;
typedef enum ChannelWall { WALL_MESH, WALL_PLATE } ChannelWall;

typedef struct Tray {
    Place place;
    const char *id;
    const char *name;
    ChannelPath path;
    int lanes;            /* lanes: 1 to 60 */
    double lane_length_m; /* lanes and straight: length of one lane */
    double pitch_m;       /* lanes and spiral: centre line to centre line */
    double turns;         /* spiral */
    double outer_m;       /* spiral: diameter of the outermost centre line */
    double channel_width_m;
    double channel_depth_m;
    double bottom_width_m; /* trapezium channels; equals channel_width_m when walls are upright */
    ChannelWall wall;
    double metal_kg_m2; /* mass of wall and floor per area of their surface */
    bool metal_judged;  /* only its kind is known, nobody weighed it */
} Tray;

/* Centre line of the whole channel, over 0. */
double tray_channel_m(const Tray *tray);

#endif
