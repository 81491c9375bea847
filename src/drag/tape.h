/* Paper strips wound around what they measure. A strip of thickness t neither
 * stretches nor shrinks along its middle, which lies at the diameter D + t when it
 * is wound once around D. Lengths in metres; source: geometry. */
#ifndef DRAG_TAPE_H
#define DRAG_TAPE_H

/* Where the mark for a diameter D stands, from the index line: pi (D + t).
 * D above 0, t not below 0; NaN outside that. */
double tape_position(double diameter, double thickness);

/* Distance of two lines of a vernier that divides one division of the diameter
 * into `parts`: (parts - 1) divisions of the diameter share `parts` spaces, so that
 * one space is pi division (parts - 1) / parts. parts >= 2. */
double tape_vernier_space(double division, int parts);

/* How far apart two marks stand that are so many degrees apart on a rim of this
 * diameter: pi (D + t) degrees / 360. Degrees not below 0. */
double tape_arc(double diameter, double thickness, double degrees);

#endif
