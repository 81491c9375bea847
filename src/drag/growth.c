#include "drag/growth.h"

#include "drag/angle.h"
#include "drag/range.h"

double growth_of_length(double expansion, double length, double rise)
{
    return expansion * length * rise;
}

double growth_difference(double spindle_expansion, double spindle_rise,
                         double headstock_expansion, double headstock_rise, double length)
{
    return growth_of_length(spindle_expansion, length, spindle_rise) -
           growth_of_length(headstock_expansion, length, headstock_rise);
}

/* Axial play that radial growth takes up on one bearing, per unit of alpha dT. */
static double radial_part(double cup, double angle)
{
    if (!above_zero(cup) || !(angle > 0 && angle < 90))
        return NAN;
    return cup / 2 / tan(radians(angle));
}

double growth_end_play_lost(const struct bearing_pair *pair, double expansion, double rise)
{
    double radial =
        radial_part(pair->cup1, pair->angle1) + radial_part(pair->cup2, pair->angle2);
    double axial = pair->face_to_face ? pair->spread : -pair->spread;
    return expansion * rise * (radial + axial);
}
