#include "model/packing.h"

#include "model/bag.h"
#include "model/bag_use.h"
#include "model/lot.h"
#include "model/net_quantity.h"
#include "model/recipe.h"
#include "model/weighing.h"
#include "model/wood_use.h"

#include <math.h>
#include <string.h>

static const double hair_kg = 1e-9;

/* A blend on its way through the day. Shares are of mass as it is weighed, after sieving. */
typedef struct Work {
    const Bagging *bagging;
    PackingBlend *packed;
    size_t count;
    double *wet_shares;
    double *sieved_out; /* share of each dust that the sieve takes out */
    double dried_ratio; /* mass after drying over mass before, 1 where nothing is dried */
} Work;

/* Takes the fines out of each dust, before they are mixed, so that the shares of what is mixed are
 * those of the recipe. */
static void sieve(const Work *work, DustFigures *dusts) {
    double below_m = work->packed->order->sieve_below_m;
    for (size_t i = 0; is_stated(below_m) && i < work->count; i++) {
        Sieving sieving =
            grain_sieve_out(&dusts[i].grain, below_m, 0, below_m, GRAIN_SIEVE_EFFICIENCY);
        work->sieved_out[i] = sieving.removed_share;
        dusts[i].grain = sieving.left;
    }
}

static void mix(Arena *arena, Work *work) {
    const Blend *order = &work->packed->order->blend;
    PlanBlend *blend = &work->packed->blend;
    const Store *store = &work->bagging->workshop->store;
    DustFigures *dusts = recipe_dusts(arena, order, store, work->bagging->packed);
    double *shares = ARENA_ARRAY(arena, work->count, double);
    double *dry_shares = ARENA_ARRAY(arena, work->count, double);
    for (size_t i = 0; i < work->count; i++) {
        shares[i] = order->parts.items[i].share;
    }
    blend_dry_shares(dusts, shares, work->count, order->by_volume, dry_shares);
    sieve(work, dusts);
    Mix mixed = blend_mix(dusts, dry_shares, work->count);
    recipe_mix(arena, order, dusts, dry_shares, &mixed, blend);
    wood_use_name(arena, blend);
    for (size_t i = 0; i < work->count; i++) {
        work->wet_shares[i] = blend->parts.items[i].wet_share;
    }
    double dry_to = work->packed->order->dry_to;
    bool dried = is_stated(dry_to) && dry_to < blend->moisture;
    work->dried_ratio = dried ? (1 + dry_to) / (1 + blend->moisture) : 1;
    work->packed->moisture_known = !blend->moisture_assumed && !dried;
}

static const char *language_of(const Workshop *workshop, const BagOrder *order) {
    return order->language ? order->language : workshop->language;
}

/* What was measured of the blend stands before what its dusts were; without it nothing is known
 * of a blend that went through the oven. */
static void say_moisture(const Work *work, PlanBag *bag) {
    const BagBlend *order = work->packed->order;
    if (is_stated(order->moisture)) {
        bag->moisture = order->moisture;
        bag->basis = BASIS_DRY;
        bag->measured = order->measured.year ? order->measured : work->bagging->packed;
    } else if (!work->packed->moisture_known) {
        bag->moisture = NOT_STATED;
    }
    bag->dry_until = bag_dry_until(work->bagging->workshop, bag);
}

static void order_bags(Arena *arena, const Work *work) {
    PackingBlend *packed = work->packed;
    for (size_t i = 0; i < packed->order->bags.count; i++) {
        const BagOrder *order = &packed->order->bags.items[i];
        const Workshop *workshop = work->bagging->workshop;
        PackingBag bag = {bag_of_order(arena, workshop, order, work->bagging->packed,
                                       &packed->blend, is_stated(packed->order->sieve_below_m)),
                          language_of(workshop, order),
                          NOT_STATED,
                          NOT_STATED,
                          0,
                          0};
        say_moisture(work, &bag.bag);
        bag_use(arena, work->bagging, &packed->order->blend, &bag.bag);
        Market market = bag_market(workshop, order);
        bag.least_kg = order->net_kg - net_quantity_most_short_kg(market, order->net_kg);
        double short_kg = order->net_kg - bag.bag.tolerance_kg;
        bag.short_kg = short_kg > bag.least_kg ? short_kg : NOT_STATED;
        bag.check_every = (order->count + PACKING_CHECKS - 1) / PACKING_CHECKS;
        bag.checks = (order->count + bag.check_every - 1) / bag.check_every;
        packed->bagged_kg += bag.bag.total_kg;
        LIST_ADD(arena, &packed->bags, bag);
    }
}

/* In how many equal goes the scale takes the mass. */
static size_t goes_for(const Scale *scale, double mass_kg) {
    if (!is_stated(scale->capacity_kg)) {
        return 1;
    }
    double most_kg = PACKING_BOWL_SHARE * scale->capacity_kg;
    return (size_t)fmax(ceil(mass_kg / most_kg - hair_kg), 1);
}

/* Splits each part's steps over the bowls as evenly as whole steps go. */
static void fill_bowls(Arena *arena, const Work *work, const long long *steps, double step_kg) {
    PackingBlend *packed = work->packed;
    size_t bowls = goes_for(&work->bagging->workshop->scale, packed->weighed_kg);
    for (size_t b = 0; b < bowls; b++) {
        PackingBowl bowl = {.mass_kg = 0};
        long long running = 0;
        for (size_t i = 0; i < work->count; i++) {
            long long before = steps[i] * (long long)b / (long long)bowls;
            long long now = steps[i] * (long long)(b + 1) / (long long)bowls - before;
            running += now;
            const Dust *dust = packed->blend.parts.items[i].dust;
            PackingWeighing weighing = {dust->name, dust->lot, (double)now * step_kg,
                                        (double)running * step_kg};
            LIST_ADD(arena, &bowl.weighings, weighing);
        }
        bowl.mass_kg = (double)running * step_kg;
        LIST_ADD(arena, &packed->bowls, bowl);
    }
}

/* What leaves the bowls again before the bags, in whole steps of the scale, so that the sums on
 * the paper agree to the last figure. */
static void lose(const Work *work, double loss, double step_kg) {
    PackingBlend *packed = work->packed;
    bool dried = work->dried_ratio < 1;
    double dried_kg = packed->weighed_kg;
    if (dried) {
        dried_kg = round(packed->weighed_kg * work->dried_ratio / step_kg) * step_kg;
    }
    packed->dried_out_kg = packed->weighed_kg - dried_kg;
    packed->dry_end_kg = dried ? dried_kg : NOT_STATED;
    packed->handling_kg = round(dried_kg * loss / step_kg) * step_kg;
    packed->left_kg = dried_kg - packed->handling_kg - packed->bagged_kg;
}

/* Takes so much of each dust from the shelf that what comes through sieving is there to be
 * weighed: whole steps of the scale too. */
static void take_to_sieve(Arena *arena, const Work *work, const long long *steps, double step_kg) {
    PackingBlend *packed = work->packed;
    for (size_t i = 0; i < work->count; i++) {
        PlanPart *part = &packed->blend.parts.items[i];
        double weighed_kg = (double)steps[i] * step_kg;
        double share_left = 1 - work->sieved_out[i];
        double taken_kg = ceil(weighed_kg / share_left / step_kg - hair_kg) * step_kg;
        PackingSieving sieving = {part->dust->name, part->dust->lot, taken_kg,
                                  taken_kg - weighed_kg,
                                  (int)goes_for(&work->bagging->workshop->scale, taken_kg)};
        if (is_stated(packed->order->sieve_below_m)) {
            LIST_ADD(arena, &packed->sievings, sieving);
        }
        part->packed_kg = taken_kg;
        packed->taken_kg += taken_kg;
        packed->sieved_out_kg += sieving.out_kg;
    }
}

/* From the bags back to the bowls, and from those to the shelf. What is left over is what the
 * rounding gave too much. */
static void weigh_out(Arena *arena, const Work *work) {
    PackingBlend *packed = work->packed;
    double stated_loss = work->bagging->handling_loss;
    double loss = is_stated(stated_loss) ? stated_loss : PACKING_HANDLING_LOSS;
    double step_kg = weighing_step_kg(work->bagging->workshop->scale.resolution_kg);
    double mixed_kg = packed->bagged_kg / (1 - loss) / work->dried_ratio;
    long long *steps = ARENA_ARRAY(arena, work->count, long long);
    do {
        long long sum = weighing_split(mixed_kg, step_kg, work->wet_shares, work->count, steps);
        packed->weighed_kg = (double)sum * step_kg;
        lose(work, loss, step_kg);
        mixed_kg += step_kg;
    } while (packed->left_kg < -hair_kg);
    take_to_sieve(arena, work, steps, step_kg);
    fill_bowls(arena, work, steps, step_kg);
}

/* A plan of the blend without bags yet, of a workshop with the bag's language and market. */
static Plan *label_plan(Arena *arena, const Bagging *bagging, const PackingBlend *packed,
                        const BagOrder *order) {
    Workshop *workshop = ARENA_NEW(arena, Workshop);
    *workshop = *bagging->workshop;
    workshop->language = language_of(bagging->workshop, order);
    workshop->market = bag_market(bagging->workshop, order);
    Batch *batch = ARENA_NEW(arena, Batch);
    *batch = (Batch){.place = packed->order->place,
                     .file = bagging->file,
                     .name = bagging->name,
                     .workshop = workshop,
                     .blend = packed->order->blend};
    Plan *plan = ARENA_NEW(arena, Plan);
    *plan =
        (Plan){.batch = batch, .workshop = workshop, .lot = packed->lot, .blend = packed->blend};
    return plan;
}

static bool speaks_for(const Plan *plan, const Workshop *workshop, const BagOrder *order) {
    return plan->workshop->market == bag_market(workshop, order) &&
           strcmp(plan->workshop->language, language_of(workshop, order)) == 0;
}

/* Labels know nothing of bagging: each reads a plan that has a blend, bags and a lot. */
static void plan_labels(Arena *arena, const Bagging *bagging, PackingBlend *packed) {
    Plan *plan = NULL;
    for (size_t i = 0; i < packed->bags.count; i++) {
        const PlanBag *bag = &packed->bags.items[i].bag;
        if (!plan || !speaks_for(plan, bagging->workshop, bag->order)) {
            plan = label_plan(arena, bagging, packed, bag->order);
            LIST_ADD(arena, &packed->labels, plan);
        }
        LIST_ADD(arena, &plan->bags, *bag);
    }
}

static PackingBlend pack(Arena *arena, const Bagging *bagging, size_t index) {
    const BagBlend *order = &bagging->packs.items[index];
    PackingBlend packed = {.order = order, .short_of = NET_QUANTITY_ONE_SHORT_OF};
    packed.lot = order->lot ? order->lot
                            : lot_short(arena, bagging->packed, bagging->file, (int)index + 1);
    size_t count = order->blend.parts.count;
    Work work = {.bagging = bagging,
                 .packed = &packed,
                 .count = count,
                 .wet_shares = ARENA_ARRAY(arena, count, double),
                 .sieved_out = ARENA_ARRAY(arena, count, double)};
    mix(arena, &work);
    order_bags(arena, &work);
    weigh_out(arena, &work);
    return packed;
}

static PackingStock *stock_of(Arena *arena, PackingPlan *plan, const Dust *dust) {
    for (size_t i = 0; i < plan->stocks.count; i++) {
        if (plan->stocks.items[i].dust == dust) {
            return &plan->stocks.items[i];
        }
    }
    LIST_ADD(arena, &plan->stocks,
             ((PackingStock){.dust = dust,
                             .name = dust->name,
                             .lot = dust->lot,
                             .before_kg = dust->stock_kg,
                             .after_kg = NOT_STATED}));
    return &plan->stocks.items[plan->stocks.count - 1];
}

static void take_stock(Arena *arena, PackingPlan *plan) {
    for (size_t i = 0; i < plan->blends.count; i++) {
        const PlanBlend *blend = &plan->blends.items[i].blend;
        for (size_t k = 0; k < blend->parts.count; k++) {
            const PlanPart *part = &blend->parts.items[k];
            stock_of(arena, plan, part->dust)->taken_kg += part->packed_kg;
        }
    }
}

static void close_stock(PackingPlan *plan) {
    for (size_t i = 0; i < plan->stocks.count; i++) {
        PackingStock *stock = &plan->stocks.items[i];
        double after_kg = stock->before_kg - stock->taken_kg - stock->tonight_kg;
        stock->missing_kg = after_kg < -hair_kg ? -after_kg : 0;
        stock->after_kg = is_stated(after_kg) ? fmax(after_kg, 0) : NOT_STATED;
    }
}

/* A number stands on one bag of a lot alone, whatever its mass and language; blends may have been
 * given the same lot. Numbers on from `sum` those of one blend; returns how many that makes. */
static int number_bags(PackingBlend *packed, int sum) {
    for (size_t i = 0; i < packed->bags.count; i++) {
        PlanBag *bag = &packed->bags.items[i].bag;
        bag->numbered_before = sum;
        sum += bag->order->numbered ? bag->count : 0;
    }
    return sum;
}

static void number_lots(PackingPlan *plan) {
    for (size_t i = 0; i < plan->blends.count; i++) {
        const char *lot = plan->blends.items[i].lot;
        int sum = 0;
        for (size_t k = 0; k < plan->blends.count; k++) {
            PackingBlend *other = &plan->blends.items[k];
            sum = strcmp(other->lot, lot) == 0 ? number_bags(other, sum) : sum;
        }
        PackingBlend *packed = &plan->blends.items[i];
        for (size_t k = 0; k < packed->bags.count; k++) {
            packed->bags.items[k].bag.numbered_in_all = sum;
        }
    }
}

static PackingPlan *pack_all(Arena *arena, const Bagging *bagging) {
    PackingPlan *plan = ARENA_NEW(arena, PackingPlan);
    *plan = (PackingPlan){.bagging = bagging};
    for (size_t i = 0; i < bagging->packs.count; i++) {
        LIST_ADD(arena, &plan->blends, pack(arena, bagging, i));
    }
    number_lots(plan);
    for (size_t i = 0; i < plan->blends.count; i++) {
        plan_labels(arena, bagging, &plan->blends.items[i]);
    }
    take_stock(arena, plan);
    return plan;
}

PackingPlan *packing_plan(Arena *arena, const Bagging *bagging) {
    PackingPlan *plan = pack_all(arena, bagging);
    close_stock(plan);
    return plan;
}

/* The bags of a night as a day of bagging. */
static const Bagging *packing_of_night(Arena *arena, const Plan *plan) {
    const Batch *batch = plan->batch;
    BagBlend pack = {.place = batch->place,
                     .blend = {.place = batch->blend.place, .name = batch->blend.name},
                     .lot = plan->lot,
                     .sieve_below_m = NOT_STATED,
                     .dry_to = NOT_STATED,
                     .moisture = NOT_STATED};
    for (size_t i = 0; i < plan->blend.parts.count; i++) {
        const PlanPart *part = &plan->blend.parts.items[i];
        LIST_ADD(arena, &pack.blend.parts,
                 ((BlendPart){.dust = part->dust, .kind = SHARE_FIXED, .share = part->wet_share}));
    }
    for (size_t i = 0; i < batch->bags.count; i++) {
        LIST_ADD(arena, &pack.bags, batch->bags.items[i]);
    }
    Bagging *bagging = ARENA_NEW(arena, Bagging);
    *bagging = (Bagging){.place = batch->place,
                         .file = batch->file,
                         .name = batch->name,
                         .workshop = batch->workshop,
                         .packed = plan->bags.count ? plan->bags.items[0].packed : (Date){0},
                         .handling_loss = NOT_STATED};
    LIST_ADD(arena, &bagging->packs, pack);
    return bagging;
}

PackingPlan *packing_plan_of_night(Arena *arena, const Plan *plan) {
    PackingPlan *packing = pack_all(arena, packing_of_night(arena, plan));
    packing->of_night = true;
    for (size_t i = 0; i < packing->stocks.count; i++) {
        PackingStock *stock = &packing->stocks.items[i];
        stock->tonight_kg = bag_tonight_kg(&plan->blend, stock->dust);
    }
    close_stock(packing);
    return packing;
}

/* Labels on their way over the sheets. */
typedef struct LabelCount {
    const StockSet *stocks;
    FirstLabels firsts;
    LabelSheets *sheets;
    LIST_OF(LabelSheet) before; /* as the day found them */
    LIST_OF(int) begins;        /* label with which the day begins on each, from 1; 0: on none */
} LabelCount;

static void count_order(Arena *arena, LabelCount *count, const BagOrder *order) {
    const Stock *stock = stock_find(count->stocks, order->stock);
    if (!stock) {
        return;
    }
    int first = label_sheet_first(count->sheets, count->firsts, stock, order);
    LabelSheet *sheet = label_sheet_start(arena, count->sheets, stock, first);
    size_t index = (size_t)(sheet - count->sheets->sheets.items);
    while (count->begins.count <= index) {
        LIST_ADD(arena, &count->begins, 0);
    }
    for (int i = 0; i < order->count; i++) {
        int label = label_sheet_take(sheet) + 1;
        int *begin = &count->begins.items[index];
        *begin = *begin ? *begin : label;
    }
}

static void add_labels(Arena *arena, PackingPlan *plan, const LabelSheet *now,
                       const LabelSheet *was, int begin) {
    int next = label_sheet_free(now);
    LIST_ADD(arena, &plan->labels,
             ((PackingLabels){.name = now->stock->name,
                              .labels = now->labels - was->labels,
                              .sheets = now->sheets - was->sheets,
                              .begin = begin,
                              .begun = begin > 1,
                              .next = next,
                              .left = next > 0,
                              .roll = now->stock->roll,
                              .pair = now->stock->pair}));
}

void packing_count_labels(Arena *arena, PackingPlan *plan, const StockSet *stocks,
                          FirstLabels firsts, LabelSheets *sheets) {
    LabelCount count = {.stocks = stocks, .firsts = firsts, .sheets = sheets};
    for (size_t i = 0; i < sheets->sheets.count; i++) {
        LIST_ADD(arena, &count.before, sheets->sheets.items[i]);
    }
    for (size_t i = 0; i < plan->blends.count; i++) {
        const PackingBlend *blend = &plan->blends.items[i];
        for (size_t k = 0; k < blend->bags.count; k++) {
            count_order(arena, &count, blend->bags.items[k].bag.order);
        }
    }
    for (size_t i = 0; i < count.begins.count; i++) {
        const LabelSheet *now = &sheets->sheets.items[i];
        LabelSheet was = i < count.before.count ? count.before.items[i] : (LabelSheet){0};
        if (now->labels > was.labels) {
            add_labels(arena, plan, now, &was, count.begins.items[i]);
        }
    }
}
