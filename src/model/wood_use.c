#include "model/wood_use.h"

#include "model/name_words.h"
#include "model/wood.h"

/* Needles, twigs and berries of conifers, and kitchen herbs: shares of the dry mass up to which
 * they are common as a spice (judgement; no source). Hay, heather and tea are burnt alone. */
static const double needles_most = 0.10;
static const double herbs_most = 0.30;

/* What would else be taken for a wood of the lists below. */
static const char fit_in_spite[] = "box elder|cedar elm";

/* Resin: soot, tar and taste, and more of the aromatic hydrocarbons [LISTS] [CXC68]. Their
 * needles, twigs and berries are a spice. */
static const char *const resinous[] = {
    "pine|pines|pinus|spruce|spruces|picea|fir|firs|abies|larch|larches|larix|tamarack",
    "hemlock|tsuga|pseudotsuga|redwood|redwoods|sequoia|cedar|cedars|cedrus|cypress|cypresses",
    "cupressus|taxodium|juniper|junipers|juniperus|conifer|conifers|softwood|softwoods",
    "kiefer|kiefern|fichte|fichten|tanne|tannen|lärche|lärchen|zeder|zypresse|douglasie|zirbe",
    "wacholder|nadelholz|sosna|świerk|Świerk|jodła|modrzew|cedr|cyprys|jałowiec|daglezja|limba",
};

/* Poison in wood and leaf alike, or in the smoke. */
static const char *const poisonous[] = {
    "yew|yews|taxus|eibe|cis",                                               /* [LISTS] [POISON] */
    "laburnum|laburnums|goldregen|złotokap|golden chain",                    /* [LISTS] [POISON] */
    "oleander|oleanders|nerium",                                             /* [LISTS] [POISON] */
    "rhododendron|rhododendrons|azalea|mountain laurel|kalmia|różanecznik",  /* [LISTS] [POISON] */
    "poison ivy|poison oak|poison sumac|toxicodendron|giftsumach|giftefeu",  /* [MEDLINE] */
    "mangrove|mangroves|tambotie|tambootie|manchineel|hippomane|excoecaria", /* [LISTS] */
    "sassafras|camphor|kampfer|kamfora|eucalyptus|eukalyptus|eukaliptus",    /* [LISTS] */
    "thuja|arborvitae|lebensbaum|żywotnik|tuja|sadebaum|savin|juniperus sabina",    /* [POISON] */
    "box|boxwood|buxus|buchsbaum|bukszpan",                                         /* [POISON] */
    "horse chestnut|aesculus|rosskastanie|kasztanowiec",                            /* [POISON] */
    "black locust|robinia|robinie|false acacia|robinia akacjowa",                   /* [POISON] */
    "spindle|euonymus|pfaffenhütchen|daphne|seidelbast|wawrzynek",                  /* [POISON] */
    "tree of heaven|ailanthus|götterbaum|cherry laurel|laurocerasus|kirschlorbeer", /* [POISON] */
    "liquidambar|liquid amber|sweetgum",                                            /* [LISTS] */
};

/* Not wood as it grew: glue and preservative are in it (Codex CXS 311-2013). */
static const char made_boards[] =
    "plywood|chipboard|mdf|osb|fibreboard|particleboard|laminate|pallet|pallets|lumber|railway|"
    "sperrholz|spanplatte|palette|sklejka|paleta";

static bool in_any(const char *material, const char *const *lists, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (name_has_any(material, lists[i])) {
            return true;
        }
    }
    return false;
}

#define IN_ANY(material, lists) in_any((material), (lists), sizeof(lists) / sizeof *(lists))

static bool burnt_alone(const Wood *wood) {
    return name_is(wood->name, "hay") || name_is(wood->name, "heather") ||
           name_is(wood->name, "tea");
}

/* Berries are no wood, whatever form was written. */
static bool needles(const char *material, DustForm form) {
    return form == FORM_LEAF ||
           name_has_any(material, "needles|berries|berry|twigs|nadeln|beeren|igły|jagody");
}

WoodUse wood_use(const char *material, DustForm form) {
    bool in_spite = name_has_any(material, fit_in_spite);
    if (name_has_any(material, made_boards) || (IN_ANY(material, poisonous) && !in_spite)) {
        return (WoodUse){WOOD_UNFIT, 0};
    }
    if (IN_ANY(material, resinous) && !in_spite) {
        return needles(material, form) ? (WoodUse){WOOD_SPICE, needles_most}
                                       : (WoodUse){WOOD_UNFIT, 0};
    }
    const Wood *wood = wood_find(material);
    if (!wood) {
        return (WoodUse){WOOD_UNKNOWN, 1};
    }
    return wood->herb && !burnt_alone(wood) ? (WoodUse){WOOD_SPICE, herbs_most}
                                            : (WoodUse){WOOD_FIT, 1};
}

/* The names one after another; NULL while there are none. */
static void add_name(Arena *arena, const char **names, const char *name) {
    *names = *names ? arena_format(arena, "%s, %s", *names, name) : name;
}

/* What is on the shelf's name, and what it says it is made of unless that is the same. */
static const char *name_with_material(Arena *arena, const Dust *dust) {
    if (!dust->material || name_has_words(dust->name, dust->material)) {
        return dust->name;
    }
    return arena_format(arena, "%s (%s)", dust->name, dust->material);
}

/* Several spices together may use up what each might take alone. */
static void name_strong_spices(Arena *arena, PlanBlend *blend) {
    const double hair = 1e-6;
    const char *names = NULL;
    double used = 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const PlanPart *part = &blend->parts.items[i];
        WoodUse use = wood_use(part->dust->material, part->dust->form);
        if (use.fitness == WOOD_SPICE) {
            used += part->dry_share / use.most_share;
            add_name(arena, &names, part->dust->name);
        }
    }
    blend->strong_spices = used > 1 + hair ? names : NULL;
}

void wood_use_name(Arena *arena, PlanBlend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        const Dust *dust = blend->parts.items[i].dust;
        WoodFitness fitness = wood_use(dust->material, dust->form).fitness;
        if (fitness == WOOD_UNFIT) {
            add_name(arena, &blend->unfit_woods, name_with_material(arena, dust));
        } else if (fitness == WOOD_UNKNOWN) {
            add_name(arena, &blend->unknown_woods, name_with_material(arena, dust));
        }
        if (dust->untreated_stated && !dust->untreated) {
            add_name(arena, &blend->treated_dusts, dust->name);
        }
    }
    name_strong_spices(arena, blend);
}
