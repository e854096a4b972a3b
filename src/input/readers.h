/* Readers of single elements, shared by the readers of whole files. Each takes an element whose
 * structure form_check has looked at, fills its struct and reports what does not hold together. */
#ifndef INPUT_READERS_H
#define INPUT_READERS_H

#include "domain/batch.h"
#include "domain/workshop.h"
#include "input/form.h"

/* A moisture on dry basis, from `moisture` and `basis`; NAN when not stated. */
double read_moisture(Form *form, const Element *element, MoistureBasis *basis);

Dust read_dust(Form *form, const Element *element);
Tray read_tray(Form *form, const Element *element);
Cabinet read_cabinet(Form *form, const Element *element);

/* The whole workshop, from its root element. */
void read_workshop_element(Form *form, const Element *root, Workshop *workshop);

Product read_product(Form *form, const Element *element);
Blend read_blend(Form *form, const Element *element, const Workshop *workshop);
void read_fills(Form *form, const Element *batch, const Workshop *workshop, Batch *into);
Weather read_weather(Form *form, const Element *element, const char *folder, bool *could_not_open);
Timing read_timing(Form *form, const Element *element, const Weather *weather);

/* The record of a batch whose fills have been read: what is written may not be more than they
 * hold. */
Record read_record(Form *form, const Element *element, const Batch *batch);

/* Reports a value at `name` that does not come after `earlier`, which `other` tells of; either may
 * be 0, not stated. Returns whether all is well. */
bool check_after(Form *form, const Element *element, const char *name, Instant later,
                 const char *other, Instant earlier);

/* The whole batch, from its root element. `workshop` is NULL when it could not be read at all;
 * names of what it holds are then not checked. `folder` is that of the batch's file, with its
 * closing slash. */
void read_batch_element(Form *form, const Element *root, const Workshop *workshop,
                        const char *folder, bool *could_not_open, Batch *batch);

/* The path of a file named in a file of `folder`. */
const char *path_beside(Arena *arena, const char *folder, const char *path);

/* Readings of a forecast in a CSV file with the columns at, temperature_c, humidity_percent. */
void read_forecast(Form *form, const char *path, Place named_at, bool *could_not_open,
                   Weather *weather);

#endif
