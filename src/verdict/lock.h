/* What locking the nut added to the drag, from the log of pulls. */
#ifndef VERDICT_LOCK_H
#define VERDICT_LOCK_H

#include "shop/shop.h"

/* The drag of a locked series less that of the series taken just before locking, at the
 * same place of the nut and else alike; N·m, below zero where the lock eased the nut.
 * NaN where the series is not the first one locked there, or none was taken before.
 * series: one of the shop's readings. */
double lock_added(const struct shop *shop, const struct pull_series *series);

/* The latest of these in the log, at the last place of its U, as it is shown: what is
 * printed is what decides. False where there is none. */
bool lock_added_known(const struct shop *shop, struct quantity *added);

/* The same in N·m; NaN where there is none. */
double lock_added_last(const struct shop *shop);

#endif
