#include "command/record_page.h"

#include "base/utf8.h"
#include "domain/field_member.h"
#include "layout/sheet.h"

#include <string.h>

/* Lines of looks that surely fit on the first page, and on each that follows, at the smallest type;
 * and how many characters of a remark are a line. Tried with the widest words (judgement). */
enum { LINES_FIRST = 24, LINES_NEXT = 60, LINE_CHARACTERS = 24 };

/* Which looks stand on a page. */
typedef struct Part {
    size_t from, to;
} Part;

typedef LIST_OF(Part) Parts;

static int lines_of(const PlanCheck *check) {
    return 1 + (check->remark ? (int)utf8_count(check->remark) / LINE_CHARACTERS : 0);
}

static Parts parts_of(Arena *arena, const Plan *plan) {
    Parts parts = {0};
    Part part = {0};
    int room = LINES_FIRST;
    for (size_t i = 0; i < plan->checks.count; i++) {
        int lines = lines_of(&plan->checks.items[i]);
        if (lines > room && (i > part.from || !parts.count)) {
            part.to = i;
            LIST_ADD(arena, &parts, part);
            part.from = i;
            room = LINES_NEXT;
        }
        room -= lines;
    }
    part.to = plan->checks.count;
    LIST_ADD(arena, &parts, part);
    return parts;
}

/* The plan's fields, of its looks only those of the page. */
static const FieldGroup *fields_of_page(const Job *job, const Parts *parts, size_t page) {
    FieldGroup *group = field_group_new(job->arena, NULL, "page", 0);
    group->parent = job->fields;
    field_add_number(job->arena, group, "page", QUANTITY_COUNT, (double)page + 1);
    field_add_number(job->arena, group, "pages", QUANTITY_COUNT, (double)parts->count);
    field_add_yes(job->arena, group, "several_pages", parts->count > 1);
    field_add_yes(job->arena, group, "first_page", page == 0);
    for (size_t i = parts->items[page].from; i < parts->items[page].to; i++) {
        const FieldGroup *row = field_row(job->fields, "check", i);
        FieldGroup *kept = ARENA_NEW(job->arena, FieldGroup);
        *kept = *row;
        LIST_ADD(job->arena, &group->groups, kept);
    }
    return group;
}

bool record_page_lay_out(Run *run, const Job *job, const Pattern *template, Document *document) {
    Parts parts = parts_of(job->arena, job->plan);
    for (size_t page = 0; page < parts.count; page++)
        if (!sheet_lay_out(template, job->plan, fields_of_page(job, &parts, page), &job->locale,
                           run->faces, document, &run->reader.diagnostics))
            return false;
    return true;
}
