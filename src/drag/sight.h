/* How large a sign looks. */
#ifndef DRAG_SIGHT_H
#define DRAG_SIGHT_H

/* What a sign must fill of the eye's field to be read, minutes of arc: at least, and
 * better. Source: NUREG-0700 revision 3, 11.4.1.5-1. */
enum { SIGHT_LEAST = 15, SIGHT_PREFERRED = 20 };

/* Height (m) of what fills so many minutes of arc at a distance (m):
 * 2 d tan(angle / 2). Above 0, angle below 180 degrees; NaN outside that. */
double sight_height(double distance, double minutes);

/* The other way round: minutes of arc that a height fills at a distance. */
double sight_minutes(double height, double distance);

#endif
