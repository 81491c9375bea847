/* Numbers that are taken again and again: series, Student's t, lines by least squares; and how
 * sure a drag is that is worked out from them. */
#include "physics/physics.h"

/* NaN for none. What rounding lost in the sum is added in a second pass. */
static double mean_of(const double *values, size_t count)
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
    double mean = mean_of(values, count);
    if (!isfinite(mean))
        return (struct series){count, NAN, NAN, NAN, NAN};
    struct series series = {count, mean, sd_about(mean, values, count), values[0], values[0]};
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

const double student_coverage = 0.954499736103642; /* erf(sqrt 2) */

/* Beyond this the logarithms below lose digits, and the factor comes from that of
 * the normal distribution by the first term of its expansion, (z^3 + z) / (4 nu)
 * (Abramowitz and Stegun 26.7.5); what is left off is below a part in 10^11. */
static const double nearly_normal = 1e6;

/* The continued fraction of the incomplete beta function, DLMF 8.17.22, summed from its
 * front by Steed's algorithm. Converges fast for x < (a + 1) / (a + b + 2). */
static double beta_fraction(double a, double b, double x)
{
    double sum = 1, term = 1, denominator = 1;
    for (int i = 1; fabs(term) > 1e-17 * sum; i++) {
        int m = i / 2;
        double part = i % 2 ? -(a + m) * (a + b + m) : m * (b - m);
        part *= x / ((a + i - 1) * (a + i));
        denominator = 1 / (1 + part * denominator);
        term *= denominator - 1;
        sum += term;
    }
    return sum;
}

/* The logarithm of 1 / B(a, b). */
static double beta_height(double a, double b)
{
    return lgamma(a + b) - lgamma(a) - lgamma(b);
}

/* Regularised incomplete beta function I_x(a, b), DLMF 8.17, for x above 0. height: that of a
 * and b, which is worked out once for many x. */
static double beta_share(double a, double b, double height, double x)
{
    if (x >= 1)
        return 1;
    if (x > (a + 1) / (a + b + 2))
        return 1 - beta_share(b, a, height, 1 - x);
    double scale = exp(height + a * log(x) + b * log1p(-x));
    return scale / a * beta_fraction(a, b, x);
}

/* For outside() and density_of_both(); of no use where nu is infinite. */
static double student_height(double nu)
{
    return beta_height(nu / 2, 0.5);
}

/* Share outside -t..t. */
static double outside(double t, double nu, double height)
{
    if (isinf(nu))
        return erfc(t / sqrt(2));
    return beta_share(nu / 2, 0.5, height, nu / (nu + t * t));
}

double student_above(double t, double nu)
{
    if (!(nu >= 1) || isnan(t))
        return NAN;
    if (nu > 1e4 && isfinite(t)) { /* where the logarithms below outside() lose digits */
        double square = t * t, first = t * (square + 1) / 4;
        double second = t * (((3 * square - 7) * square - 5) * square - 3) / 96;
        double height = exp(-square / 2) / sqrt(2 * M_PI);
        return erfc(t / sqrt(2)) / 2 + height * (first + second / nu) / nu;
    }
    double beyond = outside(fabs(t), nu, student_height(nu)) / 2;
    return t < 0 ? 1 - beyond : beyond;
}

double fisher_above(double ratio, double nu1, double nu2)
{
    if (!(nu1 >= 1 && nu2 >= 1) || isnan(ratio))
        return NAN;
    double a = nu2 / 2, b = nu1 / 2;
    return ratio > 0 ? beta_share(a, b, beta_height(a, b), nu2 / (nu2 + nu1 * ratio)) : 1;
}

/* Share within a small step at -t and at t, over the step. */
static double density_of_both(double t, double nu, double height)
{
    if (isinf(nu))
        return 2 * exp(-t * t / 2) / sqrt(2 * M_PI);
    return 2 / sqrt(nu) * exp(height - (nu + 1) / 2 * log1p(t * t / nu));
}

double student_factor(double p, double nu)
{
    if (!(p > 0 && p < 1) || !(nu >= 1))
        return NAN;
    if (nu > nearly_normal && !isinf(nu)) {
        double z = student_factor(p, INFINITY);
        return z + (z * z * z + z) / (4 * nu);
    }
    /* Beyond the normal distribution's, which is 2 for the usual share. */
    double t = p == student_coverage ? 2 : 0, height = student_height(nu), step;
    do { /* Newton's way: outside() falls ever less steeply, so that no step goes too far */
        step = (outside(t, nu, height) - (1 - p)) / density_of_both(t, nu, height);
        t += step;
    } while (step > 1e-15 * t);
    return t;
}

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
    if (count < 2)
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
    line.sd = count > 2 ? sqrt(line.squares / (double)(count - 2)) : NAN;
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

double change_doubt(double before, double now)
{
    return not_below_zero(before) && not_below_zero(now) ? hypot(before, now) : NAN;
}

bool directions_differ(const struct series *usual, const struct series *other, double step)
{
    if (usual->count < 2 || other->count < 2)
        return false;
    double range = fmax(usual->most - usual->least, other->most - other->least);
    return fabs(usual->mean - other->mean) > fmax(range, step);
}

/* ---- the GUM's rules for T = F (D + d) / 2 ---- */

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
    sum.factor = student_factor(student_coverage, floor(sum.nu * (1 + 1e-12))); /* 9 is not 8 */
    sum.expanded = sum.factor * sum.standard;
    return sum;
}
