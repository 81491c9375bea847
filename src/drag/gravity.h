/* What a known mass weighs where it hangs. */
#ifndef DRAG_GRAVITY_H
#define DRAG_GRAVITY_H

/* Standard gravity, m/s2: exact, 3rd CGPM (1901). The kgf and the lbf rest on it. */
extern const double standard_gravity;

/* Normal gravity, m/s2, by Somigliana's formula with the constants of WGS 84
 * (NGA.STND.0036). Latitude -90..90 degrees, north positive; height -1000..10000 m
 * over the ellipsoid, by the second-order term of the same standard. */
double gravity_at(double latitude, double height);

/* Force of a mass (kg) hung in air of 1.2 kg/m3; density of the weights 8000
 * kg/m3 (conventional mass, OIML D 28). */
double weight_of(double mass, double gravity);

#endif
