#include "drag/line.h"

#include "drag/statistics.h"

#include <math.h>

static const struct line no_line = {0, NAN, NAN, NAN, NAN, NAN, NAN, NAN};

static double squares_of_residuals(const struct line *line, const double *x, const double *y)
{
    double squares = 0;
    for (size_t i = 0; i < line->count; i++) {
        double residual = y[i] - line_at(line, x[i]);
        squares += residual * residual;
    }
    return squares;
}

struct line line_through(const double *x, const double *y, size_t count)
{
    if (count < 3)
        return no_line;
    double x_mean = mean_of(x, count), y_mean = mean_of(y, count), sxx = 0, sxy = 0;
    for (size_t i = 0; i < count; i++) {
        sxx += (x[i] - x_mean) * (x[i] - x_mean);
        sxy += (x[i] - x_mean) * (y[i] - y_mean);
    }
    if (!(sxx > 0))
        return no_line;
    struct line line = {.count = count, .slope = sxy / sxx};
    line.intercept = y_mean - line.slope * x_mean;
    line.squares = squares_of_residuals(&line, x, y);
    line.sd = sqrt(line.squares / (double)(count - 2));
    line.slope_se = line.sd / sqrt(sxx);
    line.intercept_se = line.sd * sqrt(1 / (double)count + x_mean * x_mean / sxx);
    line.covariance = -x_mean * line.slope_se * line.slope_se;
    return line;
}

struct line line_through_origin(const double *x, const double *y, size_t count)
{
    double xx = 0, xy = 0;
    for (size_t i = 0; i < count; i++) {
        xx += x[i] * x[i];
        xy += x[i] * y[i];
    }
    if (count < 2 || !(xx > 0))
        return no_line;
    struct line line = {.count = count, .slope = xy / xx};
    line.squares = squares_of_residuals(&line, x, y);
    line.sd = sqrt(line.squares / (double)(count - 1));
    line.slope_se = line.sd / sqrt(xx);
    return line;
}

double line_at(const struct line *line, double x)
{
    return line->intercept + line->slope * x;
}

double line_se_at(const struct line *line, double x)
{
    double variance = line->intercept_se * line->intercept_se +
                      x * x * line->slope_se * line->slope_se + 2 * x * line->covariance;
    return sqrt(fmax(variance, 0));
}
