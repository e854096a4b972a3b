#include "model/wood_use.h"

#include "model/name_words.h"
#include "model/wood.h"

/* Needles, twigs and berries of conifers, and kitchen herbs: shares of the dry mass up to which
 * they are common as a spice (judgement; no source). Hay, heather and tea are burnt alone. */
static const double needles_most = 0.10;
static const double herbs_most = 0.30;

/* What would else be taken for a wood of the lists below. */
static const char fit_in_spite[] = "box elder|cedar elm";

/* Resin: soot, tar and taste, and more of the aromatic hydrocarbons [LISTS] [CXC68]. */
static const char *const resinous[] = {
    "pine|pines|pinus|spruce|spruces|picea|fir|firs|abies|larch|larches|larix|tamarack",
    "hemlock|tsuga|pseudotsuga|redwood|redwoods|sequoia|cedar|cedars|cedrus|cypress|cypresses",
    "cupressus|taxodium|juniper|junipers|juniperus|conifer|conifers|softwood|softwoods",
    "leylandii|cupressocyparis|chamaecyparis|araucaria|monkey puzzle|zypressen|scheinzypresse",
    "kiefer|kiefern|fichte|fichten|tanne|tannen|lärche|lärchen|zeder|zypresse|douglasie|zirbe",
    "wacholder|nadelholz|sosna|świerk|Świerk|jodła|modrzew|cedr|cyprys|jałowiec",
    "daglezja|limba|fichtennadeln|kiefernnadeln|tannennadeln|wacholderbeeren|waldkiefer",
    "weißtanne|weisstanne",
};

/* The conifers whose needles, twigs and berries are eaten as a spice; of all others they are
 * refused: a name that ends in "pine" or "cedar" may be anything. Common practice, no source. */
static const char eaten_needles[] =
    "spruce|norway spruce|picea abies|fir|silver fir|abies alba|pine|scots pine|pinus sylvestris|"
    "juniper|common juniper|juniperus communis|fichte|fichten|weißtanne|weisstanne|tanne|tannen|"
    "kiefer|kiefern|waldkiefer|wacholder|świerk|Świerk|jodła|sosna|jałowiec|fichtennadeln|"
    "kiefernnadeln|tannennadeln|wacholderbeeren";
static const char needle_words[] =
    "needles|needle|berries|berry|twigs|tips|nadeln|beeren|zweige|igły|jagody|fichtennadeln|"
    "kiefernnadeln|tannennadeln|wacholderbeeren";

/* Poison in wood and leaf alike, or in the smoke. */
static const char *const poisonous[] = {
    "yew|yews|taxus|eibe|eiben|cis",                                         /* [LISTS] [POISON] */
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
    "lorbeerkirsche|cherry bay|laurowiśnia",                                        /* [POISON] */
    "liquidambar|liquid amber|sweetgum",                                            /* [LISTS] */
    /* Herbs, all [POISON]. */
    "poison hemlock|water hemlock|conium|cicuta|cowbane|water dropwort|oenanthe|schierling",
    "wasserschierling|szczwół|szalej|cykuta|stechapfel|datura|jimsonweed|thornapple|thorn apple",
    "bieluń|henbane|hyoscyamus|bilsenkraut|lulek|monkshood|wolfsbane|aconite|aconitum|eisenhut",
    "tojad|foxglove|foxgloves|digitalis|fingerhut|naparstnica|nightshade|belladonna|tollkirsche",
    "wilcza jagoda|tobacco|tabak|tytoń|nicotiana|lily of the valley|convallaria|maiglöckchen",
    "konwalia|colchicum|autumn crocus|herbstzeitlose|zimowit|sumpfporst|porst|ledum|labrador tea",
    "bagno zwyczajne|bog rosemary|andromeda|rosmarinheide|modrzewnica|pieris|privet|liguster",
};

/* Their leaves give off prussic acid: from memory. Their wood is smoked with. */
static const char *const stone_fruits[] = {
    "prunus|cherry|cherries|plum|plums|damson|sloe|blackthorn|peach|apricot|almond|nectarine",
    "kirsche|kirsch|kirschen|sauerkirsche|süßkirsche|vogelkirsche|traubenkirsche|kirschbaum",
    "pflaume|pflaumen|zwetschge|schlehe|pfirsich|aprikose|marille|mandel|kirschblätter",
    "pflaumenblätter|pfirsichblätter|wiśnia|wiśni|czereśnia|czereśni|czeremcha|śliwa|Śliwa|śliwy",
    "tarnina|brzoskwinia|morela|migdał",
};
static const char leaf_words[] =
    "leaf|leaves|blätter|laub|liście|kirschblätter|pflaumenblätter|pfirsichblätter";

/* Glue, paint and preservative: no wood as it grew (Codex CXS 311-2013). */
static const char *const treatments[] = {
    "plywood|chipboard|mdf|hdf|osb|fibreboard|fiberboard|particleboard|particle board|hardboard",
    "sperrholz|spanplatte|spanplatten|faserplatte|sklejka|sklejki|płyta wiórowa|laminate|laminated",
    "pallets|pallet wood|paletten|railway|railway sleeper|bahnschwelle|bahnschwellen|creosoted",
    "creosote|kreosot|kreozot|furniture|möbel|impregnated|tanalised|tanalized|preserved",
    "preservative|glued|glue",
    "painted|paint|varnished|varnish|lacquered|stained|lackiert|lackierte|lackiertes|gestrichen",
    "lasiert|gebeizt|verleimt|geleimt|imprägniert|imprägnierte|imprägniertes|impregnowane",
    "impregnowany|lakierowane|lakierowany|malowane|malowany|klejone|klejony|bejcowane",
};
static const char treated[] = "treated|behandelt|behandelte|behandeltes";
static const char not_treated[] =
    "not treated|un treated|non treated|never treated|nicht behandelt|nie behandelt";

/* Said of a material, but in a name no more than where it lies. */
static const char pallet_words[] = "pallet|palette|paleta|lumber";

/* Mould is poisonous, and the salt of the sea makes poison of the smoke: from memory. */
static const char spoilt[] =
    "mouldy|moldy|mould|mold|rotten|verschimmelt|schimmelig|schimmlig|pleśń|spleśniałe|driftwood|"
    "treibholz|schwemmholz";

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
    return form == FORM_LEAF || name_has_any(material, needle_words);
}

static WoodUse conifer_use(const char *material, DustForm form) {
    bool spice = needles(material, form) && name_is_besides(material, eaten_needles, needle_words);
    return spice ? (WoodUse){WOOD_SPICE, needles_most} : (WoodUse){WOOD_UNFIT, 0};
}

static bool names_treatment(const char *name) {
    return IN_ANY(name, treatments) ||
           (name_has_any(name, treated) && !name_has_any(name, not_treated));
}

static bool made_or_treated(const char *material) {
    return names_treatment(material) || name_has_any(material, pallet_words);
}

/* Leaves of what is known as a wood are no kitchen herb. */
static WoodUse leaf_use(const Wood *wood) {
    if (!wood || !wood->herb) {
        return (WoodUse){WOOD_UNKNOWN, 1};
    }
    return burnt_alone(wood) ? (WoodUse){WOOD_FIT, 1} : (WoodUse){WOOD_SPICE, herbs_most};
}

WoodUse wood_use(const char *material, DustForm form) {
    bool in_spite = name_has_any(material, fit_in_spite);
    bool leaves = form == FORM_LEAF || name_has_any(material, leaf_words);
    if (made_or_treated(material) || name_has_any(material, spoilt) ||
        (IN_ANY(material, poisonous) && !in_spite) || (leaves && IN_ANY(material, stone_fruits))) {
        return (WoodUse){WOOD_UNFIT, 0};
    }
    if (IN_ANY(material, resinous) && !in_spite) {
        return conifer_use(material, form);
    }
    const Wood *wood = wood_find(material);
    bool fit = wood && !wood->herb && !leaves;
    return fit ? (WoodUse){WOOD_FIT, 1} : leaf_use(wood);
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

/* A paint that the name tells of is as bad as one of the material. */
static bool dust_treated(const Dust *dust) {
    return made_or_treated(dust->material) || names_treatment(dust->name);
}

static WoodFitness dust_fitness(const Dust *dust) {
    return name_has_any(dust->name, spoilt) ? WOOD_UNFIT
                                            : wood_use(dust->material, dust->form).fitness;
}

void wood_use_name(Arena *arena, PlanBlend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        const Dust *dust = blend->parts.items[i].dust;
        WoodFitness fitness = dust_fitness(dust);
        if (dust_treated(dust)) {
            add_name(arena, &blend->treated_dusts, name_with_material(arena, dust));
            continue;
        }
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
