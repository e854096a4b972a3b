/* The rules of workshop and batch files, shared by the files that hold them: each has the rows of
 * a few elements, and the checks of what no row can say. */
#ifndef INPUT_READERS_H
#define INPUT_READERS_H

#include "domain/batch.h"
#include "domain/workshop.h"
#include "schema/form.h"

extern const ElementRule workshop_rule, dust_rule, tray_rule, cabinet_rule;
extern const ElementRule bagging_rule;
extern const ElementRule batch_rule, product_rule, blend_rule, fill_rule, bag_rule;
extern const ElementRule weather_rule, timing_rule, record_rule;

/* Air outside, and where things are kept. */
#define OUTSIDE TEMPERATURE("-30 °C", "50 °C")
#define HUMIDITY SHARE("1 %", "100 %")

/* In the order of Market; languages are those that there are files of words for. */
#define MARKETS WORDS("EU UK US AU")
#define LANGUAGES ID

/* The context of a form that reads a batch. */
typedef struct BatchContext {
    const Workshop *workshop; /* NULL: it could not be read, and what it holds is not known */
    const char *folder;       /* of the batch's file, with its closing slash */
    bool could_not_open;      /* a file named in it */
} BatchContext;

/* Reports an id that an earlier element of the same name has. */
void check_id(Form *form, const Element *element);

/* Things with ids, of any struct that has one. */
typedef struct Items {
    const void *items;
    size_t count, size, id_at;
} Items;

#define ITEMS(list, type) ((Items){(list).items, (list).count, sizeof(type), offsetof(type, id)})

/* The one with the id that an attribute names; reports when there is none. NULL when it is not
 * known, or `id` is NULL. */
const void *find_item(Form *form, const Element *element, const char *name, const char *id,
                      Items items);

/* Reports a language that there are no words for. */
void check_language(Form *form, const Element *element);

/* Reports a value at `name` that does not come after `earlier`, which `other` tells of; either may
 * be 0, not stated. Returns whether all is well. */
bool check_after(Form *form, const Element *element, const char *name, Instant later,
                 const char *other, Instant earlier);

/* The path of a file named in a file of `folder`. */
const char *path_beside(Arena *arena, const char *folder, const char *path);

/* Readings of a forecast in a CSV file with the columns at, temperature_c, humidity_percent. */
void read_forecast(Form *form, const char *path, Place named_at, bool *could_not_open,
                   Weather *weather);

#endif
