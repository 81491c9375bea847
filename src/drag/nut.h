/* The adjusting nut. */
#ifndef DRAG_NUT_H
#define DRAG_NUT_H

#include <stdbool.h>

/* Axial travel (m) for a turn (degrees): pitch * degrees / 360. Source: the
 * definition of a thread's lead, single start. */
double nut_travel(double pitch, double degrees);

/* Pitch (m) of so many threads per inch: 0.0254 / n. */
double nut_pitch_of_threads(double per_inch);

/* Length of rim (m) that passes for a turn: pi * diameter * degrees / 360. */
double nut_rim(double outside_diameter, double degrees);

/* A nut's place (degrees, tightening positive) and the drag found there (N.m). */
struct nut_point {
    double angle, drag;
    double expanded; /* k u: U of the drag, but for */
    double bias; /* the gauge's known error, which two places share and a rise does not have */
};

enum nut_advice {
    NUT_TURN,    /* tighten by .angle degrees */
    NUT_GOOD,    /* the drag is at the target */
    NUT_UNLOAD,  /* the drag is over the target: unload, start again from slack */
    NUT_BACKED,  /* the newer place is the looser: unload, start again from slack */
    NUT_NO_SLOPE /* the drag did not rise with the nut by more than its doubt */
};

/* Degrees at once: about 20 micrometres on a pitch of 1.5 mm, already much for a
 * preload. A rule of thumb of ours. */
#define NUT_MOST_MOVE 5.0

/* Degrees between two places: no straight line goes through places further apart. A rule
 * of thumb of ours. */
#define NUT_FAR_APART 30.0

struct nut_move {
    enum nut_advice advice;
    double angle; /* degrees to tighten; never negative */
    bool capped;  /* the secant asked for more than is safe at once */
};

/* The next move by the secant through two points, older first:
 *   angle = (target - T2) (a2 - a1) / (T2 - T1)
 * never more than twice the last move, since preload stiffens the bearing, never more
 * than NUT_MOST_MOVE, and always tightening: over the target, or after a backing-off,
 * one unloads and comes again from the slack side. A rise that is not above its doubt,
 * the root of the sum of the squares of both U, is none. good: half-width about the
 * target that counts as there. */
struct nut_move nut_next(struct nut_point older, struct nut_point newer, double target,
                         double good);

#endif
