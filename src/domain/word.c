#include "domain/word.h"

/* One list in which every kind of value owns a run of neighbours, in the order of its enum. */
static const char *const words[] = {
    "verdict.good",
    "verdict.tend",
    "verdict.stay",
    "verdict.do_not_light",
    "cause.none",
    "cause.damp_dust",
    "cause.damp_air",
    "cause.fines",
    "cause.coarse",
    "cause.sulky",
    "cause.metal",
    "cause.cabinet_warm",
    "cause.room_co",
    "cause.room_unknown",
    "cause.food",
    "cause.food_unknown",
    "cause.short_of_dust",
    "cause.no_blend",
    "cause.too_short",
    "cause.room_co_near",
    "cause.untended",
    "cause.warm_untended",
    "cause.room_co_asleep",
    "cause.wood_unfit",
    "cause.wood_treated",
    "cause.wood_unknown",
    "cause.spice_strong",
    "cause.layer_thin",
    "cause.front_slow",
    "cause.front_fast",
    "cause.too_long",
    "cause.tray_big",
    "cause.tray_near_wall",
    "cause.hour_past",
    "cause.wall_hot",
    "cause.oxygen",
    "cause.condensation",
    "cause.wind",
    "cause.lit_alone",
    "remedy.dry",
    "remedy.sieve",
    "remedy.carrier",
    "remedy.heap",
    "remedy.lighter_fill",
    "remedy.wider_vent",
    "remedy.shorter_burn",
    "remedy.other_hour",
    "remedy.outdoors",
    "remedy.air_room",
    "remedy.other_tray",
    "care_level.note",
    "care_level.caution",
    "care_level.forbids",
    "product.cheese",
    "product.butter",
    "product.fish",
    "product.salt",
    "product.meat",
    "product.other",
    "form.dust",
    "form.chip",
    "form.leaf",
    "basis.dry",
    "basis.wet",
    "packing.sprinkled",
    "packing.levelled",
    "packing.tamped",
    "channel.lanes",
    "channel.spiral",
    "channel.straight",
    "wall.mesh",
    "wall.plate",
    "solver.not_asked",
    "solver.found",
    "solver.infeasible",
    "timing.light_at",
    "timing.finish_by",
    "timing.best",
    "vent.unstated",
    "vent.quarter",
    "vent.half",
    "vent.three_quarters",
    "vent.open",
    "vent.inlet_part",
    "vent.inlet_area",
    "vent.outlet_part",
    "vent.outlet_area",
    "vent.both",
};

/* Where the run of each kind starts. */
enum {
    VERDICT_WORDS = 0,
    CAUSE_WORDS = VERDICT_WORDS + VERDICT_DO_NOT_LIGHT + 1,
    REMEDY_WORDS = CAUSE_WORDS + CAUSE_COUNT,
    CARE_LEVEL_WORDS = REMEDY_WORDS + REMEDY_OTHER_TRAY + 1,
    PRODUCT_WORDS = CARE_LEVEL_WORDS + CARE_FORBIDS + 1,
    FORM_WORDS = PRODUCT_WORDS + PRODUCT_OTHER + 1,
    BASIS_WORDS = FORM_WORDS + FORM_LEAF + 1,
    PACKING_WORDS = BASIS_WORDS + BASIS_WET + 1,
    CHANNEL_WORDS = PACKING_WORDS + PACKING_TAMPED + 1,
    WALL_WORDS = CHANNEL_WORDS + PATH_STRAIGHT + 1,
    SOLVER_WORDS = WALL_WORDS + WALL_PLATE + 1,
    TIMING_WORDS = SOLVER_WORDS + SOLVER_INFEASIBLE + 1,
    VENT_WORDS = TIMING_WORDS + TIMING_BEST + 1,
    OUTLET_WORDS = VENT_WORDS + VENT_AREA + 1, /* of part and area: they hold a figure */
    VENTS_WORD = OUTLET_WORDS + VENT_AREA - VENT_PART + 1,
    WORD_COUNT = VENTS_WORD + 1
};

_Static_assert(sizeof words / sizeof *words == WORD_COUNT, "every value has its word");

const char *word_of_verdict(Verdict verdict) {
    return words[VERDICT_WORDS + (int)verdict];
}

const char *word_of_cause(Cause cause) {
    return words[CAUSE_WORDS + (int)cause];
}

const char *word_of_remedy(RemedyKind kind) {
    return words[REMEDY_WORDS + (int)kind];
}

const char *word_of_care_level(CareLevel level) {
    return words[CARE_LEVEL_WORDS + (int)level];
}

const char *word_of_product(ProductKind kind) {
    return words[PRODUCT_WORDS + (int)kind];
}

const char *word_of_form(DustForm form) {
    return words[FORM_WORDS + (int)form];
}

const char *word_of_basis(MoistureBasis basis) {
    return words[BASIS_WORDS + (int)basis];
}

const char *word_of_packing(Packing packing) {
    return words[PACKING_WORDS + (int)packing];
}

const char *word_of_channel(ChannelPath path) {
    return words[CHANNEL_WORDS + (int)path];
}

const char *word_of_wall(ChannelWall wall) {
    return words[WALL_WORDS + (int)wall];
}

const char *word_of_solver(SolverOutcome outcome) {
    return words[SOLVER_WORDS + (int)outcome];
}

const char *word_of_timing(TimingKind kind) {
    return words[TIMING_WORDS + (int)kind];
}

const char *word_of_vent(VentOpening opening, bool outlet) {
    bool figure = opening >= VENT_PART;
    return words[outlet && figure ? OUTLET_WORDS + (int)opening - VENT_PART
                                  : VENT_WORDS + (int)opening];
}

const char *word_of_vents(VentOpening inlet) {
    return words[inlet == VENT_UNSTATED ? VENT_WORDS : VENTS_WORD];
}

const char *const *word_list(size_t *count) {
    *count = WORD_COUNT;
    return words;
}
