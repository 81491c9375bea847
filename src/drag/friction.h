/* Rolling-bearing friction in the rough, by Palmgren's model: an order of magnitude,
 * never a limit. From memory of the textbook form (Palmgren; Harris), which the SI
 * form in a public thermal-modelling library agrees with. */
#ifndef DRAG_FRICTION_H
#define DRAG_FRICTION_H

/* Drag (N.m) of churning oil. f0: of the bearing and its lubrication; viscosity in
 * mm2/s at working temperature; speed in r/min; pitch diameter in m.
 *   v n >= 2000: f0 1e-7 (v n)^(2/3) dm^3, else f0 160e-7 dm^3 (N.mm, mm)
 * At the branch the two differ by 0.8 %; at hand-pull speed only the second
 * applies, and it scatters widely. */
double friction_of_oil(double f0, double viscosity, double speed, double pitch_diameter);

/* The load P1 (N) that an axial load (N) means in a bearing of tapered rollers: P1 = 2 Y Fa
 * with Y = 0.4 cot a; contact angle a in degrees, 0..90 exclusive. Source: textbooks, from
 * memory. */
double friction_bearing_load(double axial_load, double contact_angle);

/* Drag (N.m) of the load: f1 P1 dm. Load in N, pitch diameter in m. */
double friction_of_load(double f1, double load, double pitch_diameter);

#endif
