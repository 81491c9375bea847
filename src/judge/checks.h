/* The gauge's checks with known weights, session by session, and which of them holds on a day.
 */
#ifndef JUDGE_CHECKS_H
#define JUDGE_CHECKS_H

#include "base/memory.h"
#include "physics/physics.h"
#include "shop/shop.h"

/* The weighings of one day by one person. Sessions are never pooled: between two the gauge may
 * have been dropped. */
struct check_session {
    const struct weighing *last; /* its latest row: date, by whom */
    long day;                    /* date_days() */
    struct gauge_line line;      /* slope NaN: the loads give none */
    double least, most;          /* forces that were hung, N */
    double hysteresis;           /* N of reading: half of what coming down reads more, at most;
                                    NaN where no load was hung both ways */
    double drift;     /* since then, a share: check_drift, or what it was from the complete one
                         before it, where that is more */
    double tolerance; /* how far the weights may be off together, a share of the load */
    bool masses;      /* at least one load was a mass: gravity counts */
    bool complete;    /* three different loads at least, two of them both ways */
};

/* Oldest first; of one day in the order of their first rows. Only sessions with a line. */
struct check_sessions {
    struct check_session *items;
    size_t count;
};

struct check_sessions check_sessions_of(struct arena *arena, const struct shop *shop);

/* Which check holds on a day: the latest complete session on or before it; while there is none
 * that is complete, the latest. other: a session that does not agree with it, the complete one
 * before it or a later one that is not complete, and none since that does agree; NULL: there is
 * none. Alarms then take the worse of the two, and nothing is called good. check is NULL where
 * there is no session yet. */
struct check_in_force {
    const struct check_session *check, *other;
};

struct check_in_force check_in_force_on(const struct check_sessions *sessions, long day);

/* Whether two sessions agree: at the ends of the forces that both reached the forces that one
 * reading means differ by no more than the root of the sum of both U squared. What all weights
 * have in common counts in both, and so does what a gauge may drift. */
bool checks_agree(const struct check_session *a, const struct check_session *b);

/* The forces (N) that a check speaks for: from half the least to one and a quarter of the most
 * that was hung, a rule of thumb of ours. */
bool check_reaches(const struct check_session *check, double force);

/* How far the weights may be off together, where nothing is said: a share of the load, either
 * way. A rule of ours: a kitchen scale's. */
extern const double check_masses;

/* How far a gauge may drift from one check to the next, where the settings do not say: a share
 * of the reading, either way. A rule of ours. */
extern const double check_drift;

/* Half of what gravity differs on Earth about standard gravity, as a share: holds where the
 * settings do not say where the workshop lies. Source: gravity_at() at pole and equator. */
extern const double check_gravity;

#endif
