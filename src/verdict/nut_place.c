#include "verdict/nut_place.h"

#include "verdict/lock.h"
#include "verdict/window.h"

#include <math.h>

const struct pull_series *nut_last_place(const struct shop *shop)
{
    for (size_t i = shop->readings.count; i > 0; i--)
        if (shop->readings.items[i - 1].nut.unit)
            return &shop->readings.items[i - 1];
    return NULL;
}

const struct pull_series *nut_place_before(const struct shop *shop,
                                           const struct pull_series *last)
{
    for (const struct pull_series *at = last; at-- > shop->readings.items;) {
        if (!at->nut.unit)
            continue;
        if (at->nut.base > last->nut.base)
            return NULL;
        if (at->nut.base < last->nut.base && series_alike(at, last))
            return at;
    }
    return NULL;
}

static double pulled(const struct shop *shop, const struct measure *limit)
{
    struct decimal exact = pulled_limit(shop, limit);
    return decimal_to_double(&exact);
}

double nut_aim(const struct shop *shop, const struct band *band)
{
    double low = pulled(shop, &band->low), high = pulled(shop, &band->high);
    return low + (high - low) / 2;
}

double nut_lock_to_come(const struct shop *shop, const struct pull_series *last)
{
    return last && last->lock == LOCK_BEFORE ? lock_added_last(shop) : NAN;
}

double nut_aim_before_lock(const struct shop *shop, const struct band *band, double lock_added)
{
    return nut_aim(shop, band) - fmax(lock_added, 0); /* no lock known takes nothing off */
}

struct nut_move nut_move_toward_aim(const struct shop *shop, const struct band *band,
                                    const struct nut_point points[2], double lock_added)
{
    double low = pulled(shop, &band->low), high = pulled(shop, &band->high);
    double wanted = nut_aim_before_lock(shop, band, lock_added);
    return nut_next(points[0], points[1], wanted, (high - low) / 10);
}
