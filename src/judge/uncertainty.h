/* How sure a drag is in this workshop, and what that leaves of a window. */
#ifndef JUDGE_UNCERTAINTY_H
#define JUDGE_UNCERTAINTY_H

#include "judge/window.h"
#include "physics/physics.h"
#include "shop/shop.h"

struct results; /* judge/results.h */

/* A drum with a cord on it, as it stands in the shop. */
struct drum_setup {
    const struct quantity *drum, *drum_tolerance, *cord, *cord_tolerance;
};

struct drum_setup shop_drum_setup(const struct shop *shop);

/* The uncertainty (N.m) of the drag of a pull (N). series: the pulls that were
 * taken; NULL before any is taken: then the shop's planned count and scatter stand in.
 * Of fewer pulls than planned the scatter counts as no less than the planned one, with
 * the planned count's degrees of freedom: the formula of Welch and Satterthwaite takes two
 * or three pulls that look alike by luck for sure, and then U covers too little (nine in
 * ten, by a Monte Carlo run in the manner of JCGM 101). A rule of ours. Past the reach of the
 * known weights it is the larger of the two that their line, carried on, and what is stated of
 * the gauge make: so that U never falls where the weights end. doubts: DOUBT_SOURCES of them;
 * may be NULL. */
struct uncertainty pull_uncertainty(const struct results *results,
                                    const struct drum_setup *setup, double pull,
                                    const struct series *series, struct doubt *doubts);

/* The same with the even factor 2, whatever the degrees of freedom, so that drums compare. */
struct uncertainty pull_uncertainty_even(const struct results *results,
                                         const struct drum_setup *setup, double pull,
                                         struct doubt *doubts);

/* An uncertainty as it is shown and used from there on: rounded up to two digits
 * in a unit, so that what is printed is what decided. Nothing, where there is none. */
struct shown_uncertainty {
    struct decimal typed; /* in the unit */
    struct decimal exact; /* in the base unit */
    int places;           /* digits behind the point */
};

struct shown_uncertainty uncertainty_shown_in(double base, const struct unit *unit);

/* What a doubt leaves of a pull window: the guarded window, limit plus U at the low
 * end, limit minus U at the high end (ISO 14253-1, JCGM 106). */

struct guarded_window {
    struct pull_window plain;
    struct shown_uncertainty low_u, high_u; /* U at each limit, in the unit of that limit */
    double low, high;                       /* pulls (N) at which the mean is just good */
    int64_t low_steps, high_steps;          /* rounded inward */
    bool closed;                            /* no step is good: gauge and drum cannot decide */
};

/* For the pulls that the shop usually takes. */
struct guarded_window guarded_window_on(const struct results *results, const struct band *band,
                                        const struct drum_setup *setup);

#endif
