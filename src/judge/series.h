/* Series of pulls, judged. The limits hold for the locked nut, for a spindle as warm as the
 * manual says, turned the usual way: a series that was taken otherwise has no state but why it
 * has none. */
#ifndef JUDGE_SERIES_H
#define JUDGE_SERIES_H

#include "judge/measure.h"
#include "shop/shop.h"

/* Seven states of a drag against a window, by the chance that it lies outside (measure.h),
 * and why there is none. */
enum state {
    STATE_CLEARLY_LOW,
    STATE_LOW_IN_DOUBT,
    STATE_GOOD,
    STATE_HIGH_IN_DOUBT,
    STATE_CLEARLY_HIGH,
    STATE_UNDECIDED, /* gauge and drum cannot decide; or good is withheld */
    STATE_SCATTERED, /* the pulls rise or fall, or their scatter is the largest doubt */
    /* Not judged by its numbers: */
    STATE_REJECTED, /* the pulls scatter more than is known of them: nothing is said of the drag
                     */
    STATE_NO_PULL,  /* every pull is 0: the gauge saw nothing */
    STATE_NO_LIMIT, /* there is none on file: a drag to compare, not to judge */
    /* Not judged: it was not taken as the limits ask. */
    STATE_FOR_COLD,    /* warm, and the limits are for a cold spindle */
    STATE_FOR_WARM,    /* cold, and they are for a warm one */
    STATE_OTHER_WAY,   /* turned against the usual way: only to compare */
    STATE_NOT_LOCKED,  /* before locking */
    STATE_LOCK_UNSAID, /* and that was not said */
    STATE_UNLOADED,    /* with the nut slack */
    STATE_BACKED_OFF   /* the nut was turned back, and not unloaded */
};

/* How a series was taken. */
enum said_warmth { SAID_NOTHING, SAID_COLD, SAID_WARM };

struct pull_conditions {
    enum lock lock;
    enum said_warmth warmth;
    bool other_way;
};

/* As a row of the log says it. */
struct pull_conditions series_conditions(const struct pull_series *series);

/* Whether it was turned the usual way, the nut not unloaded, as warm as the limits say (cold
 * without limits). A warmth that was not said is that of the limits. */
bool conditions_suit_limits(const struct shop *shop, const struct pull_conditions *conditions);

/* What may be said where the drag alone would have this state: that state, or why there
 * is none. Pulls that say nothing of the drag stay what they are. */
enum state state_under_conditions(const struct shop *shop,
                                  const struct pull_conditions *conditions,
                                  enum state by_number);

/* ---- judging ---- */

/* A judged series of pulls. SI units. */
struct judgement {
    const struct band *band;          /* NULL without limits on file */
    const struct unit *unit;          /* of the band's high limit; shop_drag_unit() without */
    struct series pulls;              /* as read, N */
    struct oddities odd;              /* about the pulls in themselves */
    struct measured measured;         /* of the increase, where the limits are one */
    struct decision decision;         /* by its numbers; without limits all 0 */
    double drag;                      /* of the series, N.m */
    struct shown_uncertainty shown_u; /* of it, in that unit */
    struct doubt budget[BUDGET_ROWS];
    struct pull_conditions conditions; /* as it was taken */
    enum state by_number;              /* by the numbers alone: what to do next goes by it */
    enum state state;                  /* what may be said: the same, or why it is not judged */
    const struct pull_series
        *backed_off; /* in the log: from that row, and not unloaded; or NULL */
    /* Alarms, however the series was taken and whatever else is said of it. */
    bool over_never; /* may lie above never-exceed, with a chance of more than risk_taken */
    bool high;       /* lies above the high limit, as VERDICT_HIGH */
};

enum { MOST_PULLS = 100 };

/* Judges pulls (1..MOST_PULLS of them) against a band on a drum, as they were taken, by what is
 * known without them. band: NULL without limits on file. */
struct judgement judge_pulls(const struct known *known, const struct band *band,
                             const struct drum_setup *setup,
                             const struct pull_conditions *conditions,
                             const struct quantity *pulls, size_t count);

/* A drag that was typed, N.m, with the U that the usual pulls let expect. backed_off: the nut
 * was turned back to it. */
struct judgement judge_drag(const struct known *known, const struct band *band,
                            const struct pull_conditions *conditions,
                            const struct quantity *drag, bool backed_off);

/* Whether the pulls say something of the drag: they are not rejected, and not all 0. Others
 * serve for nothing else. */
bool says_drag(const struct judgement *judgement);

/* A series of the log against a band, NULL without limits on file, on the drum and cord of its
 * day (with the tolerances of today's); conditions: as it was taken. */
struct judgement judge_series(const struct known *known, const struct band *band,
                              const struct pull_conditions *conditions,
                              const struct pull_series *series);

/* Whether the limits are an increase and the drag is below the slack drag that they count from.
 * Not of an unloaded nut, which may well be. */
bool drag_below_slack(const struct judgement *judgement);

/* The standard uncertainty (N.m) of what a series has alone: its scatter, its set-up, its
 * steps. What gauge, drum and cord get wrong others on the same rig share. */
double own_doubt(const struct doubt *budget);

/* What a lock is thought to add to a drag, N.m. */
struct lock_share {
    double added, u; /* u: standard */
};

/* added: what locking added the last time; below zero counts as nothing, for a lock that eased
 * once may not again. It is the difference of two series, and the next lock may add a fifth
 * more or less. NAN: not known, then anything from nothing to the drag itself. Rules of ours.
 */
struct lock_share lock_share_of(double added, double drag, double own_doubt);

/* What is to be expected of a drag that was measured before the nut was locked. Never a
 * verdict: only a locked nut is judged. */
struct expected {
    double drag;                      /* N.m */
    struct shown_uncertainty shown_u; /* of it, in the judgement's unit */
    enum state state;
    struct measured measured;
    struct decision decision;
};

/* By lock_share_of(). The judgement has a band. */
struct expected expected_once_locked(const struct judgement *judgement, double added);

/* ---- series of the log beside each other ---- */

/* The change of a drag against an earlier one, N.m, each with its U as it is shown. */
struct drag_change {
    double change;
    struct shown_uncertainty u; /* of the change: change_doubt(), rounded up */
    bool clear;                 /* the change is larger than its U */
};

struct drag_change drag_change_of(const struct judgement *before, const struct judgement *now);

#endif
