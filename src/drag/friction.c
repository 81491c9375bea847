#include "drag/friction.h"

#include "drag/angle.h"
#include "drag/range.h"

double friction_of_oil(double f0, double viscosity, double speed, double pitch_diameter)
{
    if (!above_zero(f0) || !above_zero(viscosity) || !not_below_zero(speed) ||
        !above_zero(pitch_diameter))
        return NAN;
    double millimetres = 1000 * pitch_diameter, flow = viscosity * speed;
    double cube = millimetres * millimetres * millimetres;
    double factor = flow >= 2000 ? 1e-7 * pow(flow, 2.0 / 3) : 160e-7;
    return f0 * factor * cube / 1000;
}

double friction_bearing_load(double axial_load, double contact_angle)
{
    if (!not_below_zero(axial_load) || !(contact_angle > 0 && contact_angle < 90))
        return NAN;
    return 2 * 0.4 / tan(radians(contact_angle)) * axial_load;
}

double friction_of_load(double f1, double load, double pitch_diameter)
{
    if (!above_zero(f1) || !not_below_zero(load) || !above_zero(pitch_diameter))
        return NAN;
    return f1 * load * pitch_diameter;
}
