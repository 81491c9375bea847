/* The nut: how its turns are told, and where to go from two of its places. */
#include "judge/nut.h"

#include "judge/results.h"
#include "judge/window.h"
#include "physics/physics.h"

#include <math.h>
#include <stdio.h>

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

static struct nut_distance distance_in(double value, int places, const char *unit)
{
    struct nut_distance distance = {.value = value, .unit = unit};
    if (isfinite(value))
        distance.shown = show_places(value, places);
    return distance;
}

/* To the thousandth of an inch or the tenth of a millimetre, as a scale laid to it is read. */
struct nut_distance nut_rim_distance(const struct nut *nut, double degrees)
{
    const struct measure *diameter = &nut->outside_diameter;
    double rim = given(diameter) ? nut_rim(diameter->q.base, degrees) : NAN;
    return nut_rim_in_inches(nut) ? distance_in(rim / INCH, 3, "in")
                                  : distance_in(1000 * rim, 1, "mm");
}

static const double micrometres = 1e6; /* in a metre */

/* To the hundred thousandth of an inch, or the tenth of a micrometre: a degree is little. */
static struct nut_distance travel_in(const struct nut *nut, double degrees, bool inches)
{
    double travel = micrometres * nut_travel(nut_pitch_given(nut), degrees);
    return inches ? distance_in(travel / (micrometres * INCH), 5, "in")
                  : distance_in(travel, 1, "µm");
}

struct nut_distance nut_travel_distance(const struct nut *nut, double degrees)
{
    return travel_in(nut, degrees, nut_thread_in_inches(nut));
}

struct nut_distance nut_travel_other_unit(const struct nut *nut, double degrees)
{
    return travel_in(nut, degrees, !nut_thread_in_inches(nut));
}

/* ---- places of the nut ---- */

bool nut_may_steer(const struct shop *shop, const struct pull_series *series)
{
    struct pull_conditions taken = series_conditions(series);
    return series->nut.unit && (!shop_has_limits(shop) || conditions_suit_limits(shop, &taken));
}

struct nut_point nut_point_of_row(const struct judged *row)
{
    const struct judgement *judgement = &row->judgement;
    return (struct nut_point){row->series->nut.base, judgement->drag,
                              judgement->measured.drag.sureness.expanded,
                              own_doubt(judgement->budget)};
}

static void add_places(const struct judged *row, struct nut_places *places)
{
    const struct judged *at = row;
    for (; at && places->count < NUT_PLACES; at = at->looser) {
        if (row->series->nut.base - at->series->nut.base > NUT_FAR_APART)
            break;
        places->points[places->count++] = nut_point_of_row(at);
    }
    for (size_t i = 0; i < places->count / 2; i++) { /* from loose to tight */
        struct nut_point *a = &places->points[i], *b = &places->points[places->count - 1 - i];
        struct nut_point kept = *a;
        *a = *b;
        *b = kept;
    }
}

/* The one just before the nut was locked where it is; NULL: there is none. */
static const struct judged *before_its_lock(const struct judged *row)
{
    while (!row->before_lock && row->like)
        row = row->like;
    return row->before_lock;
}

struct nut_places nut_places_of_row(const struct judged *row, double lock_added)
{
    struct nut_places places = {.slack = NAN, .lock_added = NAN};
    const struct judged *freed = before_its_lock(row);
    bool locked = row->series->lock == LOCK_AFTER;
    add_places(freed ? freed : row, &places);
    if (freed)
        places.lock_added = row->judgement.drag - freed->judgement.drag;
    if (row->slack && (!locked || freed || !isnan(lock_added))) {
        double own = own_doubt(row->slack->judgement.budget);
        struct lock_share lock = lock_share_of(lock_added, 0, own);
        bool over = locked && !freed;
        places.slack = row->slack->judgement.drag + (over ? lock.added : 0);
        places.slack_u = over ? hypot(own, lock.u) : own;
    }
    return places;
}

struct nut_point nut_point_of_drag(const struct known *known, double angle, double drag)
{
    struct drum_setup setup = shop_drum_setup(known->shop);
    struct pull_mean pulls = usual_pulls(known, reading_of_whole(known, drag));
    struct doubt budget[BUDGET_ROWS];
    struct measured measured = measure_pulls(known, &setup, &pulls, budget);
    return (struct nut_point){angle, drag, measured.drag.sureness.expanded, own_doubt(budget)};
}

double nut_aim(const struct known *known, const struct band *band)
{
    double low = whole_limit(known, &band->low);
    double high = whole_limit(known, &band->high);
    return drag_window_of(low, high).aim;
}
