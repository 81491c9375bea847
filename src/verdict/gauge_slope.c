/* A gauge is seldom a tenth wrong; a unit often is. */
#include "verdict/gauge.h"

#include "drag/gravity.h"
#include "number/show.h"
#include "number/unit.h"

#include <math.h>
#include <stdio.h>

static const double far = 0.1; /* off what it should be */

static bool near(double slope, double ratio)
{
    return fabs(slope / ratio - 1) <= far;
}

static const char *cause_of(double slope)
{
    const double kg_of_lb = unit_to_base(1, unit_find("lb", 2));
    if (near(slope, kg_of_lb))
        return "are the loads in lb, not kg, or the readings in kgf, not lbf?";
    if (near(slope, 1 / kg_of_lb))
        return "are the loads in kg, not lb, or the readings in lbf, not kgf?";
    if (near(slope, standard_gravity))
        return "are the readings in N, not kgf?";
    if (near(slope, 1 / standard_gravity))
        return "are the readings in kgf, not N?";
    return "look for a wrong unit, or a slip of the pen";
}

bool gauge_slope_is_odd(const struct gauge_check *check, char text[SLOPE_TEXT])
{
    double slope = check->line.slope;
    if (!check->known || near(slope, 1))
        return false;
    snprintf(text, SLOPE_TEXT, "the gauge reads %s times the load: %s",
             show_places(slope, 2).text, cause_of(slope));
    return true;
}
