/* Who decides what to do next, side by side, as a preparation to make them one. They differ:
 * - after pulls, a drag above never-exceed or clearly high outweighs its state, and a good one
 *   is asked for three pulls and for the aim;
 * - after two places the state is not looked at: only never-exceed, and where the aim lies;
 * - the figure of the log looks at the state and at the places, not at never-exceed, nor at
 *   what is to be expected of the lock, and takes the nut as not locked;
 * - state_turns_nut() lets a clearly high drag be turned by, since the line then says unload;
 *   may_be_tightened() does not, but lets what was rejected.
 * The figure "decision" draws all of it once more, without a log. */
#include "judge/advice.h"

#include "judge/nut.h"
#include "judge/window.h"

#include <math.h>

static enum advice advice_of_state(enum state state)
{
    static const enum advice advice[] = {
        [STATE_CLEARLY_LOW] = ADVICE_TIGHTEN,
        [STATE_LOW_IN_DOUBT] = ADVICE_MEASURE_LOW,
        [STATE_GOOD] = ADVICE_LEAVE,
        [STATE_HIGH_IN_DOUBT] = ADVICE_MEASURE_HIGH,
        [STATE_CLEARLY_HIGH] = ADVICE_UNLOAD,
        [STATE_UNDECIDED] = ADVICE_SURER_GAUGE,
        [STATE_SCATTERED] = ADVICE_MORE_PULLS,
        [STATE_REJECTED] = ADVICE_TAKE_AGAIN,
        [STATE_NO_PULL] = ADVICE_FIND_NO_PULL,
        [STATE_NO_LIMIT] = ADVICE_COMPARE_LATER,
        [STATE_FOR_COLD] = ADVICE_COOL,
        [STATE_FOR_WARM] = ADVICE_WARM,
        [STATE_OTHER_WAY] = ADVICE_COMPARE_WAYS,
        [STATE_NOT_LOCKED] = ADVICE_LOCK,
        [STATE_LOCK_UNSAID] = ADVICE_SAY_LOCK,
        [STATE_UNLOADED] = ADVICE_BEGIN_AGAIN,
        [STATE_BACKED_OFF] = ADVICE_UNLOAD_BACKED_OFF,
    };
    return advice[state];
}

/* Where the drag is clearly high or past never-exceed, whatever else is not said. */
static enum advice advice_when_high(enum lock lock)
{
    return lock == LOCK_AFTER ? ADVICE_UNLOAD : ADVICE_UNLOAD_UNLOCKED;
}

/* state: what is to be expected once locked; by the number alone where the lock's share is not
 * known. */
static enum advice advice_before_lock(enum state state, bool share_known)
{
    switch (state) {
    case STATE_CLEARLY_LOW:
    case STATE_LOW_IN_DOUBT:
        return ADVICE_TIGHTEN_UNLOCKED;
    case STATE_GOOD:
        return share_known ? ADVICE_LOCK : ADVICE_LOCK_TO_LEARN;
    case STATE_HIGH_IN_DOUBT:
    case STATE_CLEARLY_HIGH:
        return ADVICE_UNLOAD_FOR_LOCK;
    default: /* both limits lie within the doubt */
        return advice_of_state(state);
    }
}

bool good_by_few(const struct judgement *judgement)
{
    return judgement->state == STATE_GOOD && judgement->pulls.count < 3;
}

/* A good drag above the aim: going on tightens, which leads away from it. */
enum advice advice_after_pulls(const struct shop *shop, const struct judgement *judgement,
                               double lock_added)
{
    enum state state = judgement->state;
    bool lock_open = state == STATE_NOT_LOCKED || state == STATE_LOCK_UNSAID;
    if (judgement->over_never || (judgement->by_number == STATE_CLEARLY_HIGH && lock_open))
        return advice_when_high(judgement->conditions.lock);
    if (state == STATE_NOT_LOCKED && isnan(lock_added))
        return advice_before_lock(judgement->by_number, false);
    if (state == STATE_NOT_LOCKED)
        return advice_before_lock(expected_once_locked(shop, judgement, lock_added).state,
                                  true);
    if (good_by_few(judgement))
        return ADVICE_THREE_PULLS;
    if (state == STATE_GOOD && judgement->drag > nut_aim(shop, judgement->band))
        return ADVICE_LEAVE_ABOVE_AIM;
    return advice_of_state(state);
}

static enum advice advice_of_move(const struct nut_move *move, bool locked)
{
    switch (move->advice) {
    case NUT_GOOD:
        return locked ? ADVICE_AT_AIM_LEAVE : ADVICE_AT_AIM_LOCK;
    case NUT_UNLOAD:
        return ADVICE_UNLOAD_OVER_AIM;
    case NUT_BACKED:
        return ADVICE_UNLOAD_TURNED_BACK;
    case NUT_NO_SLOPE:
        return ADVICE_SEAT_ROLLERS;
    default:
        if (locked)
            return move->capped ? ADVICE_FREE_AND_TURN_NO_FURTHER : ADVICE_FREE_AND_TURN;
        return move->capped ? ADVICE_TURN_NO_FURTHER : ADVICE_TURN;
    }
}

bool point_over_never(const struct shop *shop, const struct nut_point *point)
{
    return given(&shop->limits.never_exceed) &&
           point->drag + point->expanded + point->bias >
               pulled_limit_near(shop, &shop->limits.never_exceed);
}

enum advice advice_after_places(const struct shop *shop, const struct band *band,
                                const struct nut_point points[2],
                                const struct pull_conditions *conditions,
                                const struct nut_move *move)
{
    if (!band)
        return ADVICE_BY_END_PLAY;
    if (point_over_never(shop, &points[1]))
        return advice_when_high(conditions->lock);
    if (!conditions_suit_limits(shop, conditions))
        return advice_of_state(state_under_conditions(shop, conditions, STATE_GOOD));
    return advice_of_move(move, conditions->lock == LOCK_AFTER);
}

bool state_turns_nut(enum state state)
{
    return state != STATE_GOOD && state != STATE_REJECTED && state != STATE_NO_PULL &&
           state != STATE_BACKED_OFF;
}

enum advice advice_in_figure(const struct judgement *last, bool moved,
                             const struct nut_move *move)
{
    if (!last->band)
        return ADVICE_COMPARE_LATER;
    if (moved)
        return ADVICE_NUT_MOVED_SINCE;
    if (last->state == STATE_BACKED_OFF)
        return ADVICE_UNLOAD_TURNED_BACK;
    if (good_by_few(last))
        return ADVICE_THREE_PULLS;
    if (!state_turns_nut(last->state))
        return last->state == STATE_GOOD ? ADVICE_LEAVE : ADVICE_TAKE_AGAIN;
    return move ? advice_of_move(move, false) : ADVICE_SECOND_PLACE;
}

bool may_be_tightened(const struct judgement *judgement)
{
    return judgement->state != STATE_GOOD && judgement->state != STATE_BACKED_OFF &&
           judgement->state != STATE_UNLOADED && judgement->by_number != STATE_CLEARLY_HIGH &&
           !judgement->over_never;
}
