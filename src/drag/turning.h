/* A turning spindle: how fast the cord runs, and what it costs to speed up what turns. */
#ifndef DRAG_TURNING_H
#define DRAG_TURNING_H

/* Speed (r/min) of one whole turn in so many seconds: 60 / s. */
double turning_speed(double seconds);

/* Speed of the cord (m/s) at an effective radius (m): 2 pi R n / 60. Source: the
 * circumference of a circle. */
double turning_cord_speed(double radius, double speed);

/* A solid cylinder that turns about its axis. Density in kg/m3, diameter and length in
 * m; mass in kg, moment of inertia in kg m2.
 *   m = density pi d^2 l / 4,  I = m (d / 2)^2 / 2
 * Source: the moment of inertia of a disc, mechanics textbooks. */
double turning_mass(double density, double diameter, double length);
double turning_inertia(double density, double diameter, double length);

/* Drag (N.m) that the gauge shows too much while the speed (r/min) rises by `change`
 * within so many seconds: I alpha, alpha = 2 pi change / 60 / s. Below 0 while it falls. */
double turning_drag_of_change(double inertia, double change, double seconds);

#endif
