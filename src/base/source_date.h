/* The only date that the outputs may bear: the one that the caller sets. */
#ifndef BASE_SOURCE_DATE_H
#define BASE_SOURCE_DATE_H

#include "base/diag.h"

#include <stdbool.h>
#include <time.h>

/* The moment of the environment's SOURCE_DATE_EPOCH, as
 * https://reproducible-builds.org/specs/source-date-epoch/ has it; false where it is
 * not set, or to what source_date_check() does not let through. */
bool source_date(struct tm *utc);

/* Its day, "2026-03-09", in UTC; NULL where there is none. Owned by the arena. */
const char *source_date_day(struct arena *arena);

/* A fault where it is set to no whole number of seconds, or to one beyond the year 9999. */
void source_date_check(struct diags *diags);

#endif
