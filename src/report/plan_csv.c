#include "report/plan_csv.h"

#include "report/csv.h"

#include <string.h>

void plan_csv(Text *text, const Plan *plan, const FieldGroup *fields) {
    for (size_t i = 0; i < fields->groups.count; i++) {
        const FieldGroup *group = fields->groups.items[i];
        if (strcmp(group->name, "sample") != 0)
            continue;
        if (group->number == 1)
            csv_heading(text, group);
        csv_row(text, group, plan->workshop->zone);
    }
}
