#include "input/readers.h"

#include "base/number.h"

static const double best_window_max_s = 14.0 * SECONDS_PER_DAY;

static WeatherReading read_hour(Form *form, const Element *element, bool timed) {
    return (WeatherReading){.at = timed ? form_instant(form, element, "at") : 0,
                            .temp_c = form_number(form, element, "temperature"),
                            .humidity = form_number(form, element, "humidity"),
                            .wind_mps = form_number(form, element, "wind"),
                            .place = element->place};
}

static void read_hours(Form *form, const Element *element, Weather *weather) {
    for (const Element *hour = element_child(element, "hour"); hour;
         hour = element_sibling(hour, "hour")) {
        WeatherReading reading = read_hour(form, hour, true);
        size_t count = weather->readings.count;
        Instant before = count ? weather->readings.items[count - 1].at : 0;
        if (before && reading.at && reading.at <= before)
            report_error(form->diagnostics, element_value_place(hour, "at"),
                         "write the hours in the order they come",
                         "an hour that is not later than the one before it");
        LIST_ADD(form->arena, &weather->readings, reading);
    }
}

static void check_single(Form *form, const Element *element) {
    static const char *const names[] = {"temperature", "humidity"};
    for (size_t i = 0; i < 2; i++)
        if (!form_has(element, names[i]))
            report_error(form->diagnostics, element->place, NULL, "'weather' without its '%s'",
                         names[i]);
}

/* What only a single reading can say. */
static void check_only_single(Form *form, const Element *element) {
    static const char *const names[] = {"wind", "sky"};
    for (size_t i = 0; i < 2; i++)
        if (form_has(element, names[i]))
            report_error(form->diagnostics, element_attribute(element, names[i])->name_place,
                         i == 0 ? "write wind in every <hour>, or in a column 'wind_mps'"
                                : "a forecast says itself how cold the night gets: take it out",
                         "'%s' beside a forecast", names[i]);
}

Weather read_weather(Form *form, const Element *element, const char *folder, bool *could_not_open) {
    Weather weather = {.place = element->place};
    const char *from = form_text(form, element, "from");
    bool single = form_has(element, "temperature") || form_has(element, "humidity");
    bool hours = element_child(element, "hour") != NULL, file = form_has(element, "from");
    int ways = single + hours + file;
    if (ways != 1)
        report_error(form->diagnostics, element->place,
                     "write temperature=\"6 °C\" humidity=\"78 %\", or <hour> elements, or "
                     "from=\"forecast.csv\"",
                     ways ? "'weather' in more than one way" : "'weather' that says nothing");
    if (hours)
        read_hours(form, element, &weather);
    if (from)
        read_forecast(form, path_beside(form->arena, folder, from),
                      element_value_place(element, "from"), could_not_open, &weather);
    if (single) {
        check_single(form, element);
        WeatherReading reading = read_hour(form, element, false);
        if (!hours && !file)
            LIST_ADD(form->arena, &weather.readings, reading);
        weather.swings = weather.readings.count == 1 && !hours && !file;
        weather.clear = form_word(form, element, "sky", 0) == 1;
    } else {
        form_number(form, element, "wind");
        form_word(form, element, "sky", 0);
    }
    if (!single && ways == 1) {
        check_only_single(form, element);
    }
    return weather;
}

/* ---- Timing -------------------------------------------------------------------------------- */

bool check_after(Form *form, const Element *element, const char *name, Instant later,
                 const char *other, Instant earlier) {
    if (!later || !earlier || later > earlier)
        return true;
    report_error(form->diagnostics, element_value_place(element, name), NULL,
                 "'%s' is not later than %s", name, other);
    return false;
}

/* Look-ins where none are asked for: somebody who sleeps there gets up as often. Judgement. */
enum { look_ins_usual = 5 };

static void read_best(Form *form, const Element *element, Timing *timing) {
    timing->kind = TIMING_BEST;
    timing->at = form_instant(form, element, "best-from");
    timing->to = form_instant(form, element, "best-to");
    if (!form_has(element, "best-from") || !form_has(element, "best-to"))
        report_error(form->diagnostics, element->place, "a window has both",
                     "'best-from' or 'best-to' without the other");
    bool rising = check_after(form, element, "best-to", timing->to, "'best-from'", timing->at);
    if (rising && timing->to && timing->at && (double)(timing->to - timing->at) > best_window_max_s)
        report_error(form->diagnostics, element_value_place(element, "best-to"),
                     "a window is at most 14 days", "the window is too long");
}

static void read_away(Form *form, const Element *element, Timing *timing) {
    for (const Element *away = element_child(element, "away"); away;
         away = element_sibling(away, "away")) {
        Away hours = {.from = form_instant(form, away, "from"),
                      .to = form_instant(form, away, "to"),
                      .place = away->place};
        check_after(form, away, "to", hours.to, "'from'", hours.from);
        LIST_ADD(form->arena, &timing->away, hours);
    }
}

/* Somebody has to be there to light it. */
static void check_attended(Form *form, const Element *element, const Timing *timing) {
    for (size_t i = 0; i < timing->away.count; i++) {
        const Away *away = &timing->away.items[i];
        if (timing->kind == TIMING_LIGHT_AT && timing->at && away->from <= timing->at &&
            timing->at < away->to) {
            report_error(form->diagnostics, element_value_place(element, "light"),
                         "light before they go or after they are back",
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

Timing read_timing(Form *form, const Element *element, const Weather *weather) {
    Timing timing = {.place = element->place,
                     .look_ins = form_count(form, element, "look-ins", look_ins_usual)};
    bool light = form_has(element, "light"), finish = form_has(element, "finish-by");
    bool best = form_has(element, "best-from") || form_has(element, "best-to");
    int ways = light + finish + best;
    if (ways != 1)
        report_error(form->diagnostics, element->place,
                     "write one of 'light', 'finish-by', and 'best-from' with 'best-to'",
                     ways ? "'timing' in more than one way" : "'timing' that says nothing");
    if (best)
        read_best(form, element, &timing);
    if (finish) {
        timing.kind = TIMING_FINISH_BY;
        timing.at = form_instant(form, element, "finish-by");
        check_forecast(form, element, "finish-by", timing.at, weather);
    }
    if (light) {
        timing.kind = TIMING_LIGHT_AT;
        timing.at = form_instant(form, element, "light");
        check_forecast(form, element, "light", timing.at, weather);
    }
    read_away(form, element, &timing);
    check_attended(form, element, &timing);
    return timing;
}
