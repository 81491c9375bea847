#include "verdict/warmth.h"

#include "drag/friction.h"
#include "drag/nut.h"
#include "drag/oil_index.h"
#include "shop/oil_grade.h"
#include "verdict/nut_place.h"
#include "verdict/nut_way.h"
#include "verdict/state.h"

#include <math.h>

static double celsius_or(const struct measure *temperature, double otherwise)
{
    const struct unit *celsius = unit_find_as("degC", 4, KIND_TEMPERATURE);
    return given(temperature) ? quantity_in(&temperature->q, celsius) : otherwise;
}

static double in_mm2_per_s(const struct measure *viscosity)
{
    return quantity_in(&viscosity->q, unit_find("mm2/s", 5));
}

bool shop_oil(const struct shop *shop, struct oil *oil)
{
    const struct oil_typed *typed = &shop->oil;
    double warm = oil_grade_viscosity(typed->grade);
    if (given(&typed->first_viscosity) && given(&typed->second_viscosity))
        *oil = oil_from_points(celsius_or(&typed->first_temperature, OIL_WARM_CELSIUS),
                               in_mm2_per_s(&typed->first_viscosity),
                               celsius_or(&typed->second_temperature, OIL_HOT_CELSIUS),
                               in_mm2_per_s(&typed->second_viscosity));
    else if (warm > 0)
        *oil = oil_from_points(OIL_WARM_CELSIUS, warm, OIL_HOT_CELSIUS,
                               oil_hot_of_index(warm, OIL_INDEX));
    else
        return false;
    return true;
}

struct pitch_diameters shop_pitch_diameters(const struct shop *shop)
{
    const struct spindle *spindle = &shop->spindle;
    double front = given(&spindle->pitch_diameter) ? spindle->pitch_diameter.q.base : NAN;
    double rear =
        given(&spindle->rear_pitch_diameter) ? spindle->rear_pitch_diameter.q.base : front;
    return (struct pitch_diameters){front, rear};
}

bool shop_bearings(const struct shop *shop, bool face_to_face, struct bearing_pair *pair)
{
    const struct spindle *spindle = &shop->spindle;
    struct pitch_diameters pitch = shop_pitch_diameters(shop);
    if (isnan(pitch.front) || !given(&spindle->contact_angle) || !given(&spindle->span))
        return false;
    double angle = spindle->contact_angle.q.base;
    *pair = (struct bearing_pair){face_to_face, pitch.front, pitch.rear,
                                  angle,        angle,       spindle->span.q.base};
    return true;
}

double churning_drag(const struct shop *shop, double viscosity, double speed)
{
    struct pitch_diameters pitch = shop_pitch_diameters(shop);
    return friction_of_oil(PALMGREN_OIL, viscosity, speed, pitch.front) +
           friction_of_oil(PALMGREN_OIL, viscosity, speed, pitch.rear);
}

double preload_drag(const struct shop *shop, double preload)
{
    struct pitch_diameters pitch = shop_pitch_diameters(shop);
    if (!given(&shop->spindle.contact_angle))
        return NAN;
    double load = friction_bearing_load(preload, shop->spindle.contact_angle.q.base);
    return friction_of_load(PALMGREN_LOAD, load, pitch.front) +
           friction_of_load(PALMGREN_LOAD, load, pitch.rear);
}

static double slope_to(const struct shop *shop, const struct pull_series *series)
{
    const struct pull_series *before = nut_place_before(shop, series);
    if (!before)
        return NAN;
    return (judge_series(shop, series).drag - judge_series(shop, before).drag) /
           (series->nut.base - before->nut.base);
}

double nut_slope(const struct shop *shop)
{
    const struct pull_series *series = nut_last_place(shop);
    for (; series; series = nut_row_before(shop, series)) {
        double slope = slope_to(shop, series);
        if (slope > 0)
            return slope;
    }
    return NAN;
}

double nut_degrees(const struct shop *shop, double way)
{
    double pitch = nut_pitch_given(&shop->nut);
    return pitch > 0 ? way / nut_travel(pitch, 1) : NAN;
}
