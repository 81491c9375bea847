#include "drag/lift.h"

#include "drag/range.h"

#include <math.h>

double lift_clearance(double first, double second)
{
    if (!not_below_zero(first) || !not_below_zero(second))
        return NAN;
    return 2 * first - second;
}

double lift_doubt(double division)
{
    return above_zero(division) ? 1.5 * division : NAN;
}
