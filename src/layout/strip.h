/* Strip: one value of the night's samples over the clock, and the axis of time below. */
#ifndef LAYOUT_STRIP_H
#define LAYOUT_STRIP_H

#include "layout/block.h"

typedef struct TimeAxis {
    Instant from;
    Instant to;
    double x_mm;
    double width_mm;
} TimeAxis;

typedef struct Strip {
    TimeAxis axis;
    double y_mm; /* top */
    double height_mm;
    double low;  /* value at the bottom */
    double high; /* and at the top */
} Strip;

/* A text beside the strips, at the height of what it names. */
typedef struct StripLabel {
    double y_mm;
    const char *text;
} StripLabel;

typedef LIST_OF(StripLabel) StripLabels;

/* Which value of a sample is drawn. */
typedef double (*SampleValue)(const PlanSample *sample);

double axis_x_mm(const TimeAxis *axis, Instant at);

/* What the axis takes below the strips. */
double axis_height_mm(TextStyle style);

/* Ticks and clock times of the full hours below the box, thinned where they would touch. */
void axis_draw(Layout *layout, const TimeAxis *axis, TextStyle style, Box box);

double strip_y_mm(const Strip *strip, double value);

/* Sets the range to that of the burning samples' values; widens it to hold others too. */
void strip_range(Strip *strip, const Plan *plan, SampleValue value);
void strip_widen(Strip *strip, double low, double high);

/* Leaves a little room under the least value and over the greatest. */
void strip_clear(Strip *strip);

/* A line through the values, broken between fills. */
void strip_line(Pen *pen, const Strip *strip, const Plan *plan, SampleValue value, Style style);

/* Sets the labels from x on, between top and bottom of the box, moved apart where they would
 * touch. */
void strip_labels(Pen *pen, Box box, TextStyle style, const StripLabels *labels);

#endif
