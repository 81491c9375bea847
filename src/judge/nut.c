/* The nut: what locking it added, how its turns are told, its places in the log, and where to
 * go from two of them. */
#include "judge/nut.h"

#include "judge/series.h"
#include "judge/window.h"
#include "physics/physics.h"

#include <math.h>
#include <stdio.h>

/* ---- what locking added ---- */

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
    snprintf(text, sizeof text, "%.*f %s", judgement.shown_u.places,
             unit_from_base(found, judgement.unit), judgement.unit->symbol);
    return quantity_parse(text, KIND_TORQUE, added, &ignored);
}

double lock_added_last(const struct shop *shop)
{
    struct quantity added;
    return lock_added_known(shop, &added) ? added.base : NAN;
}

/* ---- what a turn does at its rim and along the spindle ---- */

static bool in_inches(const struct measure *measure)
{
    return given(measure) && measure->q.unit->system == SYSTEM_IMPERIAL;
}

double nut_pitch_given(const struct nut *nut)
{
    if (given(&nut->pitch))
        return nut->pitch.q.base;
    return given(&nut->threads) ? nut_pitch_of_threads(nut->threads.q.base) : 0;
}

static bool nut_rim_in_inches(const struct nut *nut)
{
    return in_inches(&nut->outside_diameter);
}

bool nut_thread_in_inches(const struct nut *nut)
{
    return given(&nut->threads) || in_inches(&nut->pitch);
}

struct nut_distance nut_rim_distance(const struct nut *nut, double degrees)
{
    const struct measure *diameter = &nut->outside_diameter;
    double rim = given(diameter) ? nut_rim(diameter->q.base, degrees) : NAN;
    return nut_rim_in_inches(nut) ? (struct nut_distance){rim / INCH, 3, "in", true}
                                  : (struct nut_distance){1000 * rim, 1, "mm", false};
}

static const double micrometres = 1e6; /* in a metre */

static struct nut_distance travel_in(const struct nut *nut, double degrees, bool inches)
{
    double travel = micrometres * nut_travel(nut_pitch_given(nut), degrees);
    return inches ? (struct nut_distance){travel / (micrometres * INCH), 4, "in", true}
                  : (struct nut_distance){travel, 1, "µm", false};
}

struct nut_distance nut_travel_distance(const struct nut *nut, double degrees)
{
    return travel_in(nut, degrees, nut_thread_in_inches(nut));
}

struct nut_distance nut_travel_other_unit(const struct nut *nut, double degrees)
{
    return travel_in(nut, degrees, !nut_thread_in_inches(nut));
}

struct shown show_distance(const struct nut_distance *way, int more)
{
    return show_places(way->value, way->places + more);
}

/* ---- places of the nut ---- */

const struct pull_series *nut_last_place(const struct shop *shop)
{
    for (size_t i = shop->readings.count; i > 0; i--)
        if (shop->readings.items[i - 1].nut.unit)
            return &shop->readings.items[i - 1];
    return NULL;
}

bool nut_may_steer(const struct shop *shop, const struct pull_series *series)
{
    struct pull_conditions taken = series_conditions(series);
    return series->nut.unit && (!shop_has_limits(shop) || conditions_suit_limits(shop, &taken));
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
            return at->nut.base > series->nut.base || at->unloaded ? NULL : at;
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
    struct drum_setup setup = shop_drum_setup(shop);
    double pull = drag / effective_radius(setup.drum, setup.cord);
    struct uncertainty uncertainty = pull_uncertainty(shop, &setup, pull, NULL, NULL);
    return point_of(angle, drag, &uncertainty);
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
