#include "drag/drag.h"

#include "drag/range.h"

double drag_radius(double drum_diameter, double cord_diameter)
{
    return drag_radius_on_layer(drum_diameter, cord_diameter, 1);
}

double drag_radius_on_layer(double drum_diameter, double cord_diameter, int layer)
{
    if (!above_zero(drum_diameter) || !not_below_zero(cord_diameter) || layer < 1 || layer > 10)
        return NAN;
    return (drum_diameter + (2 * layer - 1) * cord_diameter) / 2;
}

double drag_radius_from_payout(double length, double turns)
{
    if (!above_zero(length) || !above_zero(turns))
        return NAN;
    return length / (2 * M_PI * turns);
}
