/* The effective radius: from the spindle's axis to the middle of the cord. */
#ifndef JUDGE_WINDOW_H
#define JUDGE_WINDOW_H

#include "number/show.h"
#include "shop/shop.h"

/* A cord on a drum, exactly: twice the effective radius in metres, D + d. */
struct decimal double_radius(const struct quantity *drum, const struct quantity *cord);

/* The effective radius as a double, through src/physics. */
double effective_radius(const struct quantity *drum, const struct quantity *cord);

/* That of the shop's own drum and cord. */
double shop_radius(const struct shop *shop);

/* The same as it is shown: five digits in the unit of the drum's diameter. */
struct shown radius_digits(const struct shop *shop);

/* What the gauge may read: a band's limits on one drum, rounded inward at the
 * gauge's own step, decided in exact decimals. */

/* The pull window of one drag window on one drum. Pulls in newtons. When the
 * limits are an increase over the slack drag, the slack drag is in them. */
struct pull_window {
    double low, aim, high, never; /* unrounded; never is NaN where not given */
    /* in whole gauge steps: low up, high and never down, aim to the nearest
     * step that lies inside */
    int64_t low_steps, aim_steps, high_steps, never_steps;
    bool closed; /* no gauge step lies between the limits */
};

/* A limit (N.m) as it is pulled: with the slack drag where the maker's limit is an
 * increase over it. */
struct decimal pulled_limit(const struct shop *shop, const struct measure *limit);

/* The double nearest to it, for what is drawn or guessed and not decided. */
double pulled_limit_near(const struct shop *shop, const struct measure *limit);

/* In whole gauge steps, the least pull that is not below a drag and the most that is not
 * above it (N.m); span: D + d exactly, twice the radius. Decided in exact decimals: every
 * limit that is pulled is rounded inward by these. */
int64_t steps_not_below(const struct shop *shop, const struct decimal *span,
                        const struct decimal *limit);
int64_t steps_not_above(const struct shop *shop, const struct decimal *span,
                        const struct decimal *limit);
struct pull_window pull_window_on(const struct shop *shop, const struct band *band,
                                  const struct quantity *drum, const struct quantity *cord);

/* The same on the shop's own drum and cord. */
struct pull_window pull_window_of(const struct shop *shop, const struct band *band);

/* The same at an arm given as its radius, without a cord. */
struct pull_window pull_window_at_arm(const struct shop *shop, const struct band *band,
                                      const struct quantity *arm);

/* Where a gauge reading of so many whole steps lies against a band's limits on a
 * drum: -1 below, 0 inside (limits belong), 1 above. Decided exactly. */
int reading_against_limits(const struct shop *shop, const struct band *band,
                           const struct quantity *drum, const struct quantity *cord,
                           int64_t steps);

/* A drag limit in another unit, inward at four significant digits. */
enum limit_end { LIMIT_LOW, LIMIT_HIGH };

struct shown show_limit_in(const struct quantity *limit, const struct unit *unit,
                           enum limit_end side);

#endif
