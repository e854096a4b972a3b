#include "input/readers.h"

#include "base/number.h"

#include <string.h>

#include "schema/rows.h"

/* A sieve analysis that lost more is not to be trusted (common practice, no source). Less than
 * the second is within the weighing. */
#define SIEVE_LOSS_MAX 0.02
#define SIEVE_LOSS_NOTED 0.0005

/* Loose dust, chips and leaves lie between these, kg/m3 (common practice, no source). */
#define LOOSE_DENSITY_MIN 20.0
#define LOOSE_DENSITY_MAX 1000.0

/* ---- Moisture ------------------------------------------------------------------------------ */

#define DRIEST_AND_WETTEST SHARE("0 %", "60 %")
#define BASIS_HELP "dry: water against dry wood; wet: water against the whole"

/* A moisture on dry basis, of what was written. */
static double on_dry_basis(Form *form, const Element *element, double moisture) {
    if (form_has(element, "moisture") && !form_has(element, "basis"))
        error_at_value(form, element, "moisture",
                       "write basis=\"dry\" for water against dry wood, basis=\"wet\" for water "
                       "against the whole",
                       "'moisture' without its 'basis'");
    if (!form_has(element, "moisture") && form_has(element, "basis"))
        error_at_value(form, element, "basis", NULL, "'basis' without a 'moisture'");
    return form_word(form, element, "basis") == BASIS_WET ? moisture / (1 - moisture) : moisture;
}

/* ---- Grain --------------------------------------------------------------------------------- */

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
        error_at(form, sieve, NULL, "nothing stayed on any sieve");
    if (!is_stated(sum) || !is_stated(whole) || sum <= 0)
        return;
    double off = sum / whole - 1;
    const char *amount = percent(form, fabs(off));
    const char *way = off < 0 ? "less" : "more";
    if (fabs(off) > SIEVE_LOSS_MAX)
        error_at(form, sieve,
                 arena_format(form->arena, "up to %s is let pass: weigh again",
                              percent(form, SIEVE_LOSS_MAX)),
                 "sieves and pan hold %s %s than the sample", amount, way);
    else if (fabs(off) > SIEVE_LOSS_NOTED)
        report_note(form->diagnostics, sieve->place, "shares are taken of what was found",
                    "sieves and pan hold %s %s than the sample", amount, way);
}

static void check_class(Form *form, const Element *element, void *into) {
    const SieveClass *added = into;
    SieveAnalysis *sieve = form->outer;
    const char *retained = element_value(element, "retained");
    bool by_share = retained && strchr(retained, '%');
    size_t count = sieve->classes.count;
    if (!count)
        sieve->by_percent = by_share;
    else if (sieve->by_percent != by_share && is_stated(added->retained))
        error_at_value(form, element, "retained", "write all in grams or all in percent",
                       "masses and shares in one analysis");
    if (count && added->aperture_m >= sieve->classes.items[count - 1].aperture_m)
        error_at_value(form, element, "aperture", "write the sieves from the top down",
                       "a sieve that is not finer than the one above it");
}

static void check_sieve(Form *form, const Element *element, void *into) {
    (void)element;
    const SieveAnalysis *sieve = into;
    if (sieve->classes.count && !form->faults)
        check_loss(form, sieve);
}

/* What is in a kitchen, and how wide its openings are: of ordinary ones, from memory, as said not
 * measured. Most lie within a factor of 1.5 (judgement), for which the chance counts less
 * (model/doubt.h). */
#define KITCHEN_SIEVES "colander kitchen-sieve flour-sieve tea-strainer"
static const double kitchen_sieves_m[] = {3e-3, 1.2e-3, 0.8e-3, 0.5e-3};

/* An end of the range that is said by a kitchen sieve. */
static void take_kitchen_sieve(Form *form, const Element *element, const char *name, double *end_m,
                               Dust *dust) {
    int sieve = form_word(form, element, name);
    if (sieve < 0)
        return;
    *end_m = kitchen_sieves_m[sieve];
    dust->grain_judged = true;
}

static void check_grain(Form *form, const Element *element, void *into) {
    Dust *dust = into;
    take_kitchen_sieve(form, element, "from", &dust->grain_from_m, dust);
    take_kitchen_sieve(form, element, "to", &dust->grain_to_m, dust);
    if (dust->grain_from_m >= dust->grain_to_m)
        error_at_value(form, element, "to",
                       "the finest grains stand in 'from', the coarsest in 'to'",
                       "'to' is not more than 'from'");
}

static const AttributeRule on_attributes[] = {
    ROW("aperture", LENGTH("20 µm", "125 mm"), SieveClass, aperture_m,
        "opening of the sieve; the sieves from the top down", MUST),
    ROW("retained", RETAINED, SieveClass, retained, "what stayed on it", MUST),
};
static ELEMENT(on, "A sieve.", OWN_STRUCT(SieveClass), .check = check_class);

static const AttributeRule pan_attributes[] = {
    ROW("retained", RETAINED, SieveClass, retained, "what fell through all sieves", MUST),
};
static ELEMENT(pan, "Below the last sieve.", OWN_STRUCT(SieveClass), .check = check_class);

static const AttributeRule sieve_attributes[] = {
    ROW("sample", MASS("1 g", "100 kg"), SieveAnalysis, sample_kg, "put on the top sieve"),
};
static const ChildRule sieve_children[] = {
    SEVERAL(on, 1, 40, SieveAnalysis, classes),
    SEVERAL(pan, 1, 1, SieveAnalysis, classes),
};
static ELEMENT(sieve, "A sieve analysis: the sieves from the top down, then the pan.",
               CHILDREN(sieve_children), OWN_STRUCT(SieveAnalysis), .check = check_sieve);

#define GRAIN_SIZE MEASURED_OR(KITCHEN_SIEVES, MEASURE_LENGTH, "10 µm", "50 mm")

/* Dust "through 1 mm" may be half fines or none: the lower end decides whether the glow lasts. */
static const AttributeRule grain_attributes[] = {
    ROW("from", GRAIN_SIZE, Dust, grain_from_m,
        "finest grains; or what they all stay in, which is not measured and makes less sure", MUST,
        .advice = "say how fine the finest grains are: shake some over one fine sieve, or lay some "
                  "beside a ruler under a lens, or write from=\"tea-strainer\"; it decides "
                  "whether the glow lasts"),
    ROW("to", GRAIN_SIZE, Dust, grain_to_m,
        "coarsest grains; or what they all pass, which is not measured and makes less sure", MUST,
        .advice = "say how coarse the coarsest grains are: the sieve they all pass, or some beside "
                  "a ruler, or write to=\"kitchen-sieve\""),
};
static ELEMENT(grain,
               "A plain range of grain sizes, in place of a sieve analysis. Both ends are needed: "
               "one sieve or a ruler finds them.",
               .check = check_grain);

/* ---- Weight and trials --------------------------------------------------------------------- */

static void check_weighed(Form *form, const Element *element, void *into) {
    Dust *dust = into;
    double density = dust->bulk_density_kg_m3 / form_number(form, element, "volume");
    bool dusty = density >= LOOSE_DENSITY_MIN && density <= LOOSE_DENSITY_MAX;
    if (is_stated(density) && !dusty)
        error_at_value(form, element, "mass",
                       arena_format(form->arena, "loose dust has between %.0f and %.0f g a litre",
                                    LOOSE_DENSITY_MIN, LOOSE_DENSITY_MAX),
                       "%s g a litre is not the weight of dust",
                       number_text(form->arena, density, 1, number_plain));
    dust->bulk_density_kg_m3 = dusty ? density : NOT_STATED;
}

/* The check makes a density of the mass. */
static const AttributeRule weighed_attributes[] = {
    CHECKED("volume", VOLUME("10 ml", "1000 l"), "loose volume that was weighed", MUST),
    ROW("mass", MASS("1 g", "1000 kg"), Dust, bulk_density_kg_m3, "what it weighed", MUST),
};
static ELEMENT(weighed, "A loose volume on the scale.", .check = check_weighed);

static void check_trial(Form *form, const Element *element, void *into) {
    Trial *trial = into;
    trial->moisture = on_dry_basis(form, element, trial->moisture);
}

static const AttributeRule trial_attributes[] = {
    ROW("length", LENGTH("5 mm", "50 m"), Trial, length_m, "length of channel that burnt", MUST),
    ROW("took", DURATION("1 min", "7 d"), Trial, took_s, "time it took", MUST),
    ROW("tray", ID, Trial, tray_id, "id of the tray it burnt in"),
    ROW("moisture", DRIEST_AND_WETTEST, Trial, moisture, "of the dust when lit; needs its basis"),
    CHECKED("basis", WORDS("dry wet"), BASIS_HELP),
    ROW("temperature", OUTSIDE, Trial, temp_c, "of the air"),
};
static ELEMENT(trial, "A timed burn of this dust alone, which sets the pace.", OWN_STRUCT(Trial),
               .check = check_trial);

/* ---- Dust ---------------------------------------------------------------------------------- */

static void check_dust(Form *form, const Element *element, void *into) {
    Dust *dust = into;
    const Element *sieve = element_child(element, "sieve");
    const Element *grain = element_child(element, "grain");
    dust->untreated_stated = form_has(element, "untreated");
    dust->moisture = on_dry_basis(form, element, dust->moisture);
    if (sieve && grain)
        error_at(form, grain, "keep one of them", "both 'sieve' and 'grain' in one dust");
    if (!sieve && !grain)
        error_at(form, element,
                 "write <grain from=\"500 µm\" to=\"750 µm\"/>, or a <sieve> analysis",
                 "'dust' without its grain sizes");
    check_id(form, element);
}

static const AttributeRule dust_attributes[] = {
    ROW("id", ID, Dust, id, "short name that batches refer to", MUST),
    ROW("name", TEXT, Dust, name, "name on paper", MUST),
    ROW("material", TEXT, Dust, material, "wood species or herb", MUST),
    ROW("label-name", TEXT, Dust, label_name,
        "what labels call it, for a buyer; its species, in their language, when not written"),
    ROW("form", WORDS("dust chip leaf"), Dust, form, "what its grains are", .usual = "dust"),
    ROW("charred", YES_NO, Dust, charred, "charred by an earlier burn or roast"),
    ROW("moisture", DRIEST_AND_WETTEST, Dust, moisture,
        "water in it; needs its basis; that of dust in the store is assumed when not written"),
    ROW("basis", WORDS("dry wet"), Dust, stated_basis, BASIS_HELP),
    ROW("measured", DATE, Dust, measured, "day the moisture was measured"),
    ROW("lot", TEXT, Dust, lot, "lot of the dust"),
    ROW("received", DATE, Dust, received, "day it came in"),
    ROW("stock", MASS("0 kg", "10000 kg"), Dust, stock_kg, "on the shelf, as it lies"),
    ROW("untreated", YES_NO, Dust, untreated,
        "declared free of paint, glue, varnish and preservative; no: the night is refused"),
    ROW("steadiness", NUMBER("0.2", "1.5"), Dust, steadiness,
        "how well it keeps smouldering, against a reliable carrier dust of 1; from the species "
        "when not written"),
};
static const ChildRule dust_children[] = {
    ONE(sieve, 0, Dust, sieve),
    INSIDE(grain, 0),
    INSIDE(weighed, 0),
    SEVERAL(trial, 0, 50, Dust, trials),
};
ELEMENT(dust, "A wood dust, chip or herb on the shelf.", CHILDREN(dust_children), OWN_STRUCT(Dust),
        .check = check_dust);
