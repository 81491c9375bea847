/* What a known mass weighs where it hangs. */
#include "physics/physics.h"

const double standard_gravity = 9.80665;

/* WGS 84 */
static const double equator = 9.7803253359, k = 0.00193185265241, e2 = 0.00669437999013;

static const double semi_axis = 6378137, flattening = 1 / 298.257223563, m = 0.00344978650684;

double gravity_at(double latitude, double height)
{
    if (!(fabs(latitude) <= 90) || !(height >= -1000 && height <= 10000))
        return NAN;
    double sine = sin(radians(latitude)), square = sine * sine;
    double ground = equator * (1 + k * square) / sqrt(1 - e2 * square);
    double rise = height / semi_axis;
    return ground *
           (1 - 2 * (1 + flattening + m - 2 * flattening * square) * rise + 3 * rise * rise);
}

double weight_of(double mass, double gravity)
{
    return not_below_zero(mass) && above_zero(gravity) ? mass * gravity * (1 - 1.2 / 8000)
                                                       : NAN;
}
