#include "model/week.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { BITS = 64 };

/* What a way costs, the gravest first; sums of whole numbers, so that no order of adding them up
 * makes two equal ways different. */
enum { NOT_LIT, STAYS, TENDED, LOG_CHANCE, LATE, LATE_IN_TURN, COST_PARTS };

typedef struct Cost {
    int64_t parts[COST_PARTS];
} Cost;

/* An hour of a batch, by its place in the order of time. */
typedef struct Event {
    size_t batch; /* in the order of the files */
    size_t hour;
    const WeekHour *at;
    Cost cost;
} Event;

/* A way to give some batches their hours. */
typedef struct Way {
    unsigned given; /* batches, as bits */
    Cost cost;
    uint64_t *open; /* events that are still possible, as bits */
    const struct Way *before;
    size_t event; /* the last one */
} Way;

typedef LIST_OF(const Way *) Ways;

typedef struct Search {
    Arena *arena;
    const WeekBatch *batches;
    size_t count, words;
    size_t order[WEEK_BATCHES_MOST]; /* of the batches, by their files */
    LIST_OF(Event) events;
    size_t *cheapest[WEEK_BATCHES_MOST]; /* the events of each, by their cost */
    size_t event_counts[WEEK_BATCHES_MOST];
    Cost none;  /* of a batch without an hour */
    Cost best;  /* of the best way that is known to be one */
    Ways *ways; /* by what is given */
} Search;

static const double HUNDREDTH = 0.01;

/* Chances are told apart to a hundredth; less than one counts as half. */
static double hundredths(double chance) {
    return chance > 0 ? fmax(floor(chance / HUNDREDTH + 0.5), 0.5) : 0.5;
}

int week_compare(const WeekHour *hour, const WeekHour *than) {
    if (hour->verdict != than->verdict) {
        return hour->verdict < than->verdict ? -1 : 1;
    }
    double mine = hundredths(hour->chance);
    double other = hundredths(than->chance);
    if (mine > other || mine < other) {
        return mine > other ? -1 : 1;
    }
    return (hour->light_at > than->light_at) - (hour->light_at < than->light_at);
}

bool week_apart(const WeekHour *a, const WeekHour *b) {
    return !(a->fixed && b->fixed) && a->verdict != VERDICT_DO_NOT_LIGHT &&
           b->verdict != VERDICT_DO_NOT_LIGHT &&
           clash_between(&a->use, &b->use).thing != CLASH_NONE;
}

static int compare_cost(const Cost *a, const Cost *b) {
    for (int i = 0; i < COST_PARTS; i++) {
        if (a->parts[i] != b->parts[i]) {
            return a->parts[i] < b->parts[i] ? -1 : 1;
        }
    }
    return 0;
}

static Cost sum_of(const Cost *a, const Cost *b) {
    Cost sum;
    for (int i = 0; i < COST_PARTS; i++) {
        sum.parts[i] = a->parts[i] + b->parts[i];
    }
    return sum;
}

static int64_t log_cost(double chance) {
    const double fine = 1e6;
    return (int64_t)floor(-fine * log(hundredths(chance) * HUNDREDTH) + 0.5);
}

static Cost cost_of(const WeekHour *hour, size_t batch, Instant first) {
    int64_t late = hour->light_at - first;
    return (Cost){{[NOT_LIT] = hour->verdict == VERDICT_DO_NOT_LIGHT,
                   [STAYS] = hour->verdict == VERDICT_STAY,
                   [TENDED] = hour->verdict == VERDICT_TEND,
                   [LOG_CHANCE] = log_cost(hour->chance),
                   [LATE] = late,
                   [LATE_IN_TURN] = late * (int64_t)(batch + 1)}};
}

/* Later than any hour, so that a refused one is preferred to none. */
static Cost cost_of_none(const Search *search) {
    const Event *events = search->events.items;
    size_t count = search->events.count;
    int64_t late = count ? events[count - 1].at->light_at - events[0].at->light_at + SECONDS_PER_DAY
                         : 0;
    return (Cost){{[NOT_LIT] = 1, [LOG_CHANCE] = log_cost(0), [LATE] = late}};
}

static const WeekHour *fixed_hour(const WeekBatch *batch) {
    const WeekHour *hour = batch->hours.items;
    return batch->hours.count == 1 && hour->fixed ? hour : NULL;
}

/* Those with hours to choose from. */
static void order_batches(Search *search, size_t count) {
    for (size_t i = 0; i < count; i++) {
        const char *file = search->batches[i].file;
        size_t at = search->count;
        if (fixed_hour(&search->batches[i]) || at == WEEK_BATCHES_MOST) {
            continue;
        }
        for (; at > 0 && strcmp(file, search->batches[search->order[at - 1]].file) < 0; at--) {
            search->order[at] = search->order[at - 1];
        }
        search->order[at] = i;
        search->count++;
    }
}

/* By time; of one time in the order of the files. */
static bool comes_before(const Event *a, const Event *b) {
    return a->at->light_at < b->at->light_at ||
           (a->at->light_at == b->at->light_at && a->batch < b->batch);
}

static void insert_event(Search *search, Event event) {
    LIST_ADD(search->arena, &search->events, event);
    size_t at = search->events.count - 1;
    for (; at > 0 && comes_before(&event, &search->events.items[at - 1]); at--) {
        search->events.items[at] = search->events.items[at - 1];
    }
    search->events.items[at] = event;
}

/* A refused night is in nobody's way: of those only the best one counts. */
static bool worth_trying(const WeekBatch *batch, size_t hour) {
    const WeekHour *mine = &batch->hours.items[hour];
    for (size_t i = 0; mine->verdict == VERDICT_DO_NOT_LIGHT && i < batch->hours.count; i++) {
        if (batch->hours.items[i].verdict == VERDICT_DO_NOT_LIGHT &&
            week_compare(&batch->hours.items[i], mine) < 0) {
            return false;
        }
    }
    return true;
}

static void collect_events(Search *search) {
    Instant first = INT64_MAX;
    for (size_t i = 0; i < search->count; i++) {
        const WeekBatch *batch = &search->batches[search->order[i]];
        for (size_t j = 0; j < batch->hours.count; j++) {
            Instant at = batch->hours.items[j].light_at;
            first = at < first ? at : first;
        }
    }
    for (size_t i = 0; i < search->count; i++) {
        const WeekBatch *batch = &search->batches[search->order[i]];
        for (size_t j = 0; j < batch->hours.count; j++) {
            const WeekHour *hour = &batch->hours.items[j];
            if (worth_trying(batch, j)) {
                insert_event(search, (Event){i, j, hour, cost_of(hour, i, first)});
            }
        }
    }
    search->words = search->events.count / BITS + 1;
}

static void sort_by_cost(Search *search) {
    const Event *events = search->events.items;
    for (size_t batch = 0; batch < search->count; batch++) {
        search->cheapest[batch] = ARENA_ARRAY(search->arena, search->events.count, size_t);
    }
    for (size_t i = 0; i < search->events.count; i++) {
        size_t *cheapest = search->cheapest[events[i].batch];
        size_t at = search->event_counts[events[i].batch]++;
        for (; at > 0 && compare_cost(&events[i].cost, &events[cheapest[at - 1]].cost) < 0; at--) {
            cheapest[at] = cheapest[at - 1];
        }
        cheapest[at] = i;
    }
}

static bool is_open(const Way *way, size_t event) {
    return way->open[event / BITS] >> (event % BITS) & 1;
}

/* What stays open after an event: what comes behind it, of another batch, and does not clash. */
static void close_others(const Search *search, size_t event, uint64_t *open) {
    const Event *taken = &search->events.items[event];
    for (size_t i = event; i < search->events.count; i++) {
        const Event *other = &search->events.items[i];
        if (i == event || other->batch == taken->batch || week_apart(other->at, taken->at)) {
            open[i / BITS] &= ~((uint64_t)1 << (i % BITS));
        }
    }
}

/* Whether one way costs no more and leaves open all that the other does, from an event on. */
static bool beats(const Search *search, const Way *way, const Way *other, size_t event) {
    if (compare_cost(&way->cost, &other->cost) > 0) {
        return false;
    }
    uint64_t past = event % BITS ? ((uint64_t)1 << (event % BITS)) - 1 : 0;
    for (size_t word = event / BITS; word < search->words; word++) {
        if (other->open[word] & ~way->open[word] & ~past) {
            return false;
        }
        past = 0;
    }
    return true;
}

static void keep(const Search *search, Ways *ways, const Way *way, size_t event) {
    size_t kept = 0;
    for (size_t i = 0; i < ways->count; i++) {
        if (beats(search, ways->items[i], way, event)) {
            return; /* none that it beats was taken out: beating is transitive */
        }
    }
    for (size_t i = 0; i < ways->count; i++) {
        if (!beats(search, way, ways->items[i], event)) {
            ways->items[kept++] = ways->items[i];
        }
    }
    ways->count = kept;
    LIST_ADD(search->arena, ways, way);
}

/* What a way costs at the least when every further batch gets the best hour that is still open to
 * it, as if it were alone. */
static Cost least_cost(const Search *search, const Way *way, size_t event) {
    Cost least = way->cost;
    for (size_t batch = 0; batch < search->count; batch++) {
        const Cost *more = &search->none;
        for (size_t i = 0; i < search->event_counts[batch] && more == &search->none; i++) {
            size_t next = search->cheapest[batch][i];
            if (next > event && is_open(way, next)) {
                more = &search->events.items[next].cost;
            }
        }
        bool better = compare_cost(more, &search->none) < 0;
        least = way->given >> batch & 1 ? least : sum_of(&least, better ? more : &search->none);
    }
    return least;
}

/* Whether an event goes with those that were taken. */
static bool goes_with(const Search *search, const Way *nothing, const size_t *taken, size_t count,
                      size_t event) {
    bool goes = is_open(nothing, event);
    for (size_t i = 0; goes && i < count; i++) {
        goes = !week_apart(search->events.items[event].at, search->events.items[taken[i]].at);
    }
    return goes;
}

/* Each in its turn takes the best that the others left: not the best way, but one. */
static Cost greedy_cost(const Search *search, const Way *nothing, size_t first) {
    size_t taken[WEEK_BATCHES_MOST];
    size_t count = 0;
    Cost cost = {{0}};
    for (size_t turn = 0; turn < search->count; turn++) {
        size_t batch = (first + turn) % search->count;
        size_t i = 0;
        while (i < search->event_counts[batch] &&
               !goes_with(search, nothing, taken, count, search->cheapest[batch][i])) {
            i++;
        }
        bool found = i < search->event_counts[batch];
        size_t event = found ? search->cheapest[batch][i] : 0;
        cost = sum_of(&cost, found ? &search->events.items[event].cost : &search->none);
        if (found) {
            taken[count++] = event;
        }
    }
    return cost;
}

/* The best of the greedy ways. */
static void find_greedy(Search *search, const Way *nothing) {
    for (size_t first = 0; first < search->count; first++) {
        Cost cost = greedy_cost(search, nothing, first);
        if (first == 0 || compare_cost(&cost, &search->best) < 0) {
            search->best = cost;
        }
    }
}

static const Way *way_on(const Search *search, const Way *way, size_t event) {
    const Event *taken = &search->events.items[event];
    Way *on = ARENA_NEW(search->arena, Way);
    *on = (Way){.given = way->given | 1U << taken->batch,
                .cost = sum_of(&way->cost, &taken->cost),
                .open = ARENA_ARRAY(search->arena, search->words, uint64_t),
                .before = way,
                .event = event};
    memcpy(on->open, way->open, search->words * sizeof *on->open);
    close_others(search, event, on->open);
    return on;
}

/* Goes on from one way; what can not become the best one is forgotten. */
static void try_on(const Search *search, const Way *way, size_t event) {
    ArenaMark mark = arena_mark(search->arena);
    const Way *on = way_on(search, way, event);
    Cost least = least_cost(search, on, event);
    if (compare_cost(&least, &search->best) > 0) {
        arena_back_to(search->arena, mark);
    } else {
        keep(search, &search->ways[on->given], on, event);
    }
}

static void go_on(const Search *search, size_t event) {
    unsigned bit = 1U << search->events.items[event].batch;
    for (unsigned given = 0; given < 1U << search->count; given++) {
        const Ways *ways = &search->ways[given];
        for (size_t i = 0; !(given & bit) && i < ways->count; i++) {
            if (is_open(ways->items[i], event)) {
                try_on(search, ways->items[i], event);
            }
        }
    }
}

/* The best of all ways, with what the batches cost that it leaves without an hour. */
static const Way *best_way(const Search *search) {
    const Way *best = NULL;
    Cost least = {{0}};
    for (unsigned given = 0; given < 1U << search->count; given++) {
        for (size_t i = 0; i < search->ways[given].count; i++) {
            Cost cost = search->ways[given].items[i]->cost;
            for (size_t batch = 0; batch < search->count; batch++) {
                cost = given >> batch & 1 ? cost : sum_of(&cost, &search->none);
            }
            if (!best || compare_cost(&cost, &least) < 0) {
                best = search->ways[given].items[i];
                least = cost;
            }
        }
    }
    return best;
}

/* What clashes with a stated hour is not open. */
static void begin(Search *search, size_t count) {
    Way *nothing = ARENA_NEW(search->arena, Way);
    nothing->open = ARENA_ARRAY(search->arena, search->words, uint64_t);
    memset(nothing->open, 0xFF, search->words * sizeof *nothing->open);
    for (size_t i = 0; i < count; i++) {
        const WeekHour *fixed = fixed_hour(&search->batches[i]);
        for (size_t event = 0; fixed && event < search->events.count; event++) {
            if (week_apart(fixed, search->events.items[event].at)) {
                nothing->open[event / BITS] &= ~((uint64_t)1 << (event % BITS));
            }
        }
    }
    search->ways = ARENA_ARRAY(search->arena, (size_t)1 << search->count, Ways);
    LIST_ADD(search->arena, &search->ways[0], (const Way *)nothing);
    search->none = cost_of_none(search);
    sort_by_cost(search);
    find_greedy(search, nothing);
}

void week_choose(Arena *arena, const WeekBatch *batches, size_t count, size_t *chosen) {
    ArenaMark mark = arena_mark(arena);
    Search search = {.arena = arena, .batches = batches};
    order_batches(&search, count);
    collect_events(&search);
    begin(&search, count);
    for (size_t event = 0; event < search.events.count; event++) {
        go_on(&search, event);
    }
    for (size_t i = 0; i < count; i++) {
        chosen[i] = fixed_hour(&batches[i]) ? 0 : WEEK_NO_HOUR;
    }
    const Event *events = search.events.items;
    for (const Way *way = best_way(&search); events && way->given; way = way->before) {
        const Event *event = &events[way->event];
        chosen[search.order[event->batch]] = event->hour;
    }
    arena_back_to(arena, mark);
}
