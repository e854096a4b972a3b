#include "input/readers.h"

#include "base/number.h"

#include <string.h>

/* A sieve analysis that lost more is not to be trusted (common practice, no source). Less than
 * the second is within the weighing. */
#define SIEVE_LOSS_MAX 0.02
#define SIEVE_LOSS_NOTED 0.0005

/* Loose dust, chips and leaves lie between these, kg/m3 (common practice, no source). */
#define LOOSE_DENSITY_MIN 20.0
#define LOOSE_DENSITY_MAX 1000.0

double read_moisture(Form *form, const Element *element, MoistureBasis *basis) {
    double moisture = form_number(form, element, "moisture");
    bool wet = form_word(form, element, "basis", BASIS_DRY) == BASIS_WET;
    *basis = wet ? BASIS_WET : BASIS_DRY;
    if (form_has(element, "moisture") && !form_has(element, "basis"))
        report_error(form->diagnostics, element_value_place(element, "moisture"),
                     "write basis=\"dry\" for water against dry wood, basis=\"wet\" for water "
                     "against the whole",
                     "'moisture' without its 'basis'");
    if (!form_has(element, "moisture") && form_has(element, "basis"))
        report_error(form->diagnostics, element_value_place(element, "basis"), NULL,
                     "'basis' without a 'moisture'");
    return wet ? moisture / (1 - moisture) : moisture;
}

static const char *percent(Form *form, double share) {
    return arena_format(form->arena, "%s %%",
                        number_text(form->arena, share * 100, 1, number_plain));
}

/* What the sieves hold against what was put on them. */
static void check_loss(Form *form, const SieveAnalysis *sieve) {
    double sum = 0, whole = sieve->by_percent ? 1 : sieve->sample_kg;
    for (size_t i = 0; i < sieve->classes.count; i++)
        sum += sieve->classes.items[i].retained;
    if (sum <= 0)
        report_error(form->diagnostics, sieve->place, NULL, "nothing stayed on any sieve");
    if (!is_stated(sum) || !is_stated(whole) || sum <= 0)
        return;
    double off = sum / whole - 1;
    const char *amount = percent(form, fabs(off));
    const char *way = off < 0 ? "less" : "more";
    if (fabs(off) > SIEVE_LOSS_MAX)
        report_error(form->diagnostics, sieve->place,
                     arena_format(form->arena, "up to %s is let pass: weigh again",
                                  percent(form, SIEVE_LOSS_MAX)),
                     "sieves and pan hold %s %s than the sample", amount, way);
    else if (fabs(off) > SIEVE_LOSS_NOTED)
        report_note(form->diagnostics, sieve->place, "shares are taken of what was found",
                    "sieves and pan hold %s %s than the sample", amount, way);
}

static void add_class(Form *form, const Element *element, SieveAnalysis *sieve) {
    bool pan = !strcmp(element->name, "pan");
    bool by_share;
    SieveClass added = {.place = element->place};
    added.retained = form_retained(form, element, &by_share);
    added.aperture_m = pan ? 0 : form_number(form, element, "aperture");
    size_t count = sieve->classes.count;
    if (!count)
        sieve->by_percent = by_share;
    else if (sieve->by_percent != by_share && is_stated(added.retained))
        report_error(form->diagnostics, element_value_place(element, "retained"),
                     "write all in grams or all in percent", "masses and shares in one analysis");
    if (count && added.aperture_m >= sieve->classes.items[count - 1].aperture_m)
        report_error(form->diagnostics, element_value_place(element, "aperture"),
                     "write the sieves from the top down",
                     "a sieve that is not finer than the one above it");
    LIST_ADD(form->arena, &sieve->classes, added);
}

static SieveAnalysis read_sieve(Form *form, const Element *element) {
    SieveAnalysis sieve = {.place = element->place,
                           .sample_kg = form_number(form, element, "sample")};
    size_t errors = diagnostics_errors(form->diagnostics, NULL);
    for (const Element *on = element_child(element, "on"); on; on = element_sibling(on, "on"))
        add_class(form, on, &sieve);
    const Element *pan = element_child(element, "pan");
    if (pan)
        add_class(form, pan, &sieve);
    if (sieve.classes.count && errors == diagnostics_errors(form->diagnostics, NULL))
        check_loss(form, &sieve);
    return sieve;
}

static void read_grain(Form *form, const Element *element, Dust *dust) {
    dust->grain_from_m = form_number(form, element, "from");
    dust->grain_to_m = form_number(form, element, "to");
    if (dust->grain_from_m >= dust->grain_to_m)
        report_error(form->diagnostics, element_value_place(element, "to"), NULL,
                     "'to' is not more than 'from'");
}

static double read_density(Form *form, const Element *element) {
    double mass = form_number(form, element, "mass");
    double density = mass / form_number(form, element, "volume");
    if (density >= LOOSE_DENSITY_MIN && density <= LOOSE_DENSITY_MAX)
        return density;
    if (is_stated(density))
        report_error(form->diagnostics, element_value_place(element, "mass"),
                     arena_format(form->arena, "loose dust has between %.0f and %.0f g a litre",
                                  LOOSE_DENSITY_MIN, LOOSE_DENSITY_MAX),
                     "%s g a litre is not the weight of dust",
                     number_text(form->arena, density, 1, number_plain));
    return NOT_STATED;
}

static Trial read_trial(Form *form, const Element *element) {
    MoistureBasis basis;
    return (Trial){.length_m = form_number(form, element, "length"),
                   .took_s = form_number(form, element, "took"),
                   .tray_id = form_text(form, element, "tray"),
                   .moisture = read_moisture(form, element, &basis),
                   .temp_c = form_number(form, element, "temperature"),
                   .place = element->place};
}

static void read_grains(Form *form, const Element *element, Dust *dust) {
    const Element *sieve = element_child(element, "sieve");
    const Element *grain = element_child(element, "grain");
    if (sieve)
        dust->sieve = read_sieve(form, sieve);
    if (grain)
        read_grain(form, grain, dust);
    if (sieve && grain)
        report_error(form->diagnostics, grain->place, "keep one of them",
                     "both 'sieve' and 'grain' in one dust");
    if (!sieve && !grain)
        report_error(form->diagnostics, element->place,
                     "write <grain from=\"500 µm\" to=\"750 µm\"/>, or a <sieve> analysis",
                     "'dust' without its grain sizes");
}

Dust read_dust(Form *form, const Element *element) {
    Dust dust = {.place = element->place,
                 .id = form_text(form, element, "id"),
                 .name = form_text(form, element, "name"),
                 .material = form_text(form, element, "material"),
                 .form = (DustForm)form_word(form, element, "form", FORM_DUST),
                 .charred = form_yes(form, element, "charred", false),
                 .measured = form_date(form, element, "measured"),
                 .grain_from_m = NOT_STATED,
                 .grain_to_m = NOT_STATED,
                 .bulk_density_kg_m3 = NOT_STATED,
                 .steadiness = form_number(form, element, "steadiness"),
                 .lot = form_text(form, element, "lot"),
                 .received = form_date(form, element, "received"),
                 .stock_kg = form_number(form, element, "stock"),
                 .untreated = form_yes(form, element, "untreated", false),
                 .untreated_stated = form_has(element, "untreated")};
    dust.moisture = read_moisture(form, element, &dust.stated_basis);
    read_grains(form, element, &dust);
    const Element *weighed = element_child(element, "weighed");
    if (weighed)
        dust.bulk_density_kg_m3 = read_density(form, weighed);
    for (const Element *trial = element_child(element, "trial"); trial;
         trial = element_sibling(trial, "trial"))
        LIST_ADD(form->arena, &dust.trials, read_trial(form, trial));
    return dust;
}
