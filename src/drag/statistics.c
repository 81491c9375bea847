#include "drag/statistics.h"

#include <math.h>

double mean_of(const double *values, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += values[i];
    double mean = sum / (double)count, rest = 0;
    for (size_t i = 0; i < count; i++)
        rest += values[i] - mean;
    return mean + rest / (double)count;
}

static double sd_about(double mean, const double *values, size_t count)
{
    double squares = 0, rest = 0;
    for (size_t i = 0; i < count; i++) {
        squares += (values[i] - mean) * (values[i] - mean);
        rest += values[i] - mean;
    }
    squares -= rest * rest / (double)count; /* what the mean's own rounding has added */
    return count < 2 ? NAN : sqrt(squares / (double)(count - 1));
}

struct series series_of(const double *values, size_t count)
{
    struct series series = {count, NAN, NAN, NAN, NAN};
    if (count == 0)
        return series;
    series.mean = mean_of(values, count);
    if (!isfinite(series.mean))
        return (struct series){count, NAN, NAN, NAN, NAN};
    series.sd = sd_about(series.mean, values, count);
    series.least = series.most = values[0];
    for (size_t i = 1; i < count; i++) {
        series.least = fmin(series.least, values[i]);
        series.most = fmax(series.most, values[i]);
    }
    return series;
}

double series_relative_range(const struct series *series)
{
    return series->mean == 0 ? NAN : (series->most - series->least) / series->mean;
}
