#include "drag/drag.h"

#include "drag/range.h"

double drag_from_pull(double pull, double radius)
{
    if (!not_below_zero(pull) || !above_zero(radius))
        return NAN;
    return pull * radius;
}

double drag_to_pull(double drag, double radius)
{
    if (!not_below_zero(drag) || !above_zero(radius))
        return NAN;
    return drag / radius;
}

double drag_pull_at_arm(double pull, double arm, double other_arm)
{
    return drag_to_pull(drag_from_pull(pull, arm), other_arm);
}
