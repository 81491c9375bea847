#include "drag/compare.h"

#include "drag/range.h"

#include <math.h>

double change_doubt(double u_before, double u_now)
{
    if (!not_below_zero(u_before) || !not_below_zero(u_now))
        return NAN;
    return hypot(u_before, u_now);
}

bool directions_differ(const struct series *usual, const struct series *other, double step)
{
    if (usual->count < 2 || other->count < 2)
        return false;
    double range = fmax(usual->most - usual->least, other->most - other->least);
    return fabs(usual->mean - other->mean) > fmax(range, step);
}
