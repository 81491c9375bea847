/* What known weights say of the gauge: a straight line of reading against force. */
#ifndef VERDICT_GAUGE_H
#define VERDICT_GAUGE_H

#include "drag/line.h"
#include "shop/shop.h"

struct gauge_check {
    bool known;         /* there is a check with a line through it */
    struct line line;   /* reading (N) against force (N) */
    double least, most; /* forces that were hung, N */
    double step;        /* of the gauge, N */
};

struct gauge_check gauge_check_of(const struct shop *shop);

/* Gravity in the workshop, m/s2: local where its site is given, else standard. */
double shop_gravity(const struct shop *shop);

/* Force (N) of a weighing's load. */
double weighing_force(const struct shop *shop, const struct weighing *weighing);

/* Half the capacity (N): where the gauge is looked at when no window says where. */
double gauge_usual_pull(const struct shop *shop);

/* The pulls (N) that the check speaks for: from half the least to one and a quarter of
 * the most force that was hung (a rule of thumb of ours). */
double gauge_check_from(const struct gauge_check *check);
double gauge_check_to(const struct gauge_check *check);

/* Whether the check is known, and speaks for a pull. */
bool gauge_check_covers(const struct gauge_check *check, double pull);

/* Error of the gauge at a pull, reading less force, and its standard uncertainty: of
 * the line's height and of the scatter about it, with count - 2 degrees of freedom; never
 * less than the step of the gauge leaves, should the readings agree by luck. */
double gauge_check_error(const struct gauge_check *check, double pull);
double gauge_check_u(const struct gauge_check *check, double pull);

/* The size of that error, carried on past the pulls that the check speaks for. Nobody has
 * seen there how the gauge goes on: then it is no less than at the last of those pulls (a rule
 * of ours). */
double gauge_carried_error(const struct gauge_check *check, double pull);

/* How well that error is known, either way: the expanded uncertainty for a share of
 * student_coverage (GUM G.3), t u. */
double gauge_known_within(const struct gauge_check *check, double pull);

/* Where the line's slope is more than a tenth off 1 (a rule of thumb of ours), what it is and
 * what may be wrong; false where it is not, and without a check. */
enum { SLOPE_TEXT = 320 };
bool gauge_slope_is_odd(const struct gauge_check *check, char text[SLOPE_TEXT]);

/* Part of a force, in percent of it: q, b and v of ISO 7500-1 when the part is an error
 * or a difference of readings. NaN where either is no number or nothing hung. */
double gauge_share(double part, double force);

#endif
