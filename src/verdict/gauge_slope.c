/* A gauge is seldom a tenth wrong; a unit often is. */
#include "verdict/gauge.h"

#include "number/show.h"

#include <math.h>
#include <stdio.h>

static const double far = 0.1;                        /* off what it should be */
static const double kg_of_lb = 0.45359237;            /* exact: the pound of 1959 */
static const double standard_gravity_ratio = 9.80665; /* N to a kgf, exact: 3rd CGPM 1901 */

static bool near(double slope, double ratio)
{
    return fabs(slope / ratio - 1) <= far;
}

static const char *cause_of(double slope)
{
    if (near(slope, kg_of_lb))
        return "are the loads in lb, not kg, or the readings in kgf, not lbf?";
    if (near(slope, 1 / kg_of_lb))
        return "are the loads in kg, not lb, or the readings in lbf, not kgf?";
    if (near(slope, standard_gravity_ratio))
        return "are the readings in N, not kgf?";
    if (near(slope, 1 / standard_gravity_ratio))
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
