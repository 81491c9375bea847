#include "verdict/lock.h"

#include "verdict/state.h"

#include <math.h>

/* The series just before locking. Another place of the nut between the two, or a series
 * locked and alike, and the lock was made for another setting. */
static const struct pull_series *before_locking(const struct shop *shop,
                                                const struct pull_series *locked)
{
    for (const struct pull_series *at = locked; at-- > shop->readings.items;) {
        if (!at->nut.unit)
            continue;
        if (at->nut.base != locked->nut.base || series_alike(at, locked))
            return NULL;
        if (at->lock == LOCK_BEFORE && series_alike_but_lock(at, locked))
            return at;
    }
    return NULL;
}

double lock_added(const struct shop *shop, const struct pull_series *series)
{
    if (series->lock != LOCK_AFTER || !series->nut.unit)
        return NAN;
    const struct pull_series *before = before_locking(shop, series);
    return before ? judge_series(shop, series).drag - judge_series(shop, before).drag : NAN;
}

double lock_added_last(const struct shop *shop)
{
    double added = NAN;
    for (size_t i = shop->readings.count; i-- > 0 && isnan(added);)
        added = lock_added(shop, &shop->readings.items[i]);
    return added;
}
