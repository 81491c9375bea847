/* How sure a drag is: the GUM's rules for T = F (D + d) / 2 (JCGM 100:2008). */
#ifndef DRAG_UNCERTAINTY_H
#define DRAG_UNCERTAINTY_H

#include <stddef.h>

/* One source of doubt. u: its standard uncertainty in the result's unit; nu: its
 * degrees of freedom, infinite where it rests on a limit and not on a sample. */
struct doubt {
    double u, nu;
};

struct uncertainty {
    double standard; /* combined, u_c */
    double nu;       /* effective degrees of freedom, not truncated */
    double factor;   /* k = t_95.45(nu truncated downward) */
    double bias;     /* a known error that was not taken off; not below 0 */
    double expanded; /* U = k u_c + bias */
};

/* Half-width of a range in which every value is as likely -> a / sqrt(3)
 * (GUM 4.3.7). */
double doubt_rectangular(double half_width);

/* A display that moves in steps: the truth is within half a step, step / (2 sqrt 3)
 * (GUM F.2.2.1). */
double doubt_of_step(double step);

/* Root of the sum of squares (GUM 5.1.2) with the effective degrees of freedom of
 * Welch and Satterthwaite, u_c^4 / sum(u_i^4 / nu_i) (GUM G.4.1). Without a bias. */
struct uncertainty uncertainty_of(const struct doubt *doubts, size_t count);

/* What is known of a pull and of the drum. SI units. */
struct pull_doubts {
    double pull;                 /* F, mean */
    double sd_of_mean;           /* of n pulls; 0 where none were taken */
    double pulls_nu;             /* n - 1 */
    double step;                 /* of the gauge */
    double gauge_half_width;     /* what the gauge's error may be at this pull, either way */
    double gauge_bias;           /* its size, where it is known and not taken off */
    double gauge_u;              /* standard uncertainty of what is known of that error */
    double gauge_nu;             /* its degrees of freedom; counts where gauge_u is above 0 */
    double drum, drum_tolerance; /* D */
    double cord, cord_tolerance; /* d */
    double skew;                 /* the most that the pull may be askew, degrees */
};

enum doubt_source {
    DOUBT_REPEAT,
    DOUBT_STEP,
    DOUBT_ZERO,
    DOUBT_GAUGE,
    DOUBT_DRUM,
    DOUBT_CORD,
    DOUBT_SKEW,
    DOUBT_SOURCES
};

/* The drag's uncertainty; each source's share goes to doubts[DOUBT_SOURCES].
 * The step counts twice: once for the reading, once for the zero. A pull up to
 * `skew` askew has lost up to T (1 - cos skew), taken as a range either way. A known error
 * that is left in the reading is no doubt: its size is added to U whole (GUM F.2.4.5 allows
 * an enlarged U where a known effect is not corrected; the sum k u_c + |b| is from memory of
 * Phillips, Eberhardt and Parry, J. Res. NIST 102, 1997). */
struct uncertainty drag_uncertainty(const struct pull_doubts *pull, struct doubt *doubts);

#endif
