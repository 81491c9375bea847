#include "drag/drag.h"

#include "drag/range.h"

double drag_correction_for_radius(double true_radius, double assumed_radius)
{
    if (!above_zero(true_radius) || !above_zero(assumed_radius))
        return NAN;
    return true_radius / assumed_radius - 1;
}
