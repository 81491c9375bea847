/* What the gauge will show: the pull windows of the bands, rounded inward at the gauge's own
 * step, and what of them is good for certain. */
#ifndef JUDGE_WINDOW_H
#define JUDGE_WINDOW_H

#include "judge/measure.h"
#include "number/show.h"
#include "shop/shop.h"

/* The shop's own effective radius as it is shown: five digits in the unit of the drum's
 * diameter. */
struct shown radius_digits(const struct shop *shop);

/* The readings (N) at a band's limits on one drum: through the line of the gauge's check, with
 * the slack drag where the limits are an increase over it. */
struct pull_window {
    double low, aim, high, never; /* unrounded; never is NaN where not given */
    /* in whole gauge steps: low up, high and never down, aim to the nearest
     * step that lies inside */
    int64_t low_steps, aim_steps, high_steps, never_steps;
    bool closed; /* no gauge step lies between the limits */
};

struct pull_window pull_window_on(const struct known *known, const struct band *band,
                                  double radius);

/* Where a reading of so many whole steps lies against a band's limits at a
 * radius: -1 below, 0 inside (limits belong), 1 above. */
int reading_against_limits(const struct known *known, const struct band *band, double radius,
                           int64_t steps);

/* What is good of it with the usual pulls. */
struct guarded_window {
    struct pull_window plain;
    struct shown_uncertainty low_u, high_u; /* U at each limit, in the unit of that limit */
    double low, high;              /* the readings (N) at which the mean is just good; where
                                      none is, the limits with U taken off */
    int64_t low_steps, high_steps; /* rounded inward */
    bool none;                     /* no reading at all is good */
    bool closed;                   /* no step is good: gauge and drum cannot decide */
};

struct guarded_window guarded_window_on(const struct known *known, const struct band *band,
                                        const struct drum_setup *setup);

/* A drag limit in another unit, inward at four significant digits. */
enum limit_end { LIMIT_LOW, LIMIT_HIGH };

struct shown show_limit_in(const struct quantity *limit, const struct unit *unit,
                           enum limit_end side);

#endif
