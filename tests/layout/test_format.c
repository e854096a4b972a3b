/* Figures as they are read. Expected texts follow the SI brochure (9th edition, 5.4: a space
 * between number and unit) and, for changes of unit, the exact definitions of inch, pound and
 * Fahrenheit; the last digits were worked out by hand. In the tables "_" stands for the narrow
 * no-break space and "-" before a figure for the true minus. */
#include "layout/format.h"
#include "support/language.h"
#include "support/arena_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <string.h>

typedef struct Case {
    QuantityKind kind;
    double value;
    const char *style;
    const char *metric;
    const char *us;
} Case;

static const Case cases[] = {
    {QUANTITY_COUNT, 6, NULL, "6", "6"},
    {QUANTITY_COUNT, 12000, NULL, "12_000", "12_000"},
    {QUANTITY_RATIO, 1.35, NULL, "1.35", "1.35"},
    {QUANTITY_SHARE, 0.3, NULL, "30_%", "30_%"},
    {QUANTITY_SHARE, 0.0049, NULL, "0.5_%", "0.5_%"},
    {QUANTITY_SHARE, 0, NULL, "0_%", "0_%"},
    {QUANTITY_SHARE, 0.3044, "fine", "30.4_%", "30.4_%"},
    {QUANTITY_MOISTURE, 0.04, NULL, "4.0_% of dry wood", "4.0_% of dry wood"},
    {QUANTITY_MOISTURE, 0.04, "short", "4.0_%", "4.0_%"},
    {QUANTITY_MOISTURE, 0.25, "wet", "20.0_% of the whole", "20.0_% of the whole"},
    {QUANTITY_MOISTURE, 0.25, "wet-short", "20.0_%", "20.0_%"},
    {QUANTITY_MOISTURE, 0.25, "number", "25.0", "25.0"},
    {QUANTITY_HUMIDITY, 0.784, NULL, "78_%", "78_%"},
    {QUANTITY_MASS, 0.25, NULL, "250_g", "8.82_oz"},
    {QUANTITY_MASS, 0.9994, NULL, "999_g", "2_lb_3.25_oz"},
    {QUANTITY_MASS, 0.9996, NULL, "1.000_kg", "2_lb_3.26_oz"},
    {QUANTITY_MASS, 1.25, NULL, "1.250_kg", "2_lb_12.09_oz"},
    {QUANTITY_MASS, 0.45359237, NULL, "454_g", "1_lb_0.00_oz"},
    {QUANTITY_MASS, 1.25, "g", "1250_g", "1250_g"},
    {QUANTITY_MASS, 12.5, "g", "12_500_g", "12_500_g"},
    {QUANTITY_MASS, 6, "short", "6_kg", "13.2_lb"},
    {QUANTITY_MASS, 0.0875, "short", "87.5_g", "3.09_oz"},
    {QUANTITY_MASS, 0.25, "number", "250", "250"},
    {QUANTITY_LENGTH, 1.02, NULL, "1020_mm", "40_3/16_in"},
    {QUANTITY_LENGTH, 0.0254, NULL, "25_mm", "1_in"},
    {QUANTITY_LENGTH, 0.0127, NULL, "13_mm", "1/2_in"},
    {QUANTITY_LENGTH, 0.002, NULL, "2.0_mm", "1/16_in"},
    {QUANTITY_LENGTH, 1.02, "m", "1.02_m", "3.35_ft"},
    {QUANTITY_GRAIN, 500e-6, NULL, "500_µm", "500_µm"},
    {QUANTITY_GRAIN, 1.4e-3, NULL, "1.4_mm", "1.4_mm"},
    {QUANTITY_GRAIN, 999.7e-6, NULL, "1_mm", "1_mm"},
    {QUANTITY_GRAIN, 512.3e-6, "about", "510_µm", "510_µm"},
    {QUANTITY_GRAIN, 1.514e-3, "about", "1.5_mm", "1.5_mm"},
    {QUANTITY_GRAIN, 995.1e-6, "about", "1_mm", "1_mm"},
    {QUANTITY_AREA, 40e-4, NULL, "40_cm²", "6.2_sq in"},
    {QUANTITY_VOLUME, 0.408e-3, NULL, "0.41_l", "25_cu in"},
    {QUANTITY_DENSITY, 200, NULL, "200_kg/m³", "12.5_lb/cu ft"},
    {QUANTITY_TEMPERATURE, 100, NULL, "100_°C", "212_°F"},
    {QUANTITY_TEMPERATURE, -40, NULL, "-40_°C", "-40_°F"},
    {QUANTITY_TEMPERATURE, -0.3, NULL, "0_°C", "31_°F"},
    {QUANTITY_TEMPERATURE, 21.64, "fine", "21.6_°C", "71.0_°F"},
    {QUANTITY_DURATION, 31200, NULL, "8_h_40_min", "8_h_40_min"},
    {QUANTITY_DURATION, 900, NULL, "15_min", "15_min"},
    {QUANTITY_DURATION, 3599, NULL, "1_h", "1_h"},
    {QUANTITY_DURATION, 42, NULL, "42_s", "42_s"},
    {QUANTITY_DURATION, 604800, NULL, "7_days", "7_days"},
    {QUANTITY_DURATION, 86400, NULL, "24_h", "24_h"},
    {QUANTITY_DURATION, 31200, "hours", "8.7_h", "8.7_h"},
    {QUANTITY_DURATION, 6.3 * 86400, "days", "6_days", "6_days"},
    {QUANTITY_DURATION, 31200, "minutes", "520_min", "520_min"},
    {QUANTITY_SPEED, 110e-3 / 3600, NULL, "110_mm/h", "4.3_in/h"},
    {QUANTITY_POWER, 180, NULL, "180_W", "180_W"},
    {QUANTITY_POWER, 1250, NULL, "1.25_kW", "1.25_kW"},
    {QUANTITY_RATE, 0.052, NULL, "52_g/h", "1.8_oz/h"},
    {QUANTITY_RATE, 1.25, NULL, "1.25_kg/h", "44.1_oz/h"},
    {QUANTITY_CONCENTRATION, 35, NULL, "35_mg/m³", "35_mg/m³"},
    {QUANTITY_CONCENTRATION, 4.25, NULL, "4.3_mg/m³", "4.3_mg/m³"},
    {QUANTITY_CONCENTRATION, 4.25, "whole", "4_mg/m³", "4_mg/m³"},
    {QUANTITY_PPM, 30, NULL, "30_ppm", "30_ppm"},
    {QUANTITY_AIR_CHANGES, 2, NULL, "2.0_per hour", "2.0_per hour"},
    {QUANTITY_MASS, NOT_STATED, NULL, "–", "–"},
    {QUANTITY_INSTANT, 0, NULL, "–", "–"},
    {QUANTITY_NONE, 1, NULL, "–", "–"},
};

/* The text with its narrow spaces and minus signs as the tables write them. */
static char *plain(Arena *arena, const char *text) {
    if (!text)
        return arena_string(arena, "(none)");
    Text result = text_new(arena);
    while (*text) {
        if (strncmp(text, "\xE2\x80\xAF", 3) == 0) {
            text_add(&result, "_");
            text += 3;
        } else if (strncmp(text, "\xE2\x88\x92", 3) == 0) {
            text_add(&result, "-");
            text += 3;
        } else {
            text_add_bytes(&result, text++, 1);
        }
    }
    return result.bytes;
}

static void check_quantity(Arena *arena, const Locale *locale, const Case *row,
                           const char *wanted) {
    const char *text = format_quantity(arena, locale, quantity(row->kind, row->value), row->style);
    assert_string_equal(plain(arena, text), wanted);
}

static void quantities_in_both_systems(void **state) {
    Arena *arena = *state;
    Locale metric = language_locale(arena, "en", UNITS_METRIC);
    Locale us = language_locale(arena, "en", UNITS_US);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        check_quantity(arena, &metric, &cases[i], cases[i].metric);
        check_quantity(arena, &us, &cases[i], cases[i].us);
    }
}

static void quantities_in_german_and_polish(void **state) {
    Arena *arena = *state;
    static const struct {
        QuantityKind kind;
        double value;
        const char *german, *polish;
    } rows[] = {
        {QUANTITY_MOISTURE, 0.04, "4,0_% der Trockenmasse", "4,0% suchej masy"},
        {QUANTITY_SHARE, 0.3, "30_%", "30%"},
        {QUANTITY_MASS, 1.25, "1,250_kg", "1,250_kg"},
        {QUANTITY_COUNT, 12000, "12_000", "12_000"},
        {QUANTITY_TEMPERATURE, -3, "-3_°C", "-3_°C"},
        {QUANTITY_DURATION, 604800, "7_Tage", "7_dni"},
        {QUANTITY_DURATION, 259200, "3_Tage", "3_dni"},
        {QUANTITY_RATIO, 1.35, "1,35", "1,35"},
    };
    Locale german = language_locale(arena, "de", UNITS_METRIC);
    Locale polish = language_locale(arena, "pl", UNITS_METRIC);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        Case row = {rows[i].kind, rows[i].value, NULL, NULL, NULL};
        check_quantity(arena, &german, &row, rows[i].german);
        check_quantity(arena, &polish, &row, rows[i].polish);
    }
}

static void a_coarser_or_finer_scale_changes_the_digits(void **state) {
    Arena *arena = *state;
    Locale locale = language_locale(arena, "en", UNITS_METRIC);
    static const struct {
        double step_kg, mass_kg;
        const char *wanted;
    } rows[] = {
        {0.0001, 0.2505, "250.5_g"},
        {0.00001, 0.0025, "2.50_g"},
        {0.002, 0.25, "250_g"},
        {0.005, 1.255, "1.255_kg"},
        {0.01, 1.25, "1.25_kg"},
        {0.1, 12.5, "12.5_kg"},
        {1, 12, "12_kg"},
        {NOT_STATED, 0.25, "250_g"},
        {0.0001, 1.2505, "1.2505_kg"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        locale.scale_step_kg = rows[i].step_kg;
        Case row = {QUANTITY_MASS, rows[i].mass_kg, NULL, NULL, NULL};
        check_quantity(arena, &locale, &row, rows[i].wanted);
    }
}

/* Rules of label_food_print: whole grams below 1 kg, three digits from there, and in the United
 * States both systems, never overstated (NIST: a conversion may be rounded down). */
static void net_quantities(void **state) {
    Arena *arena = *state;
    Locale locale = language_locale(arena, "en", UNITS_METRIC);
    static const struct {
        double net_kg;
        const char *metric, *us;
    } rows[] = {
        {0.05, "50_g", "1.76_OZ (50_g)"},
        {0.1, "100_g", "3.5_OZ (100_g)"},
        {0.15, "150_g", "5.29_OZ (150_g)"},
        {0.25, "250_g", "8.8_OZ (250_g)"},
        {0.5, "500_g", "1.1_LB (500_g)"},
        {0.9999, "999_g", "2.2_LB (999_g)"},
        {1, "1_kg", "2.2_LB (1_kg)"},
        {1.25, "1.25_kg", "2.75_LB (1.25_kg)"},
        {12.56, "12.5_kg", "27.6_LB (12.5_kg)"},
        {0.45359237, "453_g", "1_LB (453_g)"},
        {0.3401942775, "340_g", "12_OZ (340_g)"},
        {NOT_STATED, "–", "–"},
        {0, "–", "–"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *metric = format_net(arena, &locale, rows[i].net_kg, false);
        const char *us = format_net(arena, &locale, rows[i].net_kg, true);
        assert_string_equal(plain(arena, metric), rows[i].metric);
        assert_string_equal(plain(arena, us), rows[i].us);
    }
}

/* 21:30 on 4 December 2026, a Friday, in Dublin (UTC), and a summer evening (UTC+1). */
static void clocks_and_dates(void **state) {
    Arena *arena = *state;
    static const struct {
        const char *style, *english, *german, *polish;
    } rows[] = {
        {NULL, "21:30", "21:30", "21:30"},
        {"day", "Fri 4 Dec", "Fr 4. Dez.", "pt. 4 gru"},
        {"moment", "Fri 4 Dec 21:30", "Fr 4. Dez. 21:30", "pt. 4 gru 21:30"},
        {"date", "4 Dec 2026", "4. Dez. 2026", "4 gru 2026"},
        {"full", "Friday, 4 December 2026", "Freitag, 4. Dezember 2026", "piątek, 4 grudnia 2026"},
        {"weekday", "Friday", "Freitag", "piątek"},
        {"month", "December\u00a02026", "Dezember\u00a02026", "grudzień\u00a02026"},
        {"month-short", "Dec\u00a02026", "Dez.\u00a02026", "gru\u00a02026"},
        {"iso", "2026-12-04", "2026-12-04", "2026-12-04"},
        {"stamp", "2026-12-04 21:30", "2026-12-04 21:30", "2026-12-04 21:30"},
    };
    Locale locales[] = {language_locale(arena, "en", UNITS_METRIC),
                        language_locale(arena, "de", UNITS_METRIC),
                        language_locale(arena, "pl", UNITS_METRIC)};
    double winter = (double)civil_to_utc((CivilTime){{2026, 12, 4}, 21, 30, 0});
    double summer = (double)civil_to_utc((CivilTime){{2026, 7, 1}, 22, 59, 40});
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        Case row = {QUANTITY_INSTANT, winter, rows[i].style, NULL, NULL};
        check_quantity(arena, &locales[0], &row, rows[i].english);
        check_quantity(arena, &locales[1], &row, rows[i].german);
        check_quantity(arena, &locales[2], &row, rows[i].polish);
    }
    Case row = {QUANTITY_INSTANT, summer, "stamp", NULL, NULL};
    check_quantity(arena, &locales[0], &row, "2026-07-02 00:00");
}

/* Every hour of the day by a clock of twelve, the rule written out: 12 AM is midnight, 12 PM is
 * noon (U.S. Government Publishing Office Style Manual, as cited by others). */
static void twelve_hours_of_every_hour(void **state) {
    Arena *arena = *state;
    static const char *const clocks[] = {"12:00_AM", "1:00_AM",  "2:00_AM",  "3:00_AM", "4:00_AM",
                                         "5:00_AM",  "6:00_AM",  "7:00_AM",  "8:00_AM", "9:00_AM",
                                         "10:00_AM", "11:00_AM", "12:00_PM", "1:00_PM", "2:00_PM",
                                         "3:00_PM",  "4:00_PM",  "5:00_PM",  "6:00_PM", "7:00_PM",
                                         "8:00_PM",  "9:00_PM",  "10:00_PM", "11:00_PM"};
    static const char *const languages[] = {"en", "de", "pl"};
    for (int k = 0; k < 3; k++) {
        Locale locale = language_locale(arena, languages[k], UNITS_US);
        locale.twelve_hours = true;
        for (int hour = 0; hour < 24; hour++) {
            Instant at = civil_to_utc((CivilTime){{2026, 12, 4}, hour, 0, 0});
            Case full = {QUANTITY_INSTANT, (double)at, "bare", NULL, NULL};
            check_quantity(arena, &locale, &full, clocks[hour]);
            Case late = {QUANTITY_INSTANT, (double)at + 30 * 60, "hour", NULL, NULL};
            const char *colon = strchr(clocks[hour], ':');
            int figures = (int)(colon - clocks[hour]);
            check_quantity(arena, &locale, &late,
                           arena_format(arena, "%.*s:30%s", figures, clocks[hour], colon + 3));
            Case mark = {QUANTITY_INSTANT, (double)at, "hour", NULL, NULL};
            check_quantity(arena, &locale, &mark,
                           arena_format(arena, "%.*s%s", figures, clocks[hour], colon + 3));
        }
    }
}

/* The day stands behind the time, the date before it, as with 24 hours. */
static void twelve_hours_carry_their_day(void **state) {
    Arena *arena = *state;
    Instant lit = civil_to_utc((CivilTime){{2026, 12, 4}, 21, 30, 0});
    Locale locale = locale_on_night(language_locale(arena, "en", UNITS_US), lit);
    locale.twelve_hours = true;
    const Case rows[] = {
        {QUANTITY_INSTANT, (double)lit, "clock", NULL, NULL},
        {QUANTITY_INSTANT, (double)lit + 3 * 3600, NULL, NULL, NULL},
        {QUANTITY_INSTANT, (double)lit + 7 * 86400, NULL, NULL, NULL},
        {QUANTITY_INSTANT, (double)lit, "moment", NULL, NULL},
        {QUANTITY_INSTANT, (double)lit, "stamp", NULL, NULL},
    };
    static const char *const wanted[] = {"9:30_PM", "12:30_AM\u00A0Sat", "Fri 11 Dec 9:30_PM",
                                         "Fri 4 Dec 9:30_PM", "2026-12-04 9:30_PM"};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        check_quantity(arena, &locale, &rows[i], wanted[i]);
}

/* US units or US rules, and nothing else, make a clock of twelve hours. */
static void who_reads_twelve_hours(void **state) {
    Arena *arena = *state;
    const Words *words = language_words(arena, "en");
    for (int units = UNITS_METRIC; units <= UNITS_US; units++)
        for (int market = MARKET_EU; market <= MARKET_AU; market++) {
            Workshop workshop = {.units = (UnitSystem)units, .market = (Market)market};
            assert_int_equal(locale_of(&workshop, words).twelve_hours,
                             units == UNITS_US || market == MARKET_US);
        }
}

/* Of a night lit on Friday, 4 December 2026 at 21:30. */
static void times_of_another_day_carry_it(void **state) {
    Arena *arena = *state;
    static const struct {
        int day, hour;
        const char *style, *english, *german, *polish;
    } rows[] = {
        {4, 23, NULL, "23:20", "23:20", "23:20"},
        {4, 9, "clock", "09:20", "09:20", "09:20"},
        {5, 6, NULL, "06:20\u00A0Sat", "06:20\u00A0Sa", "06:20\u00A0sob."},
        {3, 6, "clock", "06:20\u00A0Thu", "06:20\u00A0Do", "06:20\u00A0czw."},
        {5, 6, "bare", "06:20", "06:20", "06:20"},
        {10, 6, NULL, "06:20\u00A0Thu", "06:20\u00A0Do", "06:20\u00A0czw."},
        {11, 6, NULL, "Fri 11 Dec 06:20", "Fr 11. Dez. 06:20", "pt. 11 gru 06:20"},
    };
    Instant lit = civil_to_utc((CivilTime){{2026, 12, 4}, 21, 30, 0});
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double at = (double)civil_to_utc((CivilTime){{2026, 12, rows[i].day}, rows[i].hour, 20, 0});
        const char *wanted[] = {rows[i].english, rows[i].german, rows[i].polish};
        static const char *const languages[] = {"en", "de", "pl"};
        for (int k = 0; k < 3; k++) {
            Locale locale =
                locale_on_night(language_locale(arena, languages[k], UNITS_METRIC), lit);
            Case row = {QUANTITY_INSTANT, at, rows[i].style, NULL, NULL};
            check_quantity(arena, &locale, &row, wanted[k]);
        }
    }
}

static void an_unknown_style_is_noticed(void **state) {
    Arena *arena = *state;
    Locale locale = language_locale(arena, "en", UNITS_METRIC);
    for (size_t i = 0; i < sizeof cases / sizeof *cases - 3; i++) {
        Quantity asked = quantity(cases[i].kind, cases[i].value);
        if (format_quantity(arena, &locale, asked, "no-such-style"))
            fail_msg("row %zu takes any style", i);
    }
    Field text = {.name = "lot", .type = FIELD_TEXT, .text = "L1"};
    assert_null(format_field(arena, &locale, &text, "iso"));
    assert_string_equal(format_field(arena, &locale, &text, NULL), "L1");
}

static void what_holds_something_is_shown(void **state) {
    (void)state;
    Field mass = {.type = FIELD_QUANTITY, .quantity = quantity(QUANTITY_MASS, 0)};
    Field none = {.type = FIELD_QUANTITY, .quantity = quantity(QUANTITY_MASS, NOT_STATED)};
    Field no = {.type = FIELD_YES, .quantity = quantity(QUANTITY_COUNT, 0)};
    Field yes = {.type = FIELD_YES, .quantity = quantity(QUANTITY_COUNT, 1)};
    Field never = {.type = FIELD_DATE};
    Field empty = {.type = FIELD_TEXT, .text = ""};
    assert_true(format_shown(&mass));
    assert_false(format_shown(&none));
    assert_false(format_shown(&no));
    assert_true(format_shown(&yes));
    assert_false(format_shown(&never));
    assert_false(format_shown(&empty));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        CASE(quantities_in_both_systems),
        CASE(quantities_in_german_and_polish),
        CASE(a_coarser_or_finer_scale_changes_the_digits),
        CASE(net_quantities),
        CASE(clocks_and_dates),
        CASE(twelve_hours_of_every_hour),
        CASE(twelve_hours_carry_their_day),
        CASE(who_reads_twelve_hours),
        CASE(times_of_another_day_carry_it),
        CASE(an_unknown_style_is_noticed),
        CASE(what_holds_something_is_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
