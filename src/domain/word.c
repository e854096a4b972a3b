#include "domain/word.h"

/* Without a default, so that the compiler names a value that has no words. */

const char *word_of_verdict(Verdict verdict) {
    switch (verdict) {
    case VERDICT_GOOD: return "verdict.good";
    case VERDICT_TEND: return "verdict.tend";
    case VERDICT_STAY: return "verdict.stay";
    case VERDICT_DO_NOT_LIGHT: return "verdict.do_not_light";
    }
    return NULL;
}

const char *word_of_cause(Cause cause) {
    switch (cause) {
    case CAUSE_NONE: return "cause.none";
    case CAUSE_DAMP_DUST: return "cause.damp_dust";
    case CAUSE_DAMP_AIR: return "cause.damp_air";
    case CAUSE_FINES: return "cause.fines";
    case CAUSE_COARSE: return "cause.coarse";
    case CAUSE_SULKY: return "cause.sulky";
    case CAUSE_METAL: return "cause.metal";
    case CAUSE_CABINET_WARM: return "cause.cabinet_warm";
    case CAUSE_ROOM_CO: return "cause.room_co";
    case CAUSE_ROOM_UNKNOWN: return "cause.room_unknown";
    case CAUSE_FOOD: return "cause.food";
    case CAUSE_FOOD_UNKNOWN: return "cause.food_unknown";
    case CAUSE_SHORT_OF_DUST: return "cause.short_of_dust";
    case CAUSE_NO_BLEND: return "cause.no_blend";
    case CAUSE_TOO_SHORT: return "cause.too_short";
    case CAUSE_ROOM_CO_NEAR: return "cause.room_co_near";
    case CAUSE_UNTENDED: return "cause.untended";
    case CAUSE_WARM_UNTENDED: return "cause.warm_untended";
    case CAUSE_ROOM_CO_ASLEEP: return "cause.room_co_asleep";
    case CAUSE_WOOD_UNFIT: return "cause.wood_unfit";
    case CAUSE_WOOD_TREATED: return "cause.wood_treated";
    case CAUSE_WOOD_UNKNOWN: return "cause.wood_unknown";
    case CAUSE_SPICE_STRONG: return "cause.spice_strong";
    case CAUSE_LAYER_THIN: return "cause.layer_thin";
    case CAUSE_FRONT_SLOW: return "cause.front_slow";
    case CAUSE_FRONT_FAST: return "cause.front_fast";
    case CAUSE_TOO_LONG: return "cause.too_long";
    case CAUSE_TRAY_BIG: return "cause.tray_big";
    case CAUSE_TRAY_NEAR_WALL: return "cause.tray_near_wall";
    case CAUSE_HOUR_PAST: return "cause.hour_past";
    case CAUSE_WALL_HOT: return "cause.wall_hot";
    case CAUSE_OXYGEN: return "cause.oxygen";
    case CAUSE_CONDENSATION: return "cause.condensation";
    case CAUSE_WIND: return "cause.wind";
    case CAUSE_LIT_ALONE: return "cause.lit_alone";
    case CAUSE_BEGIN_LATE: return "cause.begin_late";
    case CAUSE_NOT_READY: return "cause.not_ready";
    case CAUSE_WEATHER_USUAL: return "cause.weather_usual";
    case CAUSE_JUDGED: return "cause.judged";
    }
    return NULL;
}

const char *word_of_remedy(RemedyKind kind) {
    switch (kind) {
    case REMEDY_DRY: return "remedy.dry";
    case REMEDY_SIEVE: return "remedy.sieve";
    case REMEDY_CARRIER: return "remedy.carrier";
    case REMEDY_HEAP: return "remedy.heap";
    case REMEDY_LIGHTER_FILL: return "remedy.lighter_fill";
    case REMEDY_WIDER_VENT: return "remedy.wider_vent";
    case REMEDY_SHORTER_BURN: return "remedy.shorter_burn";
    case REMEDY_OTHER_HOUR: return "remedy.other_hour";
    case REMEDY_OUTDOORS: return "remedy.outdoors";
    case REMEDY_AIR_ROOM: return "remedy.air_room";
    case REMEDY_OTHER_TRAY: return "remedy.other_tray";
    }
    return NULL;
}

const char *word_of_care_level(CareLevel level) {
    switch (level) {
    case CARE_NOTE: return "care_level.note";
    case CARE_CAUTION: return "care_level.caution";
    case CARE_FORBIDS: return "care_level.forbids";
    }
    return NULL;
}

const char *word_of_product(ProductKind kind) {
    switch (kind) {
    case PRODUCT_CHEESE: return "product.cheese";
    case PRODUCT_BUTTER: return "product.butter";
    case PRODUCT_FISH: return "product.fish";
    case PRODUCT_SALT: return "product.salt";
    case PRODUCT_MEAT: return "product.meat";
    case PRODUCT_OTHER: return "product.other";
    }
    return NULL;
}

const char *word_of_basis(MoistureBasis basis) {
    switch (basis) {
    case BASIS_DRY: return "basis.dry";
    case BASIS_WET: return "basis.wet";
    }
    return NULL;
}

const char *word_of_packing(Packing packing) {
    switch (packing) {
    case PACKING_SPRINKLED: return "packing.sprinkled";
    case PACKING_LEVELLED: return "packing.levelled";
    case PACKING_TAMPED: return "packing.tamped";
    }
    return NULL;
}

const char *word_of_channel(ChannelPath path) {
    switch (path) {
    case PATH_LANES: return "channel.lanes";
    case PATH_SPIRAL: return "channel.spiral";
    case PATH_STRAIGHT: return "channel.straight";
    }
    return NULL;
}

const char *word_of_vent(VentOpening opening, bool outlet) {
    switch (opening) {
    case VENT_UNSTATED: return "vent.unstated";
    case VENT_QUARTER: return "vent.quarter";
    case VENT_HALF: return "vent.half";
    case VENT_THREE_QUARTERS: return "vent.three_quarters";
    case VENT_OPEN: return "vent.open";
    case VENT_PART: return outlet ? "vent.outlet_part" : "vent.inlet_part";
    case VENT_AREA: return outlet ? "vent.outlet_area" : "vent.inlet_area";
    }
    return NULL;
}

const char *word_of_vents(VentOpening inlet) {
    return inlet == VENT_UNSTATED ? "vent.unstated" : "vent.both";
}

const char *word_of_season_state(SeasonState state) {
    switch (state) {
    case SEASON_PLANNED: return "season_state.planned";
    case SEASON_UNWRITTEN: return "season_state.unwritten";
    case SEASON_LASTED: return "season_state.lasted";
    case SEASON_RELIT: return "season_state.relit";
    case SEASON_DIED: return "season_state.died";
    case SEASON_STOPPED: return "season_state.stopped";
    case SEASON_NO_END: return "season_state.no_end";
    case SEASON_BAGGED: return "season_state.bagged";
    }
    return NULL;
}
