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
    return (struct nut_point){row->series->nut.base, row->judgement.drag,
                              row->judgement.measured.drag.sureness.expanded};
}

struct nut_point nut_point_of_drag(const struct known *known, double angle, double drag)
{
    struct drum_setup setup = shop_drum_setup(known->shop);
    struct pull_mean pulls = usual_pulls(known, reading_of_whole(known, drag));
    struct measured measured = measure_pulls(known, &setup, &pulls, NULL);
    return (struct nut_point){angle, drag, measured.drag.sureness.expanded};
}

double nut_aim(const struct known *known, const struct band *band)
{
    double low = whole_limit(known, &band->low);
    double high = whole_limit(known, &band->high);
    return drag_window_of(low, high).aim;
}
