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

/* The fingerprint, for tables that rest on the settings but on no limits of drag. */
void note_fingerprint(struct table *table, const struct shop *shop);

#endif
