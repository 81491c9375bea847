/* Oil: how thick it is at a temperature. */
#ifndef DRAG_OIL_H
#define DRAG_OIL_H

/* Kinematic viscosities in mm2/s, temperatures in degrees Celsius. */
struct oil {
    double a, b; /* log10 log10(v + 0.7) = a - b log10(T / K) */
};

/* From two known points, in either order. Source: ASTM D341, the form with 0.7,
 * which holds above 2 mm2/s. NaN for v <= 2 or equal temperatures. */
struct oil oil_from_points(double celsius1, double v1, double celsius2, double v2);

/* Viscosity at a temperature; NaN outside -30..150 degrees. */
double oil_viscosity(struct oil oil, double celsius);

#endif
