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

/* What the gauge's error at a pull rests on, the best first. */
enum gauge_source { GAUGE_WEIGHED, GAUGE_CHECKED, GAUGE_DATA_SHEET };

enum gauge_source gauge_source_at(const struct shop *shop, double pull);
const char *gauge_source_words(enum gauge_source source);

/* The gauge's error at a pull (N), either way: what the log of known weights found
 * there (readings are not corrected by it: U is wider by it); without it the
 * checked error; else what the data sheet allows, the share of full scale and the
 * share of the reading added up. */
double gauge_error_at(const struct shop *shop, double pull);

/* How far (N) a reading may be off the pull, either way: that error, and where it was found
 * with known weights also how well it is known. */
double gauge_within_at(const struct shop *shop, double pull);

/* The uncertainty (N.m) of the drag of a pull (N). series: the pulls that were
 * taken; NULL before any is taken: then the shop's planned count and scatter stand in.
 * Of fewer pulls than planned the scatter counts as no less than the planned one, with
 * the planned count's degrees of freedom: the formula of Welch and Satterthwaite takes two
 * or three pulls that look alike by luck for sure, and then U covers too little (nine in
 * ten, by a Monte Carlo run in the manner of JCGM 101). A rule of ours. doubts:
 * DOUBT_SOURCES of them; may be NULL. */
struct uncertainty sure_of_pull(const struct shop *shop, const struct rig *rig, double pull,
                                const struct series *series, struct doubt *doubts);

/* An uncertainty as it is shown and used from there on: rounded up to two digits
 * in a unit, so that what is printed is what decided. Nothing, where there is none. */
struct sureness {
    struct decimal typed; /* in the unit */
    struct decimal exact; /* in the base unit */
    int places;           /* digits behind the point */
};

struct sureness sureness_in(double base, const struct unit *unit);

#endif
