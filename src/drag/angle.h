/* Angles are in degrees, the C library's functions take radians. */
#ifndef DRAG_ANGLE_H
#define DRAG_ANGLE_H

#include <math.h>

static inline double radians(double degrees)
{
    return degrees * (M_PI / 180);
}

#endif
