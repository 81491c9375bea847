#include "drag/tape.h"

#include "drag/range.h"

double tape_position(double diameter, double thickness)
{
    if (!above_zero(diameter) || !not_below_zero(thickness))
        return NAN;
    return M_PI * (diameter + thickness);
}

double tape_vernier_space(double division, int parts)
{
    if (!above_zero(division) || parts < 2)
        return NAN;
    return M_PI * division * (parts - 1) / parts;
}

double tape_arc(double diameter, double thickness, double degrees)
{
    if (!not_below_zero(degrees))
        return NAN;
    return tape_position(diameter, thickness) * degrees / 360;
}
