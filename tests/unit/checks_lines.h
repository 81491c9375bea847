/* Functions for the rows about straight lines, means and standard deviations. */
#ifndef TESTS_CHECKS_LINES_H
#define TESTS_CHECKS_LINES_H

#include "checks_table.h"
#include "drag/line.h"
#include "drag/statistics.h"

#include <stdbool.h>

enum { MOST_VALUES = 2000 };

/* Arguments: a file of points, and what is taken off x. */
static inline struct line line_of(const struct asked *a)
{
    double x[MOST_VALUES], y[MOST_VALUES];
    return line_through(x, y, facts_points(a->word[0], a->number[1], x, y));
}

static inline struct line origin_of(const struct asked *a)
{
    double x[MOST_VALUES], y[MOST_VALUES];
    return line_through_origin(x, y, facts_points(a->word[0], a->number[1], x, y));
}

#define PART_OF_LINE(name, line_maker, part)                                                   \
    static inline double name(const struct asked *a)                                           \
    {                                                                                          \
        return line_maker(a).part;                                                             \
    }

PART_OF_LINE(line_intercept, line_of, intercept)
PART_OF_LINE(line_slope, line_of, slope)
PART_OF_LINE(line_intercept_se, line_of, intercept_se)
PART_OF_LINE(line_slope_se, line_of, slope_se)
PART_OF_LINE(line_covariance, line_of, covariance)
PART_OF_LINE(line_squares, line_of, squares)
PART_OF_LINE(line_sd, line_of, sd)
PART_OF_LINE(origin_slope, origin_of, slope)
PART_OF_LINE(origin_slope_se, origin_of, slope_se)
PART_OF_LINE(origin_squares, origin_of, squares)
PART_OF_LINE(origin_sd, origin_of, sd)

static inline double line_correlation(const struct asked *a)
{
    struct line line = line_of(a);
    return line.covariance / line.intercept_se / line.slope_se;
}

/* What the slope explains, by its own doubt: t^2 / (t^2 + n - 2). */
static inline double line_r_squared(const struct asked *a)
{
    double x[MOST_VALUES], y[MOST_VALUES];
    size_t count = facts_points(a->word[0], a->number[1], x, y);
    struct line line = line_through(x, y, count);
    double t = line.slope / line.slope_se;
    return t * t / (t * t + (double)count - 2);
}

static inline double at(const struct asked *a)
{
    struct line line = line_of(a);
    return line_at(&line, a->number[2]);
}

static inline double se_at(const struct asked *a)
{
    struct line line = line_of(a);
    return line_se_at(&line, a->number[2]);
}

/* numacc2 to 4: a value, then 500 times a tenth below and a tenth above it. */
static inline size_t numacc(int set, double *values)
{
    static const double bases[][3] = {{1.2, 1.1, 1.3},
                                      {1000000.2, 1000000.1, 1000000.3},
                                      {10000000.2, 10000000.1, 10000000.3}};
    if (set == 1) {
        memcpy(values, (double[]){10000001, 10000003, 10000002}, 3 * sizeof *values);
        return 3;
    }
    for (int i = 0; i <= 1000; i++)
        values[i] = bases[set - 2][i == 0 ? 0 : 2 - i % 2];
    return 1001;
}

static inline struct series series_of_words(const struct asked *a)
{
    double values[MOST_VALUES];
    bool made = strncmp(a->word[0], "numacc", 6) == 0;
    size_t count =
        made ? numacc(a->word[0][6] - '0', values) : facts_numbers(a->word[0], values);
    return series_of(values, count);
}

static inline double mean(const struct asked *a)
{
    return series_of_words(a).mean;
}

static inline double sd(const struct asked *a)
{
    return series_of_words(a).sd;
}

#endif
