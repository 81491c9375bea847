/* A series is judged by its numbers first, then by how it was taken. */
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

bool drag_below_slack(const struct judgement *judgement)
{
    return judgement->band && judgement->conditions.lock != LOCK_UNLOADED &&
           judgement->pulls.most > 0 && judgement->measured.drag.drag < 0;
}

/* Whether the scatter of the pulls is the largest part of the doubt. */
static bool scatter_leads(const struct doubt *budget)
{
    for (int i = 0; i < BUDGET_ROWS; i++)
        if (budget[i].u > budget[BUDGET_SCATTER].u)
            return false;
    return true;
}

static enum state state_of(const struct judgement *judgement)
{
    static const enum state states[] = {
        [VERDICT_LOW] = STATE_CLEARLY_LOW,   [VERDICT_LOW_IN_DOUBT] = STATE_LOW_IN_DOUBT,
        [VERDICT_GOOD] = STATE_GOOD,         [VERDICT_HIGH_IN_DOUBT] = STATE_HIGH_IN_DOUBT,
        [VERDICT_HIGH] = STATE_CLEARLY_HIGH, [VERDICT_NONE] = STATE_UNDECIDED};
    if (judgement->pulls.most <= 0)
        return STATE_NO_PULL;
    if (judgement->odd.scattered)
        return STATE_REJECTED;
    if (!judgement->band)
        return STATE_NO_LIMIT;
    enum state state = states[judgement->decision.verdict];
    enum withheld withheld = judgement->decision.withheld;
    bool by_pulls = withheld == WITHHELD_TREND ||
                    (withheld == WITHHELD_NOT && scatter_leads(judgement->budget));
    return state == STATE_UNDECIDED && by_pulls ? STATE_SCATTERED : state;
}

static void decide_on(const struct shop *shop, struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct measure *never = &shop->limits.never_exceed;
    judgement->decision = decide(&judgement->measured, band->low.q.base, band->high.q.base);
    judgement->high = judgement->decision.verdict == VERDICT_HIGH;
    judgement->over_never =
        given(never) && chance_over(&judgement->measured, never->q.base) > risk_taken;
}

/* What was measured is there: what it is against the limits, and what may be said of it. */
static void judge_measured(const struct shop *shop, struct judgement *judgement)
{
    judgement->shown_u =
        uncertainty_shown_in(judgement->measured.drag.sureness.expanded, judgement->unit);
    if (judgement->band && judgement->pulls.most > 0)
        decide_on(shop, judgement);
    judgement->by_number = state_of(judgement);
    judgement->state =
        state_under_conditions(shop, &judgement->conditions, judgement->by_number);
}

/* traces_u: root of the sum of the squares of what traces leave open of their pulls, N. */
static struct judgement judge_with_traces(const struct known *known, const struct band *band,
                                          const struct drum_setup *setup,
                                          const struct pull_conditions *conditions,
                                          const struct quantity *pulls, size_t count,
                                          double traces_u)
{
    const struct shop *shop = known->shop;
    struct known with = *known;
    double values[MOST_PULLS];
    for (size_t i = 0; i < count; i++)
        values[i] = pulls[i].base;
    struct judgement judgement = {
        .band = band, .conditions = *conditions, .pulls = series_of(values, count)};
    judgement.odd = series_oddities(&known->scatter, values, count, shop->gauge.step.q.base);
    known_learn(&with, values, count);
    struct pull_mean mean = {count, judgement.pulls.mean,
                             judgement.pulls.most - judgement.pulls.least,
                             traces_u / (double)count};
    judgement.measured = measure_pulls(&with, setup, &mean, judgement.budget);
    judgement.measured.trend = judgement.odd.trend;
    judgement.drag = judgement.measured.drag.whole;
    judgement.unit = band ? band->high.q.unit : shop_drag_unit(shop);
    judge_measured(shop, &judgement);
    return judgement;
}

struct judgement judge_pulls(const struct known *known, const struct band *band,
                             const struct drum_setup *setup,
                             const struct pull_conditions *conditions,
                             const struct quantity *pulls, size_t count)
{
    return judge_with_traces(known, band, setup, conditions, pulls, count, 0);
}

/* Not where the pulls say nothing, nor where the drag says worse. */
static bool is_said_of_backed_off(enum state state)
{
    return state != STATE_CLEARLY_HIGH && state != STATE_REJECTED && state != STATE_NO_PULL;
}

static enum state of_the_place(bool backed_off, enum state state)
{
    return backed_off && is_said_of_backed_off(state) ? STATE_BACKED_OFF : state;
}

struct judgement judge_drag(const struct known *known, const struct band *band,
                            const struct pull_conditions *conditions,
                            const struct quantity *drag, bool backed_off)
{
    const struct shop *shop = known->shop;
    struct drum_setup setup = shop_drum_setup(shop);
    struct pull_mean pulls = usual_pulls(known, reading_of_whole(known, drag->base));
    struct judgement judgement = {
        .band = band,
        .unit = band ? band->high.q.unit : shop_drag_unit(shop),
        .pulls = {pulls.count, pulls.reading, 0, pulls.reading, pulls.reading},
        .odd = {.outlier = -1},
        .drag = drag->base,
        .conditions = *conditions};
    judgement.measured = measure_pulls(known, &setup, &pulls, judgement.budget);
    judge_measured(shop, &judgement);
    judgement.state = of_the_place(backed_off, judgement.state);
    return judgement;
}

bool says_drag(const struct judgement *judgement)
{
    return judgement->by_number != STATE_REJECTED && judgement->by_number != STATE_NO_PULL;
}

struct judgement judge_series(const struct known *known, const struct band *band,
                              const struct pull_conditions *conditions,
                              const struct pull_series *series)
{
    struct drum_setup setup = shop_drum_setup(known->shop);
    setup.drum = &series->drum;
    setup.cord = &series->cord;
    struct judgement judgement = judge_with_traces(
        known, band, &setup, conditions, series->pulls, series->pull_count, series->traces_u);
    judgement.backed_off = series->backed_off;
    judgement.state = of_the_place(judgement.backed_off, judgement.state);
    return judgement;
}

double own_doubt(const struct doubt *budget)
{
    return hypot(hypot(budget[BUDGET_SCATTER].u, budget[BUDGET_BETWEEN].u),
                 budget[BUDGET_STEP].u);
}

static const double lock_repeats = 0.2; /* share of what it adds */

struct lock_share lock_share_of(double added, double drag, double own_doubt)
{
    if (isnan(added))
        return (struct lock_share){drag / 2, doubt_rectangular(drag / 2)};
    added = fmax(added, 0);
    return (struct lock_share){added, hypot(M_SQRT2 * own_doubt, lock_repeats * added)};
}

static void carry_on(struct drag_measured *drag, const struct lock_share *lock)
{
    struct uncertainty *sureness = &drag->sureness;
    drag->drag += lock->added;
    drag->whole += lock->added;
    sureness->standard = hypot(sureness->standard, lock->u);
    sureness->expanded = sureness->factor * sureness->standard + drag->askew;
}

struct expected expected_once_locked(const struct judgement *judgement, double added)
{
    struct judgement later = *judgement;
    struct lock_share lock =
        lock_share_of(added, judgement->drag, own_doubt(judgement->budget));
    carry_on(&later.measured.drag, &lock);
    carry_on(&later.measured.other, &lock);
    later.decision = decide(&later.measured, later.band->low.q.base, later.band->high.q.base);
    return (struct expected){
        later.measured.drag.whole,
        uncertainty_shown_in(later.measured.drag.sureness.expanded, judgement->unit),
        state_of(&later), later.measured, later.decision};
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
