/* What gives cause to look closer without being a fault: in the settings, in the log of pulls,
 * in the log of the gauge's check. One sentence a finding, each with the place of its row. */
#include "report/remarks.h"

#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/results.h"
#include "judge/warmth.h"
#include "number/show.h"
#include "physics/physics.h"
#include "report/record.h"
#include "report/words.h"
#include "shop/shop.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* What is looked at, where each finding goes, and what it is about. */
struct findings {
    const struct results *results;
    const struct shop *shop; /* the settings in force on that day */
    struct rows *rows;
    struct place at;     /* its row; file NULL: nowhere in particular */
    const char *date;    /* of that row, or "" */
    size_t pairs, apart; /* series that have their like the other way round */
};

static void stand_at(struct findings *findings, struct place at, const char *date)
{
    findings->at = at;
    findings->date = date;
}

__attribute__((format(printf, 2, 3))) static void say(const struct findings *findings,
                                                      const char *format, ...)
{
    struct rows *rows = findings->rows;
    va_list args;
    va_start(args, format);
    put_row(rows, "remark", findings->date, arena_vformat(rows->arena, format, args), "");
    va_end(args);
    rows->items[rows->count - 1].at = findings->at;
}

/* ---- the settings ---- */

/* A blank and # begin a remark, within a name too: "ply drum #2". */
static void look_at_cut_texts(const struct findings *all)
{
    struct findings of_text = *all;
    for (size_t i = 0; i < all->shop->text_count; i++) {
        const struct typed_text *text = &all->shop->texts[i];
        stand_at(&of_text, text->at, "");
        if (text->cut)
            say(&of_text, "what stands behind # is not read; if it belongs to the text, put "
                          "all of it in quotes");
    }
}

/* Old names, commas, and units written otherwise: how they were understood. */
static void look_at_readings(const struct findings *all)
{
    struct findings of_value = *all;
    for (size_t i = 0; i < all->shop->read_as_count; i++) {
        stand_at(&of_value, all->shop->read_as[i].at, "");
        say(&of_value, "%s", all->shop->read_as[i].words);
    }
}

/* The band is that of the top speed: where no speed is the top speed, one may be missing. */
static void look_at_speeds(const struct findings *findings)
{
    const struct measures *speeds = &findings->shop->lathe.speeds;
    const struct quantity *top = &findings->shop->lathe.top_speed.q;
    const struct quantity *fastest = speeds->count ? &speeds->items[speeds->count - 1].q : NULL;
    if (fastest && decimal_compare(&fastest->exact, &top->exact) != 0)
        say(findings,
            "no speed of lathe.speeds is lathe.top-speed, %s r/min; the fastest is %s r/min. "
            "Is one missing?",
            top->digits, fastest->digits);
}

/* Whether `times` of the part are more than the whole; exactly. */
static bool more_than(const struct measure *part, int64_t times, const struct measure *whole)
{
    struct decimal factor = decimal_of(times, 0);
    struct decimal many = decimal_multiply(&part->q.exact, &factor);
    return decimal_compare(&many, &whole->q.exact) > 0;
}

/* Millimetres typed for sixteenths of an inch, and the like: rules of thumb of ours. */
static void look_at_lengths(const struct findings *findings)
{
    const struct drum *drum = &findings->shop->drum;
    const struct cord *cord = &findings->shop->cord;
    if (more_than(&cord->diameter, 20, &drum->diameter))
        say(findings,
            "the cord, %s %s, is thicker than a twentieth of the drum, %s %s; is its unit "
            "right?",
            cord->diameter.q.digits, cord->diameter.q.unit->symbol, drum->diameter.q.digits,
            drum->diameter.q.unit->symbol);
    if (more_than(&drum->tolerance, 50, &drum->diameter))
        say(findings,
            "drum.tolerance, %s %s, is more than a fiftieth of the drum; is it right?",
            drum->tolerance.q.digits, drum->tolerance.q.unit->symbol);
    if (more_than(&cord->tolerance, 100, &drum->diameter))
        say(findings,
            "cord.tolerance, %s %s, is more than a hundredth of the drum; is it right?",
            cord->tolerance.q.digits, cord->tolerance.q.unit->symbol);
}

static void look_at_bands(const struct findings *findings)
{
    const struct limits *limits = &findings->shop->limits;
    for (size_t i = 0; i < limits->band_count; i++) {
        const struct band *band = &limits->bands[i];
        const char *from = band->from.q.digits, *to = band->to.q.digits;
        const struct pull_window *window = &findings->results->windows[i].plain;
        struct most_pull most = most_pull_of(findings->results, window);
        if (window->closed)
            say(findings, "band %s-%s r/min: no step of the gauge lies between the limits",
                from, to);
        if (most.beyond && !most.never)
            say(findings, "band %s-%s r/min: %s", from, to,
                most_pull_words(findings->rows->arena, findings->shop, &most));
    }
}

/* Common practice, no source: below a fifth of its capacity few gauges are good. */
static const double least_share = 0.2;

static void look_at_own_band(const struct findings *findings)
{
    const struct shop *shop = findings->shop;
    const struct guarded_window *window = findings->results->own;
    struct most_pull most = most_pull_of(findings->results, &window->plain);
    if (!window->plain.closed && window->closed)
        say(findings, "your band: " CANNOT_DECIDE "; see the table sure-windows");
    if (most.beyond && most.never)
        say(findings, "%s", most_pull_words(findings->rows->arena, shop, &most));
    if (window->plain.low < least_share * shop->gauge.capacity.q.base)
        say(findings,
            "your band: the low pull is below a fifth of the gauge's capacity; take a gauge of "
            "smaller capacity, or check this one with weights near that pull. A smaller drum "
            "helps only as far as it fits the nose of your spindle");
}

/* lbf.in beside lbf.ft, or a point in the wrong place: a foot is twelve inches, and limits that
 * far apart are likely two units mixed up. */
static const double unlike = 6;

static void look_at_units(const struct findings *findings)
{
    const struct limits *limits = &findings->shop->limits;
    double least = INFINITY, most = 0;
    for (size_t i = 0; i < limits->band_count; i++) {
        least = fmin(least, limits->bands[i].high.q.base);
        most = fmax(most, limits->bands[i].high.q.base);
    }
    if (most > unlike * least)
        say(findings,
            "the high limits of the bands lie far apart; is one of them in another unit?");
}

/* For this remark alone, and never shown: the drag of two tapered rollers of that size, turned
 * by hand, with a preload of ten newtons for each millimetre of pitch diameter. Rules of ours,
 * good for an order of size and nothing else. */
static double order_of_size(const struct shop *shop)
{
    struct pitch_diameters pitch = shop_pitch_diameters(shop);
    double load = friction_bearing_load(1e4 * pitch.front, 15); /* N; degrees */
    return churning_drag(shop, 1, 1) + friction_of_load(PALMGREN_LOAD, load, pitch.front) +
           friction_of_load(PALMGREN_LOAD, load, pitch.rear);
}

static void look_at_size(const struct findings *findings)
{
    static const double far = 10;
    const struct limits *limits = &findings->shop->limits;
    double order = order_of_size(findings->shop); /* NaN, and then no remark, without a size */
    for (size_t i = 0; i < limits->band_count; i++) {
        const struct quantity *high = &limits->bands[i].high.q;
        bool too_much = limits->bands[i].high.q.base > far * order;
        struct findings of_band = *findings;
        if (!too_much && !(high->base < order / far))
            continue;
        stand_at(&of_band, limits->bands[i].high.at, "");
        say(&of_band,
            "%s\u00a0%s is far %s than bearings of this size drag when they are turned by "
            "hand; "
            "look into the manual whether its unit is %s, and whether the point stands right",
            high->digits, high->unit->shown, too_much ? "more" : "less", high->unit->shown);
        return;
    }
}

static bool is_higher(const struct measure *a, const struct measure *b)
{
    return decimal_compare(&a->q.exact, &b->q.exact) > 0;
}

/* Practice: the faster the band, the lower its limits. */
static void look_at_order(const struct findings *findings)
{
    const struct limits *limits = &findings->shop->limits;
    for (size_t i = 1; i < limits->band_count; i++) {
        const struct band *slow = &limits->bands[i - 1], *fast = slow + 1;
        if (is_higher(&fast->low, &slow->low) || is_higher(&fast->high, &slow->high))
            say(findings,
                "band %s-%s r/min: its limits are higher than those of the slower band before "
                "it; are rows exchanged?",
                fast->from.q.digits, fast->to.q.digits);
    }
}

void remark_on_settings(struct rows *rows, const struct results *results)
{
    const struct shop *shop = results->shop;
    struct findings findings = {.results = results, .shop = shop, .rows = rows, .date = ""};
    look_at_readings(&findings);
    look_at_cut_texts(&findings);
    look_at_speeds(&findings);
    look_at_lengths(&findings);
    if (!shop_has_limits(shop)) {
        say(&findings, NO_LIMIT_ON_FILE
            ". There are no windows, and a drag is only compared with earlier ones; see the "
            "page \"The manual is lost\"");
        return;
    }
    look_at_bands(&findings);
    look_at_own_band(&findings);
    look_at_units(&findings);
    look_at_size(&findings);
    look_at_order(&findings);
    if (shop->limits.basis == BASIS_ABSOLUTE && given(&shop->limits.slack_drag))
        say(&findings,
            "limits.slack-drag is not used, since limits.basis is absolute: if the manual "
            "limits what the nut adds, write increase there; else leave it out");
}

/* ---- the log of pulls: one row ---- */

static void note_scatter(const struct findings *findings, const struct pull_series *series)
{
    if (series->pull_count < 2)
        say(findings, ONE_PULL ".");
    else if (results_row(findings->results, series)->judgement.odd.scattered)
        say(findings, "rejected: the pulls " TOO_WIDE ". Find the cause, take all again.");
}

/* However it was pulled. */
static void note_never(const struct findings *findings, const struct judgement *judgement)
{
    if (judgement->over_never)
        say(findings,
            "above never-exceed, or not surely below it: do not run it so. Or is it a "
            "slip of the pen?");
}

static void note_unjudged(const struct findings *findings, const struct pull_series *series,
                          const struct judgement *judgement)
{
    if (series->lock == LOCK_UNSAID)
        say(findings,
            "before or after locking is not said: not judged, and no closing check. Write "
            "before or after into the column lock.");
    if (judgement->high && judgement->state != STATE_CLEARLY_HIGH)
        say(findings, "not judged, but " HIGH_UNJUDGED ".");
}

/* Where the nut has been turned to this place, not at every series there. */
static void note_backed_off(const struct findings *findings, const struct pull_series *series,
                            const struct judgement *judgement)
{
    const struct pull_series *from = judgement->backed_off;
    const struct pull_series *first = findings->results->shop->readings.items;
    if (!from || !series->nut.unit ||
        (series > first && !series_nut_moved(&series[-1], series)))
        return;
    say(findings,
        "the nut was backed off from %s, line %d, and not unloaded: no good setting. Unload, "
        "come again from the loose side. If it was unloaded between the two, write a row of "
        "it, with unloaded in the column lock.",
        quantity_text(findings->rows->arena, &from->nut), from->at.line);
}

/* Days without a row: a rule of thumb of ours. */
enum { LONG_REST_DAYS = 5 * 366 };

static double in_celsius(double base)
{
    return unit_from_base(base, unit_find_as("degC", 4, KIND_TEMPERATURE));
}

static void note_warmth(const struct findings *findings, const struct judged *row)
{
    const struct pull_series *series = row->series;
    const struct quantity *room = &findings->shop->run_in.room.q;
    if (!row->warmth_doubted)
        return;
    say(findings,
        "the row says %s, but its cap is at %s\u00a0%s and the room (run-in.room) at "
        "%s. Is the unit another, or the other warmth meant?",
        series->warm ? "warm" : "cold", series->temperature.digits,
        series->temperature.unit->shown, quantity_text(findings->rows->arena, room));
}

static void note_rest(const struct findings *findings, const struct pull_series *series)
{
    if (series > findings->results->shop->readings.items &&
        date_days(series->date) - date_days(series[-1].date) > LONG_REST_DAYS)
        say(findings,
            "more than five years later than the row before, line %d, %s. Is the year right?",
            series[-1].at.line, series[-1].date);
}

/* A row that says it in words alone. */
static void note_unloaded(const struct findings *findings, const struct pull_series *series)
{
    if (series->lock != LOCK_UNLOADED && series->lock != LOCK_AFTER && series->note &&
        strstr(series->note, "unloaded"))
        say(findings,
            "the note says unloaded, the column lock does not: if it was pulled with "
            "the nut unloaded, write unloaded there. Else its place counts for the line.");
}

static bool beyond_gauge(const struct shop *shop, const struct quantity *force)
{
    return decimal_compare(&force->exact, &shop->gauge.capacity.q.exact) > 0;
}

static void note_capacity(const struct findings *findings, const struct pull_series *series)
{
    bool beyond = false;
    for (size_t i = 0; i < series->pull_count; i++)
        beyond = beyond || beyond_gauge(findings->shop, &series->pulls[i]);
    if (beyond)
        say(findings, "a pull is " MORE_THAN_THE_GAUGE ". Was it another gauge?");
    if (series->breakaway.unit && beyond_gauge(findings->shop, &series->breakaway))
        say(findings,
            "the breakaway is " MORE_THAN_THE_GAUGE
            ". It may have been higher still, and the gauge may have suffered: check it with "
            "weights.");
}

static bool same_place(const struct pull_series *a, const struct pull_series *b)
{
    if (!a->nut.unit || !b->nut.unit)
        return !a->nut.unit && !b->nut.unit;
    return decimal_compare(&a->nut.exact, &b->nut.exact) == 0;
}

static bool is_traced(const struct pull_series *series, size_t pull)
{
    for (size_t i = 0; i < series->trace_count; i++)
        if (series->traces[i].pull == pull)
            return true;
    return false;
}

/* A pull in another unit than the gauge shows, or between two of its steps, was not read from
 * it as it is in the settings. */
static void note_steps(const struct findings *findings, const struct pull_series *series)
{
    const struct quantity *step = &findings->shop->gauge.step.q;
    const struct quantity *odd = NULL;
    for (size_t i = 0; i < series->pull_count && !odd; i++) {
        const struct quantity *pull = &series->pulls[i];
        if (is_traced(series, i))
            continue; /* a mean of many readings */
        if (pull->unit != step->unit) {
            say(findings,
                "%s was read, and the gauge's step is %s: is the unit right, or was it another "
                "gauge?",
                quantity_text(findings->rows->arena, pull),
                quantity_text(findings->rows->arena, step));
            return;
        }
        if (decimal_steps_not_below(&pull->exact, &step->exact) !=
            decimal_steps_not_above(&pull->exact, &step->exact))
            odd = pull;
    }
    if (odd)
        say(findings, "%s is no whole step of the gauge, %s: was it read from this gauge?",
            quantity_text(findings->rows->arena, odd),
            quantity_text(findings->rows->arena, step));
}

enum { COPY_WITHIN = 50 }; /* rows: a copy lies near what it was made of */

/* The same pulls in the same way on one day are seldom two series. */
static void note_copy(const struct findings *findings, const struct pull_series *series)
{
    const struct pull_series *first = findings->results->shop->readings.items;
    if (series - first > COPY_WITHIN)
        first = series - COPY_WITHIN;
    for (const struct pull_series *at = series; at-- > first;) {
        bool same = strcmp(at->date, series->date) == 0 && series_alike(at, series) &&
                    same_place(at, series) && at->pull_count == series->pull_count;
        for (size_t i = 0; same && i < series->pull_count; i++)
            same = decimal_compare(&at->pulls[i].exact, &series->pulls[i].exact) == 0;
        if (same) {
            say(findings, "the same pulls in the same way as line %d: was the row copied?",
                at->at.line);
            return;
        }
    }
}

static const double high_breakaway = 2; /* times the mean: a rule of thumb of ours */

static void note_breakaway(const struct findings *findings, const struct pull_series *series,
                           double mean)
{
    if (!series->breakaway.unit)
        return;
    if (series->breakaway.base < mean)
        say(findings,
            "the breakaway is below the steady pull. Were the two exchanged, or was the "
            "spindle turning already?");
    else if (series->breakaway.base > high_breakaway * mean)
        say(findings,
            "the breakaway is more than twice the steady pull (a rule of thumb of ours). Look "
            "for a seal that sticks, stiff grease, a jerk at the start, or a dent in a race.");
}

/* ---- the log of pulls: the two ways round ---- */

/* The like of a series but for the way round, on the same day, the nearest in the log. */
static const struct pull_series *turned_like(const struct shop *shop,
                                             const struct pull_series *series)
{
    const struct pull_series_log *log = &shop->readings;
    struct pull_series wanted = *series;
    wanted.other_way = !series->other_way;
    bool day[2] = {true, true}; /* before it and behind it */
    for (size_t away = 1; day[0] || day[1]; away++)
        for (int later = 0; later < 2; later++) {
            size_t own = (size_t)(series - log->items);
            size_t at = later ? own + away : own - away; /* wraps round before the first */
            day[later] =
                day[later] && at < log->count && strcmp(log->items[at].date, series->date) == 0;
            if (day[later] && series_alike(&log->items[at], &wanted) &&
                same_place(&log->items[at], series))
                return &log->items[at];
        }
    return NULL;
}

static void note_directions(struct findings *findings, const struct judged *row)
{
    const struct pull_series *usual =
        row->series->other_way ? turned_like(findings->results->shop, row->series) : NULL;
    if (!usual || !says_drag(&row->judgement) ||
        !says_drag(&results_row(findings->results, usual)->judgement))
        return;
    findings->pairs++;
    if (!directions_differ(&results_row(findings->results, usual)->judgement.pulls,
                           &row->judgement.pulls, findings->shop->gauge.step.q.base))
        return;
    findings->apart++;
    say(findings,
        "the other way round the mean lies further off than the pulls of line %d among "
        "themselves. Something drags one way: look for a seal lip, a gear, a brake.",
        usual->at.line);
}

/* ---- the log of pulls: against the row before, at the same place ---- */

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

/* As the row has its degrees. A change that goes against what the oil does is not the oil's. */
static void note_caps(const struct findings *findings, const struct judged *row,
                      const struct drag_change *drag_change)
{
    if (!row->other_cap)
        return;
    const struct pull_series *series = row->series, *like = row->like->series;
    double change = in_celsius(series->temperature.base) - in_celsius(like->temperature.base);
    bool fahrenheit = strcmp(series->temperature.unit->symbol, "degF") == 0;
    bool colder = change < 0;
    bool not_oil = drag_change->clear && (drag_change->change < 0) == colder;
    say(findings,
        "the cap is %s\u00a0%s %s than on %s, line %d, the nut locked at the same place. The "
        "oil "
        "alone makes %s drag then%s",
        show_places(fabs(change) * (fahrenheit ? 1.8 : 1), 0).text,
        series->temperature.unit->shown, colder ? "colder" : "warmer", like->date,
        like->at.line, colder ? "more" : "less",
        not_oil ? ", and here it is the other way: it is not the oil."
                : ": leave the nut, and measure again with the cap as it was then.");
}

static void note_change(const struct findings *findings, const struct judged *row)
{
    if (!row->like)
        return;
    const struct pull_series *like = row->like->series;
    struct drag_change change = drag_change_of(&row->like->judgement, &row->judgement);
    note_caps(findings, row, &change);
    if (change.clear)
        say(findings,
            "clearly %s drag than on %s, line %d, the nut locked at the same place. %s",
            change.change < 0 ? "less" : "more", like->date, like->at.line,
            change.change < 0 ? words_of_fall(findings->shop)
                              : "Look for colder or more oil, fresh grease, a dry seal, dirt, "
                                "before you touch the nut.");
}

/* ---- the log of pulls: slips of the pen ---- */

/* A lock may ease the nut; that it does so clearly is more often a slip. */
static void note_exchanged(const struct findings *findings, const struct judged *row)
{
    if (!row->before_lock || !(row->lock_added < 0) ||
        !drag_change_of(&row->before_lock->judgement, &row->judgement).clear)
        return;
    say(findings,
        "clearly less drag than before locking, line %d, at the same place. Were before and "
        "after exchanged?",
        row->before_lock->series->at.line);
}

static void note_series(struct findings *findings, const struct judged *row)
{
    const struct pull_series *series = row->series;
    const struct judgement *judgement = &row->judgement;
    note_scatter(findings, series);
    note_never(findings, judgement);
    note_unjudged(findings, series, judgement);
    note_backed_off(findings, series, judgement);
    note_warmth(findings, row);
    note_rest(findings, series);
    note_unloaded(findings, series);
    if (drag_below_slack(judgement))
        say(findings, BELOW_SLACK ".");
    note_capacity(findings, series);
    note_steps(findings, series);
    note_copy(findings, series);
    note_breakaway(findings, series, judgement->pulls.mean);
    note_directions(findings, row);
    note_exchanged(findings, row);
    note_change(findings, row);
}

void remark_on_pulls(struct rows *rows, const struct results *results)
{
    const struct shop *shop = results->shop;
    struct findings findings = {.results = results, .shop = shop, .rows = rows};
    for (size_t i = 0; i < shop->readings.count; i++) {
        const struct pull_series *series = &shop->readings.items[i];
        stand_at(&findings, series->at, series->date);
        findings.shop = results->rows[i].known.shop;
        note_series(&findings, &results->rows[i]);
    }
    const char *compared =
        findings.pairs
            ? arena_format(
                  rows->arena,
                  "Series compared with the other way round (same day, place, lock and "
                  "warmth): %zu; further apart than the wider of the two ranges: %zu "
                  "(a rule of thumb of ours).",
                  findings.pairs, findings.apart)
            : "No series has its like the other way round on the same day: what drags one way "
              "alone was not looked for.";
    if (shop->readings.count)
        put_row(rows, "both-ways", "", compared, "");
}

/* ---- the log of the gauge's check ---- */

/* A load by its weight: a mass has none of its own. A force as typed is compared exactly. */
static bool load_is_beyond(const struct shop *shop, const struct weighing *weighing)
{
    return weighing->load.unit->kind == KIND_FORCE
               ? beyond_gauge(shop, &weighing->load)
               : weighing_force(shop, weighing) > shop->gauge.capacity.q.base;
}

static bool same_weighing(const struct weighing *a, const struct weighing *b)
{
    return a->down == b->down && a->load.base == b->load.base &&
           a->reading.base == b->reading.base;
}

/* Every one of six weighings and more, in order of their loads, has its like. */
static void look_at_twins(struct findings *findings, const struct gauge_check *check)
{
    for (size_t i = 0; i < check->count; i++) {
        bool found = false;
        for (size_t k = 0; k < check->count && !found; k++)
            found = k != i && same_weighing(check->rows[i], check->rows[k]);
        if (!found)
            return;
    }
    if (check->count < 6)
        return;
    stand_at(findings, check->rows[0]->at, check->date);
    say(findings,
        "every weighing of this check stands in the log twice, with the same reading. "
        "Were the rows written twice? Then delete one of each two.");
}

static void look_at_weighings(struct findings *findings)
{
    const struct shop *shop = findings->shop;
    const struct quantity *capacity = &shop->gauge.capacity.q;
    for (size_t i = 0; i < shop->weighings.count; i++) {
        const struct weighing *weighing = &shop->weighings.items[i];
        bool load = load_is_beyond(shop, weighing);
        stand_at(findings, weighing->at, weighing->date);
        if (load || beyond_gauge(shop, &weighing->reading))
            say(findings, "this %s is " MORE_THAN_THE_GAUGE ", %s %s. Was it another gauge?",
                load ? "load" : "reading", capacity->digits, capacity->unit->symbol);
    }
    const struct gauge_checks *checks = &findings->results->checks;
    for (size_t i = 0; i < checks->count; i++)
        look_at_twins(findings, &checks->items[i]);
    for (size_t i = 0; i < checks->lineless_count; i++) {
        stand_at(findings, checks->lineless[i]->at, checks->lineless[i]->date);
        say(findings,
            "the weighings of this day by this person give no line, by one load alone "
            "or by readings that fall as the load grows: they are not used. Hang three "
            "different loads.");
    }
    const char *slope =
        gauge_slope_words(findings->rows->arena, findings->results->known.gauge.check);
    if (slope[0]) {
        stand_at(findings, shop->weighings.items[0].at, "");
        say(findings, "%s", slope);
    }
}

static void look_at_age(struct findings *findings)
{
    const struct pull_series_log *log = &findings->shop->readings;
    const struct weighing *last = shop_last_weighing(findings->shop);
    char later[DATE_TEXT];
    if (!last || !log->count)
        return;
    const char *pulled = log->items[log->count - 1].date;
    date_year_later(last->date, later);
    if (strcmp(pulled, later) <= 0)
        return;
    stand_at(findings, last->at, last->date);
    say(findings,
        "the gauge's last check is more than a year older than the log's last series, "
        "%s. Check the gauge with weights before you trust it.",
        pulled);
}

void remark_on_weighings(struct rows *rows, const struct results *results)
{
    struct findings findings = {.results = results, .shop = results->shop, .rows = rows};
    look_at_weighings(&findings);
    look_at_age(&findings);
}

void remark_on_all(struct rows *rows, const struct results *results)
{
    remark_on_settings(rows, results);
    remark_on_pulls(rows, results);
    remark_on_weighings(rows, results);
    remark_on_records(rows, results);
}

void remarks_print(const struct rows *rows, const char *before)
{
    for (size_t i = 0; i < rows->count; i++) {
        const struct row *row = &rows->items[i];
        if (strcmp(row->name, "remark") != 0)
            continue;
        printf("%sremark: ", before);
        if (row->at.line)
            printf("%s:%d: ", row->at.file, row->at.line);
        printf("%s%s%s\n", row->label, row->label[0] ? ": " : "", row->value);
    }
}
