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

static const char *tell_before_lock(const struct row_sink *rows, const struct shop *shop,
                                    const struct judgement *judgement, double added);

/* What is said of judged pulls, of a window, of a move of the nut: rows of a name, a
 * label, a value and a unit. The terminal prints them and the bench page shows them;
 * neither chooses words or digits of its own. */

void put_row(const struct row_sink *rows, const char *name, const char *label,
             const char *value, const char *unit)
{
    rows->row(rows->to, name, label, value, unit);
}

static void tell_number(const struct row_sink *rows, const char *name, const char *label,
                        double value, int places, const char *unit)
{
    put_row(rows, name, label, show_places(value, places).text, unit);
}

static void tell_quantity(const struct row_sink *rows, const char *name, const char *label,
                          const struct quantity *quantity)
{
    put_row(rows, name, label, quantity->digits, quantity->unit->shown);
}

/* Which band, and which drag its limits are for. */
static void tell_band(const struct row_sink *rows, const struct shop *shop,
                      const struct band *band)
{
    char kind[LIMIT_KIND_TEXT];
    shop_limit_kind(shop, kind);
    put_row(rows, "limits-for", "Limits are for", kind, "");
    put_row(rows, "band-from", "Speed band from", band->from.q.digits, "r/min");
    put_row(rows, "band-to", "to", band->to.q.digits, "r/min");
}

/* ---- pulls ---- */

static void tell_pulls(const struct row_sink *rows, const struct shop *shop,
                       const struct series *pulls, bool on_steps)
{
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed);
    double range = unit_from_base(pulls->most - pulls->least, unit);
    tell_number(rows, "pulls", "Pulls", (double)pulls->count, 0, "");
    tell_number(rows, "mean", "Mean pull", unit_from_base(pulls->mean, unit), places + 1,
                unit->shown);
    put_row(rows, "range", "Highest less lowest",
            (on_steps || !(range > 0) ? show_places(range, places) : show_significant(range, 2))
                .text,
            unit->shown);
}

static void tell_place(const struct row_sink *rows, const char *name, const char *label,
                       int64_t count, int places, const struct unit *unit)
{
    struct decimal place = decimal_of(1, -places);
    put_row(rows, name, label, show_steps(count, &place).text, unit->shown);
}

static int more(int a, int b)
{
    return a > b ? a : b;
}

/* The limits of an increase as the whole drag is held against them: rounded inward, at no
 * coarser place than U, the limits and the slack drag have. */
static void tell_with_slack(const struct row_sink *rows, const struct shop *shop,
                            const struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct quantity *slack = &shop->limits.slack_drag.q;
    int typed = more(decimal_places(&band->low.q.typed), decimal_places(&band->high.q.typed));
    int places = more(judgement->shown_u.places, more(typed, decimal_places(&slack->typed)));
    struct decimal place = decimal_of(1, -places), factor = unit_factor(judgement->unit);
    struct decimal low = pulled_limit(shop, &band->low), high = pulled_limit(shop, &band->high);
    place = decimal_multiply(&place, &factor);
    tell_quantity(rows, "slack-drag", "Slack drag, on top of both limits", slack);
    tell_place(rows, "low-whole", "Low limit with it", decimal_steps_not_below(&low, &place),
               places, judgement->unit);
    tell_place(rows, "high-whole", "High limit with it", decimal_steps_not_above(&high, &place),
               places, judgement->unit);
}

static void tell_drag(const struct row_sink *rows, const struct shop *shop,
                      const struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct unit *unit = judgement->unit;
    char digits[DECIMAL_TEXT];
    decimal_print(&judgement->shown_u.typed, judgement->shown_u.places, digits);
    tell_number(rows, "drag", "Drag", unit_from_base(judgement->drag, unit),
                judgement->shown_u.places, unit->shown);
    put_row(rows, "uncertainty", "Uncertainty U, \u00b1 (95 of 100)", digits, unit->shown);
    if (!band)
        return;
    tell_quantity(rows, "low", "Low limit", &band->low.q);
    tell_quantity(rows, "high", "High limit", &band->high.q);
    if (shop->limits.basis == BASIS_INCREASE)
        tell_with_slack(rows, shop, judgement);
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

static void tell_reach(const struct row_sink *rows, const struct shop *shop, double pull)
{
    char text[REACH_TEXT];
    if (gauge_reach_ends(shop, pull, pull, text))
        put_row(rows, "note", "Note", text, "");
}

static void tell_notes(const struct row_sink *rows, const struct shop *shop,
                       const struct judgement *judgement, const struct quantity *pulls)
{
    char text[120];
    const struct series *series = &judgement->pulls;
    if (series->count < 2)
        put_row(rows, "note", "Note",
                "one pull says nothing of the scatter: the usual one was taken; pull again",
                "");
    if (series->count > 2 && pulls_too_wide(shop, pulls, series->count)) {
        const struct quantity *odd = odd_one(series, pulls);
        snprintf(text, sizeof text, "%s %s lies furthest from the rest", odd->digits,
                 odd->unit->shown);
        put_row(rows, "note", "Note", text, "");
    }
    if (!all_on_step(shop, pulls, series->count))
        put_row(rows, "note", "Note",
                "a pull is no whole step of this gauge: was it read from this gauge?", "");
    if (series->most >= shop->gauge.capacity.q.base)
        put_row(
            rows, "note", "Note",
            "a pull is at the end of the gauge, which may have stopped there: it may be more. "
            "Take a larger gauge or a larger drum",
            "");
    if (drag_below_slack(shop, judgement))
        put_row(rows, "note", "Note", BELOW_SLACK, "");
    tell_reach(rows, shop, series->mean);
    if (judgement->conditions.warmth == SAID_NOTHING &&
        judgement->state <= STATE_CLEARLY_HIGH) {
        snprintf(text, sizeof text, "this holds if the spindle is %s: that was not said",
                 shop_warmth_word(shop));
        put_row(rows, "note", "Note", text, "");
    }
    if (judgement->band != shop_own_band(shop))
        put_row(rows, "note", "Note",
                "THIS IS NOT THE BAND OF YOUR TOP SPEED: judge the nut by your own band", "");
}

/* The drag that no spindle may have is passed, or lies within U. */
static void tell_over_never(const struct row_sink *rows)
{
    put_row(rows, "never-exceed", "Never exceed",
            "passed, or within U of it: do not run the spindle", "");
}

/* What the number says all the same of a drag that is not judged. */
static void tell_high_unjudged(const struct row_sink *rows, const struct judgement *judgement)
{
    if (judgement->by_number == STATE_CLEARLY_HIGH && judgement->state != judgement->by_number)
        put_row(rows, "caution", "Caution", HIGH_UNJUDGED, "");
}

/* Whatever was not said: it is not locked, nor run. */
static bool is_too_high(const struct judgement *judgement)
{
    return judgement->over_never ||
           (judgement->by_number == STATE_CLEARLY_HIGH &&
            (judgement->state == STATE_NOT_LOCKED || judgement->state == STATE_LOCK_UNSAID));
}

/* Going on tightens: from above the aim that leads away from it. */
static const char *next_of(const struct shop *shop, const struct judgement *judgement)
{
    if (is_too_high(judgement))
        return next_when_high(judgement->conditions.lock);
    if (good_by_few(judgement))
        return "Good, but by too few pulls: take more, three at least and better five, before "
               "you go by it.";
    if (judgement->state == STATE_GOOD && judgement->drag > nut_aim(shop, judgement->band))
        return "Good, above the aim: leave the nut alone and write it down. To come nearer to "
               "the aim, unload and begin again from the loose side; never back off.";
    return state_next(judgement->state);
}

void report_state(const struct row_sink *rows, const struct shop *shop, const char *label,
                  const struct judgement *judgement, double lock_added)
{
    const char *next = next_of(shop, judgement);
    char text[STATE_TEXT];
    state_text(judgement->state, text);
    put_row(rows, "state", label, text, "");
    if (judgement->over_never)
        tell_over_never(rows);
    tell_high_unjudged(rows, judgement);
    if (judgement->state == STATE_NOT_LOCKED) {
        const char *before = tell_before_lock(rows, shop, judgement, lock_added);
        next = is_too_high(judgement) ? next : before;
    }
    put_row(rows, "next", "Next", next, "");
}

void report_judgement(const struct row_sink *rows, const struct shop *shop,
                      const struct judgement *judgement, const struct quantity *pulls,
                      double lock_added)
{
    tell_pulls(rows, shop, &judgement->pulls, all_on_step(shop, pulls, judgement->pulls.count));
    tell_drag(rows, shop, judgement);
    if (judgement->band)
        tell_band(rows, shop, judgement->band);
    if (!judgement->band)
        report_last_alike(rows, shop, judgement);
    report_state(rows, shop, "State", judgement, lock_added);
    tell_notes(rows, shop, judgement, pulls);
}

void report_breakaway(const struct row_sink *rows, const struct judgement *judgement,
                      const struct quantity *breakaway)
{
    tell_number(rows, "breakaway-ratio", "Breakaway over mean pull",
                breakaway->base / judgement->pulls.mean, 2, "");
}

void report_good_drags(const struct row_sink *rows, const struct shop *shop,
                       const struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct shown_uncertainty *sureness = &judgement->shown_u;
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
        put_row(rows, "good", "Good with U taken off",
                state_words(judgement->scattered ? STATE_SCATTERED : STATE_UNDECIDED), "");
        return;
    }
    tell_place(rows, "good-from", "Good with U taken off from", from, sureness->places, unit);
    tell_place(rows, "good-to", "to", to, sureness->places, unit);
}

/* ---- the window ---- */

static void tell_steps(const struct row_sink *rows, const char *name, const char *label,
                       const struct shop *shop, int64_t steps)
{
    const struct quantity *step = &shop->gauge.step.q;
    put_row(rows, name, label, show_steps(steps, &step->typed).text, step->unit->shown);
}

static void tell_rig(const struct row_sink *rows, const struct shop *shop)
{
    const struct quantity *drum = &shop->drum.diameter.q, *cord = &shop->cord.diameter.q;
    tell_quantity(rows, "drum", "Drum", drum);
    tell_quantity(rows, "cord", "Cord", cord);
    put_row(rows, "radius", "Effective radius", radius_digits(shop).text, drum->unit->shown);
}

/* A window whose pulls the gauge cannot all read, or that it can hardly prove. */
static void tell_fit(const struct row_sink *rows, const struct shop *shop,
                     const struct band *band, bool closed)
{
    struct fitness fitness = fitness_on(shop, band, &shop->drum.diameter.q);
    char text[MOST_PULL_TEXT];
    if (fitness.fit >= FIT_USABLE || (closed && fitness.fit != FIT_BEYOND))
        return;
    fitness_words(shop, &fitness, text);
    put_row(rows, "fit", "Fit", text, "");
}

void report_window(const struct row_sink *rows, const struct shop *shop,
                   const struct band *band)
{
    tell_rig(rows, shop);
    if (!band) {
        put_row(rows, "window", "Window", NO_LIMIT_ON_FILE, "");
        return;
    }
    struct pull_window window = pull_window_of(shop, band);
    tell_band(rows, shop, band);
    if (window.closed) {
        put_row(rows, "window", "Window",
                "none: no step of this gauge lies between the limits; take a finer gauge or a "
                "smaller drum",
                "");
    } else {
        tell_steps(rows, "low", "Low pull", shop, window.low_steps);
        tell_steps(rows, "aim", "Aim", shop, window.aim_steps);
        tell_steps(rows, "high", "High pull", shop, window.high_steps);
    }
    if (!isnan(window.never))
        tell_steps(rows, "never-exceed", "Never exceed", shop, window.never_steps);
    tell_fit(rows, shop, band, window.closed);
}

/* ---- which drum ---- */

static void tell_drum(const struct row_sink *rows, const struct shop *shop,
                      const struct band *band, const struct quantity *drum)
{
    const char *fitted = shop_drum_fitted(shop, drum) ? "fitted" : "";
    char text[QUANTITY_TEXT];
    quantity_show(drum, text);
    if (!band) {
        put_row(rows, "drum", text, NO_LIMIT_ON_FILE, fitted);
        return;
    }
    struct pull_window window = pull_window_on(shop, band, drum, &shop->cord.diameter.q);
    enum fit fit = fitness_on(shop, band, drum).fit;
    const char *remark = window.closed ? "none: no step of this gauge lies between the limits"
                         : fit < FIT_USABLE ? fit_word(fit)
                                            : "";
    put_row(rows, "drum", text, remark, fitted);
    if (window.closed)
        return;
    tell_steps(rows, "low", "Low pull", shop, window.low_steps);
    tell_steps(rows, "high", "High pull", shop, window.high_steps);
}

/* Without limits all drums say the same. */
void report_drums(const struct row_sink *rows, const struct shop *shop, const struct band *band)
{
    const struct quantity *drums[MOST_DRUMS];
    size_t count = shop_drums(shop, drums);
    if (!band)
        tell_drum(rows, shop, band, &shop->drum.diameter.q);
    for (size_t i = 0; band && i < count; i++)
        tell_drum(rows, shop, band, drums[i]);
}

/* The log's last series that a new one compares with, and what is said of the two where there
 * is no limit to judge by. */

const struct pull_series *last_alike(const struct shop *shop,
                                     const struct pull_conditions *taken)
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

bool last_alike_words(const struct shop *shop, const struct pull_conditions *taken,
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
        show_places(unit_from_base(judged.drag, judged.unit), judged.shown_u.places);
    snprintf(text, LAST_ALIKE_TEXT, "%.10s: %.40s\u00a0%s, %.40s\u00a0%s", last->date,
             pull.text, unit->shown, drag.text, judged.unit->shown);
    return true;
}

void report_last_alike(const struct row_sink *rows, const struct shop *shop,
                       const struct judgement *judgement)
{
    char before[LAST_ALIKE_TEXT], text[2 * LAST_ALIKE_TEXT];
    if (!last_alike_words(shop, &judgement->conditions, before))
        return;
    struct judgement last = judge_series(shop, last_alike(shop, &judgement->conditions));
    if (!(last.drag > 0))
        return;
    struct drag_change change = drag_change_of(&last, judgement);
    double percent = 100 * change.change / last.drag;
    snprintf(text, sizeof text, "%s; now %.40s\u00a0%% %s%s", before,
             show_places(fabs(percent), 0).text, percent < 0 ? "less" : "more",
             change.clear ? "" : ", no more than its doubt");
    put_row(rows, "last-alike", "The last alike", text, "");
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

static void tell_lock_added(const struct row_sink *rows, const struct unit *unit, double added)
{
    put_row(rows, "lock-added", "Locking added",
            show_significant(unit_from_base(added, unit), 3).text, unit->shown);
    if (added < 0)
        put_row(rows, "note", "Note",
                "a lock that eased the nut is not counted on: the aim stays where it is", "");
}

static void tell_expected(const struct row_sink *rows, const struct expected *expected,
                          const struct unit *unit)
{
    char state[STATE_TEXT], text[2 * STATE_TEXT];
    put_row(rows, "expected-drag", "Expected once locked",
            show_places(unit_from_base(expected->drag, unit), expected->shown_u.places).text,
            unit->shown);
    state_text(expected->state, state);
    snprintf(text, sizeof text, "%s: expected, not measured", state);
    put_row(rows, "expected-state", "State then", text, "");
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
static const char *tell_before_lock(const struct row_sink *rows, const struct shop *shop,
                                    const struct judgement *judgement, double added)
{
    put_row(rows, "lock", "Lock",
            "not locked yet, so no verdict: the limits hold for the locked nut, measured again",
            "");
    if (isnan(added)) {
        put_row(rows, "lock-added", "Locking added", "not known", "");
        return unknown_next(judgement->by_number);
    }
    struct expected expected = expected_once_locked(shop, judgement, added);
    tell_lock_added(rows, judgement->unit, added);
    tell_expected(rows, &expected, judgement->unit);
    return known_next(expected.state);
}

/* What is said of the next move of the nut. */

static void tell_way(const struct row_sink *rows, const char *name, const char *label,
                     const struct nut_distance *way, int more)
{
    if (isfinite(way->value))
        put_row(rows, name, label, show_distance(way, more).text, way->unit);
}

/* A move is small: of an inch the hundredth of a thousandth is told, and micrometres too. */
static void tell_turn(const struct row_sink *rows, const struct nut *nut, double angle)
{
    struct nut_distance rim = nut_rim_distance(nut, angle),
                        travel = nut_travel_distance(nut, angle);
    struct nut_distance other = nut_travel_other_unit(nut, angle);
    tell_number(rows, "turn", "Tighten by", angle, 1, "°");
    tell_way(rows, "rim", "at the nut's rim", &rim, 0);
    tell_way(rows, "travel", "axial travel", &travel, travel.inches ? 1 : 0);
    if (travel.inches)
        tell_way(rows, "travel-metric", "which is", &other, 0);
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
static void tell_aim(const struct row_sink *rows, const struct shop *shop,
                     const struct band *band, double lock_added)
{
    const struct unit *unit = band->high.q.unit;
    double aim = nut_aim(shop, band), wanted = nut_aim_before_lock(shop, band, lock_added);
    put_row(rows, "aim", "Aim", show_significant(unit_from_base(aim, unit), 3).text,
            unit->shown);
    if (isnan(lock_added))
        return;
    tell_lock_added(rows, unit, lock_added);
    put_row(rows, "aim-before-lock", "Aim before locking",
            show_significant(unit_from_base(wanted, unit), 3).text, unit->shown);
}

/* Without an aim there is no move to give, only what a degree did. */
static void tell_slope(const struct row_sink *rows, const struct shop *shop,
                       const struct nut_point points[2])
{
    const struct unit *unit = shop_drag_unit(shop);
    double turn = points[1].angle - points[0].angle;
    double rise = unit_from_base(points[1].drag - points[0].drag, unit);
    put_row(rows, "aim", "Aim", NO_LIMIT_ON_FILE, "");
    if (turn > 0) {
        char per_degree[80];
        snprintf(per_degree, sizeof per_degree, "%s/°", unit->shown);
        put_row(rows, "slope", "More for a degree", show_significant(rise / turn, 2).text,
                per_degree);
    }
    put_row(rows, "next", "Next",
            "set the nut by end play and temperature, as the page \"The manual is lost\" says: "
            "no drag is known to be right",
            "");
}

/* Drags that the limits are not for move no nut. */
static void tell_not_judged(const struct row_sink *rows, const struct shop *shop,
                            const struct nut_point points[2],
                            const struct pull_conditions *taken)
{
    char text[STATE_TEXT];
    enum state state = state_under_conditions(shop, taken, STATE_GOOD);
    state_text(state, text);
    put_row(rows, "state", "State", text, "");
    if (over_never(shop, &points[1]))
        tell_over_never(rows);
    put_row(rows, "next", "Next",
            over_never(shop, &points[1]) ? next_when_high(taken->lock) : state_next(state), "");
}

void report_nut_move(const struct row_sink *rows, const struct shop *shop,
                     const struct band *band, const struct nut_point points[2],
                     const struct pull_conditions *taken, double lock_added)
{
    bool to_come = taken->lock != LOCK_AFTER;
    if (!to_come)
        lock_added = NAN;
    if (!band) {
        tell_slope(rows, shop, points);
        return;
    }
    if (!conditions_suit_limits(shop, taken)) {
        tell_not_judged(rows, shop, points, taken);
        return;
    }
    struct nut_move move = nut_move_toward_aim(shop, band, points, lock_added);
    tell_aim(rows, shop, band, lock_added);
    if (over_never(shop, &points[1])) {
        tell_over_never(rows);
        put_row(rows, "next", "Next", next_when_high(taken->lock), "");
        return;
    }
    if (move.advice == NUT_TURN)
        tell_turn(rows, &shop->nut, move.angle);
    put_row(rows, "next", "Next", advice_words(&move, !to_come), "");
    if (to_come && isnan(lock_added))
        put_row(rows, "note", "Note", "the lock's share is not taken off: aim lower", "");
}
