#include "drag/drum.h"

#include "drag/range.h"

const double drum_flange_thickness = 0.003;

static const double LEAST = 0.003; /* of what a hand or a printer makes well */
static const double SLACK = 1.1;

double drum_land_diameter(double radius, double cord)
{
    if (!above_zero(radius) || !not_below_zero(cord) || !(2 * radius > cord))
        return NAN;
    return 2 * radius - cord;
}

double drum_land_width(int turns, double cord, double peg)
{
    if (turns < 1 || turns > 100 || !not_below_zero(cord) || !not_below_zero(peg))
        return NAN;
    return peg + (turns + 1) * cord * SLACK;
}

double drum_flange_height(double cord)
{
    return not_below_zero(cord) ? fmax(LEAST, 3 * cord) : NAN;
}

double drum_peg(double cord)
{
    return not_below_zero(cord) ? fmax(LEAST, 2 * cord) : NAN;
}

double drum_notch(double peg)
{
    return above_zero(peg) ? 3 * peg : NAN;
}
