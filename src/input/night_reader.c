#include "input/readers.h"
#include "input/sleep.h"

#include "base/number.h"

#include "schema/rows.h"

static const double best_window_max_s = 14.0 * SECONDS_PER_DAY;

/* ---- Weather ------------------------------------------------------------------------------- */

static void check_hour(Form *form, const Element *element, void *into) {
    const WeatherReading *reading = into;
    const Weather *weather = form->outer;
    size_t count = weather->readings.count;
    Instant before = count ? weather->readings.items[count - 1].at : 0;
    if (before && reading->at && reading->at <= before)
        error_at_value(form, element, "at", "write the hours in the order they come",
                       "an hour that is not later than the one before it");
}

static const AttributeRule hour_attributes[] = {
    ROW("at", INSTANT, WeatherReading, at, "local time of the reading", MUST),
    ROW("temperature", OUTSIDE, WeatherReading, temp_c, "of the air", MUST),
    ROW("humidity", HUMIDITY, WeatherReading, humidity, "relative", MUST),
    ROW("wind", WIND("0 m/s", "60 m/s"), WeatherReading, wind_mps,
        "at 10 m, as a forecast gives it"),
};
static ELEMENT(hour, "One reading of the weather.", OWN_STRUCT(WeatherReading),
               .check = check_hour);

static void check_single(Form *form, const Element *element) {
    static const char *const names[] = {"temperature", "humidity"};
    for (size_t i = 0; i < 2; i++)
        if (!form_has(element, names[i]))
            error_at(form, element, NULL, "'weather' without its '%s'", names[i]);
}

/* What only a single reading can say. */
static void check_only_single(Form *form, const Element *element) {
    static const char *const names[] = {"wind", "sky"};
    for (size_t i = 0; i < 2; i++)
        if (form_has(element, names[i]))
            error_at_name(form, element, names[i],
                          i == 0 ? "write wind in every <hour>, or in a column 'wind_mps'"
                                 : "a forecast says itself how cold the night gets: take it out",
                          "'%s' beside a forecast", names[i]);
}

static void check_weather(Form *form, const Element *element, void *into) {
    Weather *weather = into;
    BatchContext *context = form->context;
    const char *from = form_text(form, element, "from");
    bool single = form_has(element, "temperature") || form_has(element, "humidity");
    bool hours = element_child(element, "hour") != NULL, file = form_has(element, "from");
    int ways = single + hours + file;
    WeatherReading reading = {.temp_c = form_number(form, element, "temperature"),
                              .humidity = form_number(form, element, "humidity"),
                              .wind_mps = form_number(form, element, "wind"),
                              .place = element->place};
    if (ways != 1)
        error_at(form, element,
                 "write temperature=\"6 °C\" humidity=\"78 %\", or <hour> elements, or "
                 "from=\"forecast.csv\"",
                 ways ? "'weather' in more than one way" : "'weather' that says nothing");
    if (from)
        read_forecast(form, path_beside(form->arena, context->folder, from),
                      element_value_place(element, "from"), &context->could_not_open, weather);
    if (single)
        check_single(form, element);
    else if (ways == 1)
        check_only_single(form, element);
    weather->swings = single && ways == 1;
    if (weather->swings)
        LIST_ADD(form->arena, &weather->readings, reading);
}

static const AttributeRule weather_attributes[] = {
    CHECKED("temperature", OUTSIDE, "at the hour of lighting"),
    CHECKED("humidity", HUMIDITY, "relative, at the hour of lighting"),
    CHECKED("wind", WIND("0 m/s", "60 m/s"), "as a forecast gives it; still when not written"),
    ROW("usual", YES_NO, Weather, usual,
        "what is usual at that time of the year, and no forecast: the night has to be tended"),
    ROW("sky", WORDS("cloudy clear"), Weather, clear, "a clear night cools more",
        .usual = "cloudy"),
    CHECKED("from", TEXT,
            "file of a forecast, looked for from the folder of this file, with the columns at, "
            "temperature_c, humidity_percent, and if you like wind_mps"),
};
static const ChildRule weather_children[] = {SEVERAL(hour, 0, 1000, Weather, readings)};
ELEMENT(weather, "One reading at the hour of lighting, or hours, or a forecast file.",
        CHILDREN(weather_children), OWN_STRUCT(Weather), .check = check_weather,
        .advice = "what it is like at the hour of lighting: "
                  "<weather temperature=\"6 °C\" humidity=\"70 %\"/>");

/* ---- Timing -------------------------------------------------------------------------------- */

bool check_after(Form *form, const Element *element, const char *name, Instant later,
                 const char *other, Instant earlier) {
    if (!later || !earlier || later > earlier)
        return true;
    error_at_value(form, element, name, "after midnight it has the date of the next day",
                   "'%s' is not later than %s", name, other);
    return false;
}

static void check_away(Form *form, const Element *element, void *into) {
    const Away *away = into;
    check_after(form, element, "to", away->to, "'from'", away->from);
}

static const AttributeRule away_attributes[] = {
    ROW("from", INSTANT, Away, from, "from then nobody can look in", MUST),
    ROW("to", INSTANT, Away, to, "until then", MUST),
};
static ELEMENT(away, "Hours in which nobody can look in.", OWN_STRUCT(Away), .check = check_away);

static void read_best(Form *form, const Element *element, Timing *timing) {
    timing->kind = TIMING_BEST;
    timing->at = form_instant(form, element, "best-from");
    timing->to = form_instant(form, element, "best-to");
    if (!form_has(element, "best-from") || !form_has(element, "best-to"))
        error_at(form, element, "a window has both", "'best-from' or 'best-to' without the other");
    bool rising = check_after(form, element, "best-to", timing->to, "'best-from'", timing->at);
    if (rising && timing->to && timing->at && (double)(timing->to - timing->at) > best_window_max_s)
        error_at_value(form, element, "best-to", "a window is at most 14 days",
                       "the window is too long");
}

/* Somebody has to be there to light it. */
static void check_attended(Form *form, const Element *element, const Timing *timing) {
    for (size_t i = 0; i < timing->away.count; i++) {
        const Away *away = &timing->away.items[i];
        if (timing->kind == TIMING_LIGHT_AT && timing->at && away->from <= timing->at &&
            timing->at < away->to) {
            error_at_value(form, element, "light", "light before they go or after they are back",
                           "nobody is there to light it at '%s'", element_value(element, "light"));
            return;
        }
    }
}

/* A forecast that does not reach the time asked for. */
static void check_forecast(Form *form, const Element *element, const char *name, Instant at,
                           const Weather *weather) {
    size_t count = weather ? weather->readings.count : 0;
    if (count < 2 || !at)
        return;
    Instant first = weather->readings.items[0].at;
    Instant last = weather->readings.items[count - 1].at;
    if (first && last && (at < first || at > last))
        report_warning(form->diagnostics, element_value_place(element, name),
                       "the reading nearest in time is taken", "the forecast does not reach '%s'",
                       element_value(element, name));
}

/* One reading makes every day of a window alike, and a forecast that ends early says nothing of
 * its last days. */
static void check_window_weather(Form *form, const Element *element, const Timing *timing,
                                 const Weather *weather) {
    size_t count = weather->readings.count;
    if (!timing->at || !timing->to || timing->to - timing->at <= SECONDS_PER_DAY || count == 0)
        return;
    if (count == 1)
        report_warning(form->diagnostics, element_value_place(element, "best-to"),
                       "write from=\"forecast.csv\" in 'weather'",
                       "one reading of the weather tells no day of the window from another");
    else if (weather->readings.items[count - 1].at < timing->to)
        report_warning(form->diagnostics, element_value_place(element, "best-to"),
                       "only hours whose night it reaches are chosen from",
                       "the forecast ends before the window does");
}

static void check_timing(Form *form, const Element *element, void *into) {
    Timing *timing = into;
    const Weather *weather = &((const Batch *)form->outer)->weather;
    bool light = form_has(element, "light"), finish = form_has(element, "finish-by");
    bool best = form_has(element, "best-from") || form_has(element, "best-to");
    int ways = light + finish + best;
    if (ways != 1)
        error_at(form, element, "write one of 'light', 'finish-by', and 'best-from' with 'best-to'",
                 ways ? "'timing' in more than one way" : "'timing' that says nothing");
    if (best) {
        read_best(form, element, timing);
        check_window_weather(form, element, timing, weather);
    }
    if (finish) {
        timing->kind = TIMING_FINISH_BY;
        timing->at = form_instant(form, element, "finish-by");
        check_forecast(form, element, "finish-by", timing->at, weather);
    }
    if (light) {
        timing->kind = TIMING_LIGHT_AT;
        timing->at = form_instant(form, element, "light");
        check_forecast(form, element, "light", timing->at, weather);
    }
    check_attended(form, element, timing);
    const Workshop *workshop = ((const BatchContext *)form->context)->workshop;
    if (workshop)
        sleep_add(form->arena, workshop, timing);
}

/* Look-ins where none are asked for: somebody who sleeps there gets up as often. Judgement. */
static const AttributeRule timing_attributes[] = {
    CHECKED("light", INSTANT, "when to light"),
    CHECKED("finish-by", INSTANT, "when it is to be out"),
    CHECKED("best-from", INSTANT, "start of the window for the best start"),
    CHECKED("best-to", INSTANT, "end of that window"),
    ROW("look-ins", COUNT("0", "12"), Timing, look_ins,
        "how often somebody looks in at most, besides after lighting and at the end", .usual = "5"),
};
static const ChildRule timing_children[] = {SEVERAL(away, 0, 20, Timing, away)};
ELEMENT(timing, "When: light, finish-by, or best-from with best-to.", CHILDREN(timing_children),
        OWN_STRUCT(Timing), .check = check_timing,
        .advice = "when to light: <timing light=\"2026-12-04T21:30\"/>, or finish-by");
