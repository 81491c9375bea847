/* What to do next. All that is ever advised is one list, and all who decide it stand side by
 * side in advice.c; the words are in report/words.c. They do not all decide alike: advice.c
 * says how they differ. */
#ifndef JUDGE_ADVICE_H
#define JUDGE_ADVICE_H

#include "judge/series.h"
#include "physics/physics.h"

enum advice {
    /* By the state of a judged drag. */
    ADVICE_TIGHTEN,
    ADVICE_MEASURE_LOW, /* in doubt: surer, or tighter by very little */
    ADVICE_LEAVE,
    ADVICE_MEASURE_HIGH,
    ADVICE_UNLOAD,
    ADVICE_SURER_GAUGE,
    ADVICE_MORE_PULLS,
    ADVICE_TAKE_AGAIN,
    ADVICE_FIND_NO_PULL,
    ADVICE_COMPARE_LATER, /* no limit on file */
    ADVICE_COOL,
    ADVICE_WARM,
    ADVICE_COMPARE_WAYS,
    ADVICE_LOCK,
    ADVICE_SAY_LOCK,
    ADVICE_BEGIN_AGAIN,
    ADVICE_UNLOAD_BACKED_OFF,
    /* By more than the state. */
    ADVICE_UNLOAD_UNLOCKED, /* and do not lock */
    ADVICE_THREE_PULLS,     /* good, by too few */
    ADVICE_LEAVE_ABOVE_AIM,
    ADVICE_TIGHTEN_UNLOCKED,
    ADVICE_LOCK_TO_LEARN, /* what the lock adds is not known */
    ADVICE_UNLOAD_FOR_LOCK,
    /* By the line through two places of the nut. */
    ADVICE_TURN,
    ADVICE_TURN_NO_FURTHER, /* the line asked for more than is safe at once */
    ADVICE_FREE_AND_TURN,   /* the same two with the nut locked */
    ADVICE_FREE_AND_TURN_NO_FURTHER,
    ADVICE_AT_AIM_LOCK,
    ADVICE_AT_AIM_LEAVE,
    ADVICE_UNLOAD_OVER_AIM,
    ADVICE_UNLOAD_TURNED_BACK,
    ADVICE_SEAT_ROLLERS, /* the drag did not rise with the nut */
    ADVICE_BY_END_PLAY,  /* no limit on file */
    /* By the log alone, in the figure of it. */
    ADVICE_NUT_MOVED_SINCE,
    ADVICE_SECOND_PLACE
};

/* After a series of pulls. lock_added: what locking added the last time, N.m; NAN: not
 * known. */
enum advice advice_after_pulls(const struct shop *shop, const struct judgement *judgement,
                               double lock_added);

/* After two places of the nut and their drags, the older first, both measured so. band: NULL
 * without limits on file. move: the one between them; read only where the conditions suit the
 * limits. */
enum advice advice_after_places(const struct shop *shop, const struct band *band,
                                const struct nut_point points[2],
                                const struct pull_conditions *conditions,
                                const struct nut_move *move);

/* After the last series of the log that may be judged. moved: the nut has been, since. move:
 * by its place and the one before it; NULL where there is no such place. */
enum advice advice_in_figure(const struct judgement *last, bool moved,
                             const struct nut_move *move);

/* May two places of the nut say how far to turn it next? Not where it is left alone, nothing
 * is known, or it must be unloaded first. */
bool state_turns_nut(enum state state);

/* May the nut be tightened after this series, if how far is not known? */
bool may_be_tightened(const struct judgement *judgement);

/* Good, but by fewer than three pulls: no nut is left alone by it (a rule of thumb of ours). */
bool good_by_few(const struct judgement *judgement);

/* Whether a drag lies above never-exceed, or within its U of it. */
bool point_over_never(const struct shop *shop, const struct nut_point *point);

#endif
