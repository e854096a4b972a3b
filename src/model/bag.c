#include "model/bag.h"

#include "model/net_quantity.h"
#include "model/wood.h"

#include <math.h>
#include <string.h>

/* Grains are drawn when all are of these sizes, m. The least is a dot and a fifth of a label
 * printer with 203 dots an inch (0.125 mm): below it grains run together or are lost. Of the most,
 * a label has room for a few (judgement). */
static const double DRAWABLE_LEAST_M = 0.15e-3;
static const double DRAWABLE_MOST_M = 4e-3;

/* What a buyer is told of a dust: the owner's words, or the species, or the material as written.
 * Woods whose name is one word have their words in every language. */
static BagPart part_of(Arena *arena, const PlanPart *part) {
    const Dust *dust = part->dust;
    if (dust->label_name) {
        return (BagPart){.name = dust->label_name, .share = part->wet_share};
    }
    const Wood *wood = wood_find(dust->material);
    bool worded = wood && !strchr(wood->name, ' ');
    return (BagPart){.name = dust->material ? dust->material : dust->name,
                     .species = worded ? arena_format(arena, "species.%s", wood->name) : NULL,
                     .charred = dust->charred,
                     .share = part->wet_share};
}

static bool is_same(const BagPart *one, const BagPart *other) {
    if (one->charred != other->charred) {
        return false;
    }
    if (one->species && other->species) {
        return strcmp(one->species, other->species) == 0;
    }
    return !one->species && !other->species && strcmp(one->name, other->name) == 0;
}

static void add_part(Arena *arena, PlanBag *bag, BagPart part) {
    for (size_t i = 0; i < bag->parts.count; i++) {
        if (is_same(&bag->parts.items[i], &part)) {
            bag->parts.items[i].share += part.share;
            return;
        }
    }
    LIST_ADD(arena, &bag->parts, part);
}

/* Parts by falling share; equal shares stay in the order of the recipe. */
static void sort_parts(PlanBag *bag) {
    BagPart *parts = bag->parts.items;
    for (size_t i = 1; i < bag->parts.count; i++) {
        for (size_t k = i; k > 0 && parts[k].share > parts[k - 1].share; k--) {
            BagPart lesser = parts[k - 1];
            parts[k - 1] = parts[k];
            parts[k] = lesser;
        }
    }
}

static void add_parts(Arena *arena, const PlanBlend *blend, PlanBag *bag) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        add_part(arena, bag, part_of(arena, &blend->parts.items[i]));
    }
    sort_parts(bag);
}

static bool all_untreated(const PlanBlend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        if (!blend->parts.items[i].dust->untreated) {
            return false;
        }
    }
    return blend->parts.count > 0;
}

static bool any_herbs(const PlanBlend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        const Dust *dust = blend->parts.items[i].dust;
        const Wood *wood = wood_find(dust->material);
        if (dust->form == FORM_LEAF || (wood && wood->herb)) {
            return true;
        }
    }
    return false;
}

/* The basis on which all its dusts were stated, or else the dry one. */
static MoistureBasis printed_basis(const PlanBlend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        if (blend->parts.items[i].dust->stated_basis == BASIS_DRY) {
            return BASIS_DRY;
        }
    }
    return blend->parts.count > 0 ? BASIS_WET : BASIS_DRY;
}

/* The day since which nothing in it was measured anew; none when a dust does not say its own. */
static Date oldest_measured(const PlanBlend *blend) {
    Date oldest = {0};
    for (size_t i = 0; i < blend->parts.count; i++) {
        Date day = blend->parts.items[i].dust->measured;
        if (!day.year) {
            return (Date){0};
        }
        if (!oldest.year || date_compare(day, oldest) < 0) {
            oldest = day;
        }
    }
    return oldest;
}

/* The one dust whose plain range of grain the bag has; NULL: a mixture, or a sieve analysis. */
static const Dust *declared_dust(const PlanBlend *blend) {
    const Dust *dust = blend->parts.count > 0 ? blend->parts.items[0].dust : NULL;
    for (size_t i = 1; i < blend->parts.count; i++) {
        if (blend->parts.items[i].dust != dust) {
            return NULL;
        }
    }
    bool plain = dust && is_stated(dust->grain_from_m) && is_stated(dust->grain_to_m);
    return plain && dust->sieve.classes.count == 0 ? dust : NULL;
}

Market bag_market(const Workshop *workshop, const BagOrder *order) {
    return order->market_stated ? order->market : workshop->market;
}

/* A dust that is in it twice has its lot there once. */
static const char *lots_of_dusts(Arena *arena, const PlanBlend *blend, int *count) {
    const char *lots = NULL;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const Dust *dust = blend->parts.items[i].dust;
        bool again = false;
        for (size_t k = 0; k < i; k++) {
            again = again || blend->parts.items[k].dust == dust;
        }
        if (dust->lot && !again) {
            lots = lots ? arena_format(arena, "%s, %s", lots, dust->lot) : dust->lot;
            ++*count;
        }
    }
    return lots;
}

Date bag_dry_until(const Workshop *workshop, const PlanBag *bag) {
    bool known = is_stated(bag->moisture) && workshop->store.sealed && date_valid(bag->packed);
    return known ? date_from_days(date_to_days(bag->packed) + BAG_DRY_DAYS) : (Date){0};
}

/* What is declared is a plain range, over whose logarithm of size the mass is spread evenly. */
static void set_grain_sizes(PlanBag *bag, const GrainFigures *grain) {
    for (int i = 0; i < MIDDLE_SIZES; i++) {
        double part = (double)i / (MIDDLE_SIZES - 1);
        bag->grain_sizes_m[i] =
            bag->grain_declared ? bag->grain_from_m * pow(bag->grain_to_m / bag->grain_from_m, part)
                                : grain->middle_m[i];
    }
    bag->grain_drawable = bag->grain_from_m >= DRAWABLE_LEAST_M &&
                          bag->grain_to_m <= DRAWABLE_MOST_M;
}

/* A label says nothing of a grain that a kitchen sieve told. */
static bool grain_known(const PlanBlend *blend) {
    for (size_t i = 0; i < blend->parts.count; i++) {
        if (blend->parts.items[i].dust->grain_judged) {
            return false;
        }
    }
    return true;
}

PlanBag bag_of_order(Arena *arena, const Workshop *workshop, const BagOrder *order, Date day,
                     const PlanBlend *blend, bool sieved) {
    Market market = bag_market(workshop, order);
    const Dust *declared = sieved ? NULL : declared_dust(blend);
    bool known = grain_known(blend);
    double moisture = blend->moisture_assumed ? NOT_STATED : blend->moisture;
    PlanBag bag = {
        .order = order,
        .net_kg = order->net_kg,
        .count = order->count,
        .figure_height_m = net_quantity_figure_height_m(market, order->net_kg, order->face_width_m,
                                                        order->face_height_m),
        .grain_from_m = !known     ? NOT_STATED
                        : declared ? declared->grain_from_m
                                   : blend->grain.d10_m,
        .grain_to_m = !known     ? NOT_STATED
                      : declared ? declared->grain_to_m
                                 : blend->grain.d90_m,
        .grain_declared = declared != NULL,
        .moisture = moisture,
        .basis = printed_basis(blend),
        .measured = oldest_measured(blend),
        .packed = order->packed.year ? order->packed : day,
        .untreated = all_untreated(blend),
        .herbs = any_herbs(blend),
        .tolerance_kg = net_quantity_tolerance_kg(market, order->net_kg),
        .total_kg = order->net_kg * order->count,
        .e_mark = net_quantity_e_mark(market, workshop->filling, order->net_kg),
        .dry_to = NOT_STATED,
        .oven_c = NOT_STATED,
        .look_after_s = NOT_STATED,
        .tray_channel_m = NOT_STATED,
        .burns_from_s = NOT_STATED,
        .burns_to_s = NOT_STATED,
    };
    bag.dust_lots = lots_of_dusts(arena, blend, &bag.dust_lots_count);
    bag.dry_until = bag_dry_until(workshop, &bag);
    add_parts(arena, blend, &bag);
    set_grain_sizes(&bag, &blend->grain);
    return bag;
}

double bag_tonight_kg(const PlanBlend *blend, const Dust *dust) {
    double sum_kg = 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const PlanPart *part = &blend->parts.items[i];
        sum_kg += part->dust == dust ? part->wet_kg : 0;
    }
    return sum_kg;
}

/* A dust may be in the blend twice, and still lies on the shelf once. */
static double packed_of_dust_kg(const PlanBlend *blend, const Dust *dust) {
    double sum_kg = 0;
    for (size_t i = 0; i < blend->parts.count; i++) {
        const PlanPart *part = &blend->parts.items[i];
        sum_kg += part->dust == dust ? part->packed_kg : 0;
    }
    return sum_kg;
}

static void take_from_shelf(PlanBlend *blend, double total_kg) {
    const double hair_kg = 1e-9;
    for (size_t i = 0; i < blend->parts.count; i++) {
        blend->parts.items[i].packed_kg = total_kg * blend->parts.items[i].wet_share;
    }
    for (size_t i = 0; i < blend->parts.count; i++) {
        PlanPart *part = &blend->parts.items[i];
        part->stock_left_kg = part->dust->stock_kg - bag_tonight_kg(blend, part->dust) -
                              packed_of_dust_kg(blend, part->dust);
        part->short_of_stock = part->stock_left_kg < -hair_kg;
    }
}

void bag_plan(Arena *arena, const Batch *batch, Date session_date, Plan *plan) {
    double total_kg = 0;
    for (size_t i = 0; i < batch->bags.count; i++) {
        PlanBag bag = bag_of_order(arena, batch->workshop, &batch->bags.items[i], session_date,
                                   &plan->blend, false);
        total_kg += bag.total_kg;
        LIST_ADD(arena, &plan->bags, bag);
    }
    take_from_shelf(&plan->blend, total_kg);
}
