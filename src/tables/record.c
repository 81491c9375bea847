/* The log of pulls: every series, the closing checks over the years, and the record of a
 * setting: what one job found, left and did, and what that rests on. */
#include "report/record.h"
#include "judge/advice.h"
#include "report/remarks.h"
#include "report/report.h"
#include "report/values.h"
#include "report/words.h"
#include "shop/logs.h"
#include "tables/common.h"

#include <math.h>
#include <string.h>

/* ---- cells about a series, the same in every table that shows one ---- */

/* "12°, locked", "before lock" or "not said". */
static const char *nut_and_lock_text(struct arena *arena, const struct pull_series *series)
{
    const char *lock = series_lock_word(series->lock);
    if (!series->nut.unit)
        return lock;
    const char *angle = quantity_text(arena, &series->nut);
    return series->lock == LOCK_UNSAID ? angle : arena_format(arena, "%s, %s", angle, lock);
}

/* "cold, 17 °C", without the way that it turned. */
static const char *warmth_text(struct arena *arena, const struct pull_series *series)
{
    const char *warmth = series->warm ? "warm" : "cold";
    if (!series->temperature.unit)
        return warmth;
    return arena_format(arena, "%s, %s", warmth, quantity_text(arena, &series->temperature));
}

/* A drag, shown to the place of its own uncertainty, and that uncertainty beside it. */
static void put_drag(struct builder *b, const struct judgement *judgement)
{
    const struct unit *unit = judgement->unit;
    put_places(b, "drag", unit->shown, unit_from_base(judgement->drag, unit),
               judgement->shown_u.places)
        ->strong = true;
    put_uncertainty(b, "U", unit->shown,
                    unit_from_base(judgement->measured.drag.sureness.expanded, unit),
                    &judgement->shown_u);
}

/* "● good"; where no limit is on file there is no such column. */
static void put_state(struct builder *b, const struct judgement *judgement)
{
    if (shop_has_limits(b->shop))
        put_text(b, "state", state_text(judgement->state));
}

/* note_reach() over all means of the log. */
static void note_log_reach(const struct builder *b)
{
    double low = INFINITY, high = 0;
    for (size_t i = 0; i < b->shop->readings.count; i++) {
        double mean = b->results->rows[i].judgement.pulls.mean;
        low = fmin(low, mean);
        high = fmax(high, mean);
    }
    note_reach(b, low, high);
}

static void only_no_closing(struct builder *b, const char *head)
{
    only_none(
        b, head,
        "the log holds no series that was turned the usual way, as warm as the limits say "
        "(cold without limits) and not before locking.");
}

/* ---- the log, judged: every series with its drag, how sure it is, its state ---- */

static void add_series(struct builder *b, const struct judged *row)
{
    const struct pull_series *series = row->series;
    const struct judgement *judgement = &row->judgement;
    const struct series *pulls = &judgement->pulls;
    double range = pulls->count < 2 ? NAN : 100 * series_relative_range(pulls);
    double ratio =
        series->breakaway.unit && pulls->mean > 0 ? series->breakaway.base / pulls->mean : NAN;
    next_row(b);
    put_text(b, "date", series->date);
    put_text(b, "nut and lock", nut_and_lock_text(b->arena, series));
    put_text(b, "spindle",
             arena_format(b->arena, "%s%s", warmth_text(b->arena, series),
                          series->other_way ? ", other way" : ""));
    put_pull(b, "mean pull", pulls->mean);
    put_places(b, "range", "%", range, 1);
    put_drag(b, judgement);
    if (!shop_reads_starting(b->shop))
        put_places(b, "breakaway over mean", NULL, ratio, 2);
    put_state(b, judgement);
}

static void note_remarks(const struct builder *b)
{
    struct rows rows = {.arena = b->arena};
    remark_on_pulls(&rows, b->results);
    for (size_t i = 0; i < rows.count; i++) {
        const struct row *row = &rows.items[i];
        if (row->at.line)
            table_note(b->table, "%s, line %d of the log: %s", row->label, row->at.line,
                       row->value);
        else
            table_note(b->table, "%s", row->value);
    }
}

void make_pull_log(struct builder *b)
{
    const struct shop *shop = b->shop;
    if (shop->readings.count == 0) {
        only_none(b, "date", "there is no log yet. Write readings.csv beside the settings.");
        return;
    }
    for (size_t i = 0; i < shop->readings.count; i++)
        add_series(b, &b->results->rows[i]);
    note_remarks(b);
    note_log_reach(b);
    table_note(b->table,
               "Every row of the log stands here. Compare cold with cold and warm with warm.");
    if (shop_has_limits(shop))
        table_note(b->table,
                   "Judged is what was pulled as the limits ask: locked, %s, turned the usual "
                   "way. All else is there to compare.",
                   shop_warmth_word(shop));
    note_inputs(b, true);
}

/* ---- one line for each closing check over the years, with the change against the one before
 * and how sure that change is ---- */

static const char *change_words(const struct drag_change *change)
{
    return !change->clear       ? "within its doubt"
           : change->change < 0 ? "clearly less"
                                : "clearly more";
}

/* last: NULL, there is none. */
static void put_change(struct builder *b, const struct judged *last, const struct judged *now)
{
    const struct unit *unit = now->judgement.unit;
    struct drag_change change = {0};
    b->none = !last;
    if (last)
        change = drag_change_of(&last->judgement, &now->judgement);
    put_places(b, "change", unit->shown, unit_from_base(change.change, unit), change.u.places);
    put_uncertainty(b, "its doubt", unit->shown, decimal_to_double(&change.u.typed), &change.u);
    put_text(b, "that is",
             last && series_nut_moved(last->series, now->series)
                 ? arena_format(b->arena, "nut moved: %s", change_words(&change))
                 : change_words(&change));
    b->none = false;
}

static void add_closing(struct builder *b, const struct judged *last, const struct judged *now)
{
    next_row(b);
    put_text(b, "date", now->series->date);
    put_text(b, "nut", said_text(b->arena, &now->series->nut));
    put_text(b, "cap", said_text(b->arena, &now->series->temperature));
    put_drag(b, &now->judgement);
    put_change(b, last, now);
    put_state(b, &now->judgement);
}

void make_history(struct builder *b)
{
    const struct results *results = b->results;
    const struct judged *last = NULL;
    if (!results->last_job.left) {
        only_no_closing(b, "date");
        return;
    }
    for (size_t i = 0; i < results->row_count; i++)
        if (results->rows[i].closes) {
            add_closing(b, last, &results->rows[i]);
            last = &results->rows[i];
        }
    table_note(
        b->table,
        "The series that closed each job: the last that was turned the usual way, as "
        "warm as the limits say (cold without limits) and locked. Rows less "
        "than %d days apart are one job (a rule of ours). Each is judged by the settings "
        "and the check of the gauge in force on its day.",
        CLOSING_REST_DAYS);
    table_note(b->table,
               "Change: against the line above. Its doubt: the root of the sum of the squares "
               "of the two U. Only a change that is larger is clear.");
    table_note(b->table,
               "Compare at like temperatures, on the same oil. The first year of new bearings "
               "brings less drag: that alone is no lost preload.");
    note_log_reach(b);
    note_inputs(b, true);
}

/* ---- the record of a setting: what was found, what was left, and what was taken beside it
 * ----
 */

/* series NULL: none was taken. */
static void add_part(struct builder *b, const char *name, const struct pull_series *series)
{
    static const struct pull_series nothing;
    next_row(b);
    put_text(b, "series", name);
    b->none = !series;
    if (!series)
        series = &nothing;
    struct judgement judgement = judgement_or_none(b, series);
    put_text(b, "date", series->date);
    put_text(b, "nut", said_text(b->arena, &series->nut));
    put_text(b, "spindle", warmth_text(b->arena, series));
    put_pull(b, "mean pull", judgement.pulls.mean);
    put_drag(b, &judgement);
    put_state(b, &judgement);
    b->none = false;
}

/* Which job it is. */
static const char *job_words(const struct builder *b)
{
    const struct job *job = &b->results->last_job;
    const char *name = job->left->job;
    return name ? arena_format(b->arena, "The job %s, closed on %s.", name, job->closed->date)
                : arena_format(b->arena,
                               "The last job of the log in which the nut was set: its rows lie "
                               "less than %d days apart (a rule of ours).",
                               CLOSING_REST_DAYS);
}

void make_record(struct builder *b)
{
    struct job job = b->results->last_job;
    if (!job.left) {
        only_no_closing(b, "series");
        return;
    }
    add_part(b, "as found", job.found);
    add_part(b, "before locking", job.before);
    add_part(b, "other way round", job.other_way);
    add_part(b, job.left->warm ? "cold" : "warm", job.other_warmth);
    add_part(b, "as left", job.left);
    bold_row(b);
    add_part(b, "checked since", job.since);
    table_note(b->table,
               "%s Checked since: the last check of a nut that stayed. none: not "
               "taken, or the nut has been moved since. Pulls as read. U: sure "
               "within, either way (95 of 100).",
               job_words(b));
    double left = results_row(b->results, job.left)->judgement.pulls.mean;
    note_reach(b, left, left);
    table_note(b->table,
               "A drag inside its window does not prove that the bearings are good or that "
               "the spindle is stiff.");
    note_inputs(b, true);
}

/* ---- what the record rests on: the lathe, its limits, drum, cord, gauge with its check, and
 * when the next is due; and as what it was stored ---- */

static void add_fact(struct builder *b, const char *what, const char *text)
{
    next_row(b);
    put_text(b, "what", what);
    put_text(b, "as the settings and the logs have it", text[0] ? text : "not said");
}

/* text: with values in braces. */
static void add_value(struct builder *b, const char *what, const char *text)
{
    add_fact(b, what, values_fill(b->arena, b->results, text));
}

static void add_limits(struct builder *b)
{
    if (!b->band) {
        add_fact(b, "limits", NO_LIMIT_ON_FILE);
        return;
    }
    add_value(b, "limits from", "{source}");
    add_value(b, "limits for", "{limit-kind}");
    add_value(b, "limits", "{limits} for {band}");
    if (b->shop->limits.basis == BASIS_INCREASE)
        add_value(b, "slack drag, on top", "{slack-drag}");
}

/* The check in force for the series that closed the job; before there is one, after the log. */
static void add_check(struct builder *b)
{
    const struct gauge_check *check = b->results->known.gauge.check;
    add_fact(b, "gauge checked on", check ? check->date : "never: there is no check");
    if (!check)
        return;
    add_fact(b, "gauge checked by", check->by[0] ? check->by : "________________");
    add_fact(b, "known weights", check->named ? check->named : "not said");
    add_fact(b, "their certificate", check->certified ? check->rows[0]->certificate : "none");
}

static void add_tools(struct builder *b)
{
    add_value(b, "drum", "{drum}");
    add_value(b, "cord", "{cord}");
    add_value(b, "effective radius", "{radius}");
    add_value(b, "gauge", "{gauge}");
    add_check(b);
}

static void add_dates(struct builder *b)
{
    struct job job = b->results->last_job;
    if (!job.left) {
        add_fact(b, "closing check", "none yet");
        return;
    }
    add_fact(b, "closing check", job.left->date);
    add_fact(b, "checked since", job.since ? job.since->date : "no");
    add_fact(b, "next check not after", next_check_words(b->arena, b->results));
}

/* As what it was stored, where it was. */
static void add_stored(struct builder *b)
{
    const char *name = b->results->last_job.left ? b->results->last_job.left->job : NULL;
    const struct stored_record *stored = name ? shop_record(b->shop, name) : NULL;
    static const struct {
        const char *what, *key;
    } facts[] = {{"number", "number"},
                 {"issued on", "issued"},
                 {"stored by", "program"},
                 {"fingerprint of the record", "fingerprint"}};
    if (!name)
        return;
    add_fact(b, "job", name);
    if (!stored)
        add_fact(b, "record", "not stored yet");
    for (size_t i = 0; stored && i < sizeof facts / sizeof facts[0]; i++) {
        const char *value = stored_value(&stored->entries, facts[i].key);
        add_fact(b, facts[i].what, value ? value : "");
    }
}

/* The verdict with its risk, as the series that closed the job has them. */
static void add_verdict(struct builder *b)
{
    const struct pull_series *left = b->results->last_job.left;
    struct rows said = {.arena = b->arena};
    if (!left)
        return;
    const struct judged *row = results_row(b->results, left);
    report_judgement(&said, b->results, &row->judgement, left->pulls, NAN);
    for (size_t i = 0; i < said.count; i++) {
        const struct row *at = &said.items[i];
        if (strcmp(at->name, "state") == 0)
            add_fact(b, "verdict", at->value);
        else if (strcmp(at->name, "outside") == 0)
            add_fact(b, "chance that it lies outside",
                     arena_format(b->arena, "%s\u00a0%s", at->value, at->unit));
    }
}

/* By the settings that were in force for the job. */
void make_record_facts(struct builder *b)
{
    const struct job *job = &b->results->last_job;
    add_stored(b);
    if (job->left) {
        b->results = results_as_of(b->arena, b->results, results_row(b->results, job->left));
        b->shop = b->results->shop;
        b->band = b->results->band;
    }
    add_value(b, "lathe", "{lathe}");
    add_value(b, "workshop", "{workshop}");
    add_value(b, "top speed", "{top-speed}");
    add_limits(b);
    add_tools(b);
    add_verdict(b);
    add_dates(b);
    table_note(b->table,
               "The next check: a year later at the latest (our rule), sooner where "
               "your manual says so, and after a crash. Settings %s.",
               b->shop->fingerprint);
}

/* ---- every pull of the series as found and as left, in the unit in which it was read ---- */

/* "14.30, 14.45, 14.35 N", each with its unit where it has another than the next. */
static const char *pulls_words(struct arena *arena, const struct pull_series *series)
{
    const char *words = "";
    for (size_t i = 0; i < series->pull_count; i++) {
        const struct quantity *pull = &series->pulls[i];
        bool as_next = i + 1 < series->pull_count && pull[1].unit == pull->unit;
        words = arena_format(arena, "%s%s%s", words, i ? ", " : "",
                             as_next ? pull->digits : quantity_text(arena, pull));
    }
    return words;
}

static void add_pulls(struct builder *b, const char *name, const struct pull_series *series)
{
    if (!series)
        return;
    next_row(b);
    put_text(b, "series", name);
    put_text(b, "date", series->date);
    put_text(b, "pulls as read", pulls_words(b->arena, series));
    put_text(b, "breakaway", said_text(b->arena, &series->breakaway));
    put_text(b, "drum and cord",
             arena_format(b->arena, "%s, %s", quantity_text(b->arena, &series->drum),
                          quantity_text(b->arena, &series->cord)));
    put_text(b, "by", series->by ? series->by : "not said");
    put_text(b, "note", series->note && series->note[0] && series->job ? series->note : "none");
}

void make_record_pulls(struct builder *b)
{
    const struct job *job = &b->results->last_job;
    if (!job->left) {
        only_no_closing(b, "series");
        return;
    }
    add_pulls(b, "as found", job->found);
    add_pulls(b, "before locking", job->before);
    add_pulls(b, "as left", job->left);
    note_fingerprint(b);
}

/* ---- what was done in the job and shows in no pull ---- */

/* "made-safe" -> "made safe" */
static const char *step_words(struct arena *arena, enum step step)
{
    char *words = arena_text(arena, pull_columns[PULL_STEP].words[step]);
    for (char *at = words; (at = strchr(at, '-'));)
        *at = ' ';
    return words;
}

/* "460 r/min for 10 min, cap 24 °C, room 17 °C; hums". */
static const char *found_words(struct arena *arena, const struct pull_series *at)
{
    const char *words = "";
    if (at->step == STEP_RUN_IN)
        words = arena_format(arena, "%s for %s, cap %s", quantity_text(arena, &at->speed),
                             quantity_text(arena, &at->minutes),
                             quantity_text(arena, &at->temperature));
    if (at->room.unit)
        words = arena_format(arena, "%s%sroom %s", words, words[0] ? ", " : "",
                             quantity_text(arena, &at->room));
    if (at->note[0])
        words = arena_format(arena, "%s%s%s", words, words[0] ? "; " : "", at->note);
    return words[0] ? words : "not said";
}

void make_record_steps(struct builder *b)
{
    const struct job *job = &b->results->last_job;
    if (!job->left || !job->step_count) {
        only_none(b, "step", "the log names no step of this job.");
        return;
    }
    for (const struct pull_series *at = job->steps; at < job->steps + job->step_count; at++) {
        next_row(b);
        put_text(b, "date", at->date);
        put_text(b, "step", step_words(b->arena, at->step));
        put_text(b, "what was done or found", found_words(b->arena, at));
        put_text(b, "by", at->by ? at->by : "not said");
    }
    note_fingerprint(b);
}
