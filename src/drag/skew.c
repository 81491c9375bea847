#include "drag/drag.h"

#include "drag/angle.h"
#include "drag/range.h"

double drag_correction_for_skew(double angle)
{
    if (!not_below_zero(angle) || angle >= 90)
        return NAN;
    return cos(radians(angle)) - 1;
}
