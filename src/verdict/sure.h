/* How sure a drag is in this workshop, and what that leaves of a window. */
#ifndef VERDICT_SURE_H
#define VERDICT_SURE_H

#include "drag/statistics.h"
#include "drag/uncertainty.h"
#include "shop/shop.h"

/* A drum with a cord on it, as it stands in the shop. */
struct rig {
    const struct quantity *drum, *drum_tolerance, *cord, *cord_tolerance;
};

struct rig shop_rig(const struct shop *shop);

/* The uncertainty (N.m) of the drag of a pull (N). series: the pulls that were
 * taken; NULL before any is taken: then the shop's planned count and scatter stand in.
 * Of fewer pulls than planned the scatter counts as no less than the planned one, with
 * the planned count's degrees of freedom: the formula of Welch and Satterthwaite takes two
 * or three pulls that look alike by luck for sure, and then U covers too little (nine in
 * ten, by a Monte Carlo run in the manner of JCGM 101). A rule of ours. Past the reach of the
 * known weights it is the larger of the two that their line, carried on, and what is stated of
 * the gauge make: so that U never falls where the weights end. doubts: DOUBT_SOURCES of them;
 * may be NULL. */
struct uncertainty sure_of_pull(const struct shop *shop, const struct rig *rig, double pull,
                                const struct series *series, struct doubt *doubts);

/* The same with the even factor 2, whatever the degrees of freedom, so that drums compare. */
struct uncertainty sure_evenly(const struct shop *shop, const struct rig *rig, double pull,
                               struct doubt *doubts);

/* An uncertainty as it is shown and used from there on: rounded up to two digits
 * in a unit, so that what is printed is what decided. Nothing, where there is none. */
struct sureness {
    struct decimal typed; /* in the unit */
    struct decimal exact; /* in the base unit */
    int places;           /* digits behind the point */
};

struct sureness sureness_in(double base, const struct unit *unit);

#endif
