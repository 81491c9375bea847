/* Numbers that are taken again and again. */
#ifndef DRAG_STATISTICS_H
#define DRAG_STATISTICS_H

#include <stddef.h>

/* A series in brief. For fewer than two values sd is NaN, for none all are. */
struct series {
    size_t count;
    double mean;
    double sd; /* sample standard deviation, divisor n - 1 (GUM 4.2.2) */
    double least, most;
};

/* NaN for none. What rounding lost in the sum is added in a second pass. */
double mean_of(const double *values, size_t count);

/* Two passes over deviations from the mean, so that nearly equal large numbers
 * keep their digits. Values that are not finite make everything NaN. */
struct series series_of(const double *values, size_t count);

/* Spread over mean: (most - least) / mean; NaN where the mean is 0. */
double series_relative_range(const struct series *series);

#endif
