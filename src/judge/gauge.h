/* What known weights say of the gauge: a straight line of reading against force. */
#ifndef JUDGE_GAUGE_H
#define JUDGE_GAUGE_H

#include "physics/physics.h"
#include "shop/shop.h"

struct results; /* judge/results.h */

struct gauge_check {
    bool known;         /* there is a check with a line through it */
    struct line line;   /* reading (N) against force (N) */
    double least, most; /* forces that were hung, N */
    double step;        /* of the gauge, N */
};

/* By the weighings; once a run (judge/results.h). */
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

/* What the line's slope looks like: 1 within a tenth, a mistaken unit, or neither (a rule of
 * thumb of ours: a gauge is seldom a tenth wrong; a unit often is). */
enum gauge_slope {
    SLOPE_NEAR_ONE, /* or there is no check */
    SLOPE_LOADS_IN_LB,
    SLOPE_LOADS_IN_KG,
    SLOPE_READINGS_IN_N,
    SLOPE_READINGS_IN_KGF,
    SLOPE_ODD
};

enum gauge_slope gauge_slope_of(const struct gauge_check *check);

/* Part of a force, in percent of it: q, b and v of ISO 7500-1 when the part is an error
 * or a difference of readings. NaN where either is no number or nothing hung. */
double gauge_share(double part, double force);

/* What is held of the gauge's error at a pull, and what that rests on. */

/* Known weights, where they reach; else the error that was checked with some, or the data
 * sheet, and with these the line of known weights carried on, where there is one. */
enum gauge_source {
    GAUGE_WEIGHED,
    GAUGE_CHECKED,
    GAUGE_DATA_SHEET,
    GAUGE_CHECKED_OR_CARRIED,
    GAUGE_SHEET_OR_CARRIED
};

enum gauge_source gauge_source_at(const struct results *results, double pull);

/* What the settings state of the gauge's error at a pull (N), either way: the checked error;
 * without one what the data sheet allows, the share of full scale and the share of the
 * reading added up. */
double gauge_stated_error(const struct shop *shop, double pull);

/* How far (N) a reading may be off the pull, either way. Where known weights reach: the error
 * that they found (readings are not corrected by it: U is wider by it), and how well it is
 * known. Past them the larger of that, carried on, and what is stated; without them this. */
double gauge_within_at(const struct results *results, double pull);

#endif
