/* What locking the nut added to the drag, from the log of pulls. */
#ifndef VERDICT_LOCK_H
#define VERDICT_LOCK_H

#include "shop/shop.h"

/* The drag of a locked series less that of the series taken just before locking, at the
 * same place of the nut and else alike; N·m, below nothing where the lock eased the nut.
 * NaN where the series is not the first one locked there, or none was taken before.
 * series: one of the shop's readings. */
double lock_added(const struct shop *shop, const struct pull_series *series);

/* The latest of these in the log; NaN where there is none. */
double lock_added_last(const struct shop *shop);

#endif
