#include "verdict/log_notes.h"

#include "drag/compare.h"
#include "number/show.h"
#include "shop/date.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double high_breakaway = 2; /* times the mean: a rule of thumb of ours */

struct notes {
    const struct shop *shop;
    const struct listener *listener;
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
    if (judgement->side == STATE_CLEARLY_HIGH && judgement->state != judgement->side)
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
    double doubt = change_doubt(decimal_to_double(&before->sureness.exact),
                                decimal_to_double(&now->sureness.exact));
    change.doubt = sureness_in(doubt, now->unit);
    change.clear = fabs(change.change) > decimal_to_double(&change.doubt.exact);
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
    notes->listener->hear(notes->listener->to,
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

void log_notes_tell(const struct shop *shop, const struct listener *listener)
{
    struct notes notes = {.shop = shop, .listener = listener};
    for (size_t i = 0; i < shop->readings.count; i++)
        tell_series(&notes, &shop->readings.items[i]);
    if (shop->readings.count)
        tell_pairs(&notes);
}

void log_notes_remark(const struct shop *shop, const struct listener *listener)
{
    struct notes notes = {.shop = shop, .listener = listener, .as_remarks = true};
    for (size_t i = 0; i < shop->readings.count; i++)
        tell_series(&notes, &shop->readings.items[i]);
}
