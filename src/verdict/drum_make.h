/* The drum to make: for the radius that is wanted, else like the fitted one. */
#ifndef VERDICT_DRUM_MAKE_H
#define VERDICT_DRUM_MAKE_H

#include "shop/shop.h"

/* All lengths in metres. */
struct drum_to_make {
    bool wanted; /* for drum.wanted-radius; otherwise the fitted drum */
    int turns;   /* of cord side by side */
    double radius, cord;
    double land, land_width;
    double flange, flange_height, thickness; /* flange: outside diameter */
    double slope; /* what the slope of 45 degrees takes of the width */
    double width; /* of the whole */
    double peg, notch;
    double bore; /* NAN where it is not given */
    double turn; /* cord of one turn */
};

struct drum_to_make drum_to_make(const struct shop *shop);

/* The series of the log with the most of breakaway over mean; NULL where none has one. */
const struct pull_series *hardest_breakaway(const struct shop *shop);

/* How much harder the first pull is than the steady ones, as the log has it: the most that
 * it has of breakaway over mean. Without one there: BREAKAWAY_USUAL. *logged says which. */
#define BREAKAWAY_USUAL 1.5 /* a rule of thumb of ours */
double breakaway_ratio(const struct shop *shop, bool *logged);

#endif
