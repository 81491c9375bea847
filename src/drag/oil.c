#include "drag/oil.h"

#include <math.h>

static const double kelvin = 273.15, thinnest = 2;

static double double_log(double viscosity)
{
    return viscosity > thinnest ? log10(log10(viscosity + 0.7)) : NAN;
}

struct oil oil_from_points(double celsius1, double v1, double celsius2, double v2)
{
    double t1 = log10(celsius1 + kelvin), t2 = log10(celsius2 + kelvin);
    if (!(t1 < t2 || t1 > t2))
        return (struct oil){NAN, NAN};
    struct oil oil = {.b = (double_log(v1) - double_log(v2)) / (t2 - t1)};
    oil.a = double_log(v1) + oil.b * t1;
    return oil;
}

double oil_viscosity(struct oil oil, double celsius)
{
    if (!(celsius >= -30 && celsius <= 150))
        return NAN;
    double viscosity = pow(10, pow(10, oil.a - oil.b * log10(celsius + kelvin))) - 0.7;
    return viscosity > thinnest ? viscosity : NAN;
}
