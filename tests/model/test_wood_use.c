/* Wood use: the woods that guides and poison lists warn of are refused under every name that people
 * write, and what nobody knows is not let pass. Sources in model/wood_use.h. */
#include "model/name_words.h"
#include "model/wood.h"
#include "model/wood_use.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <stdint.h>
#include <string.h>

static void assert_use(const char *material, DustForm form, WoodFitness fitness) {
    WoodFitness got = wood_use(material, form).fitness;
    if (got != fitness) {
        fail_msg("'%s' is %d, not %d", material ? material : "(none)", got, fitness);
    }
}

/* Trade guides: no conifers; oleander, yew, laburnum, mangrove, sassafras, camphor,
 * eucalyptus, rhododendron are poisonous. MedlinePlus: never burn poison ivy, oak or sumac. */
static void woods_that_are_warned_of_are_refused(void **state) {
    (void)state;
    static const char *const woods[] = {
        "pine",
        "Scots pine",
        "PINE, sawn",
        "Pinus sylvestris",
        "spruce",
        "Picea abies",
        "fir",
        "Douglas fir",
        "larch",
        "Western red cedar",
        "cypress",
        "redwood",
        "juniper",
        "hemlock",
        "softwood",
        "oak and pine",
        "Kiefer",
        "Fichtenholz",
        "Lärche",
        "sosna",
        "Świerk",
        "yew",
        "Taxus baccata",
        "laburnum",
        "Goldregen",
        "oleander",
        "Nerium oleander",
        "rhododendron",
        "mountain laurel",
        "poison ivy",
        "poison sumac",
        "mangrove",
        "sassafras",
        "camphor laurel",
        "eucalyptus",
        "box",
        "horse chestnut",
        "thuja",
        "cherry laurel",
        "cis pospolity",
        "plywood",
        "beech plywood",
        "pallet wood",
    };
    for (size_t i = 0; i < sizeof woods / sizeof *woods; i++) {
        assert_use(woods[i], FORM_DUST, WOOD_UNFIT);
        assert_use(woods[i], FORM_CHIP, WOOD_UNFIT);
    }
    assert_use("yew", FORM_LEAF, WOOD_UNFIT);
    assert_use("oleander", FORM_LEAF, WOOD_UNFIT);
}

static void needles_and_herbs_are_a_spice(void **state) {
    (void)state;
    assert_use("spruce", FORM_LEAF, WOOD_SPICE);
    assert_use("juniper", FORM_LEAF, WOOD_SPICE);
    assert_use("juniper berries", FORM_CHIP, WOOD_SPICE);
    assert_use("rosemary", FORM_LEAF, WOOD_SPICE);
    assert_use("hay", FORM_LEAF, WOOD_FIT);
    assert_true(wood_use("juniper", FORM_LEAF).most_share < wood_use("sage", FORM_LEAF).most_share);
}

/* "Hemlock" is a conifer and a deadly herb, and other names end in that of a conifer as well:
 * textbook poisonous plants, from memory. Only needles that are eaten are a spice. */
static void leaves_are_not_let_pass_by_the_end_of_a_name(void **state) {
    (void)state;
    static const char *const refused[] = {
        "poison hemlock",   "water hemlock", "hemlock",        "Western red cedar",
        "Leyland cypress",  "cypress",       "Zypresse",       "cedar",
        "white cedar",      "Norfolk pine",  "ponderosa pine", "larch",
        "Conium maculatum", "Cicuta virosa", "Schierling",     "cherry",
        "black cherry",     "plum",          "peach",          "apricot",
        "Kirsche",          "wiśnia",        "cherry leaves",
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        assert_use(refused[i], FORM_LEAF, WOOD_UNFIT);
    }
    assert_use("cherry leaves", FORM_DUST, WOOD_UNFIT);
    assert_use("Conium maculatum", FORM_DUST, WOOD_UNFIT);
    static const char *const spices[] = {
        "Scots pine",    "Norway spruce", "silver fir",      "spruce needles",
        "Fichtennadeln", "jałowiec",      "juniper berries", "Wacholder",
    };
    for (size_t i = 0; i < sizeof spices / sizeof *spices; i++) {
        assert_use(spices[i], FORM_LEAF, WOOD_SPICE);
    }
    assert_use("oak", FORM_LEAF, WOOD_UNKNOWN);
    assert_use("walnut", FORM_LEAF, WOOD_UNKNOWN);
    assert_use("rowan leaves", FORM_DUST, WOOD_UNKNOWN);
    assert_use("tea", FORM_LEAF, WOOD_FIT);
}

static void poisonous_herbs_and_treated_wood_are_refused(void **state) {
    (void)state;
    static const char *const refused[] = {
        "Lorbeerkirsche", "cherry bay",  "Stechapfel",         "black henbane",   "henbane",
        "monkshood",      "foxglove",    "Digitalis purpurea", "Sumpfporst",      "bog rosemary",
        "creosoted oak",  "treated oak", "glued beech",        "Buche, lackiert", "painted",
        "varnished oak",  "MDF",         "chipboard",          "mouldy beech",    "driftwood",
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        assert_use(refused[i], FORM_DUST, WOOD_UNFIT);
        assert_use(refused[i], FORM_LEAF, WOOD_UNFIT);
    }
    assert_use("rosemary", FORM_DUST, WOOD_SPICE);
}

static void ordinary_woods_pass_and_strange_ones_do_not(void **state) {
    (void)state;
    static const char *const fit[] = {
        "beech", "Beech wood", "European beech", "Fagus sylvatica", "oak",   "cherry", "apple",
        "alder", "chestnut",   "sweet chestnut", "mountain ash",    "Buche", "buk",    "Eiche",
        "dąb",   "vine",       "hornbeam",
    };
    for (size_t i = 0; i < sizeof fit / sizeof *fit; i++) {
        assert_use(fit[i], FORM_DUST, WOOD_FIT);
    }
    assert_use("pineapple", FORM_DUST, WOOD_UNKNOWN);
    assert_use("box elder", FORM_DUST, WOOD_UNKNOWN);
    assert_use("mixed hardwood", FORM_DUST, WOOD_UNKNOWN);
    assert_use("tea tree", FORM_LEAF, WOOD_UNKNOWN);
    assert_use("beech?", FORM_DUST, WOOD_FIT);
    assert_use("", FORM_DUST, WOOD_UNKNOWN);
    assert_use(NULL, FORM_DUST, WOOD_UNKNOWN);
}

/* Of every row of the table of woods the use is known. */
static void no_known_wood_is_unknown(void **state) {
    (void)state;
    for (size_t row = 0; row < wood_count(); row++) {
        const Wood *wood = wood_at(row);
        DustForm form = wood->herb ? FORM_LEAF : FORM_DUST;
        assert_int_not_equal(wood_use(wood->name, form).fitness, WOOD_UNKNOWN);
    }
}

static void words_are_found_whole(void **state) {
    (void)state;
    assert_true(name_has_words("Salmon sides", "salmon"));
    assert_true(name_has_words("cold, Poison  Ivy", "poison ivy"));
    assert_false(name_has_words("poison", "poison ivy"));
    assert_false(name_has_words("shadow", "shad"));
    assert_false(name_has_words("shad", ""));
    assert_false(name_has_words(NULL, "shad"));
    assert_true(name_has_any("a tuna", "salmon|tuna"));
    assert_false(name_has_any("a tunnel", "salmon|tuna"));
    assert_true(name_is("Cherry wood", "cherry"));
    assert_false(name_is("Cherry laurel", "cherry"));
    assert_false(name_is("wood", "cherry"));
    assert_false(name_is("", ""));
}

static PlanBlend blend_with(Arena *arena, const Dust *dust, double share) {
    static const Dust beech = {.name = "Beech", .material = "beech", .untreated = true};
    PlanBlend blend = {0};
    LIST_ADD(arena, &blend.parts, ((PlanPart){.dust = &beech, .dry_share = 1 - share}));
    LIST_ADD(arena, &blend.parts, ((PlanPart){.dust = dust, .dry_share = share}));
    wood_use_name(arena, &blend);
    return blend;
}

static void the_blend_names_what_is_wrong(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Dust dust = {.name = "Saw", .material = "Scots pine"};
    assert_string_equal(blend_with(arena, &dust, 0.01).unfit_woods, "Saw (Scots pine)");
    dust = (Dust){.name = "Grandfather’s", .material = "what he left"};
    assert_string_equal(blend_with(arena, &dust, 0.01).unknown_woods,
                        "Grandfather’s (what he left)");
    dust = (Dust){.name = "Oak, painted", .material = "oak", .untreated_stated = true};
    PlanBlend painted = blend_with(arena, &dust, 0.01);
    assert_string_equal(painted.treated_dusts, "Oak, painted");
    assert_null(painted.unfit_woods);
    assert_null(painted.unknown_woods);
    dust = (Dust){.name = "Oak, not treated", .material = "oak"};
    assert_null(blend_with(arena, &dust, 0.01).treated_dusts);
    dust = (Dust){.name = "Oak, untreated, on pallet 3", .material = "oak"};
    assert_null(blend_with(arena, &dust, 0.01).treated_dusts);
    dust = (Dust){.name = "Varnished oak", .material = "oak"};
    assert_string_equal(blend_with(arena, &dust, 0.01).treated_dusts, "Varnished oak");
    dust = (Dust){.name = "Saw", .material = "beech plywood"};
    assert_string_equal(blend_with(arena, &dust, 0.01).treated_dusts, "Saw (beech plywood)");
    dust = (Dust){.name = "Mouldy oak", .material = "oak"};
    assert_string_equal(blend_with(arena, &dust, 0.01).unfit_woods, "Mouldy oak");
    arena_free(arena);
}

static void a_spice_may_be_as_much_as_is_usual_and_no_more(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Dust twigs = {.name = "Juniper twigs", .material = "juniper", .form = FORM_LEAF};
    assert_null(blend_with(arena, &twigs, 0.10).strong_spices);
    assert_string_equal(blend_with(arena, &twigs, 0.11).strong_spices, "Juniper twigs");
    Dust herb = {.name = "Rosemary", .material = "rosemary", .form = FORM_LEAF};
    assert_null(blend_with(arena, &herb, 0.30).strong_spices);
    assert_non_null(blend_with(arena, &herb, 0.31).strong_spices);
    PlanBlend both = blend_with(arena, &herb, 0.20);
    LIST_ADD(arena, &both.parts, ((PlanPart){.dust = &twigs, .dry_share = 0.05}));
    wood_use_name(arena, &both);
    assert_string_equal(both.strong_spices, "Rosemary, Juniper twigs");
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(woods_that_are_warned_of_are_refused),
        cmocka_unit_test(needles_and_herbs_are_a_spice),
        cmocka_unit_test(leaves_are_not_let_pass_by_the_end_of_a_name),
        cmocka_unit_test(poisonous_herbs_and_treated_wood_are_refused),
        cmocka_unit_test(ordinary_woods_pass_and_strange_ones_do_not),
        cmocka_unit_test(no_known_wood_is_unknown),
        cmocka_unit_test(words_are_found_whole),
        cmocka_unit_test(the_blend_names_what_is_wrong),
        cmocka_unit_test(a_spice_may_be_as_much_as_is_usual_and_no_more),
    };
    const char *against = "wood use: woods that smokehouse guides and MedlinePlus warn of";
    return cmocka_run_group_tests_name(against, tests, NULL, NULL);
}
