/* Fill plan: one lighting of the night as the plan shows it, with its map. */
#ifndef MODEL_FILL_PLAN_H
#define MODEL_FILL_PLAN_H

#include "model/night.h"

/* The figures of the lighting number `index`, from 0; without a band in the night, its ends are
 * out_at. `blend_moisture`: as mixed, before drying. */
PlanFill fill_plan_figures(const Night *night, size_t index, double blend_moisture);

/* Adds the map: centre line, ends, hour marks, weak stretches. */
void fill_plan_map(Arena *arena, const Night *night, size_t index, PlanFill *fill);

/* Instant at so many seconds after a run was lit, to the nearest second. */
Instant fill_plan_instant(const LightingRun *run, double time_s);

/* Margin of a lighting at a time of its middle run. */
double fill_plan_margin_at(const Lighting *lighting, double time_s);

#endif
