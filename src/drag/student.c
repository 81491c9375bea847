#include "drag/student.h"

#include <math.h>

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

/* Regularised incomplete beta function I_x(a, b), DLMF 8.17, for x above 0. */
static double beta_share(double a, double b, double x)
{
    if (x >= 1)
        return 1;
    if (x > (a + 1) / (a + b + 2))
        return 1 - beta_share(b, a, 1 - x);
    double scale = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x));
    return scale / a * beta_fraction(a, b, x);
}

/* Share outside -t..t. */
static double outside(double t, double nu)
{
    if (isinf(nu))
        return erfc(t / sqrt(2));
    return beta_share(nu / 2, 0.5, nu / (nu + t * t));
}

/* Share within a small step at -t and at t, over the step. */
static double density_of_both(double t, double nu)
{
    if (isinf(nu))
        return 2 * exp(-t * t / 2) / sqrt(2 * M_PI);
    double height = exp(lgamma((nu + 1) / 2) - lgamma(nu / 2)) / sqrt(nu * M_PI);
    return 2 * height * exp(-(nu + 1) / 2 * log1p(t * t / nu));
}

double student_factor(double p, double nu)
{
    if (!(p > 0 && p < 1) || !(nu >= 1))
        return NAN;
    if (nu > nearly_normal && !isinf(nu)) {
        double z = student_factor(p, INFINITY);
        return z + (z * z * z + z) / (4 * nu);
    }
    double t = 0, step;
    do { /* Newton's way: outside() falls ever less steeply, so that no step goes too far */
        step = (outside(t, nu) - (1 - p)) / density_of_both(t, nu);
        t += step;
    } while (step > 1e-15 * t);
    return t;
}
