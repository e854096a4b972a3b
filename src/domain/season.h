/* Season: the nights and days of bagging of a folder together: a calendar, the dust they need, and
 * what was planned beside what happened. Every number of its pages comes from here. SI units;
 * instants are UTC seconds; shares are fractions of 1.
 *
 * The calendar is a list of entries of several kinds in the order of time; a further kind of
 * dated work is a value of SeasonKind and what adds it (model/season.h). */
#ifndef DOMAIN_SEASON_H
#define DOMAIN_SEASON_H

#include "base/date.h"
#include "base/list.h"
#include "base/nearest.h"
#include "domain/field.h"

typedef enum SeasonKind {
    SEASON_NIGHT,
    SEASON_BAGGING,
    SEASON_PREPARATION /* a step in the days before a night that is to come */
} SeasonKind;

/* How far an entry has come, and how it ended. */
typedef enum SeasonState {
    SEASON_PLANNED,   /* to come */
    SEASON_UNWRITTEN, /* its day is past and nothing was written down */
    SEASON_LASTED,    /* burnt to its end */
    SEASON_RELIT,     /* died and was lit again */
    SEASON_DIED,
    SEASON_STOPPED, /* by somebody, before its end */
    SEASON_NO_END,  /* lit, but no end written down */
    SEASON_BAGGED   /* of a day of bagging that is past */
} SeasonState;

/* So much of a dust. */
typedef struct SeasonTake {
    const Dust *dust;
    double mass_kg; /* as it lies on the shelf */
} SeasonTake;

typedef struct SeasonEntry {
    size_t number; /* in the order they were added, from 0 */
    SeasonKind kind;
    SeasonState state;
    Date date;      /* of lighting, or of packing */
    Instant at;     /* of lighting, of a step, of bagging noon: what the calendar goes by */
    Instant lit_at; /* as written, else as planned; 0: no night */
    Instant end_at; /* out as written, else the late end of the plan's band; 0: no night */
    const char *name;
    const char *file;
    const char *lot;  /* of a night, also of one it is a step for; NULL: a day of bagging */
    const char *step; /* key of a step of the days before (PlanTask); NULL: none */
    const char *tray; /* all of them, with ", " between; NULL: none */
    const char *cabinet;
    LIST_OF(SeasonTake) takes;
    Names lots; /* that a day of bagging makes */

    const char *product;
    ProductKind product_kind;
    double product_kg; /* NAN: not stated */
    int pieces;        /* 0: not stated */
    int bags;          /* filled, beside a night too */
    double dust_kg; /* of a night as the record says, else planned, without its bags; or bagged */

    /* Of a night: as planned before it, with what was known then. */
    Verdict verdict;
    double chance;
    int chance_said_in, chance_said_of; /* as it is said (PlanBurn) */
    double planned_s;                   /* lighting to out */
    double early_s, late_s;             /* 80 % band of it, as printed */
    Cause cause;                        /* what costs most at its least margin */

    /* And as written down. */
    double took_s;     /* lit to out; NAN: not written */
    bool compared;     /* burnt to its end, with the length that was planned */
    bool within;       /* compared, and inside its band */
    bool other_length; /* filled otherwise than planned, so that the times tell nothing */
    double ash_kg;     /* NAN: not weighed */
    const char *remark;

    const char *clash_with; /* the first other entry that wants the same at the same time; NULL */
} SeasonEntry;

typedef LIST_OF(SeasonEntry) SeasonEntries;

/* What a stretch of time adds up to. */
typedef struct SeasonSums {
    int nights;
    int planned;   /* to come */
    int unwritten; /* past, and nothing written down */
    int over;      /* written down */
    int lasted, died, relit, stopped, no_end;
    int went_out; /* died or relit */
    int baggings;
    int steps; /* in the days before nights that are to come */
    int bags;
    int clashes;       /* entries that share something with another */
    double expected;   /* nights that the chances would have last, of those that did or died */
    double product_kg; /* of nights that are over, as far as stated */
    double lasted_kg;  /* of it, in nights that lasted or were lit again */
    int pieces;
    double burnt_kg; /* dust of the nights that are over */
    double smoked_s; /* lit to out of the nights that are over */
} SeasonSums;

typedef struct SeasonMonth {
    Date first;         /* its first day */
    int days;           /* how many it has */
    size_t from, count; /* its entries */
    SeasonSums sums;
} SeasonMonth;

/* Two entries that want the same at the same time. */
typedef struct SeasonClash {
    const char *what;  /* key of its word: tray, cabinet, oven */
    const char *thing; /* its name; NULL: the oven */
    Date date;         /* of the later one */
    const char *name, *other;
    Instant from, to;
    bool past; /* both were written down: one of the records has a slip */
} SeasonClash;

/* What is to come of a dust, against the shelf. */
typedef struct SeasonNeed {
    const Dust *dust;
    const char *name;
    const char *lot;   /* NULL: it has none */
    double stock_kg;   /* NAN: not stated */
    double needed_kg;  /* all that is planned */
    int times;         /* taken so often */
    double left_kg;    /* NAN: stock not stated; never below 0 */
    double missing_kg; /* 0: enough, or not stated */
    Date short_on;     /* the first that the stock does not reach; year 0: none */
    const char *short_for;
    bool blended; /* made by a bagging of this folder: blend it, else buy it */
} SeasonNeed;

/* Burn times that happened against those planned, of the nights that can be compared. */
typedef struct SeasonCompared {
    int nights;
    int within;
    int sooner, later;            /* than their bands */
    int left_out;                 /* burnt to their end, but filled otherwise than planned */
    double low_ratio, high_ratio; /* the bands' ends over the middle: medians; NAN: none */
    double took_ratio;            /* what happened over the plan: median; NAN: too few */
} SeasonCompared;

/* Nights of which the same chance was said. */
typedef struct SeasonChance {
    int chance_said_in, chance_said_of;
    int nights;
    int lasted;
    double expected;
} SeasonChance;

typedef struct SeasonDeath {
    Cause cause;
    int nights;
} SeasonDeath;

typedef struct SeasonYield {
    ProductKind kind;
    int nights;        /* written down */
    int lasted;        /* burnt to their end; one that was lit again did not */
    double product_kg; /* in all of them, as far as stated */
    int pieces;
    double burnt_kg;
    double burnt_share; /* dust over product, of the nights that state the product; NAN: none */
} SeasonYield;

typedef struct Season {
    const char *name; /* of the workshop */
    const char *folder;
    Instant now; /* 0: not known */
    SeasonEntries entries;
    LIST_OF(SeasonMonth) months; /* those with an entry */
    SeasonSums sums;
    LIST_OF(SeasonClash) clashes;
    LIST_OF(SeasonNeed) needs; /* those that run out first, then by name */
    SeasonCompared compared;
    LIST_OF(SeasonChance) chances; /* the best first */
    LIST_OF(SeasonDeath) deaths;   /* the most frequent first */
    LIST_OF(SeasonYield) yields;
    LIST_OF(const char *) faulty; /* files that could not be read */
} Season;

/* A stretch of a list. */
typedef struct SeasonRange {
    size_t from, count;
} SeasonRange;

/* What stands on one page. */
typedef struct SeasonPage {
    bool overview;                      /* else months */
    bool first;                         /* of the overview */
    SeasonRange months;                 /* of the calendar; else those told, several when short */
    SeasonRange needs, clashes, faulty; /* of the overview */
    SeasonRange entries;                /* of the first month told; the others are whole */
    int page, pages;                    /* from 1 */
} SeasonPage;

/* Whether a night stands in the plot of burn times: it ended by itself, with the length that was
 * planned. */
bool season_in_plot(const SeasonEntry *entry);

/* All figures of the season, in the arena; the root group is named "season" (domain/field.h says
 * how fields are found): rows `month` with rows `entry`, `need`, `clash`, `chance`, `death`,
 * `yield` and `faulty`, and the groups `sums` and `compared`. */
FieldGroup *season_fields(Arena *arena, const Season *season);

/* The same of what stands on a page. */
FieldGroup *season_page_fields(Arena *arena, const Season *season, const SeasonPage *page);

#endif
