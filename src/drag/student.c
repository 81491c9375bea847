#include "drag/student.h"

#include <math.h>

const double student_coverage = 0.954499736103642; /* erf(sqrt 2) */

/* Beyond this the logarithms below lose digits, and the factor comes from that of
 * the normal distribution by the first term of its expansion, (z^3 + z) / (4 nu)
 * (Abramowitz and Stegun 26.7.5); what is left off is below a part in 10^11. */
static const double nearly_normal = 1e6;

/* The continued fraction of the incomplete beta function, from its end backwards:
 * DLMF 8.17.22. Converges fast for x < (a + 1) / (a + b + 2). */
static double beta_fraction(double a, double b, double x)
{
    double value = 1;
    for (int m = 400; m >= 1; m--) {
        double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
        double odd = -(a + m - 1) * (a + b + m - 1) * x / ((a + 2 * m - 2) * (a + 2 * m - 1));
        value = 1 + odd / (1 + even / value);
    }
    return 1 / value;
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

double student_factor(double p, double nu)
{
    if (!(p > 0 && p < 1) || !(nu >= 1))
        return NAN;
    if (nu > nearly_normal && !isinf(nu)) {
        double z = student_factor(p, INFINITY);
        return z + (z * z * z + z) / (4 * nu);
    }
    double low = 0, high = 1;
    while (outside(high, nu) > 1 - p)
        high *= 2;
    for (int i = 0; i < 200 && high - low > 1e-15 * high; i++) {
        double middle = low + (high - low) / 2;
        if (outside(middle, nu) > 1 - p)
            low = middle;
        else
            high = middle;
    }
    return low + (high - low) / 2;
}
