/* The drum and what is measured at it: drag and pull, how large a sign must be, strips of
 * paper, a drum to make, a turning spindle, the lift test. */
#include "physics/physics.h"

double drag_radius(double drum_diameter, double cord_diameter)
{
    return drag_radius_on_layer(drum_diameter, cord_diameter, 1);
}

double drag_radius_on_layer(double drum_diameter, double cord_diameter, int layer)
{
    return above_zero(drum_diameter) && not_below_zero(cord_diameter) && layer >= 1 &&
                   layer <= 10
               ? (drum_diameter + (2 * layer - 1) * cord_diameter) / 2
               : NAN;
}

double drag_radius_from_payout(double length, double turns)
{
    return above_zero(length) && above_zero(turns) ? length / (2 * M_PI * turns) : NAN;
}

double drag_from_pull(double pull, double radius)
{
    return not_below_zero(pull) && above_zero(radius) ? pull * radius : NAN;
}

double drag_to_pull(double drag, double radius)
{
    return not_below_zero(drag) && above_zero(radius) ? drag / radius : NAN;
}

double drag_pull_at_arm(double pull, double arm, double other_arm)
{
    return drag_to_pull(drag_from_pull(pull, arm), other_arm);
}

struct drag_window drag_window_of(double low, double high)
{
    if (!not_below_zero(low) || !above_zero(high) || low > high)
        return (struct drag_window){NAN, NAN, NAN};
    return (struct drag_window){.low = low, .aim = low + (high - low) / 2, .high = high};
}

struct drag_window drag_window_as_pull(struct drag_window drag, double radius)
{
    return (struct drag_window){.low = drag_to_pull(drag.low, radius),
                                .aim = drag_to_pull(drag.aim, radius),
                                .high = drag_to_pull(drag.high, radius)};
}

double drag_correction_for_radius(double true_radius, double assumed_radius)
{
    return above_zero(true_radius) && above_zero(assumed_radius)
               ? true_radius / assumed_radius - 1
               : NAN;
}

double drag_correction_for_skew(double angle)
{
    return not_below_zero(angle) && angle < 90 ? cos(radians(angle)) - 1 : NAN;
}

/* Radians of a minute of arc. */
static const double MINUTE = M_PI / (180 * 60);

double sight_height(double distance, double minutes)
{
    return above_zero(distance) && above_zero(minutes) && minutes < 180 * 60
               ? 2 * distance * tan(minutes * MINUTE / 2)
               : NAN;
}

double sight_minutes(double height, double distance)
{
    return above_zero(height) && above_zero(distance)
               ? 2 * atan(height / (2 * distance)) / MINUTE
               : NAN;
}

double tape_position(double diameter, double thickness)
{
    return above_zero(diameter) && not_below_zero(thickness) ? M_PI * (diameter + thickness)
                                                             : NAN;
}

double tape_vernier_space(double division, int parts)
{
    return above_zero(division) && parts >= 2 ? M_PI * division * (parts - 1) / parts : NAN;
}

double tape_arc(double diameter, double thickness, double degrees)
{
    return not_below_zero(degrees) ? tape_position(diameter, thickness) * degrees / 360 : NAN;
}

static const double LEAST = 0.003; /* of what a hand or a printer makes well */

static const double BELOW_PEG = 0.0015; /* what of a flange is left beside a loop's leg */

static const double SLACK = 1.1;

double drum_land_diameter(double radius, double cord)
{
    return above_zero(radius) && not_below_zero(cord) && 2 * radius > cord ? 2 * radius - cord
                                                                           : NAN;
}

double drum_land_width(int turns, double cord, double peg)
{
    return turns >= 1 && turns <= 100 && not_below_zero(cord) && not_below_zero(peg)
               ? peg + (turns + 1) * cord * SLACK
               : NAN;
}

double drum_flange_thickness(double cord)
{
    return not_below_zero(cord) ? fmax(LEAST, cord + BELOW_PEG) : NAN;
}

double drum_flange_height(double cord)
{
    return not_below_zero(cord) ? fmax(LEAST, 3 * cord) : NAN;
}

double drum_peg(double cord)
{
    return not_below_zero(cord) ? fmax(LEAST, 2 * cord) : NAN;
}

double drum_notch(double peg, double cord)
{
    return above_zero(peg) ? peg + 2 * drum_peg(cord) : NAN;
}

double drum_peg_stress(double pull, double height, double width, double across)
{
    if (!not_below_zero(pull) || !above_zero(height) || !above_zero(width) ||
        !above_zero(across))
        return NAN;
    double bending = 6 * pull * height / (across * width * width);
    double shear = pull / (across * width);
    return sqrt(bending * bending + 3 * shear * shear);
}

double turning_speed(double seconds)
{
    return above_zero(seconds) ? 60 / seconds : NAN;
}

double turning_cord_speed(double radius, double speed)
{
    return above_zero(radius) && not_below_zero(speed) ? 2 * M_PI * radius * speed / 60 : NAN;
}

double turning_mass(double density, double diameter, double length)
{
    return above_zero(density) && above_zero(diameter) && above_zero(length)
               ? density * M_PI * diameter * diameter * length / 4
               : NAN;
}

double turning_inertia(double density, double diameter, double length)
{
    double radius = diameter / 2;
    return turning_mass(density, diameter, length) * radius * radius / 2;
}

double turning_drag_of_change(double inertia, double change, double seconds)
{
    return not_below_zero(inertia) && isfinite(change) && above_zero(seconds)
               ? inertia * 2 * M_PI * change / 60 / seconds
               : NAN;
}

double lift_clearance(double first, double second)
{
    return not_below_zero(first) && not_below_zero(second) ? 2 * first - second : NAN;
}

double lift_doubt(double division)
{
    return above_zero(division) ? 1.5 * division : NAN;
}
