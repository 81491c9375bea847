/* Two measurements of what should be the same, side by side. */
#ifndef DRAG_COMPARE_H
#define DRAG_COMPARE_H

#include "drag/statistics.h"

#include <stdbool.h>

/* The expanded uncertainty of a difference, sqrt(U1^2 + U2^2): a difference beyond it is
 * one (the En number of ISO 13528, above 1). What both share, as the drum's own error,
 * counts twice here and would in truth cancel: on the side of calling less a change.
 * before, now: the two U, not below zero; else NaN. */
double change_doubt(double before, double now);

/* Whether the two ways round differ by more than the pulls of one way among themselves:
 * the means lie further apart than the wider of the two ranges, and than one step of
 * the gauge. A rule of thumb of ours. Both series: at least two pulls; else false. */
bool directions_differ(const struct series *usual, const struct series *other, double step);

#endif
