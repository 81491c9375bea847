#include "verdict/state.h"

#include "drag/drag.h"
#include "verdict/radius.h"
#include "verdict/taken.h"
#include "verdict/unloaded.h"
#include "verdict/window.h"

#include <stdio.h>

#define NOT_JUDGED "–"

static const struct {
    const char *words, *shape, *next;
} states[] = {
    [STATE_CLEARLY_LOW] = {"clearly low", "▼",
                           "Tighten by a small step from the loose side. Turn the spindle ten "
                           "times each way, lock, measure again."},
    [STATE_LOW_IN_DOUBT] =
        {"low or in doubt", "▽",
         "Do not call it good. Take more pulls or a surer gauge; or tighten by "
         "a very small step toward the aim, lock, measure again."},
    [STATE_GOOD] = {"good", "●",
                    "Leave the nut alone and write it down. To come nearer to the aim free the "
                    "lock, go on "
                    "by small steps from the loose side, lock, measure again."},
    [STATE_HIGH_IN_DOUBT] =
        {"high or in doubt", "△",
         "Do not call it good. Take more pulls or a surer gauge; if it stays, "
         "unload and come again from the loose side."},
    [STATE_CLEARLY_HIGH] = {"clearly high", "▲",
                            "Do not run it: " UNLOAD_BY_A_PUSH
                            ". Then start again from the loose side. Never "
                            "stop on a backing-off."},
    [STATE_UNDECIDED] =
        {"none: this gauge and drum cannot decide", "◇",
         "Make the doubt smaller: check the gauge with weights, take a finer gauge "
         "or a smaller drum (more pull for the same drag)."},
    [STATE_SCATTERED] =
        {"none: these pulls cannot decide", "◇",
         "Take more pulls, five or more. If they scatter, find out why before you "
         "take them."},
    [STATE_REJECTED] = {"rejected: find the cause, take all again", "×",
                        "Do not use these pulls: they lie further apart than a tenth of their "
                        "mean and than two steps of the gauge (rules of thumb of ours)."},
    [STATE_NO_PULL] =
        {"none: the gauge saw nothing", "×",
         "Look whether the cord pulls at the hook, whether the spindle turned, and "
         "whether the gauge is on. Then take all again. Do not move the nut by it."},
    [STATE_NO_LIMIT] = {NO_LIMIT_ON_FILE, "–",
                        "Write it down, and compare it with earlier drags taken alike. Never "
                        "move the nut by it: no drag is known to be right."},
    [STATE_FOR_COLD] =
        {"not judged: limits are for cold", NOT_JUDGED,
         "Let the spindle cool to the temperature of the workshop, the nut as it "
         "is, and measure again. A warm drag is only compared with warm ones."},
    [STATE_FOR_WARM] = {"not judged: limits are for warm", NOT_JUDGED,
                        "Warm the spindle as your manual says, the nut as it is, and measure "
                        "again. A cold drag is only compared with cold ones."},
    [STATE_OTHER_WAY] = {"not judged: other way round", NOT_JUDGED,
                         "Compare it with the usual way round, taken alike. Only the usual way "
                         "is judged."},
    [STATE_NOT_LOCKED] =
        {"not judged: not locked", NOT_JUDGED,
         "Lock, and measure again: only the drag of the locked nut is judged."},
    [STATE_LOCK_UNSAID] = {"not judged: lock not said", NOT_JUDGED,
                           "Say whether you pulled before or after the nut was locked. If "
                           "before: lock, and measure again."},
    [STATE_UNLOADED] =
        {"not judged: unloaded", NOT_JUDGED,
         "Write it down. Cord off, and come again from the loose side; by 1 to 2 "
         "degrees for the first steps (our rule), and measure after each."},
    [STATE_BACKED_OFF] =
        {"backed off, not unloaded: no good setting", "\u00d7",
         "A nut turned back does not unload the bearings. Do not run it: " UNLOAD_BY_A_PUSH
         ". Then come again from the loose side."},
};

const char *state_words(enum state state)
{
    return states[state].words;
}

const char *state_shape(enum state state)
{
    return states[state].shape;
}

void state_text(enum state state, char text[STATE_TEXT])
{
    snprintf(text, STATE_TEXT, "%s %s", state_shape(state), state_words(state));
}

bool state_turns_nut(enum state state)
{
    return state != STATE_GOOD && state != STATE_REJECTED && state != STATE_NO_PULL &&
           state != STATE_BACKED_OFF;
}

const char *state_next(enum state state)
{
    return states[state].next;
}

enum state state_of(const struct decimal *drag, const struct decimal *low,
                    const struct decimal *high, const struct decimal *expanded)
{
    struct decimal least = decimal_subtract(drag, expanded), most = decimal_add(drag, expanded);
    if (decimal_compare(&most, low) < 0)
        return STATE_CLEARLY_LOW;
    if (decimal_compare(&least, high) > 0)
        return STATE_CLEARLY_HIGH;
    bool low_doubt = decimal_compare(&least, low) < 0;
    bool high_doubt = decimal_compare(&most, high) > 0;
    if (low_doubt && high_doubt)
        return STATE_UNDECIDED;
    if (low_doubt)
        return STATE_LOW_IN_DOUBT;
    return high_doubt ? STATE_HIGH_IN_DOUBT : STATE_GOOD;
}

const char *next_when_high(enum lock lock)
{
    return lock == LOCK_AFTER ? state_next(STATE_CLEARLY_HIGH)
                              : "Do not lock, do not run: " UNLOAD_BY_A_PUSH
                                ". Then come again from the loose side.";
}

bool good_by_few(const struct judgement *judgement)
{
    return judgement->state == STATE_GOOD && judgement->pulls.count < 3;
}

bool drag_below_slack(const struct shop *shop, const struct judgement *judgement)
{
    return judgement->band && shop->limits.basis == BASIS_INCREASE &&
           judgement->taken.lock != LOCK_UNLOADED && judgement->pulls.most > 0 &&
           judgement->drag < shop->limits.slack_drag.q.base;
}

struct series series_of_pulls(const struct quantity *pulls, size_t count)
{
    double values[MOST_PULLS];
    for (size_t i = 0; i < count; i++)
        values[i] = pulls[i].base;
    return series_of(values, count);
}

static struct decimal times(const struct decimal *a, int64_t factor)
{
    struct decimal many = decimal_of(factor, 0);
    return decimal_multiply(a, &many);
}

/* The mean drag times 2 n, exactly: the sum of the pulls times (D + d). */
static struct decimal scaled_drag(const struct rig *rig, const struct quantity *pulls,
                                  size_t count)
{
    struct decimal sum = decimal_of(0, 0), span = double_radius(rig->drum, rig->cord);
    for (size_t i = 0; i < count; i++)
        sum = decimal_add(&sum, &pulls[i].exact);
    return decimal_multiply(&sum, &span);
}

static struct decimal range_of(const struct quantity *pulls, size_t count)
{
    struct decimal least = pulls[0].exact, most = pulls[0].exact;
    for (size_t i = 1; i < count; i++) {
        if (decimal_compare(&pulls[i].exact, &least) < 0)
            least = pulls[i].exact;
        if (decimal_compare(&pulls[i].exact, &most) > 0)
            most = pulls[i].exact;
    }
    return decimal_subtract(&most, &least);
}

bool pulls_too_wide(const struct shop *shop, const struct quantity *pulls, size_t count)
{
    struct decimal range = range_of(pulls, count), sum = decimal_of(0, 0);
    for (size_t i = 0; i < count; i++)
        sum = decimal_add(&sum, &pulls[i].exact);
    struct decimal tenfold = times(&range, 10 * (int64_t)count);
    struct decimal steps = times(&shop->gauge.step.q.exact, 2);
    return decimal_compare(&tenfold, &sum) > 0 && decimal_compare(&range, &steps) > 0;
}

/* Whether the scatter of the pulls is the largest part of the doubt. */
static bool scatter_leads(const struct doubt *doubts, double bias)
{
    for (int i = 0; i < DOUBT_SOURCES; i++)
        if (doubts[i].u > doubts[DOUBT_REPEAT].u)
            return false;
    return bias / 2 <= doubts[DOUBT_REPEAT].u; /* halved as a doubt is, before it is doubled */
}

static void decide(const struct shop *shop, const struct rig *rig, const struct quantity *pulls,
                   struct judgement *judgement)
{
    int64_t scale = 2 * (int64_t)judgement->pulls.count;
    struct decimal drag = scaled_drag(rig, pulls, judgement->pulls.count);
    struct decimal low = pulled_limit(shop, &judgement->band->low);
    struct decimal high = pulled_limit(shop, &judgement->band->high);
    struct decimal expanded = times(&judgement->sureness.exact, scale);
    low = times(&low, scale);
    high = times(&high, scale);
    judgement->side = state_of(&drag, &low, &high, &expanded);
    if (judgement->side == STATE_UNDECIDED && judgement->scattered)
        judgement->side = STATE_SCATTERED;
    if (given(&shop->limits.never_exceed)) {
        struct decimal never = pulled_limit(shop, &shop->limits.never_exceed);
        struct decimal most = decimal_add(&drag, &expanded);
        never = times(&never, scale);
        judgement->over_never = decimal_compare(&most, &never) > 0;
    }
}

struct judgement judge_pulls(const struct shop *shop, const struct band *band,
                             const struct rig *rig, const struct taken *taken,
                             const struct quantity *pulls, size_t count)
{
    struct doubt doubts[DOUBT_SOURCES];
    struct judgement judgement = {
        .band = band, .taken = *taken, .pulls = series_of_pulls(pulls, count)};
    double mean = judgement.pulls.mean;
    judgement.drag = drag_from_pull(mean, effective_radius(rig->drum, rig->cord));
    judgement.uncertainty = sure_of_pull(shop, rig, mean, &judgement.pulls, doubts);
    judgement.unit = band ? band->high.q.unit : shop_drag_unit(shop);
    judgement.sureness = sureness_in(judgement.uncertainty.expanded, judgement.unit);
    judgement.scattered = scatter_leads(doubts, judgement.uncertainty.bias);
    judgement.side = STATE_NO_LIMIT;
    if (judgement.pulls.most <= 0)
        judgement.side = STATE_NO_PULL;
    else if (pulls_too_wide(shop, pulls, count))
        judgement.side = STATE_REJECTED;
    else if (band)
        decide(shop, rig, pulls, &judgement);
    judgement.state = state_as_taken(shop, taken, judgement.side);
    return judgement;
}

/* Not where the pulls say nothing, nor where the drag says worse. */
static bool is_said_of_backed_off(enum state state)
{
    return state != STATE_CLEARLY_HIGH && state != STATE_REJECTED && state != STATE_NO_PULL;
}

struct judgement judge_series_as(const struct shop *shop, const struct band *band,
                                 const struct taken *taken, const struct pull_series *series)
{
    struct rig rig = shop_rig(shop);
    rig.drum = &series->drum;
    rig.cord = &series->cord;
    struct judgement judgement =
        judge_pulls(shop, band, &rig, taken, series->pulls, series->pull_count);
    judgement.backed_off = series_backed_off(shop, series);
    if (judgement.backed_off && is_said_of_backed_off(judgement.state))
        judgement.state = STATE_BACKED_OFF;
    return judgement;
}

struct judgement judge_series(const struct shop *shop, const struct pull_series *series)
{
    struct taken taken = series_taken(series);
    return judge_series_as(shop, shop_own_band(shop), &taken, series);
}
