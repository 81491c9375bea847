/* What those who tell share. */
#ifndef VERDICT_TOLD_PARTS_H
#define VERDICT_TOLD_PARTS_H

#include "verdict/told.h"

/* One row; unit is "" where there is none. */
void tell(const struct teller *teller, const char *name, const char *label, const char *value,
          const char *unit);

void tell_number(const struct teller *teller, const char *name, const char *label, double value,
                 int places, const char *unit);

/* The drag that no spindle may have is passed, or lies within U. */
void tell_over_never(const struct teller *teller);

#endif
