/* What the tables of temperatures share. */
#ifndef TABLES_WARMTH_H
#define TABLES_WARMTH_H

#include "tables/tables.h"

/* A setting that a table needs. */
struct wanted {
    const char *key;
    bool is_there;
};

/* The fingerprint, for tables that rest on the settings but on no limits of drag. */
void note_fingerprint(struct table *table, const struct shop *shop);

#endif
