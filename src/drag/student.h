/* Student's t distribution. */
#ifndef DRAG_STUDENT_H
#define DRAG_STUDENT_H

/* The share of 0.9545 (two standard deviations of a normal distribution) that an
 * expanded uncertainty covers here, so that its factor comes down to 2 for many
 * degrees of freedom. */
extern const double student_coverage;

/* Two-sided factor t_p(nu): a share p of the distribution lies within -t..t.
 * 0 < p < 1; nu >= 1, need not be whole; an infinite nu gives the normal
 * distribution. NaN outside. Nine digits are right for p from 0.1 up. Source: GUM G.3,
 * table G.2 (= NIST TN 1297 table B.1); worked out here by way of the incomplete beta
 * function. */
double student_factor(double p, double nu);

#endif
