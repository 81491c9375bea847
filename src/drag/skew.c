#include "drag/drag.h"

#include "drag/angle.h"
#include "drag/range.h"

static double part_in_plane(double angle)
{
    if (!not_below_zero(angle) || angle >= 90)
        return NAN;
    return cos(radians(angle));
}

double drag_from_skew_pull(double pull, double radius, double angle)
{
    return drag_from_pull(pull, radius) * part_in_plane(angle);
}

double drag_correction_for_skew(double angle)
{
    return part_in_plane(angle) - 1;
}
