/* The only date that the outputs may bear: the one that the caller sets. */
#ifndef BASE_SOURCE_DATE_H
#define BASE_SOURCE_DATE_H

#include <stdbool.h>
#include <time.h>

/* The moment of the environment's SOURCE_DATE_EPOCH, as
 * https://reproducible-builds.org/specs/source-date-epoch/ has it; false where it is
 * not set. One that is no number, or beyond the year 9999, ends the program. */
bool source_date(struct tm *utc);

#endif
