/* A series is judged in exact decimals, scaled by twice its count so that nothing is divided:
 * by its numbers first, then by how it was taken. */
#include "judge/series.h"

#include "judge/results.h"
#include "judge/window.h"
#include "physics/physics.h"
#include "shop/shop.h"

#include <math.h>

/* ---- how a series was taken ---- */

struct pull_conditions series_conditions(const struct pull_series *series)
{
    return (struct pull_conditions){.lock = series->lock,
                                    .warmth = series->warm ? SAID_WARM : SAID_COLD,
                                    .other_way = series->other_way};
}

static bool of_other_warmth(const struct shop *shop, const struct pull_conditions *conditions)
{
    return conditions->warmth == (shop->limits.warmth == WARMTH_WARM ? SAID_COLD : SAID_WARM);
}

bool conditions_suit_limits(const struct shop *shop, const struct pull_conditions *conditions)
{
    return !conditions->other_way && conditions->lock != LOCK_UNLOADED &&
           !of_other_warmth(shop, conditions);
}

enum state state_under_conditions(const struct shop *shop,
                                  const struct pull_conditions *conditions,
                                  enum state by_number)
{
    if (by_number == STATE_REJECTED || by_number == STATE_NO_PULL ||
        by_number == STATE_NO_LIMIT)
        return by_number;
    if (of_other_warmth(shop, conditions))
        return conditions->warmth == SAID_WARM ? STATE_FOR_COLD : STATE_FOR_WARM;
    if (conditions->other_way)
        return STATE_OTHER_WAY;
    if (conditions->lock == LOCK_UNLOADED)
        return STATE_UNLOADED;
    if (conditions->lock == LOCK_AFTER)
        return by_number;
    return conditions->lock == LOCK_BEFORE ? STATE_NOT_LOCKED : STATE_LOCK_UNSAID;
}

/* ---- judging ---- */

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

bool drag_below_slack(const struct shop *shop, const struct judgement *judgement)
{
    return judgement->band && shop->limits.basis == BASIS_INCREASE &&
           judgement->conditions.lock != LOCK_UNLOADED && judgement->pulls.most > 0 &&
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
static struct decimal scaled_drag(const struct drum_setup *setup, const struct quantity *pulls,
                                  size_t count)
{
    struct decimal sum = decimal_of(0, 0), span = double_radius(setup->drum, setup->cord);
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

/* drag: so many times the drag, exactly. Of rejected pulls U says nothing: their mean alone
 * gives the alarms. */
static void decide(const struct shop *shop, struct decimal drag, int64_t scale, bool rejected,
                   struct judgement *judgement)
{
    struct decimal low = pulled_limit(shop, &judgement->band->low);
    struct decimal high = pulled_limit(shop, &judgement->band->high);
    struct decimal expanded = times(&judgement->shown_u.exact, rejected ? 0 : scale);
    low = times(&low, scale);
    high = times(&high, scale);
    judgement->by_number = state_of(&drag, &low, &high, &expanded);
    judgement->high = judgement->by_number == STATE_CLEARLY_HIGH;
    if (rejected)
        judgement->by_number = STATE_REJECTED;
    if (judgement->by_number == STATE_UNDECIDED && judgement->scattered)
        judgement->by_number = STATE_SCATTERED;
    if (given(&shop->limits.never_exceed)) {
        struct decimal never = pulled_limit(shop, &shop->limits.never_exceed);
        struct decimal most = decimal_add(&drag, &expanded);
        never = times(&never, scale);
        judgement->over_never = decimal_compare(&most, &never) > 0;
    }
}

struct judgement judge_pulls(const struct results *results, const struct band *band,
                             const struct drum_setup *setup,
                             const struct pull_conditions *conditions,
                             const struct quantity *pulls, size_t count)
{
    const struct shop *shop = results->shop;
    struct doubt doubts[DOUBT_SOURCES];
    struct judgement judgement = {
        .band = band, .conditions = *conditions, .pulls = series_of_pulls(pulls, count)};
    double mean = judgement.pulls.mean;
    judgement.drag = drag_from_pull(mean, effective_radius(setup->drum, setup->cord));
    judgement.uncertainty = pull_uncertainty(results, setup, mean, &judgement.pulls, doubts);
    judgement.unit = band ? band->high.q.unit : shop_drag_unit(shop);
    judgement.shown_u = uncertainty_shown_in(judgement.uncertainty.expanded, judgement.unit);
    judgement.scattered = scatter_leads(doubts, judgement.uncertainty.bias);
    bool rejected = pulls_too_wide(shop, pulls, count);
    judgement.by_number = judgement.pulls.most <= 0 ? STATE_NO_PULL
                          : rejected                ? STATE_REJECTED
                                                    : STATE_NO_LIMIT;
    if (band && judgement.pulls.most > 0)
        decide(shop, scaled_drag(setup, pulls, count), 2 * (int64_t)count, rejected,
               &judgement);
    judgement.state = state_under_conditions(shop, conditions, judgement.by_number);
    return judgement;
}

/* Not where the pulls say nothing, nor where the drag says worse. */
static bool is_said_of_backed_off(enum state state)
{
    return state != STATE_CLEARLY_HIGH && state != STATE_REJECTED && state != STATE_NO_PULL;
}

struct judgement judge_drag(const struct results *results, const struct band *band,
                            const struct pull_conditions *conditions,
                            const struct quantity *drag, bool backed_off)
{
    const struct shop *shop = results->shop;
    struct drum_setup setup = shop_drum_setup(shop);
    double pull = drag_to_pull(drag->base, effective_radius(setup.drum, setup.cord));
    struct judgement judgement = {.band = band,
                                  .unit = band ? band->high.q.unit : shop_drag_unit(shop),
                                  .pulls = {.mean = pull, .most = pull, .least = pull},
                                  .drag = drag->base,
                                  .conditions = *conditions,
                                  .by_number = STATE_NO_LIMIT};
    judgement.pulls.count = (size_t)shop->pulls.count.number;
    judgement.uncertainty = pull_uncertainty(results, &setup, pull, NULL, NULL);
    judgement.shown_u = uncertainty_shown_in(judgement.uncertainty.expanded, judgement.unit);
    if (band)
        decide(shop, drag->exact, 1, false, &judgement);
    judgement.state = state_under_conditions(shop, conditions, judgement.by_number);
    if (backed_off && is_said_of_backed_off(judgement.state))
        judgement.state = STATE_BACKED_OFF;
    return judgement;
}

bool says_drag(const struct judgement *judgement)
{
    return judgement->by_number != STATE_REJECTED && judgement->by_number != STATE_NO_PULL;
}

struct judgement judge_series_as(const struct results *results, const struct band *band,
                                 const struct pull_conditions *conditions,
                                 const struct pull_series *series)
{
    struct drum_setup setup = shop_drum_setup(results->shop);
    setup.drum = &series->drum;
    setup.cord = &series->cord;
    struct judgement judgement =
        judge_pulls(results, band, &setup, conditions, series->pulls, series->pull_count);
    judgement.backed_off = series->backed_off;
    if (judgement.backed_off && is_said_of_backed_off(judgement.state))
        judgement.state = STATE_BACKED_OFF;
    return judgement;
}

struct judgement judge_series(const struct results *results, const struct pull_series *series)
{
    struct pull_conditions conditions = series_conditions(series);
    return judge_series_as(results, results->band, &conditions, series);
}

/* A drag once locked is the sum and difference of three series of about one U each. */
static const double series_in_it = 3;

/* Judged as it is shown. */
struct expected expected_once_locked(const struct shop *shop, const struct judgement *judgement,
                                     double added)
{
    const struct unit *unit = judgement->unit;
    struct expected expected = {.drag = judgement->drag + fmax(added, 0)};
    expected.shown_u =
        uncertainty_shown_in(sqrt(series_in_it) * judgement->uncertainty.expanded, unit);
    int places = expected.shown_u.places;
    double shown = unit_from_base(expected.drag, unit) * pow(10, places);
    struct decimal drag = decimal_of(llround(shown), -places), factor = unit_factor(unit);
    drag = decimal_multiply(&drag, &factor);
    struct decimal low = pulled_limit(shop, &judgement->band->low);
    struct decimal high = pulled_limit(shop, &judgement->band->high);
    expected.state = state_of(&drag, &low, &high, &expected.shown_u.exact);
    return expected;
}

/* ---- series of the log beside each other ---- */

struct drag_change drag_change_of(const struct judgement *before, const struct judgement *now)
{
    struct drag_change change = {.change = now->drag - before->drag};
    double doubt = change_doubt(decimal_to_double(&before->shown_u.exact),
                                decimal_to_double(&now->shown_u.exact));
    change.u = uncertainty_shown_in(doubt, now->unit);
    change.clear = fabs(change.change) > decimal_to_double(&change.u.exact);
    return change;
}
