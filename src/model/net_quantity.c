#include "model/net_quantity.h"

#include <math.h>

#define COUNT_OF(array) (sizeof(array) / sizeof *(array))

static const double kg_per_pound = 0.45359237;
static const double m2_per_square_inch = 0.0254 * 0.0254;
/* Bounds are met with this much to spare, so that 0.2 kg is 200 g whatever the last bit says. */
static const double hair = 1e-9;

/* Up to and including `upper` (SI unit of the table) the figures are at least this tall. */
typedef struct HeightRow {
    double upper;
    double height_m;
} HeightRow;

static const HeightRow by_quantity_kg[] = {{0.05, 0.002}, {0.2, 0.003}, {1.0, 0.004}};
static const double height_from_1_kg_m = 0.006;

static const HeightRow by_area_sq_in[] = {
    {5, 0.0016}, {25, 0.0032}, {100, 0.0048}, {400, 0.0064}, {INFINITY, 0.0127}};
static const double unknown_face_sq_in = 400;

static const HeightRow by_side_m[] = {
    {0.12, 0.002}, {0.23, 0.0025}, {0.36, 0.0033}, {INFINITY, 0.0048}};

static double row_height(const HeightRow *rows, size_t count, double value, double otherwise) {
    for (size_t i = 0; i < count; i++) {
        if (value <= rows[i].upper * (1 + hair)) {
            return rows[i].height_m;
        }
    }
    return otherwise;
}

static double height_by_area(double width_m, double height_m) {
    double area = is_stated(width_m) && is_stated(height_m)
                      ? width_m * height_m / m2_per_square_inch
                      : unknown_face_sq_in;
    return row_height(by_area_sq_in, COUNT_OF(by_area_sq_in), area, 0);
}

static double height_by_side(double width_m, double height_m) {
    double side = is_stated(width_m) && is_stated(height_m) ? fmax(width_m, height_m) : INFINITY;
    return row_height(by_side_m, COUNT_OF(by_side_m), side, 0);
}

static double height_by_quantity(double net_kg) {
    if (net_kg >= 1 - hair) {
        return height_from_1_kg_m;
    }
    return row_height(by_quantity_kg, COUNT_OF(by_quantity_kg), net_kg, height_from_1_kg_m);
}

double net_quantity_figure_height_m(Market market, double net_kg, double face_width_m,
                                    double face_height_m) {
    switch (market) {
    case MARKET_US: return height_by_area(face_width_m, face_height_m);
    case MARKET_AU: return height_by_side(face_width_m, face_height_m);
    case MARKET_EU:
    case MARKET_UK: break;
    }
    return height_by_quantity(net_kg);
}

/* Directive 76/211/EEC, article 1. */
static const double e_mark_from_kg = 0.005;
static const double e_mark_to_kg = 10;

bool net_quantity_e_mark(Market market, FillingRule filling, double net_kg) {
    bool there = market == MARKET_EU || market == MARKET_UK;
    return there && filling == FILLING_AVERAGE && net_kg >= e_mark_from_kg * (1 - hair) &&
           net_kg <= e_mark_to_kg * (1 + hair);
}

/* Up to and including `upper_kg` the error is a share of the quantity, or else a mass. */
typedef struct ErrorRow {
    double upper_kg;
    double share;
    double mass_kg;
} ErrorRow;

static const ErrorRow average_system[] = {
    {0.05, 0.09, 0}, {0.1, 0, 0.0045}, {0.2, 0.045, 0}, {0.3, 0, 0.009},     {0.5, 0.03, 0},
    {1.0, 0, 0.015}, {10, 0.015, 0},   {15, 0, 0.15},   {INFINITY, 0.01, 0},
};

/* NIST Handbook 133, table 2-5, in pounds (from memory; up to 2.48 lb also as printed in grams). */
static const struct {
    double upper_lb;
    double variation_lb;
} allowable_variation[] = {
    {0.12, 0.008}, {0.18, 0.012}, {0.26, 0.016}, {0.34, 0.020}, {0.46, 0.024}, {0.58, 0.028},
    {0.70, 0.032}, {0.84, 0.036}, {0.94, 0.040}, {1.08, 0.044}, {1.26, 0.048}, {1.40, 0.052},
    {1.54, 0.056}, {1.70, 0.060}, {1.88, 0.064}, {2.14, 0.070}, {2.48, 0.078}, {2.76, 0.086},
    {3.20, 0.094}, {3.90, 0.11},  {4.70, 0.12},  {5.80, 0.14},  {6.80, 0.15},  {7.90, 0.17},
    {9.40, 0.19},  {11.70, 0.22}, {14.30, 0.25}, {17.70, 0.28}, {23.20, 0.31}, {31.60, 0.37},
    {42.40, 0.44}, {54.40, 0.50},
};
static const double small_variation_share = 0.10; /* below the first row */
static const double small_upper_lb = 0.08;
static const double large_variation_share = 0.02; /* above the last row */

static double allowable_variation_kg(double net_kg) {
    double net_lb = net_kg / kg_per_pound;
    if (net_lb < small_upper_lb) {
        return small_variation_share * net_kg;
    }
    for (size_t i = 0; i < COUNT_OF(allowable_variation); i++) {
        if (net_lb <= allowable_variation[i].upper_lb) {
            return allowable_variation[i].variation_lb * kg_per_pound;
        }
    }
    return large_variation_share * net_kg;
}

static double unrounded_error_kg(double net_kg) {
    const ErrorRow *row = average_system;
    while (net_kg > row->upper_kg * (1 + hair)) {
        row++;
    }
    return row->share > 0 ? row->share * net_kg : row->mass_kg;
}

double net_quantity_tolerance_kg(Market market, double net_kg) {
    const double step_kg = 0.0001;
    if (market == MARKET_US) {
        return allowable_variation_kg(net_kg);
    }
    return ceil(unrounded_error_kg(net_kg) / step_kg - 1e-6) * step_kg;
}

double net_quantity_most_short_kg(Market market, double net_kg) {
    return market == MARKET_US ? allowable_variation_kg(net_kg) : 2 * unrounded_error_kg(net_kg);
}
