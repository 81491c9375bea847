/* How sure a drag is: the GUM's rules for T = F (D + d) / 2. */
#include "physics/physics.h"

double doubt_rectangular(double half_width)
{
    return half_width / sqrt(3);
}

double doubt_of_step(double step)
{
    return doubt_rectangular(step / 2);
}

struct uncertainty uncertainty_of(const struct doubt *doubts, size_t count)
{
    double squares = 0, fourths = 0;
    for (size_t i = 0; i < count; i++) {
        double square = doubts[i].u * doubts[i].u;
        squares += square;
        fourths += square * square / doubts[i].nu;
    }
    struct uncertainty sum = {.standard = sqrt(squares)};
    sum.nu = fourths > 0 ? squares * squares / fourths : INFINITY;
    sum.factor = student_factor(student_coverage, floor(sum.nu));
    sum.expanded = sum.factor * sum.standard;
    return sum;
}

/* A range and what a check with few weights leaves open, taken together. */
static struct doubt gauge_doubt(const struct pull_doubts *pull, double radius)
{
    const struct doubt parts[] = {
        {doubt_rectangular(pull->gauge_half_width), INFINITY},
        {pull->gauge_u, pull->gauge_u > 0 ? pull->gauge_nu : INFINITY}};
    struct uncertainty both = uncertainty_of(parts, 2);
    return (struct doubt){both.standard * radius, both.nu};
}

struct uncertainty drag_uncertainty(const struct pull_doubts *pull, struct doubt *doubts)
{
    double radius = drag_radius(pull->drum, pull->cord);
    double drag = drag_from_pull(pull->pull, radius);
    for (int i = 0; i < DOUBT_SOURCES; i++)
        doubts[i].nu = INFINITY;
    if (pull->sd_of_mean > 0)
        doubts[DOUBT_REPEAT].nu = pull->pulls_nu;
    doubts[DOUBT_REPEAT].u = pull->sd_of_mean * radius;
    doubts[DOUBT_STEP].u = doubts[DOUBT_ZERO].u = doubt_of_step(pull->step) * radius;
    doubts[DOUBT_GAUGE] = gauge_doubt(pull, radius);
    doubts[DOUBT_DRUM].u = pull->pull * doubt_rectangular(pull->drum_tolerance) / 2;
    doubts[DOUBT_CORD].u = pull->pull * doubt_rectangular(pull->cord_tolerance) / 2;
    doubts[DOUBT_SKEW].u = doubt_rectangular(-drag * drag_correction_for_skew(pull->skew));
    struct uncertainty sum = uncertainty_of(doubts, DOUBT_SOURCES);
    sum.bias = pull->gauge_bias * radius;
    sum.expanded += sum.bias;
    return sum;
}
