#include "verdict/lock.h"

#include "verdict/state.h"

#include <math.h>
#include <stdio.h>

/* The series just before locking. Another place of the nut between the two, or a series
 * locked and alike, and the lock was made for another setting. */
static const struct pull_series *before_locking(const struct shop *shop,
                                                const struct pull_series *locked)
{
    for (const struct pull_series *at = locked; at-- > shop->readings.items;) {
        if (at->lock == LOCK_UNLOADED)
            return NULL;
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

bool lock_added_known(const struct shop *shop, struct quantity *added)
{
    const struct pull_series *items = shop->readings.items;
    size_t at = shop->readings.count;
    double found = NAN;
    while (isnan(found) && at > 0)
        found = lock_added(shop, &items[--at]);
    if (isnan(found))
        return false;
    char text[QUANTITY_TEXT];
    struct quantity_fault ignored;
    struct judgement judgement = judge_series(shop, &items[at]);
    snprintf(text, sizeof text, "%.*f %s", judgement.sureness.places,
             unit_from_base(found, judgement.unit), judgement.unit->symbol);
    return quantity_parse(text, KIND_TORQUE, added, &ignored);
}

double lock_added_last(const struct shop *shop)
{
    struct quantity added;
    return lock_added_known(shop, &added) ? added.base : NAN;
}
