/* What the years compare: the series that close a job in the log. */
#ifndef VERDICT_CLOSING_H
#define VERDICT_CLOSING_H

#include "shop/shop.h"

/* A job ends where the log then rests for this many days, or ends (a rule of ours). */
enum { CLOSING_REST_DAYS = 30 };

/* Whether a series of the log closes its job: the last of it that was measured the usual
 * way round, at the warmth that the limits are for, with the nut said to be locked. */
bool closes_job(const struct shop *shop, const struct pull_series *series);

#endif
