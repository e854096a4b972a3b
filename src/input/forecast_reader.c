#include "input/readers.h"

#include "base/file.h"
#include "input/source.h"

#include <string.h>

enum { FORECAST_BYTES_MAX = 1024 * 1024, READINGS_MAX = 1000, COLUMNS_MAX = 30 };

/* The columns that are read, those that need not be there last; others may stand beside them. */
enum { COLUMN_AT, COLUMN_TEMPERATURE, COLUMN_HUMIDITY, COLUMN_WIND, COLUMN_COUNT };
enum { COLUMNS_NEEDED = COLUMN_WIND };
static const char *const column_names[COLUMN_COUNT] = {"at", "temperature_c", "humidity_percent",
                                                       "wind_mps"};

static const char heading_remedy[] = "the first line is: at,temperature_c,humidity_percent";

typedef struct Cell {
    const char *text;
    Place place;
} Cell;

typedef LIST_OF(Cell) Cells;

typedef struct Forecast {
    Form *form;
    const Source *source;
    int columns[COLUMN_COUNT]; /* where each stands, from 0 */
    Weather *weather;
} Forecast;

static bool blank(char byte) {
    return byte == ' ' || byte == '\t' || byte == '\r';
}

static Cell trimmed(const Forecast *forecast, size_t from, size_t to) {
    const char *bytes = forecast->source->bytes;
    while (from < to && blank(bytes[from]))
        from++;
    while (to > from && blank(bytes[to - 1]))
        to--;
    return (Cell){arena_copy(forecast->form->arena, bytes + from, to - from),
                  source_place(forecast->source, from, to - from)};
}

/* The cells of the line at *at, which moves to the next line. */
static Cells take_line(const Forecast *forecast, size_t *at) {
    Cells cells = {0};
    const char *bytes = forecast->source->bytes;
    size_t from = *at, to = from;
    while (cells.count < COLUMNS_MAX) {
        while (to < forecast->source->length && bytes[to] != ',' && bytes[to] != '\n')
            to++;
        LIST_ADD(forecast->form->arena, &cells, trimmed(forecast, from, to));
        if (to == forecast->source->length || bytes[to] == '\n')
            break;
        from = ++to;
    }
    const char *end = to < forecast->source->length ? strchr(bytes + to, '\n') : NULL;
    *at = end ? (size_t)(end - bytes) + 1 : forecast->source->length;
    return cells;
}

static bool empty_line(const Cells *cells) {
    return cells->count == 1 && !cells->items[0].text[0];
}

static bool read_heading(Forecast *forecast, const Cells *cells) {
    bool whole = true;
    for (int wanted = 0; wanted < COLUMN_COUNT; wanted++) {
        forecast->columns[wanted] = -1;
        for (size_t i = 0; i < cells->count; i++)
            if (!strcmp(cells->items[i].text, column_names[wanted]))
                forecast->columns[wanted] = (int)i;
        if (wanted < COLUMNS_NEEDED && forecast->columns[wanted] < 0) {
            report_error(forecast->form->diagnostics, cells->items[0].place, heading_remedy,
                         "no column '%s'", column_names[wanted]);
            whole = false;
        }
    }
    return whole;
}

/* A bare number in the range that the attribute of <hour> has. */
static double read_cell(Forecast *forecast, const Cell *cell, int column, const char *attribute,
                        double times) {
    Form *form = forecast->form;
    const AttributeRule *rule = attribute_rule(element_rule(form->roots, "hour", NULL), attribute);
    double value, least, most;
    ValueFault fault = number_read(form->arena, column_names[column], cell->text, &value);
    if (fault.problem) {
        error_at(form, cell, fault.remedy, "%s", fault.problem);
        return NOT_STATED;
    }
    measure_read(form->arena, rule->measure, attribute, rule->least, &least);
    measure_read(form->arena, rule->measure, attribute, rule->most, &most);
    value *= times;
    if (value >= least && value <= most)
        return value;
    error_at(form, cell,
             arena_format(form->arena, "'%s' is at least %s and at most %s", column_names[column],
                          rule->least, rule->most),
             "'%s' is too %s for '%s'", cell->text, value < least ? "little" : "much",
             column_names[column]);
    return NOT_STATED;
}

/* An empty cell is a wind that nobody forecast. */
static double read_wind(Forecast *forecast, const Cells *cells) {
    int column = forecast->columns[COLUMN_WIND];
    if (column < 0 || !cells->items[column].text[0])
        return NOT_STATED;
    return read_cell(forecast, &cells->items[column], COLUMN_WIND, "wind", 1);
}

static void read_row(Forecast *forecast, const Cells *cells) {
    Form *form = forecast->form;
    for (int i = 0; i < COLUMN_COUNT; i++)
        if (forecast->columns[i] >= (int)cells->count) {
            report_error(form->diagnostics, cells->items[0].place, NULL, "a line without its '%s'",
                         column_names[i]);
            return;
        }
    const Cell *at = &cells->items[forecast->columns[COLUMN_AT]];
    WeatherReading reading = {
        .at = instant_read(form, at->place, column_names[COLUMN_AT], at->text),
        .temp_c = read_cell(forecast, &cells->items[forecast->columns[COLUMN_TEMPERATURE]],
                            COLUMN_TEMPERATURE, "temperature", 1),
        .humidity = read_cell(forecast, &cells->items[forecast->columns[COLUMN_HUMIDITY]],
                              COLUMN_HUMIDITY, "humidity", 0.01),
        .wind_mps = read_wind(forecast, cells),
        .place = at->place};
    size_t count = forecast->weather->readings.count;
    Instant before = count ? forecast->weather->readings.items[count - 1].at : 0;
    if (before && reading.at && reading.at <= before)
        error_at(form, at, "write the hours in the order they come",
                 "an hour that is not later than the one before it");
    LIST_ADD(form->arena, &forecast->weather->readings, reading);
}

static void read_lines(Forecast *forecast) {
    bool heading = true;
    for (size_t at = 0; at < forecast->source->length;) {
        Cells cells = take_line(forecast, &at);
        if (empty_line(&cells))
            continue;
        if (!heading && forecast->weather->readings.count == READINGS_MAX) {
            report_error(forecast->form->diagnostics, cells.items[0].place, NULL,
                         "more than %d readings", READINGS_MAX);
            return;
        }
        if (!heading)
            read_row(forecast, &cells);
        else if (!read_heading(forecast, &cells))
            return;
        heading = false;
    }
    if (!forecast->weather->readings.count)
        report_error(forecast->form->diagnostics, (Place){.file = forecast->source->file}, NULL,
                     "a forecast without a reading");
}

/* Nothing of a file is shown whose first line names no column: it is somebody else's. */
static bool is_forecast(const Source *source, Diagnostics *diagnostics) {
    char *line = arena_copy(diagnostics->arena, source->bytes, source->length);
    line += strspn(line, " \t\r\n");
    line[strcspn(line, "\n")] = '\0';
    if (!*line || strstr(line, column_names[COLUMN_TEMPERATURE]) ||
        strstr(line, column_names[COLUMN_HUMIDITY]))
        return true;
    report_error(diagnostics, (Place){.file = source->file}, heading_remedy,
                 "the file is no forecast");
    return false;
}

void read_forecast(Form *form, const char *path, Place named_at, bool *could_not_open,
                   Weather *weather) {
    Bytes bytes;
    const char *error;
    if (!file_read(form->arena, path, FORECAST_BYTES_MAX, &bytes, &error)) {
        *could_not_open = true;
        report_error(form->diagnostics, named_at,
                     "a forecast is looked for from the folder of the batch", "%s", error);
        return;
    }
    Source source = source_new(form->diagnostics, path, (const char *)bytes.data, bytes.length);
    Forecast forecast = {.form = form, .source = &source, .weather = weather};
    if (is_forecast(&source, form->diagnostics) && source_check_text(&source, form->diagnostics))
        read_lines(&forecast);
}
