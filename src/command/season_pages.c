#include "command/season_pages.h"

#include "command/output.h"
#include "command/printing.h"
#include "layout/phrase.h"
#include "layout/sheet.h"

#include <stdlib.h>
#include <string.h>

typedef struct Book {
    Run *run;
    const Season *season;
    const Locale *locale;
    const Pattern *template;
    const Plan *plan; /* paper and name alone */
    LIST_OF(SeasonPage) list;
} Book;

/* How much of a list is left when it does not fit. Quick, and seldom a row too few. */
static size_t fewer(size_t count) {
    return count - 1 - count / 12;
}

static bool fits(const Book *book, const SeasonPage *page) {
    Arena *arena = arena_new();
    SeasonPage numbered = *page;
    numbered.page = numbered.pages = 888; /* as wide as any */
    const FieldGroup *fields = season_page_fields(arena, book->season, &numbered);
    bool fit =
        sheet_fits(arena, book->template, book->plan, fields, book->locale, book->run->faces);
    arena_free(arena);
    return fit;
}

/* Takes a row off the lists that can wait; false: nothing more can. The months stand with the
 * calendar and go last. */
static bool shorten(SeasonPage *page) {
    SeasonRange *const lists[] = {&page->faulty, &page->clashes, &page->needs, &page->months};
    size_t rows = page->faulty.count + page->clashes.count + page->needs.count + page->months.count;
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        bool keep = !page->first && rows == 1;
        if (lists[i]->count > 0 && !keep) {
            lists[i]->count = fewer(lists[i]->count);
            return true;
        }
    }
    return false;
}

static SeasonRange rest_of(SeasonRange taken, size_t count) {
    size_t from = taken.from + taken.count;
    return (SeasonRange){from, count - from};
}

static bool any_left(const SeasonPage *page) {
    return page->months.count + page->needs.count + page->clashes.count + page->faulty.count > 0;
}

static void add_overview(Book *book) {
    const Season *season = book->season;
    SeasonPage page = {.overview = true,
                       .first = true,
                       .months = {0, season->months.count},
                       .needs = {0, season->needs.count},
                       .clashes = {0, season->clashes.count},
                       .faulty = {0, season->faulty.count}};
    while (page.first || any_left(&page)) {
        while (!fits(book, &page) && shorten(&page)) {
        }
        LIST_ADD(book->run->arena, &book->list, page);
        page = (SeasonPage){.overview = true,
                            .months = rest_of(page.months, season->months.count),
                            .needs = rest_of(page.needs, season->needs.count),
                            .clashes = rest_of(page.clashes, season->clashes.count),
                            .faulty = rest_of(page.faulty, season->faulty.count)};
    }
}

/* Takes the months that follow along as long as they stand there whole. */
static void add_followers(const Book *book, SeasonPage *page) {
    while (page->months.from + page->months.count < book->season->months.count) {
        page->months.count++;
        if (!fits(book, page)) {
            page->months.count--;
            return;
        }
    }
}

static void add_months(Book *book) {
    const Season *season = book->season;
    size_t number = 0, told = 0; /* of the month, its entries on earlier pages */
    while (number < season->months.count) {
        size_t count = season->months.items[number].count;
        SeasonPage page = {.months = {number, 1}, .entries = {told, count - told}};
        while (page.entries.count > 1 && !fits(book, &page))
            page.entries.count = fewer(page.entries.count);
        told += page.entries.count;
        if (told == count) {
            add_followers(book, &page);
            number += page.months.count;
            told = 0;
        }
        LIST_ADD(book->run->arena, &book->list, page);
    }
}

static const char *say(const Book *book, const char *key, const FieldGroup *row) {
    const char *words = phrase_word(book->run->arena, book->locale, (Place){0}, key, row,
                                    &book->run->reader.diagnostics);
    return words ? words : "";
}

/* Of several months the first and the last. */
static const char *bookmark(const Book *book, const SeasonPage *page, const FieldGroup *fields) {
    if (page->overview)
        return say(book, "season.title", fields);
    const char *first = say(book, "season.month", field_row(fields, "month", 0));
    size_t last = page->months.count - 1;
    return last == 0 ? first
                     : arena_format(book->run->arena, "%s \xE2\x80\x93 %s", first,
                                    say(book, "season.month", field_row(fields, "month", last)));
}

static bool lay_out(const Book *book, Document *document) {
    Arena *arena = book->run->arena;
    for (size_t i = 0; i < book->list.count; i++) {
        SeasonPage page = book->list.items[i];
        page.page = (int)i + 1;
        page.pages = (int)book->list.count;
        const FieldGroup *fields = season_page_fields(arena, book->season, &page);
        const char *name = bookmark(book, &page, fields);
        const Plan *plan = printing_bare_plan(arena, book->plan->workshop, name, (Place){0});
        if (!sheet_lay_out(book->template, plan, fields, book->locale, book->run->faces, document,
                           &book->run->reader.diagnostics))
            return false;
    }
    return true;
}

/* The folder's own name, whatever way it was named. */
static const char *folder_name(Arena *arena, const char *folder) {
    char *whole = realpath(folder, NULL);
    const char *slash = whole ? strrchr(whole, '/') : NULL;
    const char *name = slash && slash[1] ? arena_string(arena, slash + 1) : "season";
    free(whole);
    return name;
}

void season_pages_print(Run *run, const Season *season, const Workshop *workshop,
                        const Locale *locale, const Pattern *template) {
    Book book = {.run = run,
                 .season = season,
                 .locale = locale,
                 .template = template,
                 .plan = printing_bare_plan(run->arena, workshop, season->name, (Place){0})};
    add_overview(&book);
    add_months(&book);
    Document *document = run_document(run, run->arena, workshop, season->name);
    if (!lay_out(&book, document)) {
        run_note(run, STATUS_FAULTS);
        return;
    }
    const char *path = run->options->output;
    if (!path || !output_is_file(path))
        path = output_path(run->arena, path, folder_name(run->arena, season->folder), "season");
    run_note(run, run_write(run, run->arena, document, path));
}
