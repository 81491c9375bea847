#include "drag/oil_index.h"

#include <math.h>
#include <stddef.h>

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
