/* Units of one kind against each other. */
#ifndef TABLES_UNIT_TABLES_H
#define TABLES_UNIT_TABLES_H

#include "tables/tables.h"

/* A square table: how many of the unit at the head make one of the unit at the
 * left. symbols: NULL-ended. */
struct table *unit_matrix(const struct table_ask *ask, const char *name, const char *caption,
                          const char *const *symbols);

#endif
