#include "report/plan_csv.h"

#include "report/figure.h"

static const double MM_PER_M = 1000;
static const double MM_PER_H_PER_MPS = 3.6e6;
static const double PERCENT = 100;

static void add_numbers(Text *text, const double *numbers, size_t count) {
    for (size_t i = 0; i < count; i++) {
        text_add(text, ",");
        figure_add_number(text, numbers[i]);
    }
}

static void add_sample(Text *text, const PlanSample *sample, const Zone *zone) {
    figure_add_instant(text, sample->at, zone);
    text_addf(text, ",%d,%d", sample->fill, sample->lane);
    const double numbers[] = {
        sample->along_m * MM_PER_M, sample->speed_mps * MM_PER_H_PER_MPS,
        sample->moisture * PERCENT, sample->margin,
        sample->margin_low,         sample->power_w,
        sample->outside_temp_c,     sample->outside_humidity * PERCENT,
        sample->cabinet_temp_c,     sample->cabinet_humidity * PERCENT,
        sample->co_mg_m3,
    };
    add_numbers(text, numbers, sizeof numbers / sizeof *numbers);
    text_add(text, "\r\n");
}

void plan_csv(Text *text, const Plan *plan) {
    text_add(text, "at,fill,lane,front_mm,speed_mm_per_h,bed_moisture_percent_dry,hold_margin,"
                   "hold_margin_late_front,power_w,outside_c,outside_humidity_percent,cabinet_c,"
                   "cabinet_humidity_percent,co_mg_per_m3\r\n");
    for (size_t i = 0; i < plan->samples.count; i++)
        add_sample(text, &plan->samples.items[i], plan->workshop->zone);
}
