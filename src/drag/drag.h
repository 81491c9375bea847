/* The trade's mathematics. Pure: doubles in SI in, doubles out, nothing else.
 *
 * Lengths in metres, forces in newtons, torques ("drag") in newton-metres,
 * angles in degrees. Lengths and radii must be above 0, forces and torques not
 * below 0; outside its range, and for input that is not finite, every function
 * returns NaN. */
#ifndef DRAG_DRAG_H
#define DRAG_DRAG_H

/* Effective radius of a cord on a drum: the line of pull runs along the middle
 * of the cord, so R = (D + d) / 2.
 * D drum diameter at the cord's path, d cord diameter under tension (>= 0).
 * Source: the effective radius of a rope brake, as in mechanics textbooks. */
double drag_radius(double drum_diameter, double cord_diameter);

/* The same when the cord lies on its own layer number `layer` (1 = on the drum):
 * each layer below adds one cord diameter, R = (D + (2 layer - 1) d) / 2.
 * layer 1..10. Turns taken to lie one straight above the other.
 * Source: geometry. */
double drag_radius_on_layer(double drum_diameter, double cord_diameter, int layer);

/* Effective radius found without a caliper, from the cord that n whole turns pay
 * out: R = L / (2 pi n). n > 0. Source: geometry. */
double drag_radius_from_payout(double length, double turns);

/* Drag from a steady pull square to the spindle: T = F R. Source: definition. */
double drag_from_pull(double pull, double radius);

/* The pull that a drag asks for: F = T / R. */
double drag_to_pull(double drag, double radius);

/* The pull that gives at one arm the drag that another pull gives at another arm:
 * F2 = F1 R1 / R2. For a manual that states its pull at a radius of its own. */
double drag_pull_at_arm(double pull, double arm, double other_arm);

/* What must be added to a drag worked out as pull times the assumed radius, as a
 * fraction of it, when the true radius is another: true / assumed - 1. */
double drag_correction_for_radius(double true_radius, double assumed_radius);

/* The same for a skew pull taken to be square. A pull that leaves the plane square to the
 * spindle by an angle turns it only with its part in that plane, T = F R cos(angle): so
 * cos(angle) - 1, never above 0. 0 <= angle < 90 degrees. Source: resolution of a force. */
double drag_correction_for_skew(double angle);

/* A window of drag, and the same window as pulls on a drum. */
struct drag_window {
    double low, aim, high; /* aim: the middle */
};

struct drag_window drag_window_of(double low, double high);
struct drag_window drag_window_as_pull(struct drag_window drag, double radius);

#endif
