/* A drum to make: its sizes from the radius that is wanted and the cord. Lengths in
 * metres, above 0 (the cord's also 0); NaN outside that. */
#ifndef DRAG_DRUM_H
#define DRAG_DRUM_H

/* Outside diameter of the land, on which the cord lies in one layer: the effective radius
 * is (D + d) / 2, so D = 2 R - d. NaN where nothing is left of it. Source: drag_radius(). */
double drum_land_diameter(double radius, double cord);

/* Width of the land: the peg, then n whole turns side by side. Those take n + 1 widths of
 * the cord, because the last turn ends beside where it began; and a tenth more, because
 * cords do not lie quite close. turns 1..100. The tenth is a rule of ours. */
double drum_land_width(int turns, double cord, double peg);

/* Height of the flanges over the land: three cords, at least 3 mm, so that no turn climbs
 * over. A rule of ours. A slope of 45 degrees over it takes as much of the width. */
double drum_flange_height(double cord);

/* Thickness of the flanges at their rims: 3 mm. A rule of ours. */
extern const double drum_flange_thickness;

/* Diameter of the peg for the cord's loop: two cords, at least 3 mm. A rule of ours. */
double drum_peg(double cord);

/* Width of the notch in the flange beside the peg, through which the loop goes on and falls
 * off: three pegs. A rule of ours. */
double drum_notch(double peg);

#endif
