/* The adjusting nut: its travel, the curve of drag against its angle, and the next move. */
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

/* ---- the curve ---- */

const double nut_angle_u = 0.15; /* 0.25 over the root of 3 */

static double square(double x)
{
    return x * x;
}

/* Line contact is nearly 1 (10/9), point contact 3/2, a friction that rises faster than the
 * load up to 2; the stiffness of spindle and headstock brings all of them down. */
static double exponent_at(int index)
{
    return 1 + 0.25 * index;
}

/* The share of the rise up to the newest place that the curve has at an angle, and how fast it
 * grows there, by degree. */
static double shape_at(const struct nut_model *model, double newest, double angle,
                       double *growth)
{
    double way = angle - model->begins, whole = newest - model->begins;
    *growth = 0;
    if (way <= 0)
        return 0;
    double share = pow(way / whole, model->exponent);
    *growth = model->exponent * share / way;
    return share;
}

/* Slack drag and rise by weighted least squares, the slack drag with its prior; and how well
 * the model agrees: the evidence of a normal sample under a flat prior of the rise, which is
 * not below 0. Its logarithm goes into the weight. */
static void fit(const struct nut_course *course, double angle_u2, struct nut_model *model)
{
    const struct nut_point *points = course->points;
    double newest = points[course->count - 1].angle, growth;
    double prior = 1 / square(course->slack_u);
    double w = prior, wg = 0, wgg = 0, wt = prior * course->slack, wgt = 0;
    for (size_t i = 0; i < course->count; i++) {
        double g = shape_at(model, newest, points[i].angle, &growth);
        double weight = 1 / (square(points[i].u) + angle_u2);
        w += weight;
        wg += weight * g;
        wgg += weight * g * g;
        wt += weight * points[i].drag;
        wgt += weight * g * points[i].drag;
    }
    double determinant = w * wgg - wg * wg;
    model->slack = (wgg * wt - wg * wgt) / determinant;
    model->rise = (w * wgt - wg * wt) / determinant;
    model->slack_u2 = wgg / determinant;
    model->rise_u2 = w / determinant;
    model->covariance = -wg / determinant;
    double squares = prior * square(course->slack - model->slack);
    for (size_t i = 0; i < course->count; i++) {
        double g = shape_at(model, newest, points[i].angle, &growth);
        squares += square(points[i].drag - model->slack - model->rise * g) /
                   (square(points[i].u) + angle_u2);
    }
    double not_below = student_above(-model->rise / sqrt(model->rise_u2), INFINITY);
    model->weight += log(not_below) - squares / 2 - log(determinant) / 2;
}

/* The error of a nut's angle as an error of the drag, by the last two places. */
static double angle_error(const struct nut_course *course)
{
    const struct nut_point *b = &course->points[course->count - 1], *a = b - 1;
    if (course->count < 2)
        return 0;
    return fmax(b->drag - a->drag, 0) / (b->angle - a->angle) * nut_angle_u;
}

struct nut_curve nut_curve_of(const struct nut_course *course)
{
    struct nut_curve curve = {.newest = course->points[course->count - 1].angle};
    struct nut_course with = *course;
    double best = -INFINITY, sum = 0, angle_u2 = square(angle_error(course));
    if (isnan(course->slack)) { /* anything up to the drag of the loosest place */
        with.slack = course->points[0].drag / 2;
        with.slack_u = doubt_rectangular(with.slack);
    }
    for (int i = 0; i < NUT_MODELS; i++) {
        double t = (i % NUT_BEGINNINGS + 0.5) / NUT_BEGINNINGS;
        struct nut_model *model = &curve.models[i];
        model->exponent = exponent_at(i / NUT_BEGINNINGS);
        model->begins = curve.newest - NUT_FAR_APART * t * t;
        model->weight = log(t); /* so that every beginning is as likely */
        fit(&with, angle_u2, model);
        best = fmax(best, model->weight);
    }
    for (int i = 0; i < NUT_MODELS; i++)
        sum += curve.models[i].weight = exp(curve.models[i].weight - best);
    for (int i = 0; i < NUT_MODELS; i++)
        curve.models[i].weight /= sum;
    return curve;
}

double nut_curve_above(const struct nut_curve *curve, double angle,
                       const struct nut_limit *limit)
{
    double chance = 0, growth;
    for (int i = 0; i < NUT_MODELS; i++) {
        const struct nut_model *model = &curve->models[i];
        double g = shape_at(model, curve->newest, angle, &growth);
        double variance = model->slack_u2 + 2 * g * model->covariance + g * g * model->rise_u2 +
                          square(growth * model->rise * nut_angle_u) + square(limit->u);
        double beyond = model->slack + model->rise * g - limit->drag;
        chance += model->weight * student_above(-beyond / sqrt(variance), limit->nu);
    }
    return chance;
}

double nut_curve_drag(const struct nut_curve *curve, double angle)
{
    double least = 0, most = 1; /* N.m */
    while (nut_curve_above(curve, angle, &(struct nut_limit){most, 0, INFINITY, 0}) > 0.5)
        most *= 2;
    for (int i = 0; i < 40; i++) {
        double middle = (least + most) / 2;
        const struct nut_limit limit = {middle, 0, INFINITY, 0};
        *(nut_curve_above(curve, angle, &limit) > 0.5 ? &least : &most) = middle;
    }
    return least;
}

/* ---- the next move ---- */

static bool is_risky(const struct nut_curve *curve, double angle,
                     const struct nut_bounds *bounds)
{
    for (int i = 0; i < NUT_LIMITS; i++)
        if (isfinite(bounds->limits[i].drag) &&
            nut_curve_above(curve, angle, &bounds->limits[i]) > bounds->limits[i].risk)
            return true;
    return false;
}

/* Over the target as likely as below it, or further. */
static bool is_past(const struct nut_curve *curve, double angle,
                    const struct nut_bounds *bounds)
{
    const struct nut_limit target = {bounds->target, 0, INFINITY, 0.5};
    return nut_curve_above(curve, angle, &target) > target.risk;
}

static struct nut_move move_along(const struct nut_course *course,
                                  const struct nut_bounds *bounds)
{
    static const double near = 0.01; /* degrees */
    struct nut_curve curve = nut_curve_of(course);
    const struct nut_point *newer = &course->points[course->count - 1];
    double least = 0, most = NUT_FIRST_MOVE;
    if (course->count > 1)
        most = fmin(2 * (newer->angle - newer[-1].angle), NUT_MOST_MOVE);
    struct nut_move move = {.advice = NUT_TURN, .angle = most};
    move.risky = is_risky(&curve, newer->angle + most, bounds);
    move.capped = !move.risky && !is_past(&curve, newer->angle + most, bounds);
    if (move.capped)
        return move;
    while (most - least > near) {
        double middle = (least + most) / 2, angle = newer->angle + middle;
        bool too_far = is_risky(&curve, angle, bounds) || is_past(&curve, angle, bounds);
        *(too_far ? &most : &least) = middle;
    }
    move.risky = is_risky(&curve, newer->angle + most, bounds);
    move.angle = least;
    return move;
}

static bool has_risen(const struct nut_point *older, const struct nut_point *newer)
{
    return newer->drag - older->drag > 2 * hypot(older->u, newer->u);
}

struct nut_move nut_next(const struct nut_course *course, const struct nut_bounds *bounds)
{
    const struct nut_point *newer = &course->points[course->count - 1], *older = newer - 1;
    double missing = bounds->target - newer->drag;
    const struct nut_point slack = {.drag = course->slack, .u = course->slack_u};
    if (missing < -bounds->good)
        return (struct nut_move){.advice = NUT_UNLOAD};
    if (course->count > 1 && newer->angle < older->angle)
        return (struct nut_move){.advice = NUT_BACKED};
    if (missing <= bounds->good)
        return (struct nut_move){.advice = NUT_GOOD};
    bool known = !isnan(course->slack);
    if (!has_risen(known ? &slack : &course->points[0], newer))
        return (struct nut_move){.advice = known || newer->drag <= bounds->free ? NUT_FREE
                                                                                : NUT_NO_SLOPE};
    if (course->count > 1 && (!(newer->angle > older->angle) || has_risen(newer, older)))
        return (struct nut_move){.advice = NUT_NO_SLOPE};
    return move_along(course, bounds);
}
