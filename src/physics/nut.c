/* The adjusting nut: its travel, and the next move by the secant through two places. */
#include "physics/physics.h"

double nut_travel(double pitch, double degrees)
{
    return above_zero(pitch) && isfinite(degrees) ? pitch * degrees / 360 : NAN;
}

double nut_pitch_of_threads(double per_inch)
{
    return above_zero(per_inch) ? INCH / per_inch : NAN;
}

double nut_rim(double outside_diameter, double degrees)
{
    return above_zero(outside_diameter) && isfinite(degrees)
               ? M_PI * outside_diameter * degrees / 360
               : NAN;
}

struct nut_move nut_next(struct nut_point older, struct nut_point newer, double target,
                         double good)
{
    double move = newer.angle - older.angle, rise = newer.drag - older.drag;
    double missing = target - newer.drag;
    if (missing < -good)
        return (struct nut_move){NUT_UNLOAD, 0, false};
    if (move < 0)
        return (struct nut_move){NUT_BACKED, 0, false};
    if (missing <= good)
        return (struct nut_move){NUT_GOOD, 0, false};
    if (!(move > 0 && rise > hypot(older.expanded, newer.expanded)))
        return (struct nut_move){NUT_NO_SLOPE, 0, false};
    double angle = missing * move / rise, most = fmin(2 * move, NUT_MOST_MOVE);
    return (struct nut_move){NUT_TURN, fmin(angle, most), angle > most};
}
