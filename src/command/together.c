#include "command/together.h"

#include "model/window.h"

#include <string.h>

/* Windows so far apart that no night of one reaches into the other's are not worked out. */
static const Instant FAR_APART_S = 3 * SECONDS_PER_DAY;

/* A batch of the run that is not over. */
typedef struct Member {
    size_t job;
    const Batch *batch; /* as it is planned */
    Window window;
    bool worked_out;
    size_t group; /* the number of its first member */
} Member;

typedef LIST_OF(Member) Members;

/* All of one group, side by side. */
typedef struct Group {
    Window *windows;
    PlanChoice *choices;
    Instant *light_at;
    size_t *members;
    size_t count, to_choose;
} Group;

static bool to_choose(const Member *member) {
    return member->batch->timing.kind == TIMING_BEST;
}

static size_t job_of_file(const Job *jobs, size_t until, const char *file) {
    size_t i = 0;
    while (i < until && !(jobs[i].batch && strcmp(jobs[i].file, file) == 0))
        i++;
    return i;
}

static Members members_of(Run *run, const Job *jobs, size_t count) {
    Members members = {0};
    for (size_t i = 0; i < count; i++) {
        const Batch *batch = jobs[i].batch;
        if (!batch || batch->record.stated || job_of_file(jobs, i, jobs[i].file) < i)
            continue;
        Batch *planned = ARENA_NEW(run->arena, Batch);
        *planned = *batch;
        planned->planned_at = run->reader.now;
        LIST_ADD(run->arena, &members, (Member){.job = i, .batch = planned});
    }
    return members;
}

static Instant last_of(const Timing *timing) {
    return timing->kind == TIMING_BEST ? timing->to : timing->at;
}

/* Whether one may be in the other's way, by what they share and the days they name. */
static bool may_meet(const Member *a, const Member *b) {
    const Timing *one = &a->batch->timing, *other = &b->batch->timing;
    return (to_choose(a) || to_choose(b)) && one->at <= last_of(other) + FAR_APART_S &&
           other->at <= last_of(one) + FAR_APART_S &&
           clash_shared(a->batch, b->batch, NULL) != CLASH_NONE;
}

/* Whether some hour of one is in the way of some hour of the other. */
static bool do_meet(const Member *a, const Member *b) {
    if (!a->worked_out || !b->worked_out)
        return false;
    for (size_t i = 0; i < a->window.hours.hours.count; i++)
        for (size_t j = 0; j < b->window.hours.hours.count; j++)
            if (week_apart(&a->window.hours.hours.items[i], &b->window.hours.hours.items[j]))
                return true;
    return false;
}

static void join(Members *members, size_t group, size_t with) {
    for (size_t i = 0; i < members->count; i++)
        if (members->items[i].group == with)
            members->items[i].group = group;
}

/* Groups of those that meet, straight or by way of others. */
static void find_groups(Members *members, bool (*meet)(const Member *, const Member *)) {
    for (size_t i = 0; i < members->count; i++)
        members->items[i].group = i;
    for (size_t i = 0; i < members->count; i++)
        for (size_t j = 0; j < i; j++) {
            Member *a = &members->items[j], *b = &members->items[i];
            if (a->group != b->group && meet(a, b))
                join(members, a->group < b->group ? a->group : b->group,
                     a->group < b->group ? b->group : a->group);
        }
}

static size_t in_group(const Members *members, size_t group) {
    size_t count = 0;
    for (size_t i = 0; i < members->count; i++)
        count += members->items[i].group == group;
    return count;
}

static void work_out(Run *run, Records *records, Member *member) {
    Arena *arena = run->arena;
    const Learning *learning = records_learning(arena, records, member->batch);
    Belief belief = learning_of_burn(arena, learning, member->batch, NULL);
    member->window = window_of(arena, member->batch, &belief);
    member->worked_out = true;
}

static Group gather(Arena *arena, const Members *members, size_t group) {
    size_t most = in_group(members, group);
    Group all = {.windows = ARENA_ARRAY(arena, most, Window),
                 .choices = ARENA_ARRAY(arena, most, PlanChoice),
                 .light_at = ARENA_ARRAY(arena, most, Instant),
                 .members = ARENA_ARRAY(arena, most, size_t)};
    for (size_t i = 0; i < members->count; i++)
        if (members->items[i].group == group) {
            all.windows[all.count] = members->items[i].window;
            all.members[all.count++] = i;
            all.to_choose += to_choose(&members->items[i]);
        }
    return all;
}

static bool may_be_lit(const WeekHour *hour) {
    return hour->verdict != VERDICT_DO_NOT_LIGHT;
}

/* Whether it would be lit at some hour, were it alone, and is not. */
static bool crowded_out(const Group *group, size_t mine) {
    const Window *window = &group->windows[mine];
    bool may = false;
    for (size_t i = 0; i < window->hours.hours.count; i++) {
        const WeekHour *hour = &window->hours.hours.items[i];
        may = may || may_be_lit(hour);
        if (hour->light_at == group->light_at[mine] && may_be_lit(hour))
            return false;
    }
    return may;
}

static void report_no_hour(Run *run, const Group *group, size_t mine) {
    const Batch *batch = group->windows[mine].batch;
    const char *others = NULL;
    for (size_t i = 0; i < group->count; i++) {
        const char *thing = NULL;
        const Batch *other = group->windows[i].batch;
        if (i == mine || !clash_shared(batch, other, &thing))
            continue;
        const char *one =
            arena_format(run->arena, "'%s' (%s)", other->name, thing ? thing : "oven");
        others = others ? arena_format(run->arena, "%s, %s", others, one) : one;
    }
    report_error(&run->reader.diagnostics, batch->timing.place,
                 "make the window longer, take another tray or cabinet, or leave one batch for "
                 "another week",
                 "'%s' finds no hour beside %s", batch->name, others);
}

static void choose(Run *run, Job *jobs, const Members *members, size_t number) {
    Group group = gather(run->arena, members, number);
    if (group.count < 2)
        return;
    bool too_many = group.to_choose > WEEK_BATCHES_MOST;
    if (too_many)
        report_error(&run->reader.diagnostics, group.windows[0].batch->timing.place,
                     "write 'light' into some of them, or run fewer at once",
                     "the hours of %zu batches hang together, and at most %d are chosen at once",
                     group.to_choose, WEEK_BATCHES_MOST);
    else
        windows_choose(run->arena, group.windows, group.count, group.choices, group.light_at);
    for (size_t i = 0; i < group.count; i++) {
        const Member *member = &members->items[group.members[i]];
        if (!to_choose(member))
            continue;
        Job *job = &jobs[member->job];
        job->no_hour = too_many || crowded_out(&group, i);
        if (job->no_hour && !too_many)
            report_no_hour(run, &group, i);
        PlanHour *hour = ARENA_NEW(run->arena, PlanHour);
        *hour = (PlanHour){group.light_at[i], group.choices[i]};
        job->hour = hour;
    }
}

/* Without hours to choose nothing hangs together. */
static bool any_to_choose(const Job *jobs, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (jobs[i].batch && jobs[i].batch->timing.kind == TIMING_BEST)
            return count > 1;
    return false;
}

void together_choose(Run *run, Job *jobs, size_t count, Records *records) {
    if (!any_to_choose(jobs, count))
        return;
    Members members = members_of(run, jobs, count);
    find_groups(&members, may_meet);
    for (size_t i = 0; i < members.count; i++)
        if (in_group(&members, members.items[i].group) > 1)
            work_out(run, records, &members.items[i]);
    find_groups(&members, do_meet);
    for (size_t i = 0; i < members.count; i++)
        if (members.items[i].group == i)
            choose(run, jobs, &members, i);
    for (size_t i = 0; i < count; i++) {
        size_t first = jobs[i].batch ? job_of_file(jobs, i, jobs[i].file) : i;
        jobs[i].hour = jobs[first].hour;
        jobs[i].no_hour = jobs[first].no_hour;
    }
}
