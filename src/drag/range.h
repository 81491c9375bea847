/* The ranges that the functions of src/drag keep to. */
#ifndef DRAG_RANGE_H
#define DRAG_RANGE_H

#include <math.h>
#include <stdbool.h>

static inline bool above_zero(double value)
{
    return isfinite(value) && value > 0;
}

static inline bool not_below_zero(double value)
{
    return isfinite(value) && value >= 0;
}

#endif
