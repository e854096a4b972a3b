#include "model/chance.h"

#include "model/bounds.h"
#include "model/quadrature.h"

#include <math.h>

/* The shared part is taken at so many points, half a spread apart: to 4.5 spreads either side. */
enum { SHARED_POINTS = 19, PLACES = 4 };
static const double SHARED_APART = 0.5;
/* Log margins beyond this are sure to hold or not; no number is sure not to. */
static const double BEYOND_DOUBT = 20;

/* A lighting at one speed: where it stands and how well it holds at each end of a step. */
typedef struct Course {
    double start_s; /* since the first lighting */
    size_t count;
    double *time_s; /* since lit, rising */
    double *along_m;
    double *log_margin;
    double *least; /* log margin up to there */
} Course;

struct Chance {
    Holding holding;
    size_t speeds;
    size_t lightings;
    double weights[QUADRATURE_MOST];
    Course *courses; /* [speed][lighting] */
    double shared[SHARED_POINTS], shared_weights[SHARED_POINTS];
    double *before; /* [speed][lighting][shared]: chance that all lightings before it lasted */
};

static const Course *course_at(const Chance *chance, size_t speed, size_t lighting) {
    return &chance->courses[speed * chance->lightings + lighting];
}

static Course course_of(Arena *arena, const Night *night, const Lighting *lighting,
                        const LightingRun *run) {
    size_t count = run->path.points.count;
    double *figures = ARENA_ARRAY(arena, 4 * count, double);
    Course course = {.start_s = run->setup.start - (double)night->light_at,
                     .count = count,
                     .time_s = figures,
                     .along_m = figures + count,
                     .log_margin = figures + 2 * count,
                     .least = figures + 3 * count};
    double least = INFINITY;
    for (size_t i = 0; i < count; i++) {
        const BurnPoint *point = &run->path.points.items[i];
        course.time_s[i] = point->time_s;
        course.along_m[i] = point->along_m[0];
        double margin = lighting_margin(lighting, point, &point->air);
        course.log_margin[i] = clamp(log(margin), -BEYOND_DOUBT, BEYOND_DOUBT);
        least = fmin(least, course.log_margin[i]);
        course.least[i] = least;
    }
    return course;
}

static void share_out(Chance *chance) {
    const int middle = SHARED_POINTS / 2;
    double sum = 0;
    for (int i = 0; i < SHARED_POINTS; i++) {
        double z = SHARED_APART * (i - middle);
        chance->shared[i] = chance->holding.common_spread * z;
        chance->shared_weights[i] = exp(-z * z / 2);
        sum += chance->shared_weights[i];
    }
    for (int i = 0; i < SHARED_POINTS; i++) {
        chance->shared_weights[i] /= sum;
    }
}

/* Chance that one lighting holds at a least log margin, the shared part being known. */
static double holds_with(const Holding *holding, double least, double shared) {
    return quadrature_normal((least + holding->log_mean + shared) / holding->burn_spread);
}

static double *before_of(const Chance *chance, size_t speed, size_t lighting) {
    return chance->before + (speed * (chance->lightings + 1) + lighting) * SHARED_POINTS;
}

static void multiply_out(Chance *chance) {
    for (size_t speed = 0; speed < chance->speeds; speed++) {
        for (int i = 0; i < SHARED_POINTS; i++) {
            before_of(chance, speed, 0)[i] = 1;
        }
        for (size_t lighting = 0; lighting < chance->lightings; lighting++) {
            const Course *course = course_at(chance, speed, lighting);
            double least = course->least[course->count - 1];
            for (int i = 0; i < SHARED_POINTS; i++) {
                before_of(chance, speed, lighting + 1)[i] =
                    before_of(chance, speed, lighting)[i] *
                    holds_with(&chance->holding, least, chance->shared[i]);
            }
        }
    }
}

const Chance *chance_of(Arena *arena, const Night *night, const Holding *holding) {
    Chance *chance = ARENA_NEW(arena, Chance);
    *chance = (Chance){
        .holding = *holding, .speeds = night->speeds.count, .lightings = night->lightings.count};
    chance->courses = ARENA_ARRAY(arena, chance->speeds * chance->lightings, Course);
    for (size_t speed = 0; speed < chance->speeds; speed++) {
        const NightSpeed *at = &night->speeds.items[speed];
        chance->weights[speed] = at->weight;
        for (size_t i = 0; i < chance->lightings; i++) {
            chance->courses[speed * chance->lightings + i] =
                course_of(arena, night, &night->lightings.items[i], &at->runs[i]);
        }
    }
    share_out(chance);
    chance->before =
        ARENA_ARRAY(arena, chance->speeds * (chance->lightings + 1) * SHARED_POINTS, double);
    if (chance->lightings > 1) {
        multiply_out(chance);
    }
    return chance;
}

/* Chance that all lightings before one lasted and that one stays over a least log margin. */
static double lasts_at_speed(const Chance *chance, size_t speed, size_t lighting, double least) {
    const Holding *holding = &chance->holding;
    if (chance->lightings == 1) {
        double spread = hypot(holding->common_spread, holding->burn_spread);
        return quadrature_normal((least + holding->log_mean) / spread);
    }
    const double *before = before_of(chance, speed, lighting);
    double sum = 0;
    for (int i = 0; i < SHARED_POINTS; i++) {
        sum += chance->shared_weights[i] * before[i] *
               holds_with(holding, least, chance->shared[i]);
    }
    return sum;
}

static double end_of(const Course *course) {
    return course->start_s + course->time_s[course->count - 1];
}

/* The step that holds a value of a rising row, from 1, and how far into it. */
static size_t step_holding(const double *row, size_t count, double value, double *share) {
    size_t step = 1;
    while (step + 1 < count && row[step] < value) {
        step++;
    }
    double length = row[step] - row[step - 1];
    *share = length > 0 ? clamp((value - row[step - 1]) / length, 0, 1) : 1;
    return step;
}

/* Log margin, and its least so far, where a rising row of the course reaches a value. */
static double log_margin_where(const Course *course, const double *row, double value,
                               double *least) {
    double share;
    size_t step = step_holding(row, course->count, value, &share);
    double from = course->log_margin[step - 1];
    double now = from + share * (course->log_margin[step] - from);
    *least = fmin(course->least[step - 1], now);
    return now;
}

/* The lighting that burns at a time or burnt last before it. */
static size_t lighting_lit(const Chance *chance, size_t speed, double elapsed_s) {
    size_t lighting = 0;
    while (lighting + 1 < chance->lightings &&
           course_at(chance, speed, lighting + 1)->start_s <= elapsed_s) {
        lighting++;
    }
    return lighting;
}

double chance_lasting(const Chance *chance, double elapsed_s) {
    if (elapsed_s < 0) {
        return 1;
    }
    double sum = 0;
    for (size_t speed = 0; speed < chance->speeds; speed++) {
        size_t lighting = lighting_lit(chance, speed, elapsed_s);
        const Course *course = course_at(chance, speed, lighting);
        double least;
        log_margin_where(course, course->time_s, elapsed_s - course->start_s, &least);
        sum += chance->weights[speed] * lasts_at_speed(chance, speed, lighting, least);
    }
    return clamp(sum, 0, 1);
}

double chance_lasts(const Chance *chance) {
    return chance_lasting(chance, INFINITY);
}

double chance_holding(const Chance *chance, double elapsed_s) {
    double spread = hypot(chance->holding.common_spread, chance->holding.burn_spread);
    double sum = 0;
    for (size_t speed = 0; speed < chance->speeds; speed++) {
        const Course *course = course_at(chance, speed, lighting_lit(chance, speed, elapsed_s));
        double least, holds = 1;
        if (elapsed_s >= course->start_s && elapsed_s <= end_of(course)) {
            double now =
                log_margin_where(course, course->time_s, elapsed_s - course->start_s, &least);
            holds = quadrature_normal((now + chance->holding.log_mean) / spread);
        }
        sum += chance->weights[speed] * holds;
    }
    return sum;
}

double chance_end_s(const Chance *chance) {
    double end_s = 0;
    for (size_t speed = 0; speed < chance->speeds; speed++) {
        end_s = fmax(end_s, end_of(course_at(chance, speed, chance->lightings - 1)));
    }
    return end_s;
}

/* Chance that the fronts of a lighting get so far, as a share of its whole way. */
static double gets_to(const Chance *chance, size_t lighting, double share) {
    double sum = 0;
    for (size_t speed = 0; speed < chance->speeds; speed++) {
        const Course *course = course_at(chance, speed, lighting);
        double least, along_m = share * course->along_m[course->count - 1];
        log_margin_where(course, course->along_m, along_m, &least);
        sum += chance->weights[speed] * lasts_at_speed(chance, speed, lighting, least);
    }
    return sum;
}

/* Each lighting: as soon as it is lit, and by quarters of its way. */
ChancePlace chance_worst_place(const Chance *chance) {
    ChancePlace worst = {.share = -1};
    double before = 1;
    for (size_t lighting = 0; lighting < chance->lightings; lighting++) {
        const Course *course = course_at(chance, chance->speeds / 2, lighting);
        double whole_m = course->along_m[course->count - 1];
        for (int i = 0; i <= PLACES; i++) {
            double after = gets_to(chance, lighting, (double)i / PLACES);
            if (before - after > worst.share) {
                double along_m = i > 0 ? whole_m * (i - 0.5) / PLACES : 0;
                worst = (ChancePlace){lighting, along_m, before - after};
            }
            before = after;
        }
    }
    return worst;
}
