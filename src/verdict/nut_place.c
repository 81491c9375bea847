#include "verdict/nut_place.h"

#include "drag/drag.h"
#include "verdict/lock.h"
#include "verdict/radius.h"
#include "verdict/taken.h"
#include "verdict/unloaded.h"
#include "verdict/window.h"

#include <math.h>
#include <stdio.h>

const struct pull_series *nut_last_place(const struct shop *shop)
{
    for (size_t i = shop->readings.count; i > 0; i--)
        if (shop->readings.items[i - 1].nut.unit)
            return &shop->readings.items[i - 1];
    return NULL;
}

bool nut_may_steer(const struct shop *shop, const struct pull_series *series)
{
    struct taken taken = series_taken(series);
    return series->nut.unit && (!shop_has_limits(shop) || taken_as_limits(shop, &taken));
}

const struct pull_series *nut_last_steering(const struct shop *shop)
{
    const struct pull_series *last = nut_last_place(shop);
    for (size_t i = shop->readings.count; last && i > 0; i--) {
        const struct pull_series *at = &shop->readings.items[i - 1];
        if (series_nut_moved(at, last))
            return NULL;
        if (nut_may_steer(shop, at))
            return at;
    }
    return NULL;
}

const struct pull_series *nut_row_before(const struct shop *shop,
                                         const struct pull_series *series)
{
    for (const struct pull_series *at = series; at-- > shop->readings.items;) {
        if (at->lock == LOCK_UNLOADED)
            return NULL;
        if (at->nut.unit)
            return at->nut.base > series->nut.base || series_unloaded(shop, at) ? NULL : at;
    }
    return NULL;
}

const struct pull_series *nut_place_before(const struct shop *shop,
                                           const struct pull_series *last)
{
    const struct pull_series *at = nut_row_before(shop, last);
    while (at && (at->nut.base == last->nut.base || !series_alike(at, last)))
        at = nut_row_before(shop, at);
    return at && last->nut.base - at->nut.base <= NUT_FAR_APART ? at : NULL;
}

static struct nut_point point_of(double angle, double drag,
                                 const struct uncertainty *uncertainty)
{
    double bias = uncertainty->bias;
    return (struct nut_point){angle, drag, uncertainty->expanded - bias, bias};
}

struct nut_point nut_point_of_series(const struct shop *shop, const struct pull_series *series)
{
    struct judgement judgement = judge_series(shop, series);
    return point_of(series->nut.base, judgement.drag, &judgement.uncertainty);
}

struct nut_point nut_point_of_drag(const struct shop *shop, double angle, double drag)
{
    struct rig rig = shop_rig(shop);
    double pull = drag / effective_radius(rig.drum, rig.cord);
    struct uncertainty uncertainty = sure_of_pull(shop, &rig, pull, NULL, NULL);
    return point_of(angle, drag, &uncertainty);
}

bool nut_points_allowed(const struct nut_point points[2], struct quantity_fault *fault)
{
    if (fabs(points[1].angle - points[0].angle) <= NUT_FAR_APART)
        return true;
    fault->offset = 0;
    snprintf(fault->message, sizeof fault->message,
             "the two places lie more than %g degrees apart: no straight line goes through "
             "them; count both from one mark, or take two places nearer to each other",
             NUT_FAR_APART);
    return false;
}

double nut_aim(const struct shop *shop, const struct band *band)
{
    double low = pulled_limit_near(shop, &band->low);
    double high = pulled_limit_near(shop, &band->high);
    return drag_window_of(low, high).aim;
}

double nut_lock_to_come(const struct shop *shop, const struct pull_series *last)
{
    return last && last->lock != LOCK_AFTER ? lock_added_last(shop) : NAN;
}

double nut_aim_before_lock(const struct shop *shop, const struct band *band, double lock_added)
{
    return nut_aim(shop, band) - fmax(lock_added, 0); /* no lock known takes nothing off */
}

struct nut_move nut_move_toward_aim(const struct shop *shop, const struct band *band,
                                    const struct nut_point points[2], double lock_added)
{
    double low = pulled_limit_near(shop, &band->low);
    double high = pulled_limit_near(shop, &band->high);
    double wanted = nut_aim_before_lock(shop, band, lock_added);
    return nut_next(points[0], points[1], wanted, (high - low) / 10);
}
