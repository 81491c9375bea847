/* What warming does to the fit of two opposed bearings. */
#ifndef DRAG_GROWTH_H
#define DRAG_GROWTH_H

#include <stdbool.h>

/* Expansions (alpha) per kelvin, rises (dT) in kelvin, lengths in metres; a rise below 0 is a
 * fall. */

/* Free growth of a length: alpha L dT. Source: the definition of alpha. */
double growth_of_length(double expansion, double length, double rise);

/* Difference of growth between a spindle and its headstock over the same length:
 * (alpha_s dT_s - alpha_h dT_h) L; above 0 when the spindle grows more. */
double growth_difference(double spindle_expansion, double spindle_rise,
                         double headstock_expansion, double headstock_rise, double length);

struct bearing_pair {
    bool face_to_face;     /* X: the load lines meet between the bearings; else O, back to
                            * back: they spread outward */
    double cup1, cup2;     /* mean cup raceway diameters, m */
    double angle1, angle2; /* half cup angles, degrees, 0..90 exclusive */
    double spread;         /* distance between the bearings' middles, m */
};

/* How much end play is lost (m; negative: gained) when the spindle with its cones
 * is warmer than the headstock by `rise`: by geometry,
 *   alpha dT [ (D1/2) cot a1 + (D2/2) cot a2 - L ]  for O, + L for X.
 * Radial growth comes first while warming up: set spread to 0 for that. NaN where a cup is not
 * above 0 or an angle is out of range. */
double growth_end_play_lost(const struct bearing_pair *pair, double expansion, double rise);

#endif
