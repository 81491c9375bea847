#include "drag/compare.h"

#include "drag/range.h"

#include <math.h>

double change_doubt(double before, double now)
{
    if (!not_below_zero(before) || !not_below_zero(now))
        return NAN;
    return hypot(before, now);
}

bool directions_differ(const struct series *usual, const struct series *other, double step)
{
    if (usual->count < 2 || other->count < 2)
        return false;
    double range = fmax(usual->most - usual->least, other->most - other->least);
    return fabs(usual->mean - other->mean) > fmax(range, step);
}
