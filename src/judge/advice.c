/* One function decides what to do next, from a judged series. What comes first outweighs what
 * comes behind it:
 *
 * 1. too high by the number, or past never-exceed or not surely below it: it is not run,
 * however it was taken and whatever is not said;
 * 2. what cannot be judged, and what to do instead: no pull, pulls rejected, cap and warmth
 * that do not fit, another warmth, the other way round, unloaded, backed off, no limit on file,
 * the lock not said;
 * 3. the state of the locked nut; before locking what is to be expected once it is locked, by
 * what the lock added the last time; where that is not known the first lock is made low, to
 * learn its share;
 * 4. the curve through the places of the nut: it says how far, where the nut is to be
 * tightened, and that no further step is safe. */
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

/* Within a tenth of the window of what is wanted counts as there: a rule of thumb of ours. */
static double near_enough(const struct band *band)
{
    return (band->high.q.base - band->low.q.base) / 10;
}

const double nut_risk = 0.1;

/* By what is to be expected of the lock: it may pass the high limit with a chance of nut_risk,
 * never-exceed with one of risk_taken. */
static enum advice before_lock(const struct results *results, const struct advice_asked *asked)
{
    const struct judgement *judgement = asked->judgement;
    const struct measure *never = &results->shop->limits.never_exceed;
    bool known = !isnan(asked->lock_added);
    struct expected expected = expected_once_locked(judgement, asked->lock_added);
    double target = advice_target(results, judgement, asked->lock_added);
    if (judgement->by_number == STATE_SCATTERED && judgement->decision.withheld)
        return ADVICE_MORE_PULLS;
    if (judgement->by_number == STATE_UNDECIDED)
        return ADVICE_SURER_GAUGE;
    if (expected.decision.above > nut_risk ||
        (given(never) && chance_over(&expected.measured, never->q.base) > risk_taken))
        return known ? ADVICE_UNLOAD_FOR_LOCK : ADVICE_UNLOAD_TO_LEARN;
    if (judgement->drag < target - near_enough(judgement->band))
        return ADVICE_TIGHTEN_UNLOCKED;
    return known ? ADVICE_LOCK : ADVICE_LOCK_TO_LEARN;
}

bool advice_tightens(enum advice advice)
{
    return advice == ADVICE_TIGHTEN || advice == ADVICE_MEASURE_LOW ||
           advice == ADVICE_TIGHTEN_UNLOCKED;
}

/* The most that a drag may be before the lock, so that a lock of which nothing is known
 * (lock_share_of()) passes a limit with no more than a chance. */
static double before_any_lock(double limit, double risk)
{
    double reaches = student_factor(1 - 2 * risk, INFINITY);
    return limit / (1.5 + reaches * doubt_rectangular(0.5));
}

/* A fifth less than that, so that a move which goes somewhat too far does not end in unloading;
 * never more than the low limit: a lock that leaves it low is mended, one that leaves it high
 * is not. */
static double target_to_learn(const struct results *results, const struct band *band)
{
    const struct known *known = &results->known;
    const struct measure *never = &results->shop->limits.never_exceed;
    double most = before_any_lock(whole_limit(known, &band->high), nut_risk);
    if (given(never))
        most = fmin(most, before_any_lock(whole_limit(known, never), risk_taken));
    double target = 0.8 * most, low = whole_limit(known, &band->low);
    return band->low.q.base > 0 ? fmin(target, low) : target;
}

double advice_target(const struct results *results, const struct judgement *judgement,
                     double lock_added)
{
    double aim = nut_aim(&results->known, judgement->band);
    if (judgement->conditions.lock == LOCK_AFTER)
        return aim;
    return isnan(lock_added) ? target_to_learn(results, judgement->band)
                             : aim - fmax(lock_added, 0);
}

/* What the lock will add to the places by which the nut is moved. Those of a locked nut have
 * it, but it need not repeat. */
static struct lock_share lock_to_come(const struct results *results,
                                      const struct advice_asked *asked)
{
    const struct judgement *judgement = asked->judgement;
    double own = own_doubt(judgement->budget), added = asked->places->lock_added;
    if (judgement->conditions.lock != LOCK_AFTER)
        return lock_share_of(asked->lock_added,
                             advice_target(results, judgement, asked->lock_added), own);
    if (!isnan(added))
        return lock_share_of(added, 0, own);
    struct lock_share lock = {0, 0};
    if (!isnan(asked->lock_added))
        lock.u = lock_share_of(asked->lock_added, 0, own).u;
    return lock;
}

/* As a limit of the places by which the nut is moved. What the drags share grows with them. */
static struct nut_limit limit_for(const struct judgement *judgement,
                                  const struct lock_share *lock, double limit, double risk)
{
    const struct drag_measured *drag = &judgement->measured.drag;
    double own = own_doubt(judgement->budget), all = drag->sureness.standard;
    double shared = sqrt(fmax(all * all - own * own, 0));
    double u = hypot(shared * fmax(limit / judgement->drag, 1), lock->u);
    return (struct nut_limit){limit - drag->askew - lock->added, u, drag->sureness.nu, risk};
}

static struct nut_move move_of(const struct results *results, const struct advice_asked *asked)
{
    const struct judgement *judgement = asked->judgement;
    const struct band *band = judgement->band;
    const struct measure *never = &results->shop->limits.never_exceed;
    const struct nut_places *places = asked->places;
    struct lock_share lock = lock_to_come(results, asked);
    double target = advice_target(results, judgement, asked->lock_added);
    double low = whole_limit(&results->known, &band->low);
    double high = whole_limit(&results->known, &band->high);
    if (!isnan(places->lock_added))
        target -= lock.added;
    struct nut_bounds bounds = {
        .target = target,
        .good = near_enough(band),
        .free = (low > 0 ? low : high) / 2,
        .limits = {limit_for(judgement, &lock, high, nut_risk), {.drag = INFINITY}}};
    if (given(never))
        bounds.limits[1] =
            limit_for(judgement, &lock, whole_limit(&results->known, never), risk_taken);
    return nut_next(
        &(struct nut_course){places->points, places->count, places->slack, places->slack_u},
        &bounds);
}

bool places_say(const struct nut_places *places)
{
    return places && (places->count > 1 || (places->count && !isnan(places->lock_added)));
}

/* Nothing less can be turned. */
static const double least_turn = 0.1; /* degrees */

static void find_turn(const struct results *results, const struct advice_asked *asked,
                      struct advice_given *given)
{
    given->move = move_of(results, asked);
    given->turns = given->move.advice == NUT_TURN && given->move.angle >= least_turn;
    if (given->move.advice == NUT_NO_SLOPE)
        given->advice = ADVICE_SEAT_ROLLERS;
    if (given->move.advice == NUT_TURN && !given->turns)
        given->advice = asked->judgement->conditions.lock == LOCK_AFTER ? ADVICE_SURER_GAUGE
                        : isnan(asked->lock_added)                      ? ADVICE_LOCK_TO_LEARN
                                                                        : ADVICE_LOCK;
}

struct advice_given advise(const struct results *results, const struct advice_asked *asked)
{
    struct advice_given given = {.advice = of_alarm(asked->judgement)};
    if (given.advice == ADVICE_NONE)
        given.advice = of_unjudged(asked);
    if (given.advice == ADVICE_NONE)
        given.advice = asked->judgement->state == STATE_NOT_LOCKED ? before_lock(results, asked)
                                                                   : of_locked(results, asked);
    if (advice_tightens(given.advice) && places_say(asked->places))
        find_turn(results, asked, &given);
    return given;
}

struct advice_given advise_on_row(const struct results *results, const struct judged *row)
{
    struct nut_places places = nut_places_of_row(row, results->lock_added);
    return advise(results, &(struct advice_asked){.judgement = &row->judgement,
                                                  .lock_added = results->lock_added,
                                                  .places = &places,
                                                  .warmth_doubted = row->warmth_doubted,
                                                  .other_cap = row->other_cap});
}
