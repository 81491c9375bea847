/* What the tables of temperatures share. */
#ifndef TABLES_WARMTH_H
#define TABLES_WARMTH_H

#include "tables/tables.h"

/* A limit given in degrees Fahrenheit, rounded down to a whole degree of either scale. */
void put_fahrenheit_down(struct arena *arena, struct cell *cell,
                         const struct decimal *fahrenheit);
void put_celsius_down(struct arena *arena, struct cell *cell, const struct decimal *fahrenheit);

/* Where the limits of temperature come from, and how they are rounded. */
void note_stop(struct table *table, const struct shop *shop);

/* An estimate to so many significant digits; "none" where it is not finite. */
void put_estimate(struct arena *arena, struct cell *cell, double value, int digits);

/* A drag (N.m) in the shop's unit of drags, to two digits; "none" where not finite. */
void put_drag_estimate(const struct table_ask *ask, struct cell *cell, double drag);

/* A setting that a table needs. */
struct wanted {
    const char *key;
    bool is_there;
};

/* The keys of those that are not there, "a, b and c". */
const char *wanted_words(struct arena *arena, const struct wanted *wanted, size_t count);

/* The only row of a table for which the settings do not say enough. */
void put_none_row(struct table *table);

/* The fingerprint, for tables that rest on the settings but on no limits of drag. */
void note_fingerprint(struct table *table, const struct shop *shop);

#endif
