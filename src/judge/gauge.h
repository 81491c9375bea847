/* The gauge: its checks with known weights, session by session, which of them holds on a day,
 * and what is held of its error. */
#ifndef JUDGE_GAUGE_H
#define JUDGE_GAUGE_H

#include "base/memory.h"
#include "physics/physics.h"
#include "shop/shop.h"

/* Gravity in the workshop, m/s2: local where its site is given, else standard. */
double shop_gravity(const struct shop *shop);

/* Force (N) of a weighing's load, where the workshop lay then. */
double weighing_force(const struct shop *shop, const struct weighing *weighing);

/* ---- checks ---- */

/* Which check holds on a day: the latest complete one on or before it; while there is none that
 * is complete, the latest. other: one that does not agree with it, the complete one before it
 * or a later one that is not complete, and none since that does agree; NULL: there is none.
 * Alarms then take the worse of the two, and nothing is called good. check is NULL where there
 * is none yet.
 *
 * confirmed: a further check agrees with it whose weights cannot be wrong together with its
 * own: both name their masses and the names differ, or one of the two has a certificate. A
 * wrong mass looks like a wrong gauge. What agrees with a confirmed one before it is confirmed
 * too. */
struct gauge_in_force {
    const struct gauge_check *check, *other;
    bool confirmed;
};

/* A check: the weighings of one day by one person. Sessions are never pooled: between two the
 * gauge may have been dropped. */
struct gauge_check {
    const struct weighing **rows; /* from the least load to the most */
    size_t count;
    const char *date, *by;  /* by: "" where not said */
    long day;               /* date_days() */
    struct gauge_line line; /* reading (N) against force (N) */
    double least, most;     /* forces that were hung, N */
    double hysteresis;      /* N of reading: half of what coming down reads more, at most;
                               NaN where no load was hung both ways */
    double drift;      /* since then, a share of the force: GAUGE_DRIFT, or what it was from
                          the complete one before it, where that is more */
    double tolerance;  /* how far the weights may be off together, a share of the load: the most
                          of what its rows say, GAUGE_MASSES where one says nothing */
    const char *named; /* what all its weights are called; NULL: not said, or of two names */
    bool certified;    /* all of them have a certificate */
    bool masses;       /* at least one load was a mass: gravity counts */
    bool complete;     /* three different loads at least, two of them both ways */
    struct gauge_in_force in_force; /* from this one on */
};

/* Oldest first; of one day in the order of their persons. Only those with a line; of those
 * without one the first row each. */
struct gauge_checks {
    struct gauge_check *items;
    size_t count;
    const struct weighing **lineless;
    size_t lineless_count;
};

struct gauge_checks gauge_checks_of(struct arena *arena, const struct shop *shop);

/* Rules of ours, shares either way: how far the weights may be off together where nothing is
 * said, as a kitchen scale's; how far a gauge drifts from one check to the next. */
#define GAUGE_MASSES 0.005
#define GAUGE_DRIFT  0.005

/* Half of what gravity differs on Earth about standard gravity, as a share: holds where the
 * settings do not say where the workshop lies. Source: gravity_at() at pole and equator. */
#define GAUGE_GRAVITY 0.0027

struct gauge_in_force gauge_in_force_on(const struct gauge_checks *checks, long day);

/* Whether two checks agree: at the ends of the forces that both reached the forces that one
 * reading means differ by no more than the root of the sum of both U squared. What all weights
 * have in common counts in both, and so does what a gauge may drift. */
bool gauge_checks_agree(const struct gauge_check *a, const struct gauge_check *b);

/* The forces (N) that a check speaks for: from half the least to one and a quarter of the most
 * that was hung (a rule of thumb of ours); and whether it is one (not NULL) and speaks for a
 * force. */
double gauge_check_from(const struct gauge_check *check);
double gauge_check_to(const struct gauge_check *check);
bool gauge_check_covers(const struct gauge_check *check, double force);

/* How well the force (N) of a reading is known by a check, either way: U of its line, the
 * weights, the drift and the hysteresis. */
double gauge_known_within(const struct gauge_check *check, double force);

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

/* ---- what is stated ---- */

/* Half the capacity (N): where the gauge is looked at when no window says where. */
double gauge_usual_pull(const struct shop *shop);

/* What the data sheet allows at a force (N), either way: the share of full scale and the share
 * of the reading added up; 0 where the settings give neither. */
double gauge_sheet_error(const struct shop *shop, double force);

/* What the settings state of the gauge's error: the checked error; without one the data
 * sheet's. */
double gauge_stated_error(const struct shop *shop, double force);

/* What the gauge's error at a force rests on: known weights where they reach; else the error
 * that was checked with some, or the data sheet, and with these the line of known weights
 * carried on, where there is one. */
enum gauge_source {
    GAUGE_WEIGHED,
    GAUGE_CHECKED,
    GAUGE_DATA_SHEET,
    GAUGE_CHECKED_OR_CARRIED,
    GAUGE_SHEET_OR_CARRIED
};

enum gauge_source gauge_source_at(const struct shop *shop, const struct gauge_check *check,
                                  double force);

/* How far (N) the force of a reading may be off, either way: gauge_known_within() where the
 * check reaches; past it the larger of that and what is stated; without a check this. */
double gauge_within_at(const struct shop *shop, const struct gauge_check *check, double force);

#endif
