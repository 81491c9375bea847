/* What warming up does in this shop, and how a spindle is run in. */
#include "judge/warmth.h"

#include "judge/nut.h"
#include "judge/series.h"
#include "physics/physics.h"
#include "shop/shop.h"

#include <math.h>
#include <stdio.h>

/* At which an oil's grade gives its viscosity (ISO 3448), and at which its index gives the
 * other (ISO 2909); degrees Celsius. */
enum { OIL_WARM_CELSIUS = 40, OIL_HOT_CELSIUS = 100 };

static double in_celsius(const struct measure *temperature)
{
    return quantity_in(&temperature->q, unit_find_as("degC", 4, KIND_TEMPERATURE));
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
        *oil = oil_from_points(
            in_celsius(&typed->first_temperature), in_mm2_per_s(&typed->first_viscosity),
            in_celsius(&typed->second_temperature), in_mm2_per_s(&typed->second_viscosity));
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

double nut_degrees(const struct shop *shop, double way)
{
    double pitch = nut_pitch_given(&shop->nut);
    return pitch > 0 ? way / nut_travel(pitch, 1) : NAN;
}

/* ---- running in ---- */

/* The fastest speed of the lathe that is not above a speed, or NULL. */
static const struct quantity *next_below(const struct measures *speeds,
                                         const struct decimal *most)
{
    const struct quantity *found = NULL;
    for (size_t i = 0; i < speeds->count; i++)
        if (decimal_compare(&speeds->items[i].q.exact, most) <= 0)
            found = &speeds->items[i].q;
    return found;
}

static struct decimal tenth_of(const struct shop *shop, int tenth)
{
    struct decimal factor = decimal_of(tenth, -1);
    return decimal_multiply(&shop->lathe.top_speed.q.exact, &factor);
}

size_t run_in_stages(const struct shop *shop, struct run_in_stage stages[RUN_IN_STAGES])
{
    const struct measures *speeds = &shop->lathe.speeds;
    size_t count = 0;
    for (int tenth = 1; tenth <= RUN_IN_STAGES; tenth++) {
        struct decimal most = tenth_of(shop, tenth);
        const struct quantity *speed = next_below(speeds, &most);
        if (speeds->count && !speed)
            continue;
        if (count && speed &&
            decimal_compare(&speed->exact, &stages[count - 1].typed->exact) == 0) {
            stages[count - 1].last = tenth;
            continue;
        }
        stages[count++] = (struct run_in_stage){.first = tenth,
                                                .last = tenth,
                                                .speed = speed ? speed->exact : most,
                                                .typed = speed};
    }
    return count;
}

struct shown run_in_speed(const struct shop *shop, const struct run_in_stage *stage)
{
    struct shown shown = {.text = ""};
    struct decimal tenth = tenth_of(shop, 1);
    if (stage->typed)
        snprintf(shown.text, sizeof shown.text, "%s", stage->typed->digits);
    else
        decimal_print(&stage->speed, decimal_places(&tenth), shown.text);
    return shown;
}

double run_in_minutes(const struct shop *shop, bool last)
{
    const struct measure *time = last ? &shop->run_in.top_time : &shop->run_in.stage_time;
    return time->q.base / 60;
}

static struct decimal lesser(struct decimal a, struct decimal b)
{
    return decimal_compare(&a, &b) <= 0 ? a : b;
}

struct decimal run_in_stop(const struct shop *shop, const struct decimal *room)
{
    return lesser(shop->run_in.stop.q.exact, decimal_add(room, &shop->run_in.rise.q.exact));
}

struct decimal run_in_look(const struct shop *shop, const struct decimal *room)
{
    struct decimal look = decimal_of(RUN_IN_LOOK, 0);
    return lesser(run_in_stop(shop, room), decimal_add(room, &look));
}

int64_t whole_fahrenheit(const struct decimal *fahrenheit)
{
    struct decimal one = decimal_of(1, 0);
    return decimal_steps_not_above(fahrenheit, &one);
}

int64_t whole_celsius_of_rise(const struct decimal *fahrenheit)
{
    struct decimal degree = decimal_of(18, -1);
    return decimal_steps_not_above(fahrenheit, &degree);
}

int64_t whole_celsius(const struct decimal *fahrenheit)
{
    struct decimal freezing = decimal_of(32, 0);
    struct decimal above = decimal_subtract(fahrenheit, &freezing);
    return whole_celsius_of_rise(&above);
}
