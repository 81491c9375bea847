#include "drag/sight.h"

#include "drag/range.h"

/* Radians of a minute of arc. */
static const double MINUTE = M_PI / (180 * 60);

double sight_height(double distance, double minutes)
{
    if (!above_zero(distance) || !above_zero(minutes) || minutes >= 180 * 60)
        return NAN;
    return 2 * distance * tan(minutes * MINUTE / 2);
}

double sight_minutes(double height, double distance)
{
    if (!above_zero(height) || !above_zero(distance))
        return NAN;
    return 2 * atan(height / (2 * distance)) / MINUTE;
}
