/* What to do next: one list, decided in one function. The words are in report/words.c. */
#ifndef JUDGE_ADVICE_H
#define JUDGE_ADVICE_H

#include "judge/nut.h"
#include "judge/results.h"
#include "physics/physics.h"

enum advice {
    ADVICE_NONE, /* not decided */
    /* Too high, whatever else is not said: do not run it. */
    ADVICE_UNLOAD,
    ADVICE_UNLOAD_UNLOCKED, /* and do not lock */
    ADVICE_TAKE_AGAIN_HIGH, /* the pulls are rejected */
    ADVICE_COOL_HIGH,       /* it may be the warmth */
    ADVICE_USUAL_WAY_HIGH,  /* or the way round */
    /* It cannot be judged. */
    ADVICE_TAKE_AGAIN,
    ADVICE_FIND_NO_PULL,
    ADVICE_LOOK_AT_WARMTH, /* cap and warmth do not fit */
    ADVICE_COOL,
    ADVICE_WARM,
    ADVICE_COMPARE_WAYS,
    ADVICE_BEGIN_AGAIN, /* unloaded */
    ADVICE_UNLOAD_BACKED_OFF,
    ADVICE_COMPARE_LATER, /* no limit on file */
    ADVICE_SAY_LOCK,
    /* By the state of the locked nut. */
    ADVICE_SURER_GAUGE,
    ADVICE_MORE_PULLS,
    ADVICE_SAME_CAP, /* not good, by a cap of another temperature than the time before */
    ADVICE_TIGHTEN,
    ADVICE_MEASURE_LOW, /* in doubt: surer, or tighter by very little */
    ADVICE_THREE_PULLS, /* good, by too few */
    ADVICE_LEAVE,
    ADVICE_LEAVE_ABOVE_AIM,
    ADVICE_MEASURE_HIGH,
    /* By what is to be expected once it is locked. */
    ADVICE_TIGHTEN_UNLOCKED,
    ADVICE_LOCK,
    ADVICE_LOCK_TO_LEARN, /* what the lock adds is not known */
    ADVICE_UNLOAD_FOR_LOCK,
    ADVICE_UNLOAD_TO_LEARN, /* it may add too much from here */
    /* In place of tightening: the drag did not rise with the nut. */
    ADVICE_SEAT_ROLLERS
};

/* A judged series, typed or of the log, or a typed drag. */
struct advice_asked {
    const struct judgement *judgement;
    double lock_added;               /* N.m; NAN: not known */
    const struct nut_places *places; /* the newest of the judgement; NULL: none are known */
    bool warmth_doubted, other_cap;  /* as struct judged has them */
};

struct advice_given {
    enum advice advice;
    bool turns;           /* how far to tighten is known: */
    struct nut_move move; /* by so much */
};

/* Whether they can say how far to turn: two and more; or the single one before a lock, with
 * what that added. */
bool places_say(const struct nut_places *places);

struct advice_given advise(const struct results *results, const struct advice_asked *asked);

/* Of a row of the log, by itself and the looser place before it. */
struct advice_given advise_on_row(const struct results *results, const struct judged *row);

/* Whether it is one to tighten the nut. */
bool advice_tightens(enum advice advice);

/* The risk of passing the high limit that a move of the nut or a lock takes; of never-exceed it
 * is risk_taken. */
extern const double nut_risk;

/* The drag that the nut is to reach next, N.m. Locked, the middle of the window. Before the
 * lock that less what the lock will add, where it adds; where that is not known, the low limit,
 * or what a lock of lock_share_of() may still be added to. */
double advice_target(const struct results *results, const struct judgement *judgement,
                     double lock_added);

#endif
