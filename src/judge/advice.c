/* One function decides what to do next, from a judged series. What comes first outweighs what
 * comes behind it:
 *
 * 1. too high by the number, or past never-exceed or not surely below it: it is not run,
 * however it was taken and whatever is not said;
 * 2. what cannot be judged, and what to do instead: no pull, pulls rejected, cap and warmth
 * that do not fit, another warmth, the other way round, unloaded, backed off, no limit on file,
 * the lock not said;
 * 3. the state: of the locked nut, or before locking the one that is to be expected, by what
 * the lock added the last time; where that is not known, by the drag as it is: the first lock
 * is made low, to learn its share;
 * 4. the line through two places of the nut: it says only how far, and only where the nut is to
 *    be tightened. */
#include "judge/advice.h"

#include "judge/nut.h"
#include "judge/window.h"

#include <math.h>

static enum advice of_alarm(const struct judgement *judgement)
{
    if (!judgement->over_never && !judgement->high)
        return ADVICE_NONE;
    if (judgement->by_number == STATE_REJECTED)
        return ADVICE_TAKE_AGAIN_HIGH;
    if (judgement->state == STATE_FOR_COLD && !judgement->over_never)
        return ADVICE_COOL_HIGH;
    if (judgement->state == STATE_OTHER_WAY && !judgement->over_never)
        return ADVICE_USUAL_WAY_HIGH;
    return judgement->conditions.lock == LOCK_AFTER ? ADVICE_UNLOAD : ADVICE_UNLOAD_UNLOCKED;
}

static enum advice of_unjudged(const struct advice_asked *asked)
{
    static const enum advice advice[] = {
        [STATE_REJECTED] = ADVICE_TAKE_AGAIN,
        [STATE_NO_PULL] = ADVICE_FIND_NO_PULL,
        [STATE_FOR_COLD] = ADVICE_COOL,
        [STATE_FOR_WARM] = ADVICE_WARM,
        [STATE_OTHER_WAY] = ADVICE_COMPARE_WAYS,
        [STATE_UNLOADED] = ADVICE_BEGIN_AGAIN,
        [STATE_NO_LIMIT] = ADVICE_COMPARE_LATER,
        [STATE_LOCK_UNSAID] = ADVICE_SAY_LOCK,
        [STATE_BACKED_OFF] = ADVICE_UNLOAD_BACKED_OFF,
    };
    enum state state = asked->judgement->state;
    if (asked->warmth_doubted && says_drag(asked->judgement))
        return ADVICE_LOOK_AT_WARMTH;
    return state < sizeof advice / sizeof advice[0] ? advice[state] : ADVICE_NONE;
}

static enum advice of_locked(const struct results *results, const struct advice_asked *asked)
{
    static const enum advice advice[] = {
        [STATE_CLEARLY_LOW] = ADVICE_TIGHTEN,  [STATE_LOW_IN_DOUBT] = ADVICE_MEASURE_LOW,
        [STATE_GOOD] = ADVICE_LEAVE,           [STATE_HIGH_IN_DOUBT] = ADVICE_MEASURE_HIGH,
        [STATE_CLEARLY_HIGH] = ADVICE_UNLOAD,  [STATE_UNDECIDED] = ADVICE_SURER_GAUGE,
        [STATE_SCATTERED] = ADVICE_MORE_PULLS,
    };
    const struct judgement *judgement = asked->judgement;
    if (judgement->state != STATE_GOOD)
        return asked->other_cap ? ADVICE_SAME_CAP : advice[judgement->state];
    if (judgement->pulls.count < 3) /* a rule of thumb of ours */
        return ADVICE_THREE_PULLS;
    return judgement->drag > nut_aim(&results->known, judgement->band) ? ADVICE_LEAVE_ABOVE_AIM
                                                                       : ADVICE_LEAVE;
}

static enum advice before_lock(const struct advice_asked *asked)
{
    bool known = !isnan(asked->lock_added);
    enum state state = known ? expected_once_locked(asked->judgement, asked->lock_added).state
                             : asked->judgement->by_number;
    switch (state) {
    case STATE_CLEARLY_LOW:
        return ADVICE_TIGHTEN_UNLOCKED;
    case STATE_LOW_IN_DOUBT:
        return known ? ADVICE_TIGHTEN_UNLOCKED : ADVICE_LOCK_TO_LEARN;
    case STATE_GOOD:
        return known ? ADVICE_LOCK : ADVICE_LOCK_TO_LEARN;
    case STATE_HIGH_IN_DOUBT:
    case STATE_CLEARLY_HIGH:
        return ADVICE_UNLOAD_FOR_LOCK;
    default: /* both limits lie within the doubt */
        return state == STATE_SCATTERED ? ADVICE_MORE_PULLS : ADVICE_SURER_GAUGE;
    }
}

bool advice_tightens(enum advice advice)
{
    return advice == ADVICE_TIGHTEN || advice == ADVICE_MEASURE_LOW ||
           advice == ADVICE_TIGHTEN_UNLOCKED;
}

double advice_target(const struct results *results, const struct judgement *judgement,
                     double lock_added)
{
    double aim = nut_aim(&results->known, judgement->band);
    if (judgement->conditions.lock == LOCK_AFTER)
        return aim;
    return isnan(lock_added) ? whole_limit(&results->known, &judgement->band->low)
                             : aim - fmax(lock_added, 0);
}

/* Within a tenth of the window of what is wanted counts as there: a rule of thumb of ours. */
static struct nut_move move_of(const struct results *results, const struct advice_asked *asked)
{
    const struct band *band = asked->judgement->band;
    double low = whole_limit(&results->known, &band->low);
    double high = whole_limit(&results->known, &band->high);
    return nut_next(asked->points[0], asked->points[1],
                    advice_target(results, asked->judgement, asked->lock_added),
                    (high - low) / 10);
}

struct advice_given advise(const struct results *results, const struct advice_asked *asked)
{
    struct advice_given given = {.advice = of_alarm(asked->judgement)};
    if (given.advice == ADVICE_NONE)
        given.advice = of_unjudged(asked);
    if (given.advice == ADVICE_NONE)
        given.advice = asked->judgement->state == STATE_NOT_LOCKED ? before_lock(asked)
                                                                   : of_locked(results, asked);
    if (!asked->points || !advice_tightens(given.advice))
        return given;
    given.move = move_of(results, asked);
    given.turns = given.move.advice == NUT_TURN;
    if (given.move.advice == NUT_NO_SLOPE)
        given.advice = ADVICE_SEAT_ROLLERS;
    return given;
}

struct advice_given advise_on_row(const struct results *results, const struct judged *row)
{
    const struct judged *looser = looser_place(row);
    struct nut_point points[2];
    if (looser) {
        points[0] = nut_point_of_row(looser);
        points[1] = nut_point_of_row(row);
    }
    return advise(results, &(struct advice_asked){.judgement = &row->judgement,
                                                  .lock_added = results->lock_added,
                                                  .points = looser ? points : NULL,
                                                  .warmth_doubted = row->warmth_doubted,
                                                  .other_cap = row->other_cap});
}
