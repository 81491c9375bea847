/* Rows about judged pulls, a window, drums, a move of the nut: each part of an answer puts its
 * own, the last of all what to do next. */
#include "report/report.h"

#include "judge/drums.h"
#include "judge/nut.h"
#include "judge/window.h"
#include "number/show.h"
#include "report/words.h"

#include <ctype.h>
#include <math.h>
#include <stdarg.h>

void put_row(struct rows *rows, const char *name, const char *label, const char *value,
             const char *unit)
{
    *ARENA_PUSH(rows->arena, rows->items, rows->count) =
        (struct row){name, label, arena_text(rows->arena, value), unit, {0}};
}

void put_note(struct rows *rows, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *note = arena_vformat(rows->arena, format, args);
    va_end(args);
    if (note[0])
        put_row(rows, "note", "Note", note, "");
}

static void put_number(struct rows *rows, const char *name, const char *label, double value,
                       int places, const char *unit)
{
    put_row(rows, name, label, show_places(value, places).text, unit);
}

static void put_quantity(struct rows *rows, const char *name, const char *label,
                         const struct quantity *quantity)
{
    put_row(rows, name, label, quantity->digits, quantity->unit->shown);
}

/* The drag that no spindle may have is passed, or may be. */
static void put_over_never(struct rows *rows)
{
    put_row(rows, "never-exceed", "Never exceed",
            "passed, or not surely below it: do not run the spindle", "");
}

/* Which band, and which drag its limits are for. */
static void put_band(struct rows *rows, const struct shop *shop, const struct band *band)
{
    put_row(rows, "limits-for", "Limits are for", limit_kind_text(rows->arena, shop), "");
    if (shop_reads_starting(shop))
        put_row(rows, "pulls-that-count", "Pulls that count", STARTING_PULLS, "");
    put_row(rows, "band-from", "Speed band from", band->from.q.digits, "r/min");
    put_row(rows, "band-to", "to", band->to.q.digits, "r/min");
}

/* ---- pulls ---- */

static bool all_on_step(const struct shop *shop, const struct quantity *pulls, size_t count)
{
    const struct decimal *step = &shop->gauge.step.q.exact;
    for (size_t i = 0; i < count; i++)
        if (decimal_steps_not_below(&pulls[i].exact, step) !=
            decimal_steps_not_above(&pulls[i].exact, step))
            return false;
    return true;
}

static void put_pulls(struct rows *rows, const struct shop *shop, const struct series *pulls,
                      bool on_steps)
{
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed);
    double range = unit_from_base(pulls->most - pulls->least, unit);
    put_number(rows, "pulls", "Pulls", (double)pulls->count, 0, "");
    put_number(rows, "mean",
               shop_reads_starting(shop) ? "Mean starting pull, as read" : "Mean pull, as read",
               unit_from_base(pulls->mean, unit), places + 1, unit->shown);
    put_row(rows, "range", "Highest less lowest",
            (on_steps || !(range > 0) ? show_places(range, places) : show_significant(range, 2))
                .text,
            unit->shown);
}

/* A drag rounded to so many places of a unit, given as how many units of the last of them. */
static void put_rounded(struct rows *rows, const char *name, const char *label, int64_t count,
                        int places, const struct unit *unit)
{
    struct decimal place = decimal_of(1, -places);
    put_row(rows, name, label, show_steps(count, &place).text, unit->shown);
}

/* The limits of an increase as the whole drag is held against them: rounded inward to the
 * place of U. */
static void put_with_slack(struct rows *rows, const struct judgement *judgement)
{
    const struct unit *unit = judgement->unit;
    const struct band *band = judgement->band;
    int places = judgement->shown_u.places;
    double tens = pow(10, places), hair = 1e-9;
    double slack = judgement->drag - judgement->measured.drag.drag;
    double low = unit_from_base(band->low.q.base + slack, unit) * tens;
    double high = unit_from_base(band->high.q.base + slack, unit) * tens;
    put_number(rows, "increase", "Increase over the slack drag",
               unit_from_base(judgement->measured.drag.drag, unit), places, unit->shown);
    put_number(rows, "slack-drag", "Slack drag, on top of both limits",
               unit_from_base(slack, unit), places, unit->shown);
    put_rounded(rows, "low-whole", "Low limit with it", (int64_t)ceil(low - hair), places,
                unit);
    put_rounded(rows, "high-whole", "High limit with it", (int64_t)floor(high + hair), places,
                unit);
}

static void put_drag(struct rows *rows, const struct shop *shop,
                     const struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct unit *unit = judgement->unit;
    char digits[DECIMAL_TEXT];
    decimal_print(&judgement->shown_u.typed, judgement->shown_u.places, digits);
    put_number(rows, "drag", "Drag", unit_from_base(judgement->drag, unit),
               judgement->shown_u.places, unit->shown);
    put_row(rows, "uncertainty", "Uncertainty U, \u00b1 (95 of 100)", digits, unit->shown);
    if (!band)
        return;
    put_quantity(rows, "low", "Low limit", &band->low.q);
    put_quantity(rows, "high", "High limit", &band->high.q);
    if (shop->limits.basis == BASIS_INCREASE)
        put_with_slack(rows, judgement);
}

/* What is odd about the pulls in themselves; the verdict goes on. */
static void put_oddities(struct rows *rows, const struct judgement *judgement,
                         const struct quantity *pulls)
{
    const struct oddities *odd = &judgement->odd;
    if (odd->outlier >= 0)
        put_note(rows, "%s %s lies apart from the rest", pulls[odd->outlier].digits,
                 pulls[odd->outlier].unit->shown);
    if (odd->trend)
        put_note(rows, "the pulls rise or fall steadily: turn the spindle ten times each way, "
                       "and pull again until they do not");
    if (odd->stuck)
        put_note(rows, "all pulls are alike, though yours scatter by more than a step: does "
                       "the display move?");
}

static void put_notes(struct rows *rows, const struct results *results,
                      const struct judgement *judgement, const struct quantity *pulls)
{
    const struct shop *shop = results->shop;
    const struct series *series = &judgement->pulls;
    if (series->count < 2)
        put_note(rows, ONE_PULL "; pull again");
    put_oddities(rows, judgement, pulls);
    if (judgement->decision.withheld)
        put_note(rows, "%s", withheld_words(judgement->decision.withheld));
    if (judgement->measured.beyond_sheet)
        put_note(rows, BEYOND_THE_SHEET);
    if (!all_on_step(shop, pulls, series->count))
        put_note(rows, "a pull is no whole step of this gauge: was it read from this gauge?");
    if (series->most >= shop->gauge.capacity.q.base)
        put_note(rows,
                 "a pull is at the end of the gauge, which may have stopped there: it may be "
                 "more. Take a larger gauge or a larger drum");
    if (drag_below_slack(judgement))
        put_note(rows, BELOW_SLACK);
    put_note(rows, "%s", gauge_reach_words(rows->arena, results, series->mean, series->mean));
    if (judgement->conditions.warmth == SAID_NOTHING && judgement->state <= STATE_CLEARLY_HIGH)
        put_note(rows, "this holds if the spindle is %s: that was not said",
                 shop_warmth_word(shop));
    if (judgement->band != results->band)
        put_note(rows,
                 "THIS IS NOT THE BAND OF YOUR TOP SPEED: judge the nut by your own band");
}

/* ---- the state ---- */

static void put_lock_added(struct rows *rows, const struct unit *unit, double added)
{
    put_row(rows, "lock-added", "Locking added",
            show_significant(unit_from_base(added, unit), 3).text, unit->shown);
    if (added < 0)
        put_note(rows,
                 "a lock that eased the nut is not counted on: the aim stays where it is");
}

/* What locking is expected to make of a drag. added: NAN where it is not known. */
static void put_expected(struct rows *rows, const struct judgement *judgement, double added)
{
    const struct unit *unit = judgement->unit;
    put_row(rows, "lock", "Lock",
            "not locked yet, so no verdict: the limits hold for the locked nut, measured again",
            "");
    if (isnan(added)) {
        put_row(rows, "lock-added", "Locking added", "not known", "");
        return;
    }
    struct expected expected = expected_once_locked(judgement, added);
    put_lock_added(rows, unit, added);
    put_number(rows, "expected-drag", "Expected once locked",
               unit_from_base(expected.drag, unit), expected.shown_u.places, unit->shown);
    put_row(rows, "expected-state", "State then",
            arena_format(rows->arena, "%s: expected, not measured", state_text(expected.state)),
            "");
}

/* ---- the next move of the nut ---- */

static void put_distance(struct rows *rows, const char *name, const char *label,
                         const struct nut_distance *distance)
{
    if (isfinite(distance->value))
        put_row(rows, name, label, distance->shown.text, distance->unit);
}

/* Of a thread in inches, micrometres too. */
static void put_turn(struct rows *rows, const struct nut *nut, const struct nut_move *move)
{
    struct nut_distance rim = nut_rim_distance(nut, move->angle);
    struct nut_distance travel = nut_travel_distance(nut, move->angle);
    struct nut_distance other = nut_travel_other_unit(nut, move->angle);
    put_number(rows, "turn", "Tighten by", move->angle, 1, "°");
    put_distance(rows, "rim", "at the nut's rim", &rim);
    put_distance(rows, "travel", "axial travel", &travel);
    if (nut_thread_in_inches(nut))
        put_distance(rows, "travel-metric", "which is", &other);
    if (move->risky)
        put_note(rows, "no further at once: the drag might pass a limit, as far as the curve "
                       "through the places is known");
    else if (move->capped)
        put_note(rows, "no further at once, whatever the curve through the places says");
}

/* And what the nut is to reach before it is locked. */
static void put_aim(struct rows *rows, const struct results *results,
                    const struct judgement *judgement, double lock_added)
{
    const struct unit *unit = judgement->unit;
    double aim = nut_aim(&results->known, judgement->band);
    double target = advice_target(results, judgement, lock_added);
    put_row(rows, "aim", "Aim", show_significant(unit_from_base(aim, unit), 3).text,
            unit->shown);
    if (judgement->conditions.lock == LOCK_BEFORE)
        put_row(rows, "aim-before-lock", "Aim before locking",
                show_significant(unit_from_base(target, unit), 3).text, unit->shown);
}

/* Without an aim there is no move to give, only what a degree did. */
static void put_slope(struct rows *rows, const struct shop *shop,
                      const struct nut_places *places)
{
    const struct unit *unit = shop_drag_unit(shop);
    const struct nut_point *newer = &places->points[places->count - 1], *older = newer - 1;
    double turn = newer->angle - older->angle;
    double rise = unit_from_base(newer->drag - older->drag, unit);
    put_row(rows, "aim", "Aim", NO_LIMIT_ON_FILE, "");
    if (turn > 0)
        put_row(rows, "slope", "More for a degree", show_significant(rise / turn, 2).text,
                arena_format(rows->arena, "%s/°", unit->shown));
}

/* In per cent, two digits, rounded up: no chance is called less than it is. */
static const char *chance_text(struct rows *rows, double chance)
{
    double percent = 100 * fmin(chance, 1);
    if (percent < 0.01)
        return "0.01";
    struct decimal place = step_of_digits(percent, 2);
    return arena_text(rows->arena, show_up(percent, decimal_places(&place)).text);
}

enum advice report_state(struct rows *rows, const struct results *results, const char *label,
                         const struct advice_asked *asked)
{
    const struct judgement *judgement = asked->judgement;
    struct advice_given given = advise(results, asked);
    bool two = asked->places && asked->places->count > 1;
    if (two && !judgement->band)
        put_slope(rows, results->shop, asked->places);
    put_row(rows, "state", label, state_text(judgement->state), "");
    if (judgement->over_never)
        put_over_never(rows);
    if (judgement->high && judgement->state != STATE_CLEARLY_HIGH)
        put_row(rows, "caution", "Caution", HIGH_UNJUDGED, "");
    if (judgement->state <= STATE_SCATTERED)
        put_row(rows, "outside", "Chance that it lies outside the limits",
                chance_text(rows, judgement->decision.below + judgement->decision.above), "%");
    if (judgement->state == STATE_NOT_LOCKED)
        put_expected(rows, judgement, asked->lock_added);
    if (places_say(asked->places) && advice_tightens(given.advice))
        put_aim(rows, results, judgement, asked->lock_added);
    if (given.turns)
        put_turn(rows, &results->shop->nut, &given.move);
    put_row(rows, "next", "Next", advice_words(given.advice), "");
    return given.advice;
}

void report_last_alike(struct rows *rows, const struct results *results,
                       const struct judgement *judgement)
{
    const struct judged *last = last_alike(results, &judgement->conditions);
    if (!last || !(last->judgement.drag > 0))
        return;
    struct drag_change change = drag_change_of(&last->judgement, judgement);
    double percent = 100 * change.change / last->judgement.drag;
    put_row(rows, "last-alike", "The last alike",
            arena_format(rows->arena, "%s; now %s\u00a0%% %s%s",
                         last_alike_words(rows->arena, results, &judgement->conditions),
                         show_places(fabs(percent), 0).text, percent < 0 ? "less" : "more",
                         change.clear ? "" : ", no more than its doubt"),
            "");
}

void report_judgement(struct rows *rows, const struct results *results,
                      const struct judgement *judgement, const struct quantity *pulls,
                      double lock_added)
{
    const struct shop *shop = results->shop;
    put_pulls(rows, shop, &judgement->pulls, all_on_step(shop, pulls, judgement->pulls.count));
    put_drag(rows, shop, judgement);
    if (judgement->band)
        put_band(rows, shop, judgement->band);
    else
        report_last_alike(rows, results, judgement);
    report_state(rows, results, "State",
                 &(struct advice_asked){.judgement = judgement, .lock_added = lock_added});
    struct improvement improvement = improvement_of(&results->known, judgement, pulls);
    if (improvement.kind != IMPROVE_NOT_ASKED)
        put_row(rows, "would-decide", "What would decide",
                improvement_words(rows->arena, &improvement), "");
    put_notes(rows, results, judgement, pulls);
}

/* ---- the budget ---- */

static const char *nu_text(struct arena *arena, double nu)
{
    return isfinite(nu) ? arena_text(arena, show_places(nu, 1).text) : "endless";
}

static void put_budget_line(struct rows *rows, const struct shop *shop,
                            const struct budget_line *line, const struct unit *unit)
{
    struct arena *arena = rows->arena;
    const struct unit *in = budget_unit(shop, line->measure);
    static const char *const names[] = {
        "budget-scatter", "budget-between",    "budget-step",        "budget-traces",
        "budget-zero",    "budget-gauge",      "budget-weights",     "budget-gravity",
        "budget-drift",   "budget-hysteresis", "budget-orientation", "budget-drum",
        "budget-cord"};
    const char *label = budget_words(line);
    double sensitivity = unit_from_base(line->sensitivity, unit) / unit_from_base(1, in);
    put_row(
        rows, names[line->source],
        arena_format(arena, "%c%s", toupper((unsigned char)label[0]), label + 1),
        arena_format(arena, "%s %s; %s; %s degrees of freedom; %s %s for 1 %s; %s %s; %s %%",
                     show_significant(unit_from_base(line->u, in), 2).text, in->shown,
                     line->sample ? "Student" : "rectangular", nu_text(arena, line->doubt.nu),
                     show_significant(sensitivity, 3).text, unit->shown, in->shown,
                     show_significant(unit_from_base(line->doubt.u, unit), 2).text, unit->shown,
                     show_places(line->share, 1).text),
        "");
}

void report_budget(struct rows *rows, const struct shop *shop,
                   const struct judgement *judgement)
{
    struct budget_line lines[BUDGET_ROWS];
    const struct drag_measured *drag = &judgement->measured.drag;
    const struct unit *unit = judgement->unit;
    size_t count = budget_lines(judgement, lines);
    for (size_t i = 0; i < count; i++)
        put_budget_line(rows, shop, &lines[i], unit);
    put_row(rows, "budget-sum", "All together",
            show_significant(unit_from_base(drag->sureness.standard, unit), 2).text,
            unit->shown);
    put_row(rows, "budget-freedom", "Degrees of freedom",
            nu_text(rows->arena, drag->sureness.nu), "");
    put_number(rows, "budget-factor", "Student's factor", drag->sureness.factor, 3, "");
    if (drag->askew > 0)
        put_row(rows, "budget-askew", "Askew, added to U",
                show_significant(unit_from_base(drag->askew, unit), 2).text, unit->shown);
}

void report_breakaway(struct rows *rows, const struct judgement *judgement,
                      const struct quantity *breakaway)
{
    put_number(rows, "breakaway-ratio", "Breakaway over mean pull",
               breakaway->base / judgement->pulls.mean, 2, "");
}

void report_good_drags(struct rows *rows, const struct judgement *judgement)
{
    const struct band *band = judgement->band;
    const struct unit *unit = judgement->unit;
    double least, most, slack = judgement->drag - judgement->measured.drag.drag;
    int places = judgement->shown_u.places;
    double tens = pow(10, places), hair = 1e-6; /* of the last place: what halving leaves */
    if (!band || judgement->state == STATE_REJECTED || judgement->state == STATE_NO_PULL)
        return;
    bool any =
        good_drags(&judgement->measured, band->low.q.base, band->high.q.base, &least, &most);
    double from = any ? ceil(unit_from_base(least + slack, unit) * tens - hair) : 1;
    double to = any ? floor(unit_from_base(most + slack, unit) * tens + hair) : 0;
    if (from > to) {
        put_row(rows, "good", "Good drags", state_words(STATE_UNDECIDED), "");
        return;
    }
    put_rounded(rows, "good-from", "Good drags from", (int64_t)from, places, unit);
    put_rounded(rows, "good-to", "to", (int64_t)to, places, unit);
}

/* ---- the window ---- */

static void put_steps(struct rows *rows, const char *name, const char *label,
                      const struct shop *shop, int64_t steps)
{
    const struct quantity *step = &shop->gauge.step.q;
    put_row(rows, name, label, show_steps(steps, &step->typed).text, step->unit->shown);
}

void report_window(struct rows *rows, const struct results *results, const struct band *band)
{
    const struct shop *shop = results->shop;
    const struct quantity *drum = &shop->drum.diameter.q;
    put_quantity(rows, "drum", "Drum", drum);
    put_quantity(rows, "cord", "Cord", &shop->cord.diameter.q);
    put_row(rows, "radius", "Effective radius", radius_digits(shop).text, drum->unit->shown);
    if (!band) {
        put_row(rows, "window", "Window", NO_LIMIT_ON_FILE, "");
        return;
    }
    struct pull_window window = results_window(results, band)->plain;
    put_band(rows, shop, band);
    if (window.closed) {
        put_row(rows, "window", "Window", CLOSED_WINDOW, "");
    } else {
        put_steps(rows, "low", "Low pull", shop, window.low_steps);
        put_steps(rows, "aim", "Aim", shop, window.aim_steps);
        put_steps(rows, "high", "High pull", shop, window.high_steps);
    }
    if (!isnan(window.never))
        put_steps(rows, "never-exceed", "Never exceed", shop, window.never_steps);
    struct fitness fitness = fitness_on(results, band, drum);
    if (fitness.fit < FIT_USABLE && (!window.closed || fitness.fit == FIT_BEYOND))
        put_row(rows, "fit", "Fit", fitness_words(rows->arena, shop, &fitness), "");
}

static void put_drum(struct rows *rows, const struct results *results, const struct band *band,
                     const struct quantity *drum)
{
    const struct shop *shop = results->shop;
    const char *fitted = shop_drum_fitted(shop, drum) ? "fitted" : "";
    const char *text = quantity_text(rows->arena, drum);
    if (!band) {
        put_row(rows, "drum", text, NO_LIMIT_ON_FILE, fitted);
        return;
    }
    struct pull_window window =
        pull_window_on(&results->known, band, effective_radius(drum, &shop->cord.diameter.q));
    enum fit fit = fitness_on(results, band, drum).fit;
    const char *remark = window.closed      ? NO_STEP_BETWEEN
                         : fit < FIT_USABLE ? fit_word(fit)
                                            : "";
    put_row(rows, "drum", text, remark, fitted);
    if (window.closed)
        return;
    put_steps(rows, "low", "Low pull", shop, window.low_steps);
    put_steps(rows, "high", "High pull", shop, window.high_steps);
}

/* Without limits all drums say the same. */
void report_drums(struct rows *rows, const struct results *results, const struct band *band)
{
    const struct shop *shop = results->shop;
    const struct quantity *drums[MOST_DRUMS];
    size_t count = shop_drums(shop, drums);
    if (!band)
        put_drum(rows, results, band, &shop->drum.diameter.q);
    for (size_t i = 0; band && i < count; i++)
        put_drum(rows, results, band, drums[i]);
}

/* ---- the gauge ---- */

/* In the gauge's unit, one digit beyond its step; up: rounded away from zero. */
static void put_force(struct rows *rows, const struct shop *shop, const char *name,
                      const char *label, double force, bool up)
{
    const struct quantity *step = &shop->gauge.step.q;
    int places = decimal_places(&step->typed) + 1;
    double value = unit_from_base(force, step->unit);
    put_row(rows, name, label, (up ? show_up(value, places) : show_places(value, places)).text,
            step->unit->shown);
}

/* pull: as read, N. */
static void put_check(struct rows *rows, const struct known *known, double pull)
{
    const struct shop *shop = known->shop;
    const struct gauge_check *check = known->gauge.check;
    double force = force_of_reading(known, pull);
    double within = gauge_within_at(shop, check, force);
    if (!check) {
        put_force(rows, shop, "error", "Error, either way", within, false);
        put_note(rows, "the gauge is not checked: hang known weights");
        return;
    }
    put_row(rows, "check", "Check in force", check->date,
            check->complete ? "" : "not complete");
    put_force(rows, shop, "force", "Force there", force, false);
    put_force(rows, shop, "error", "Error found", pull - force, false);
    put_note(rows, "never correct a pull by hand: write and type what the gauge shows; the "
                   "program corrects it");
    put_force(rows, shop, "known-within", "Known within", within, true);
    if (known->gauge.other)
        put_note(rows, "%s (%s)", withheld_words(WITHHELD_CHECKS_DIFFER),
                 known->gauge.other->date);
}

void report_gauge(struct rows *rows, const struct results *results, const struct band *band)
{
    const struct shop *shop = results->shop;
    double usual = gauge_usual_pull(shop);
    struct pull_window window = {.low = usual, .aim = usual, .high = usual};
    if (band)
        window = results_window(results, band)->plain;
    put_force(rows, shop, band ? "aim" : "pull", band ? "At the aim" : "At half its capacity",
              window.aim, false);
    put_row(rows, "source", "Known from",
            gauge_source_words(gauge_source_at(shop, results->known.gauge.check, window.aim)),
            "");
    put_check(rows, &results->known, window.aim);
    put_note(rows, "%s", gauge_slope_words(rows->arena, results->known.gauge.check));
    put_note(rows, "%s", gauge_reach_words(rows->arena, results, window.low, window.high));
    put_number(rows, "weighings", "Weighings in the log", (double)shop->weighings.count, 0, "");
    if (!band) {
        put_row(rows, "state", "Fit", NO_LIMIT_ON_FILE, "");
        return;
    }
    struct fitness fitness = fitness_on(results, band, &shop->drum.diameter.q);
    put_number(rows, "half-window-over-u", "Half the window over U", fitness.ratio, 1, "");
    put_row(rows, "state", "Fit", fitness_words(rows->arena, shop, &fitness), "");
}

/* ---- two places of the nut ---- */

void report_places(struct rows *rows, const struct results *results, const struct band *band,
                   const struct quantity angles[2], const struct quantity drags[2],
                   const struct pull_conditions *conditions, double lock_added)
{
    struct nut_places places = {.count = 2, .slack = NAN, .lock_added = NAN};
    for (int i = 0; i < 2; i++)
        places.points[i] = nut_point_of_drag(&results->known, angles[i].base, drags[i].base);
    struct judgement judgement = judge_drag(&results->known, band, conditions, &drags[1],
                                            angles[1].base < angles[0].base);
    report_state(rows, results, "State",
                 &(struct advice_asked){
                     .judgement = &judgement, .lock_added = lock_added, .places = &places});
}
