#include "report/report.h"

#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/nut.h"
#include "judge/series.h"
#include "judge/window.h"
#include "number/show.h"
#include "report/remarks.h"

#include <math.h>
#include <stdio.h>

static const char *tell_before_lock(const struct teller *teller, const struct shop *shop,
                                    const struct judgement *judgement, double added);

/* What is said of judged pulls, of a window, of a move of the nut: rows of a name, a
 * label, a value and a unit. The terminal prints them and the bench page shows them;
 * neither chooses words or digits of its own. */

void tell(const struct teller *teller, const char *name, const char *label, const char *value,
          const char *unit)
{
    teller->row(teller->to, name, label, value, unit);
}

static void tell_number(const struct teller *teller, const char *name, const char *label,
                        double value, int places, const char *unit)
{
    tell(teller, name, label, show_places(value, places).text, unit);
}

static void tell_quantity(const struct teller *teller, const char *name, const char *label,
                          const struct quantity *quantity)
{
    tell(teller, name, label, quantity->digits, quantity->unit->shown);
}

/* Which band, and which drag its limits are for. */
static void tell_band(const struct teller *teller, const struct shop *shop,
                      const struct band *band)
{
    char kind[LIMIT_KIND_TEXT];
    shop_limit_kind(shop, kind);
    tell(teller, "limits-for", "Limits are for", kind, "");
    tell(teller, "band-from", "Speed band from", band->from.q.digits, "r/min");
    tell(teller, "band-to", "to", band->to.q.digits, "r/min");
}

/* ---- pulls ---- */

static void tell_pulls(const struct teller *teller, const struct shop *shop,
                       const struct series *pulls, bool on_steps)
{
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed);
    double range = unit_from_base(pulls->most - pulls->least, unit);
    tell_number(teller, "pulls", "Pulls", (double)pulls->count, 0, "");
    tell_number(teller, "mean", "Mean pull", unit_from_base(pulls->mean, unit), places + 1,
                unit->shown);
    tell(teller, "range", "Highest less lowest",
         (on_steps || !(range > 0) ? show_places(range, places) : show_significant(range, 2))
             .text,
         unit->shown);
}

static void tell_place(const struct teller *teller, const char *name, const char *label,
                       int64_t count, int places, const struct unit *unit)
{
    struct decimal place = decimal_of(1, -places);
    tell(teller, name, label, show_steps(count, &place).text, unit->shown);
}

static int more(int a, int b)
{
    return a > b ? a : b;
}

/* The limits of an increase as the whole drag is held against them: rounded inward, at no
 * coarser place than U, the limits and the slack drag have. */
static void tell_with_slack(const struct teller *teller, const struct shop *shop,
                            const struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct quantity *slack = &shop->limits.slack_drag.q;
    int typed = more(decimal_places(&band->low.q.typed), decimal_places(&band->high.q.typed));
    int places = more(judgement->sureness.places, more(typed, decimal_places(&slack->typed)));
    struct decimal place = decimal_of(1, -places), factor = unit_factor(judgement->unit);
    struct decimal low = pulled_limit(shop, &band->low), high = pulled_limit(shop, &band->high);
    place = decimal_multiply(&place, &factor);
    tell_quantity(teller, "slack-drag", "Slack drag, on top of both limits", slack);
    tell_place(teller, "low-whole", "Low limit with it", decimal_steps_not_below(&low, &place),
               places, judgement->unit);
    tell_place(teller, "high-whole", "High limit with it",
               decimal_steps_not_above(&high, &place), places, judgement->unit);
}

static void tell_drag(const struct teller *teller, const struct shop *shop,
                      const struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct unit *unit = judgement->unit;
    char digits[DECIMAL_TEXT];
    decimal_print(&judgement->sureness.typed, judgement->sureness.places, digits);
    tell_number(teller, "drag", "Drag", unit_from_base(judgement->drag, unit),
                judgement->sureness.places, unit->shown);
    tell(teller, "uncertainty", "Uncertainty U, \u00b1 (95 of 100)", digits, unit->shown);
    if (!band)
        return;
    tell_quantity(teller, "low", "Low limit", &band->low.q);
    tell_quantity(teller, "high", "High limit", &band->high.q);
    if (shop->limits.basis == BASIS_INCREASE)
        tell_with_slack(teller, shop, judgement);
}

static bool on_step(const struct shop *shop, const struct quantity *pull)
{
    const struct decimal *step = &shop->gauge.step.q.exact;
    return decimal_steps_not_below(&pull->exact, step) ==
           decimal_steps_not_above(&pull->exact, step);
}

static bool all_on_step(const struct shop *shop, const struct quantity *pulls, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!on_step(shop, &pulls[i]))
            return false;
    return true;
}

/* The pull that lies furthest from the mean of the others: of several, the first. */
static const struct quantity *odd_one(const struct series *series, const struct quantity *pulls)
{
    const struct quantity *odd = pulls;
    for (size_t i = 1; i < series->count; i++)
        if (fabs(pulls[i].base - series->mean) > fabs(odd->base - series->mean))
            odd = &pulls[i];
    return odd;
}

static void tell_reach(const struct teller *teller, const struct shop *shop, double pull)
{
    char text[REACH_TEXT];
    if (gauge_reach_ends(shop, pull, pull, text))
        tell(teller, "note", "Note", text, "");
}

static void tell_notes(const struct teller *teller, const struct shop *shop,
                       const struct judgement *judgement, const struct quantity *pulls)
{
    char text[120];
    const struct series *series = &judgement->pulls;
    if (series->count < 2)
        tell(teller, "note", "Note",
             "one pull says nothing of the scatter: the usual one was taken; pull again", "");
    if (series->count > 2 && pulls_too_wide(shop, pulls, series->count)) {
        const struct quantity *odd = odd_one(series, pulls);
        snprintf(text, sizeof text, "%s %s lies furthest from the rest", odd->digits,
                 odd->unit->shown);
        tell(teller, "note", "Note", text, "");
    }
    if (!all_on_step(shop, pulls, series->count))
        tell(teller, "note", "Note",
             "a pull is no whole step of this gauge: was it read from this gauge?", "");
    if (series->most >= shop->gauge.capacity.q.base)
        tell(teller, "note", "Note",
             "a pull is at the end of the gauge, which may have stopped there: it may be more. "
             "Take a larger gauge or a larger drum",
             "");
    if (drag_below_slack(shop, judgement))
        tell(teller, "note", "Note", BELOW_SLACK, "");
    tell_reach(teller, shop, series->mean);
    if (judgement->taken.warmth == SAID_NOTHING && judgement->state <= STATE_CLEARLY_HIGH) {
        snprintf(text, sizeof text, "this holds if the spindle is %s: that was not said",
                 shop_warmth_word(shop));
        tell(teller, "note", "Note", text, "");
    }
    if (judgement->band != shop_own_band(shop))
        tell(teller, "note", "Note",
             "THIS IS NOT THE BAND OF YOUR TOP SPEED: judge the nut by your own band", "");
}

/* The drag that no spindle may have is passed, or lies within U. */
static void tell_over_never(const struct teller *teller)
{
    tell(teller, "never-exceed", "Never exceed",
         "passed, or within U of it: do not run the spindle", "");
}

/* What the number says all the same of a drag that is not judged. */
static void tell_high_unjudged(const struct teller *teller, const struct judgement *judgement)
{
    if (judgement->side == STATE_CLEARLY_HIGH && judgement->state != judgement->side)
        tell(teller, "caution", "Caution", HIGH_UNJUDGED, "");
}

/* Whatever was not said: it is not locked, nor run. */
static bool is_too_high(const struct judgement *judgement)
{
    return judgement->over_never ||
           (judgement->side == STATE_CLEARLY_HIGH &&
            (judgement->state == STATE_NOT_LOCKED || judgement->state == STATE_LOCK_UNSAID));
}

/* Going on tightens: from above the aim that leads away from it. */
static const char *next_of(const struct shop *shop, const struct judgement *judgement)
{
    if (is_too_high(judgement))
        return next_when_high(judgement->taken.lock);
    if (good_by_few(judgement))
        return "Good, but by too few pulls: take more, three at least and better five, before "
               "you go by it.";
    if (judgement->state == STATE_GOOD && judgement->drag > nut_aim(shop, judgement->band))
        return "Good, above the aim: leave the nut alone and write it down. To come nearer to "
               "the aim, unload and begin again from the loose side; never back off.";
    return state_next(judgement->state);
}

void tell_state(const struct teller *teller, const struct shop *shop, const char *label,
                const struct judgement *judgement, double lock_added)
{
    const char *next = next_of(shop, judgement);
    char text[STATE_TEXT];
    state_text(judgement->state, text);
    tell(teller, "state", label, text, "");
    if (judgement->over_never)
        tell_over_never(teller);
    tell_high_unjudged(teller, judgement);
    if (judgement->state == STATE_NOT_LOCKED) {
        const char *before = tell_before_lock(teller, shop, judgement, lock_added);
        next = is_too_high(judgement) ? next : before;
    }
    tell(teller, "next", "Next", next, "");
}

void tell_judgement(const struct teller *teller, const struct shop *shop,
                    const struct judgement *judgement, const struct quantity *pulls,
                    double lock_added)
{
    tell_pulls(teller, shop, &judgement->pulls,
               all_on_step(shop, pulls, judgement->pulls.count));
    tell_drag(teller, shop, judgement);
    if (judgement->band)
        tell_band(teller, shop, judgement->band);
    if (!judgement->band)
        tell_last_alike(teller, shop, judgement);
    tell_state(teller, shop, "State", judgement, lock_added);
    tell_notes(teller, shop, judgement, pulls);
}

void tell_breakaway(const struct teller *teller, const struct judgement *judgement,
                    const struct quantity *breakaway)
{
    tell_number(teller, "breakaway-ratio", "Breakaway over mean pull",
                breakaway->base / judgement->pulls.mean, 2, "");
}

void tell_guarded(const struct teller *teller, const struct shop *shop,
                  const struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct sureness *sureness = &judgement->sureness;
    const struct unit *unit = judgement->unit;
    if (!band || judgement->state == STATE_REJECTED || judgement->state == STATE_NO_PULL)
        return;
    struct decimal low = pulled_limit(shop, &band->low), high = pulled_limit(shop, &band->high);
    struct decimal place = decimal_of(1, -sureness->places), factor = unit_factor(unit);
    place = decimal_multiply(&place, &factor);
    low = decimal_add(&low, &sureness->exact);
    high = decimal_subtract(&high, &sureness->exact);
    int64_t from = decimal_steps_not_below(&low, &place);
    int64_t to = decimal_steps_not_above(&high, &place);
    if (decimal_compare(&low, &high) > 0 || from > to) {
        tell(teller, "good", "Good with U taken off",
             state_words(judgement->scattered ? STATE_SCATTERED : STATE_UNDECIDED), "");
        return;
    }
    tell_place(teller, "good-from", "Good with U taken off from", from, sureness->places, unit);
    tell_place(teller, "good-to", "to", to, sureness->places, unit);
}

/* ---- the window ---- */

static void tell_steps(const struct teller *teller, const char *name, const char *label,
                       const struct shop *shop, int64_t steps)
{
    const struct quantity *step = &shop->gauge.step.q;
    tell(teller, name, label, show_steps(steps, &step->typed).text, step->unit->shown);
}

static void tell_rig(const struct teller *teller, const struct shop *shop)
{
    const struct quantity *drum = &shop->drum.diameter.q, *cord = &shop->cord.diameter.q;
    tell_quantity(teller, "drum", "Drum", drum);
    tell_quantity(teller, "cord", "Cord", cord);
    tell(teller, "radius", "Effective radius", radius_digits(shop).text, drum->unit->shown);
}

/* A window whose pulls the gauge cannot all read, or that it can hardly prove. */
static void tell_fit(const struct teller *teller, const struct shop *shop,
                     const struct band *band, bool closed)
{
    struct fitness fitness = fitness_on(shop, band, &shop->drum.diameter.q);
    char text[MOST_PULL_TEXT];
    if (fitness.fit >= FIT_USABLE || (closed && fitness.fit != FIT_BEYOND))
        return;
    fitness_words(shop, &fitness, text);
    tell(teller, "fit", "Fit", text, "");
}

void tell_window(const struct teller *teller, const struct shop *shop, const struct band *band)
{
    tell_rig(teller, shop);
    if (!band) {
        tell(teller, "window", "Window", NO_LIMIT_ON_FILE, "");
        return;
    }
    struct pull_window window = pull_window_of(shop, band);
    tell_band(teller, shop, band);
    if (window.closed) {
        tell(teller, "window", "Window",
             "none: no step of this gauge lies between the limits; take a finer gauge or a "
             "smaller drum",
             "");
    } else {
        tell_steps(teller, "low", "Low pull", shop, window.low_steps);
        tell_steps(teller, "aim", "Aim", shop, window.aim_steps);
        tell_steps(teller, "high", "High pull", shop, window.high_steps);
    }
    if (!isnan(window.never))
        tell_steps(teller, "never-exceed", "Never exceed", shop, window.never_steps);
    tell_fit(teller, shop, band, window.closed);
}

/* ---- which drum ---- */

static void tell_drum(const struct teller *teller, const struct shop *shop,
                      const struct band *band, const struct quantity *drum)
{
    const char *fitted = shop_drum_fitted(shop, drum) ? "fitted" : "";
    char text[QUANTITY_TEXT];
    quantity_show(drum, text);
    if (!band) {
        tell(teller, "drum", text, NO_LIMIT_ON_FILE, fitted);
        return;
    }
    struct pull_window window = pull_window_on(shop, band, drum, &shop->cord.diameter.q);
    enum fit fit = fitness_on(shop, band, drum).fit;
    const char *remark = window.closed ? "none: no step of this gauge lies between the limits"
                         : fit < FIT_USABLE ? fit_word(fit)
                                            : "";
    tell(teller, "drum", text, remark, fitted);
    if (window.closed)
        return;
    tell_steps(teller, "low", "Low pull", shop, window.low_steps);
    tell_steps(teller, "high", "High pull", shop, window.high_steps);
}

/* Without limits all drums say the same. */
void tell_drums(const struct teller *teller, const struct shop *shop, const struct band *band)
{
    const struct quantity *drums[MOST_DRUMS];
    size_t count = shop_drums(shop, drums);
    if (!band)
        tell_drum(teller, shop, band, &shop->drum.diameter.q);
    for (size_t i = 0; band && i < count; i++)
        tell_drum(teller, shop, band, drums[i]);
}

/* The log's last series that a new one compares with, and what is said of the two where there
 * is no limit to judge by. */

const struct pull_series *last_alike(const struct shop *shop, const struct taken *taken)
{
    bool as_said = taken && taken->lock != LOCK_UNSAID;
    struct pull_series wanted = {.lock = as_said ? taken->lock : LOCK_AFTER,
                                 .warm = taken && taken->warmth == SAID_WARM,
                                 .other_way = taken && taken->other_way,
                                 .drum = shop->drum.diameter.q,
                                 .cord = shop->cord.diameter.q};
    for (size_t i = shop->readings.count; i-- > 0;)
        if (series_alike(&shop->readings.items[i], &wanted))
            return &shop->readings.items[i];
    return NULL;
}

bool last_alike_words(const struct shop *shop, const struct taken *taken,
                      char text[LAST_ALIKE_TEXT])
{
    const struct pull_series *last = last_alike(shop, taken);
    if (!last)
        return false;
    struct judgement judged = judge_series(shop, last);
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed) + 1;
    struct shown pull = show_places(unit_from_base(judged.pulls.mean, unit), places);
    struct shown drag =
        show_places(unit_from_base(judged.drag, judged.unit), judged.sureness.places);
    snprintf(text, LAST_ALIKE_TEXT, "%.10s: %.40s\u00a0%s, %.40s\u00a0%s", last->date,
             pull.text, unit->shown, drag.text, judged.unit->shown);
    return true;
}

void tell_last_alike(const struct teller *teller, const struct shop *shop,
                     const struct judgement *judgement)
{
    char before[LAST_ALIKE_TEXT], text[2 * LAST_ALIKE_TEXT];
    if (!last_alike_words(shop, &judgement->taken, before))
        return;
    struct judgement last = judge_series(shop, last_alike(shop, &judgement->taken));
    if (!(last.drag > 0))
        return;
    struct drag_change change = drag_change_of(&last, judgement);
    double percent = 100 * change.change / last.drag;
    snprintf(text, sizeof text, "%s; now %.40s\u00a0%% %s%s", before,
             show_places(fabs(percent), 0).text, percent < 0 ? "less" : "more",
             change.clear ? "" : ", no more than its doubt");
    tell(teller, "last-alike", "The last alike", text, "");
}

/* What is said of a drag that was measured before the nut was locked: what locking is
 * expected to make of it. Never a verdict: only a locked nut is judged. */

/* A drag once locked is the sum and difference of three series of about one U each. */
static const double series_in_it = 3;

/* Judged as it is shown. */
struct expected expected_once_locked(const struct shop *shop, const struct judgement *judgement,
                                     double added)
{
    const struct unit *unit = judgement->unit;
    struct expected expected = {.drag = judgement->drag + fmax(added, 0)};
    expected.sureness = sureness_in(sqrt(series_in_it) * judgement->uncertainty.expanded, unit);
    int places = expected.sureness.places;
    double shown = unit_from_base(expected.drag, unit) * pow(10, places);
    struct decimal drag = decimal_of(llround(shown), -places), factor = unit_factor(unit);
    drag = decimal_multiply(&drag, &factor);
    struct decimal low = pulled_limit(shop, &judgement->band->low);
    struct decimal high = pulled_limit(shop, &judgement->band->high);
    expected.state = state_of(&drag, &low, &high, &expected.sureness.exact);
    return expected;
}

static void tell_lock_added(const struct teller *teller, const struct unit *unit, double added)
{
    tell(teller, "lock-added", "Locking added",
         show_significant(unit_from_base(added, unit), 3).text, unit->shown);
    if (added < 0)
        tell(teller, "note", "Note",
             "a lock that eased the nut is not counted on: the aim stays where it is", "");
}

static void tell_expected(const struct teller *teller, const struct expected *expected,
                          const struct unit *unit)
{
    char state[STATE_TEXT], text[2 * STATE_TEXT];
    tell(teller, "expected-drag", "Expected once locked",
         show_places(unit_from_base(expected->drag, unit), expected->sureness.places).text,
         unit->shown);
    state_text(expected->state, state);
    snprintf(text, sizeof text, "%s: expected, not measured", state);
    tell(teller, "expected-state", "State then", text, "");
}

static const char *known_next(enum state state)
{
    switch (state) {
    case STATE_CLEARLY_LOW:
    case STATE_LOW_IN_DOUBT:
        return "Do not lock yet. Tighten by a small step from the loose side. Turn the spindle "
               "ten times each way, measure again before locking.";
    case STATE_GOOD:
        return "Lock, and measure again: only the drag of the locked nut is judged.";
    case STATE_HIGH_IN_DOUBT:
    case STATE_CLEARLY_HIGH:
        return "Do not lock: too much is to be expected. Instead " UNLOAD_BY_A_PUSH
               ". Then come again from the loose side to a lower drag.";
    default: /* both limits lie within the doubt */
        return state_next(state);
    }
}

static const char *unknown_next(enum state state)
{
    return state == STATE_GOOD
               ? "What the lock adds is not known: lock, and measure again. If it is then "
                 "too high, unload and aim lower."
               : known_next(state);
}

/* The rows of that; gives what to do next. added: NAN where it is not known. */
static const char *tell_before_lock(const struct teller *teller, const struct shop *shop,
                                    const struct judgement *judgement, double added)
{
    tell(teller, "lock", "Lock",
         "not locked yet, so no verdict: the limits hold for the locked nut, measured again",
         "");
    if (isnan(added)) {
        tell(teller, "lock-added", "Locking added", "not known", "");
        return unknown_next(judgement->side);
    }
    struct expected expected = expected_once_locked(shop, judgement, added);
    tell_lock_added(teller, judgement->unit, added);
    tell_expected(teller, &expected, judgement->unit);
    return known_next(expected.state);
}

/* What is said of the next move of the nut. */

static void tell_way(const struct teller *teller, const char *name, const char *label,
                     const struct nut_way *way, int more)
{
    if (isfinite(way->value))
        tell(teller, name, label, show_way(way, more).text, way->unit);
}

/* A move is small: of an inch the hundredth of a thousandth is told, and micrometres too. */
static void tell_turn(const struct teller *teller, const struct nut *nut, double angle)
{
    struct nut_way rim = nut_rim_way(nut, angle), travel = nut_travel_way(nut, angle);
    struct nut_way other = nut_travel_other(nut, angle);
    tell_number(teller, "turn", "Tighten by", angle, 1, "°");
    tell_way(teller, "rim", "at the nut's rim", &rim, 0);
    tell_way(teller, "travel", "axial travel", &travel, travel.inches ? 1 : 0);
    if (travel.inches)
        tell_way(teller, "travel-metric", "which is", &other, 0);
}

static const char *turn_words(bool capped, bool locked)
{
    if (locked)
        return capped
                   ? "free the lock first; turn no further at once, whatever the line through "
                     "the two places says; lock, then measure again"
                   : "free the lock first, turn, ten turns of the spindle each way, lock, "
                     "measure again";
    return capped ? "turn no further at once, whatever the line through the two places says; "
                    "then measure again"
                  : "turn, ten turns of the spindle each way, lock, measure again";
}

/* locked: both drags were. */
static const char *advice_words(const struct nut_move *move, bool locked)
{
    switch (move->advice) {
    case NUT_GOOD:
        return locked ? "the drag is at the aim: leave the nut alone and write it down"
                      : "the drag is at the aim: lock, and measure again after locking";
    case NUT_UNLOAD:
        return "the drag is over the aim: " UNLOAD_BY_A_PUSH
               "; then start again from the loose side; never stop on a backing-off";
    case NUT_BACKED:
        return "the newer place is the looser, and a nut turned back does not unload the "
               "bearings: " UNLOAD_BY_A_PUSH "; then start again from the loose side";
    case NUT_NO_SLOPE:
        return "the drag did not rise with the nut by more than its doubt: turn the spindle "
               "ten times each way, and measure both places again";
    default:
        return turn_words(move->capped, locked);
    }
}

static bool over_never(const struct shop *shop, const struct nut_point *point)
{
    return given(&shop->limits.never_exceed) &&
           point->drag + point->expanded + point->bias >
               pulled_limit_near(shop, &shop->limits.never_exceed);
}

/* And what the nut is to reach before it is locked. */
static void tell_aim(const struct teller *teller, const struct shop *shop,
                     const struct band *band, double lock_added)
{
    const struct unit *unit = band->high.q.unit;
    double aim = nut_aim(shop, band), wanted = nut_aim_before_lock(shop, band, lock_added);
    tell(teller, "aim", "Aim", show_significant(unit_from_base(aim, unit), 3).text,
         unit->shown);
    if (isnan(lock_added))
        return;
    tell_lock_added(teller, unit, lock_added);
    tell(teller, "aim-before-lock", "Aim before locking",
         show_significant(unit_from_base(wanted, unit), 3).text, unit->shown);
}

/* Without an aim there is no move to give, only what a degree did. */
static void tell_slope(const struct teller *teller, const struct shop *shop,
                       const struct nut_point points[2])
{
    const struct unit *unit = shop_drag_unit(shop);
    double turn = points[1].angle - points[0].angle;
    double rise = unit_from_base(points[1].drag - points[0].drag, unit);
    tell(teller, "aim", "Aim", NO_LIMIT_ON_FILE, "");
    if (turn > 0) {
        char per_degree[80];
        snprintf(per_degree, sizeof per_degree, "%s/°", unit->shown);
        tell(teller, "slope", "More for a degree", show_significant(rise / turn, 2).text,
             per_degree);
    }
    tell(teller, "next", "Next",
         "set the nut by end play and temperature, as the page \"The manual is lost\" says: "
         "no drag is known to be right",
         "");
}

/* Drags that the limits are not for move no nut. */
static void tell_not_judged(const struct teller *teller, const struct shop *shop,
                            const struct nut_point points[2], const struct taken *taken)
{
    char text[STATE_TEXT];
    enum state state = state_as_taken(shop, taken, STATE_GOOD);
    state_text(state, text);
    tell(teller, "state", "State", text, "");
    if (over_never(shop, &points[1]))
        tell_over_never(teller);
    tell(teller, "next", "Next",
         over_never(shop, &points[1]) ? next_when_high(taken->lock) : state_next(state), "");
}

void tell_nut(const struct teller *teller, const struct shop *shop, const struct band *band,
              const struct nut_point points[2], const struct taken *taken, double lock_added)
{
    bool to_come = taken->lock != LOCK_AFTER;
    if (!to_come)
        lock_added = NAN;
    if (!band) {
        tell_slope(teller, shop, points);
        return;
    }
    if (!taken_as_limits(shop, taken)) {
        tell_not_judged(teller, shop, points, taken);
        return;
    }
    struct nut_move move = nut_move_toward_aim(shop, band, points, lock_added);
    tell_aim(teller, shop, band, lock_added);
    if (over_never(shop, &points[1])) {
        tell_over_never(teller);
        tell(teller, "next", "Next", next_when_high(taken->lock), "");
        return;
    }
    if (move.advice == NUT_TURN)
        tell_turn(teller, &shop->nut, move.angle);
    tell(teller, "next", "Next", advice_words(&move, !to_come), "");
    if (to_come && isnan(lock_added))
        tell(teller, "note", "Note", "the lock's share is not taken off: aim lower", "");
}
