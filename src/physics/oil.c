/* Warmth: how thick an oil is, what it and the load cost in drag, what growth does to the fit.
 */
#include "physics/physics.h"

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

/* zero = a y^2 + b y + c and hundred = d y^2 + e y + f, for y up to `most`. */
static const struct {
    double most, a, b, c, d, e, f;
} parts[] = {
    {3.8, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077},
    {4.4, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183},
    {5.0, 2.5, -7.2143, 13.812, 0.82143, 1.5679, 0.119},
    {6.4, 0.101, 16.635, -45.469, 0.04985, 9.1613, -18.557},
    {7.0, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656},
    {7.7, 0.01191, 21.475, -72.87, 0.79762, -0.7321, 14.61},
    {9.0, 0.41858, 16.1558, -56.04, 0.05794, 10.5156, -28.24},
    {12, 0.88779, 7.5527, -16.6, 0.26665, 6.7015, -10.81},
    {15, 0.7672, 10.7972, -38.18, 0.20073, 8.4658, -22.49},
    {18, 0.97305, 5.3135, -2.2, 0.28889, 5.9741, -4.93},
    {22, 0.97256, 5.25, -0.98, 0.24504, 7.416, -16.73},
};

enum { PARTS = sizeof parts / sizeof parts[0], HALVINGS = 60 };

static const double least = 2, most = 22;

static size_t part_of(double hot)
{
    size_t part = 0;
    while (part + 1 < PARTS && hot > parts[part].most)
        part++;
    return part;
}

double oil_index_zero(double hot)
{
    size_t i = part_of(hot);
    return hot >= least && hot <= most ? (parts[i].a * hot + parts[i].b) * hot + parts[i].c
                                       : NAN;
}

double oil_index_hundred(double hot)
{
    size_t i = part_of(hot);
    return hot >= least && hot <= most ? (parts[i].d * hot + parts[i].e) * hot + parts[i].f
                                       : NAN;
}

static double warm_of(double hot, double index)
{
    double zero = oil_index_zero(hot);
    return zero - index / 100 * (zero - oil_index_hundred(hot));
}

double oil_hot_of_index(double warm, double index)
{
    double low = least, high = most;
    if (!(index >= 0 && index <= 100 && warm >= warm_of(low, index) &&
          warm <= warm_of(high, index)))
        return NAN;
    for (int i = 0; i < HALVINGS; i++) {
        double middle = (low + high) / 2;
        if (warm_of(middle, index) < warm)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

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
    return not_below_zero(axial_load) && contact_angle > 0 && contact_angle < 90
               ? 2 * 0.4 / tan(radians(contact_angle)) * axial_load
               : NAN;
}

double friction_of_load(double f1, double load, double pitch_diameter)
{
    return above_zero(f1) && not_below_zero(load) && above_zero(pitch_diameter)
               ? f1 * load * pitch_diameter
               : NAN;
}

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
    return above_zero(cup) && angle > 0 && angle < 90 ? cup / 2 / tan(radians(angle)) : NAN;
}

double growth_end_play_lost(const struct bearing_pair *pair, double expansion, double rise)
{
    double radial =
        radial_part(pair->cup1, pair->angle1) + radial_part(pair->cup2, pair->angle2);
    double axial = pair->face_to_face ? pair->spread : -pair->spread;
    return expansion * rise * (radial + axial);
}
