#include "report/remarks.h"

#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/uncertainty.h"
#include "number/show.h"
#include "physics/physics.h"
#include "shop/shop.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Who takes what is found, one sentence after another. */

/* "file:line: date: " before each; without the date where that is NULL. */
static struct speaker speaker_at(const struct remark_sink *listener, struct place at,
                                 const char *date)
{
    struct speaker speaker = {.listener = listener};
    snprintf(speaker.before, sizeof speaker.before, "%.200s:%d: %s%s", at.file, at.line,
             date ? date : "", date ? ": " : "");
    return speaker;
}

/* A sentence; what is over a thousand bytes is cut off. */
static void speaker_say(const struct speaker *speaker, const char *format, ...)
{
    char text[1000];
    int used = snprintf(text, sizeof text, "%s", speaker->before);
    va_list args;
    va_start(args, format);
    vsnprintf(text + used, sizeof text - (size_t)used, format, args);
    va_end(args);
    speaker->listener->remark(speaker->listener->to, text);
}

/* What looks unwise in a shop without being a fault: said by `check` and `book`. */

/* Common practice, no source: below a fifth of its capacity few gauges are good. */
static const double least_share = 0.2;

/* A foot is twelve inches: limits that far apart are likely two units mixed up. */
static const double unlike = 6;

static void tell_band(const struct shop *shop, const struct band *band,
                      const struct speaker *speaker)
{
    struct pull_window window = pull_window_of(shop, band);
    const char *from = band->from.q.digits, *to = band->to.q.digits;
    if (window.closed)
        speaker_say(speaker, "band %s-%s r/min: no step of the gauge lies between the limits",
                    from, to);
    struct most_pull most = most_pull_of(shop, &window);
    char text[MOST_PULL_TEXT];
    most_pull_words(shop, &most, text);
    if (most.beyond && !most.never)
        speaker_say(speaker, "band %s-%s r/min: %s", from, to, text);
}

static void tell_own_band(const struct shop *shop, const struct speaker *speaker)
{
    struct guarded_window window = guarded_window_own(shop);
    double capacity = shop->gauge.capacity.q.base;
    if (!window.plain.closed && window.closed)
        speaker_say(speaker,
                    "your band: this gauge and drum cannot decide; see the table sure-windows");
    struct most_pull most = most_pull_of(shop, &window.plain);
    char text[MOST_PULL_TEXT];
    most_pull_words(shop, &most, text);
    if (most.beyond && most.never)
        speaker_say(speaker, "%s", text);
    if (window.plain.low < least_share * capacity)
        speaker_say(
            speaker,
            "your band: the low pull is below a fifth of the gauge's capacity; take a gauge of "
            "smaller capacity, or check this one with weights near that pull. A smaller drum "
            "helps only as far as it fits the nose of your spindle");
}

/* lbf.in beside lbf.ft, or a point in the wrong place. */
static void tell_units(const struct shop *shop, const struct speaker *speaker)
{
    double least = INFINITY, most = 0;
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        least = fmin(least, shop->limits.bands[i].high.q.base);
        most = fmax(most, shop->limits.bands[i].high.q.base);
    }
    if (most > unlike * least)
        speaker_say(
            speaker,
            "the high limits of the bands lie far apart; is one of them in another unit?");
}

/* Whether `times` of the part are more than the whole; exactly. */
static bool more_than(const struct measure *part, int64_t times, const struct measure *whole)
{
    struct decimal factor = decimal_of(times, 0);
    struct decimal many = decimal_multiply(&part->q.exact, &factor);
    return decimal_compare(&many, &whole->q.exact) > 0;
}

/* Millimetres typed for sixteenths of an inch, and the like: rules of thumb of ours. */
static void tell_lengths(const struct shop *shop, const struct speaker *speaker)
{
    const struct drum *drum = &shop->drum;
    const struct cord *cord = &shop->cord;
    if (more_than(&cord->diameter, 20, &drum->diameter))
        speaker_say(
            speaker,
            "the cord, %s %s, is thicker than a twentieth of the drum, %s %s; is its unit "
            "right?",
            cord->diameter.q.digits, cord->diameter.q.unit->symbol, drum->diameter.q.digits,
            drum->diameter.q.unit->symbol);
    if (more_than(&drum->tolerance, 50, &drum->diameter))
        speaker_say(speaker,
                    "drum.tolerance, %s %s, is more than a fiftieth of the drum; is it right?",
                    drum->tolerance.q.digits, drum->tolerance.q.unit->symbol);
    if (more_than(&cord->tolerance, 100, &drum->diameter))
        speaker_say(speaker,
                    "cord.tolerance, %s %s, is more than a hundredth of the drum; is it right?",
                    cord->tolerance.q.digits, cord->tolerance.q.unit->symbol);
}

/* A blank and # begin a remark, within a name too: "ply drum #2". */
static void tell_cut_texts(const struct shop *shop, const struct speaker *speaker)
{
    for (size_t i = 0; i < shop->text_count; i++) {
        const struct typed_text *text = &shop->texts[i];
        struct speaker of_text = speaker_at(speaker->listener, text->at, NULL);
        if (text->cut)
            speaker_say(&of_text,
                        "what stands behind # is not read; if it belongs to the text, put all "
                        "of it in quotes");
    }
}

static bool is_higher(const struct measure *a, const struct measure *b)
{
    return decimal_compare(&a->q.exact, &b->q.exact) > 0;
}

/* Practice: the faster the band, the lower its limits. */
static void tell_order(const struct shop *shop, const struct speaker *speaker)
{
    for (size_t i = 1; i < shop->limits.band_count; i++) {
        const struct band *slow = &shop->limits.bands[i - 1], *fast = slow + 1;
        if (is_higher(&fast->low, &slow->low) || is_higher(&fast->high, &slow->high))
            speaker_say(
                speaker,
                "band %s-%s r/min: its limits are higher than those of the slower band before "
                "it; are rows exchanged?",
                fast->from.q.digits, fast->to.q.digits);
    }
}

/* The band is that of the top speed: where no speed is the top speed, one may be missing. */
static void tell_speeds(const struct shop *shop, const struct speaker *speaker)
{
    const struct measures *speeds = &shop->lathe.speeds;
    const struct quantity *top = &shop->lathe.top_speed.q;
    const struct quantity *fastest = speeds->count ? &speeds->items[speeds->count - 1].q : NULL;
    if (fastest && decimal_compare(&fastest->exact, &top->exact) != 0)
        speaker_say(
            speaker,
            "no speed of lathe.speeds is lathe.top-speed, %s r/min; the fastest is %s r/min. "
            "Is one missing?",
            top->digits, fastest->digits);
}

static void tell_unused_slack(const struct shop *shop, const struct speaker *speaker)
{
    if (shop->limits.basis == BASIS_ABSOLUTE && given(&shop->limits.slack_drag))
        speaker_say(
            speaker,
            "limits.slack-drag is not used, since limits.basis is absolute: if the manual "
            "limits what the nut adds, write increase there; else leave it out");
}

void remark_on_settings(const struct shop *shop, const struct remark_sink *listener)
{
    struct speaker speaker = {.listener = listener};
    tell_cut_texts(shop, &speaker);
    tell_speeds(shop, &speaker);
    tell_lengths(shop, &speaker);
    if (!shop_has_limits(shop)) {
        speaker_say(
            &speaker, NO_LIMIT_ON_FILE
            ". There are no windows, and a drag is only compared with earlier ones; see the "
            "page \"The manual is lost\"");
        return;
    }
    for (size_t i = 0; i < shop->limits.band_count; i++)
        tell_band(shop, &shop->limits.bands[i], &speaker);
    tell_own_band(shop, &speaker);
    tell_units(shop, &speaker);
    tell_order(shop, &speaker);
    tell_unused_slack(shop, &speaker);
}

/* What the log of pulls gives cause to look at: one sentence a finding, each with the
 * line and the date of its row. No row is left out of the tables for any of it. */

static const double high_breakaway = 2; /* times the mean: a rule of thumb of ours */

struct notes {
    const struct shop *shop;
    const struct remark_sink *listener;
    bool as_remarks;        /* with file and line, as faults have them */
    struct speaker speaker; /* of the row */
    size_t pairs, apart;    /* series that have their like the other way round */
};

/* As a remark has the place of a row, or as the table does. */
static struct speaker speaker_of(const struct notes *notes, const struct pull_series *series)
{
    if (notes->as_remarks)
        return speaker_at(notes->listener, series->at, series->date);
    struct speaker speaker = {.listener = notes->listener};
    snprintf(speaker.before, sizeof speaker.before, "%s, line %d of the log: ", series->date,
             series->at.line);
    return speaker;
}

/* ---- the pulls of one row ---- */

static void note_scatter(const struct notes *notes, const struct pull_series *series,
                         const struct series *pulls)
{
    if (pulls->count < 2)
        speaker_say(&notes->speaker,
                    "one pull says nothing of the scatter: the usual one was taken.");
    else if (pulls_too_wide(notes->shop, series->pulls, series->pull_count))
        speaker_say(
            &notes->speaker,
            "rejected: the pulls lie further apart than a tenth of their mean and than two "
            "steps of the gauge. Find the cause, take all again.");
}

static bool beyond_gauge(const struct shop *shop, const struct quantity *pull)
{
    return decimal_compare(&pull->exact, &shop->gauge.capacity.q.exact) > 0;
}

static void note_capacity(const struct notes *notes, const struct pull_series *series)
{
    bool beyond = false;
    for (size_t i = 0; i < series->pull_count; i++)
        beyond = beyond || beyond_gauge(notes->shop, &series->pulls[i]);
    if (beyond)
        speaker_say(
            &notes->speaker,
            "a pull is more than the gauge of the settings can read. Was it another gauge?");
    if (series->breakaway.unit && beyond_gauge(notes->shop, &series->breakaway))
        speaker_say(
            &notes->speaker,
            "the breakaway is more than the gauge of the settings can read. It may have been "
            "higher still, and the gauge may have suffered: check it with weights.");
}

static void note_breakaway(const struct notes *notes, const struct pull_series *series,
                           double mean)
{
    if (!series->breakaway.unit)
        return;
    if (series->breakaway.base < mean)
        speaker_say(
            &notes->speaker,
            "the breakaway is below the steady pull. Were the two exchanged, or was the "
            "spindle turning already?");
    else if (series->breakaway.base > high_breakaway * mean)
        speaker_say(
            &notes->speaker,
            "the breakaway is more than twice the steady pull (a rule of thumb of ours). Look "
            "for a seal that sticks, stiff grease, a jerk at the start, or a dent in a race.");
}

/* ---- what is not judged ---- */

/* However it was pulled. */
static void note_never(const struct notes *notes, const struct judgement *judgement)
{
    if (judgement->over_never)
        speaker_say(
            &notes->speaker,
            "above never-exceed, or within U of it: do not run it so. Or is it a slip of the "
            "pen?");
}

/* Where the nut has been turned to this place, not at every series there. */
static void note_backed_off(const struct notes *notes, const struct pull_series *series,
                            const struct judgement *judgement)
{
    char place[QUANTITY_TEXT];
    const struct pull_series *from = judgement->backed_off;
    bool first = series == notes->shop->readings.items || series_nut_moved(&series[-1], series);
    if (!from || !series->nut.unit || !first)
        return;
    quantity_show(&from->nut, place);
    speaker_say(
        &notes->speaker,
        "the nut was backed off from %s, line %d, and not unloaded: no good setting. Unload, "
        "come again from the loose side. If it was unloaded between the two, write a row of "
        "it, with unloaded in the column lock.",
        place, from->at.line);
}

static void note_unjudged(const struct notes *notes, const struct pull_series *series,
                          const struct judgement *judgement)
{
    if (series->lock == LOCK_UNSAID)
        speaker_say(
            &notes->speaker,
            "before or after locking is not said: not judged, and no closing check. Write "
            "before or after into the column lock.");
    if (judgement->by_number == STATE_CLEARLY_HIGH && judgement->state != judgement->by_number)
        speaker_say(&notes->speaker, "not judged, but " HIGH_UNJUDGED ".");
}

/* ---- what was likely meant otherwise ---- */

/* Kelvin from the room at which a spindle is cold no more, and up to which it is not warm yet;
 * days without a row: rules of thumb of ours. */
static const double far_from_room = 15, at_room = 2;

enum { LONG_REST_DAYS = 5 * 366 };

static double in_celsius(double base)
{
    return unit_from_base(base, unit_find_as("degC", 4, KIND_TEMPERATURE));
}

static void note_warmth(const struct notes *notes, const struct pull_series *series)
{
    struct decimal room = shop_room(notes->shop);
    if (!series->temperature.unit)
        return;
    double above = in_celsius(series->temperature.base) - in_celsius(decimal_to_double(&room));
    bool cold_far = !series->warm && fabs(above) > far_from_room + 1e-9;
    if (!cold_far && !(series->warm && above <= at_room + 1e-9))
        return;
    const struct measure *typed = &notes->shop->run_in.room;
    char said[QUANTITY_TEXT];
    snprintf(said, sizeof said, "%d\u00a0\u00b0C", RUN_IN_ROOM_CELSIUS);
    if (given(typed))
        quantity_show(&typed->q, said);
    speaker_say(&notes->speaker,
                "the row says %s, but its cap is at %s\u00a0%s and the room (run-in.room) at "
                "%s. Is the unit another, or the other warmth meant?",
                series->warm ? "warm" : "cold", series->temperature.digits,
                series->temperature.unit->shown, said);
}

static void note_rest(const struct notes *notes, const struct pull_series *series)
{
    if (series > notes->shop->readings.items &&
        date_days(series->date) - date_days(series[-1].date) > LONG_REST_DAYS)
        speaker_say(&notes->speaker,
                    "more than five years later than the row before, line %d, %s. Is the year "
                    "right?",
                    series[-1].at.line, series[-1].date);
}

/* A row that says it in words alone. */
static void note_unloaded(const struct notes *notes, const struct pull_series *series)
{
    if (series->lock != LOCK_UNLOADED && series->lock != LOCK_AFTER && series->note &&
        strstr(series->note, "unloaded"))
        speaker_say(
            &notes->speaker,
            "the note says unloaded, the column lock does not: if it was pulled with "
            "the nut unloaded, write unloaded there. Else its place counts for the line.");
}

static void note_slack(const struct notes *notes, const struct judgement *judgement)
{
    if (drag_below_slack(notes->shop, judgement))
        speaker_say(&notes->speaker, BELOW_SLACK ".");
}

/* ---- the two ways round ---- */

static bool same_place(const struct pull_series *a, const struct pull_series *b)
{
    if (!a->nut.unit || !b->nut.unit)
        return !a->nut.unit && !b->nut.unit;
    return decimal_compare(&a->nut.exact, &b->nut.exact) == 0;
}

/* The like of a series but for the way round, on the same day, the nearest in the log. */
static const struct pull_series *turned_like(const struct shop *shop,
                                             const struct pull_series *series)
{
    const struct pull_series_log *log = &shop->readings;
    struct pull_series wanted = *series;
    size_t own = (size_t)(series - log->items);
    wanted.other_way = !series->other_way;
    for (size_t away = 1; away < log->count; away++)
        for (int side = 0; side < 2; side++) {
            size_t at = side ? own + away : own - away; /* wraps round before the first */
            if (at < log->count && series_alike(&log->items[at], &wanted) &&
                same_place(&log->items[at], series) &&
                strcmp(log->items[at].date, series->date) == 0)
                return &log->items[at];
        }
    return NULL;
}

static void note_directions(struct notes *notes, const struct pull_series *series,
                            const struct series *pulls)
{
    const struct pull_series *usual =
        series->other_way ? turned_like(notes->shop, series) : NULL;
    if (!usual)
        return;
    struct judgement judgement = judge_series(notes->shop, usual);
    notes->pairs++;
    if (!directions_differ(&judgement.pulls, pulls, notes->shop->gauge.step.q.base))
        return;
    notes->apart++;
    speaker_say(&notes->speaker,
                "the other way round the mean lies further off than the pulls of line %d among "
                "themselves. Something drags one way: look for a seal lip, a gear, a brake.",
                usual->at.line);
}

/* ---- against the row before, at the same place ---- */

struct drag_change drag_change_of(const struct judgement *before, const struct judgement *now)
{
    struct drag_change change = {.change = now->drag - before->drag};
    double doubt = change_doubt(decimal_to_double(&before->shown_u.exact),
                                decimal_to_double(&now->shown_u.exact));
    change.u = uncertainty_shown_in(doubt, now->unit);
    change.clear = fabs(change.change) > decimal_to_double(&change.u.exact);
    return change;
}

/* The nearest earlier series that was taken alike with the nut locked at the same place,
 * and never moved since. */
static const struct pull_series *like_before(const struct shop *shop,
                                             const struct pull_series *series)
{
    if (series->lock != LOCK_AFTER || !series->nut.unit)
        return NULL;
    for (const struct pull_series *at = series; at-- > shop->readings.items;) {
        if (at->lock == LOCK_UNLOADED || (at->nut.unit && !same_place(at, series)))
            return NULL;
        if (at->nut.unit && series_alike(at, series))
            return at;
    }
    return NULL;
}

/* A fall of the drag is not always lost preload. */
static const char *words_of_fall(const struct shop *shop)
{
    if (!shop_has_limits(shop))
        return "If the bearings are new, they bed in, and that alone is no lost preload. Look "
               "at oil, temperature and end play.";
    return shop->limits.bearings == BEARINGS_NEW
               ? "New bearings bed in: that alone is no lost preload. Look at the end play, "
                 "and measure again after some hours."
               : "Used bearings have bedded in already: look at oil, temperature and end play "
                 "before you touch the nut.";
}

/* Degrees Celsius beyond which the oil alone makes another drag (a rule of thumb of ours). */
static const double like_caps = 5;

/* The change of the cap against the like series, K; NAN where it is not known. */
static double cap_change(const struct pull_series *like, const struct pull_series *series)
{
    if (!like->temperature.unit || !series->temperature.unit)
        return NAN;
    return in_celsius(series->temperature.base) - in_celsius(like->temperature.base);
}

/* As the row has its degrees. */
static void note_caps(const struct notes *notes, const struct pull_series *like,
                      const struct pull_series *series)
{
    double change = cap_change(like, series);
    if (!(fabs(change) > like_caps + 1e-9))
        return;
    bool fahrenheit = strcmp(series->temperature.unit->symbol, "degF") == 0;
    bool colder = change < 0;
    speaker_say(
        &notes->speaker,
        "the cap is %s\u00a0%s %s than on %s, line %d, the nut locked at the same place. %s "
        "the shop, measure again, leave the nut.",
        show_places(fabs(change) * (fahrenheit ? 1.8 : 1), 0).text,
        series->temperature.unit->shown, colder ? "colder" : "warmer", like->date,
        like->at.line, colder ? "Warm" : "Cool");
}

static void note_change(const struct notes *notes, const struct pull_series *series,
                        const struct judgement *judgement)
{
    const struct pull_series *like = like_before(notes->shop, series);
    if (!like)
        return;
    note_caps(notes, like, series);
    struct judgement before = judge_series(notes->shop, like);
    struct drag_change change = drag_change_of(&before, judgement);
    if (change.clear && change.change < 0)
        speaker_say(
            &notes->speaker,
            "clearly less drag than on %s, line %d, the nut locked at the same place. %s",
            like->date, like->at.line, words_of_fall(notes->shop));
    else if (change.clear)
        speaker_say(
            &notes->speaker,
            "clearly more drag than on %s, line %d, the nut locked at the same place. Look "
            "for colder or more oil, fresh grease, a dry seal, dirt, before you touch the nut.",
            like->date, like->at.line);
}

static void tell_pairs(const struct notes *notes)
{
    char text[300];
    snprintf(
        text, sizeof text,
        "Series compared with the other way round (same day, place, lock and warmth): %zu; "
        "further apart than the wider of the two ranges: %zu (a rule of thumb of ours).",
        notes->pairs, notes->apart);
    notes->listener->remark(notes->listener->to,
                            notes->pairs ? text
                                         : "No series has its like the other way round on the "
                                           "same day: what drags one way alone was not looked "
                                           "for.");
}

static void tell_series(struct notes *notes, const struct pull_series *series)
{
    struct judgement judgement = judge_series(notes->shop, series);
    notes->speaker = speaker_of(notes, series);
    note_scatter(notes, series, &judgement.pulls);
    note_never(notes, &judgement);
    note_unjudged(notes, series, &judgement);
    note_backed_off(notes, series, &judgement);
    note_warmth(notes, series);
    note_rest(notes, series);
    note_unloaded(notes, series);
    note_slack(notes, &judgement);
    note_capacity(notes, series);
    note_breakaway(notes, series, judgement.pulls.mean);
    note_directions(notes, series, &judgement.pulls);
    note_change(notes, series, &judgement);
}

void note_on_pull_log(const struct shop *shop, const struct remark_sink *listener)
{
    struct notes notes = {.shop = shop, .listener = listener};
    for (size_t i = 0; i < shop->readings.count; i++)
        tell_series(&notes, &shop->readings.items[i]);
    if (shop->readings.count)
        tell_pairs(&notes);
}

/* The same findings as remarks, "file:line: date: finding", without the count. */
static void log_notes_remark(const struct shop *shop, const struct remark_sink *listener)
{
    struct notes notes = {.shop = shop, .listener = listener, .as_remarks = true};
    for (size_t i = 0; i < shop->readings.count; i++)
        tell_series(&notes, &shop->readings.items[i]);
}

/* What the two logs give cause to look at, said by `check` and `book`, each remark with
 * the file and line of its row. */

/* A load by its weight: a mass has none of its own. A force as typed is compared exactly. */
static bool load_is_beyond(const struct shop *shop, const struct weighing *weighing)
{
    const struct quantity *capacity = &shop->gauge.capacity.q;
    if (weighing->load.unit->kind == KIND_FORCE)
        return decimal_compare(&weighing->load.exact, &capacity->exact) > 0;
    return weighing_force(shop, weighing) > capacity->base;
}

static void tell_one_beyond(const struct weighing *weighing, const char *what,
                            const struct quantity *capacity, const struct remark_sink *listener)
{
    struct speaker speaker = speaker_at(listener, weighing->at, weighing->date);
    speaker_say(
        &speaker,
        "this %s is more than the gauge of the settings can read, %s %s. Was it another "
        "gauge?",
        what, capacity->digits, capacity->unit->symbol);
}

static void tell_beyond(const struct shop *shop, const struct remark_sink *listener)
{
    const struct quantity *capacity = &shop->gauge.capacity.q;
    for (size_t i = 0; i < shop->weighings.count; i++) {
        const struct weighing *weighing = &shop->weighings.items[i];
        bool load = load_is_beyond(shop, weighing);
        if (load || decimal_compare(&weighing->reading.exact, &capacity->exact) > 0)
            tell_one_beyond(weighing, load ? "load" : "reading", capacity, listener);
    }
}

static void tell_slope(const struct shop *shop, const struct remark_sink *listener)
{
    char text[SLOPE_TEXT];
    struct gauge_check check = gauge_check_of(shop);
    if (!gauge_slope_is_odd(&check, text))
        return;
    struct speaker speaker = speaker_at(listener, shop->weighings.items[0].at, NULL);
    speaker_say(&speaker, "%s", text);
}

static void tell_age(const struct shop *shop, const struct remark_sink *listener)
{
    const struct weighing *last = shop_last_weighing(shop);
    if (!last || !shop->readings.count)
        return;
    const char *pulled = shop->readings.items[shop->readings.count - 1].date;
    char later[DATE_TEXT];
    date_year_later(last->date, later);
    if (strcmp(pulled, later) <= 0)
        return;
    struct speaker speaker = speaker_at(listener, last->at, last->date);
    speaker_say(&speaker,
                "the gauge's last check is more than a year older than the log's last series, "
                "%s. Check the gauge with weights before you trust it.",
                pulled);
}

void remark_on_logs(const struct shop *shop, const struct remark_sink *listener)
{
    log_notes_remark(shop, listener);
    tell_beyond(shop, listener);
    tell_slope(shop, listener);
    tell_age(shop, listener);
}
