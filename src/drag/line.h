/* A straight line through points, by least squares. */
#ifndef DRAG_LINE_H
#define DRAG_LINE_H

#include <stddef.h>

/* y = intercept + slope x, with standard errors and their covariance. */
struct line {
    size_t count;
    double intercept, slope;
    double intercept_se, slope_se, covariance;
    double sd;      /* of the residuals, divisor n - 2 */
    double squares; /* sum of squared residuals */
};

/* At least three points, not all at one x; else all NaN. Source: the usual normal
 * equations, worked about the mean; NIST StRD data sets check them. */
struct line line_through(const double *x, const double *y, size_t count);

/* The same, forced through the origin: at least two points; divisor n - 1. */
struct line line_through_origin(const double *x, const double *y, size_t count);

double line_at(const struct line *line, double x);

/* Standard error of the line's own height at x (not of a new point). */
double line_se_at(const struct line *line, double x);

#endif
