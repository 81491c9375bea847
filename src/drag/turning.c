#include "drag/turning.h"

#include "drag/range.h"

double turning_speed(double seconds)
{
    return above_zero(seconds) ? 60 / seconds : NAN;
}

double turning_cord_speed(double radius, double speed)
{
    if (!above_zero(radius) || !not_below_zero(speed))
        return NAN;
    return 2 * M_PI * radius * speed / 60;
}

double turning_mass(double density, double diameter, double length)
{
    if (!above_zero(density) || !above_zero(diameter) || !above_zero(length))
        return NAN;
    return density * M_PI * diameter * diameter * length / 4;
}

double turning_inertia(double density, double diameter, double length)
{
    double radius = diameter / 2;
    return turning_mass(density, diameter, length) * radius * radius / 2;
}

double turning_drag_of_change(double inertia, double change, double seconds)
{
    if (!not_below_zero(inertia) || !isfinite(change) || !above_zero(seconds))
        return NAN;
    return inertia * 2 * M_PI * change / 60 / seconds;
}
