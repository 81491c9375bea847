/* Cells about a series of the log, the same in every table that shows one. */
#include "judge/job.h"
#include "judge/series.h"
#include "judge/window.h"
#include "report/remarks.h"
#include "shop/shop.h"
#include "tables/common.h"

#include <math.h>

/* "12°, locked", "before lock" or "not said". */
static const char *series_nut_text(struct arena *arena, const struct pull_series *series)
{
    const char *lock = series_lock_word(series->lock);
    if (!series->nut.unit)
        return lock;
    const char *angle = quantity_text(arena, &series->nut);
    return series->lock == LOCK_UNSAID ? angle : arena_format(arena, "%s, %s", angle, lock);
}

static const char *said(struct arena *arena, const struct quantity *quantity)
{
    return quantity->unit ? quantity_text(arena, quantity) : "not said";
}

/* The place of the nut, and the temperature of the cap; "not said". */
static const char *series_place_text(struct arena *arena, const struct pull_series *series)
{
    return said(arena, &series->nut);
}

static const char *series_cap_text(struct arena *arena, const struct pull_series *series)
{
    return said(arena, &series->temperature);
}

/* "cold, 17 °C", without the way that it turned. */
static const char *series_warmth_text(struct arena *arena, const struct pull_series *series)
{
    const char *warmth = series->warm ? "warm" : "cold";
    if (!series->temperature.unit)
        return warmth;
    return arena_format(arena, "%s, %s", warmth, quantity_text(arena, &series->temperature));
}

/* "cold, 17 °C, other way". */
static const char *series_spindle_text(struct arena *arena, const struct pull_series *series)
{
    return arena_format(arena, "%s%s", series_warmth_text(arena, series),
                        series->other_way ? ", other way" : "");
}

/* The mean pull in the gauge's unit, one place finer than its step. */
static void put_series_mean(const struct table_ask *ask, struct cell *cell,
                            const struct judgement *judgement)
{
    const struct quantity *step = &ask->shop->gauge.step.q;
    double mean = unit_from_base(judgement->pulls.mean, step->unit);
    put_number(ask->arena, cell, mean,
               show_places(mean, decimal_places(&step->typed) + 1).text);
}

/* A drag, shown to the place of its own uncertainty, and that uncertainty beside it. */
static void put_series_drag(const struct table_ask *ask, struct cell *cell,
                            const struct judgement *judgement)
{
    const struct unit *unit = judgement->unit;
    double drag = unit_from_base(judgement->drag, unit);
    char digits[DECIMAL_TEXT];
    put_number(ask->arena, cell, drag, show_places(drag, judgement->shown_u.places).text);
    decimal_print(&judgement->shown_u.typed, judgement->shown_u.places, digits);
    put_number(ask->arena, cell + 1, unit_from_base(judgement->uncertainty.expanded, unit),
               digits);
}

/* "● good". */
static void put_state_words(const struct table_ask *ask, struct cell *cell, enum state state)
{
    char text[STATE_TEXT];
    state_text(state, text);
    put_text(cell, arena_text(ask->arena, text));
}

/* note_reach() over all means of the log. */
static void note_log_reach(struct table *table, const struct shop *shop)
{
    double low = INFINITY, high = 0;
    for (size_t i = 0; i < shop->readings.count; i++) {
        const struct pull_series *series = &shop->readings.items[i];
        double mean = series_of_pulls(series->pulls, series->pull_count).mean;
        low = fmin(low, mean);
        high = fmax(high, mean);
    }
    note_reach(table, shop, low, high);
}

/* The log of pulls, judged: every series with its drag, how sure it is, its state. */

static void add_columns(const struct table_ask *ask, struct table *table)
{
    const char *drag = shop_drag_unit(ask->shop)->shown;
    table_column(table, COLUMN_TEXT, "date", NULL);
    table_column(table, COLUMN_TEXT, "nut and lock", NULL);
    table_column(table, COLUMN_TEXT, "spindle", NULL);
    table_column(table, COLUMN_NUMBER, "mean pull", ask->shop->gauge.step.q.unit->shown);
    table_column(table, COLUMN_NUMBER, "range", "%");
    table_column(table, COLUMN_NUMBER, "drag", drag)->strong = true;
    table_column(table, COLUMN_NUMBER, "U", drag);
    table_column(table, COLUMN_NUMBER, "breakaway over mean", NULL);
    if (shop_has_limits(ask->shop))
        table_column(table, COLUMN_TEXT, "state", NULL);
}

static void put_range(const struct table_ask *ask, struct cell *cell,
                      const struct series *pulls)
{
    double range = 100 * series_relative_range(pulls);
    if (pulls->count < 2 || !isfinite(range))
        put_text(cell, "none");
    else
        put_number(ask->arena, cell, range, show_places(range, 1).text);
}

static void put_breakaway(const struct table_ask *ask, struct cell *cell,
                          const struct pull_series *series, double mean)
{
    if (!series->breakaway.unit || !(mean > 0))
        put_text(cell, "none");
    else
        put_number(ask->arena, cell, series->breakaway.base / mean,
                   show_places(series->breakaway.base / mean, 2).text);
}

static void add_row(const struct table_ask *ask, struct table *table,
                    const struct pull_series *series)
{
    struct judgement judgement = judge_series(ask->shop, series);
    struct cell *cell = table_row(table);
    put_text(cell, series->date);
    put_text(cell + 1, series_nut_text(ask->arena, series));
    put_text(cell + 2, series_spindle_text(ask->arena, series));
    put_series_mean(ask, cell + 3, &judgement);
    put_range(ask, cell + 4, &judgement.pulls);
    put_series_drag(ask, cell + 5, &judgement);
    put_breakaway(ask, cell + 7, series, judgement.pulls.mean);
    if (judgement.band)
        put_state_words(ask, cell + 8, judgement.state);
}

static void add_note(void *table, const char *note)
{
    table_note(table, "%s", note);
}

struct table *make_pull_log(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct table *table = table_new(
        ask->arena, "pull-log",
        shop_has_limits(shop) ? arena_format(ask->arena, "The log of pulls, judged for %s",
                                             band_text(ask->arena, shop_own_band(shop)))
                              : "The log of pulls, " NO_LIMIT_ON_FILE);
    if (shop->readings.count == 0) {
        table_column(table, COLUMN_TEXT, "date", NULL);
        put_text(table_row(table), "none");
        table_note(table, "none: there is no log yet. Write readings.csv beside the settings.");
        return table;
    }
    add_columns(ask, table);
    for (size_t i = 0; i < shop->readings.count; i++)
        add_row(ask, table, &shop->readings.items[i]);
    note_on_pull_log(shop, &(struct remark_sink){add_note, table});
    note_log_reach(table, shop);
    table_note(table,
               "Every row of the log stands here. Compare cold with cold and warm with warm.");
    if (shop_has_limits(shop))
        table_note(table,
                   "Judged is what was pulled as the limits ask: locked, %s, turned the usual "
                   "way. All else is there to compare.",
                   shop_warmth_word(shop));
    note_inputs(table, shop, true);
    return table;
}

/* One line for each closing check over the years, with the change against the one before
 * and how sure that change is. */

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct pull_series *last; /* closing series of the job before; NULL at first */
    struct judgement last_judgement;
};

static void history_add_columns(const struct builder *b)
{
    const char *drag = shop_drag_unit(b->ask->shop)->shown;
    table_column(b->table, COLUMN_TEXT, "date", NULL);
    table_column(b->table, COLUMN_TEXT, "nut", NULL);
    table_column(b->table, COLUMN_TEXT, "cap", NULL);
    table_column(b->table, COLUMN_NUMBER, "drag", drag)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "U", drag);
    table_column(b->table, COLUMN_NUMBER, "change", drag);
    table_column(b->table, COLUMN_NUMBER, "its doubt", drag);
    table_column(b->table, COLUMN_TEXT, "that is", NULL);
    if (shop_has_limits(b->ask->shop))
        table_column(b->table, COLUMN_TEXT, "state", NULL);
}

static const char *words_of(const struct builder *b, const struct drag_change *change,
                            const struct pull_series *series)
{
    const char *words = !change->clear       ? "within its doubt"
                        : change->change < 0 ? "clearly less"
                                             : "clearly more";
    if (!series_nut_moved(b->last, series))
        return words;
    return arena_format(b->ask->arena, "nut moved: %s", words);
}

static void put_change(const struct builder *b, struct cell *cell,
                       const struct pull_series *series, const struct judgement *judgement)
{
    if (!b->last) {
        for (int i = 0; i < 3; i++)
            put_text(cell + i, "none");
        return;
    }
    struct drag_change change = drag_change_of(&b->last_judgement, judgement);
    double amount = unit_from_base(change.change, judgement->unit);
    char digits[DECIMAL_TEXT];
    decimal_print(&change.u.typed, change.u.places, digits);
    put_number(b->ask->arena, cell, amount, show_places(amount, change.u.places).text);
    put_number(b->ask->arena, cell + 1, decimal_to_double(&change.u.typed), digits);
    put_text(cell + 2, words_of(b, &change, series));
}

static void history_add_row(struct builder *b, const struct pull_series *series)
{
    struct judgement judgement = judge_series(b->ask->shop, series);
    struct cell *cell = table_row(b->table);
    put_text(cell, series->date);
    put_text(cell + 1, series_place_text(b->ask->arena, series));
    put_text(cell + 2, series_cap_text(b->ask->arena, series));
    put_series_drag(b->ask, cell + 3, &judgement);
    put_change(b, cell + 5, series, &judgement);
    if (judgement.band)
        put_state_words(b->ask, cell + 8, judgement.state);
    b->last = series;
    b->last_judgement = judgement;
}

static void add_notes(const struct builder *b)
{
    table_note(
        b->table,
        "The series that closed each job: the last that was turned the usual way, as "
        "warm as the limits say (cold without limits) and locked. Rows less "
        "than %d days apart are one job (a rule of ours). All are judged with the gauge, "
        "the tolerances and the limits of today.",
        CLOSING_REST_DAYS);
    table_note(b->table,
               "Change: against the line above. Its doubt: the root of the sum of the squares "
               "of the two U. Only a change that is larger is clear.");
    table_note(b->table,
               "Compare at like temperatures, on the same oil. The first year of new bearings "
               "brings less drag: that alone is no lost preload.");
    note_log_reach(b->table, b->ask->shop);
    note_inputs(b->table, b->ask->shop, true);
}

static void fill(struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    history_add_columns(b);
    for (size_t first = 0; first < shop->readings.count;) {
        struct job job = job_at(shop, first);
        if (job.left)
            history_add_row(b, job.left);
        first = job.end;
    }
    add_notes(b);
}

struct table *make_history(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct builder b = {.ask = ask};
    b.table = table_new(ask->arena, "history",
                        shop_has_limits(shop)
                            ? arena_format(ask->arena, "The closing checks, judged for %s",
                                           band_text(ask->arena, shop_own_band(shop)))
                            : "The closing checks, " NO_LIMIT_ON_FILE);
    if (job_last(shop).left) {
        fill(&b);
        return b.table;
    }
    table_column(b.table, COLUMN_TEXT, "date", NULL);
    put_text(table_row(b.table), "none");
    note_no_closing(b.table);
    return b.table;
}

/* The last job of the log as a certificate: what was found, what was left, and what was
 * taken beside it. */

static void certificate_add_columns(const struct table_ask *ask, struct table *table)
{
    const char *drag = shop_drag_unit(ask->shop)->shown;
    table_column(table, COLUMN_TEXT, "series", NULL);
    table_column(table, COLUMN_TEXT, "date", NULL);
    table_column(table, COLUMN_TEXT, "nut", NULL);
    table_column(table, COLUMN_TEXT, "spindle", NULL);
    table_column(table, COLUMN_NUMBER, "mean pull", ask->shop->gauge.step.q.unit->shown);
    table_column(table, COLUMN_NUMBER, "drag", drag)->strong = true;
    table_column(table, COLUMN_NUMBER, "U", drag);
    if (shop_has_limits(ask->shop))
        table_column(table, COLUMN_TEXT, "state", NULL);
}

static void add_series(const struct table_ask *ask, struct table *table, const char *name,
                       const struct pull_series *series)
{
    struct cell *cell = table_row(table);
    put_text(cell, name);
    for (size_t i = 1; i < table->column_count; i++)
        put_text(cell + i, "none");
    if (!series)
        return;
    struct judgement judgement = judge_series(ask->shop, series);
    put_text(cell + 1, series->date);
    put_text(cell + 2, series_place_text(ask->arena, series));
    put_text(cell + 3, series_warmth_text(ask->arena, series));
    put_series_mean(ask, cell + 4, &judgement);
    put_series_drag(ask, cell + 5, &judgement);
    if (judgement.band)
        put_state_words(ask, cell + 7, judgement.state);
}

static void add_rows(const struct table_ask *ask, struct table *table, const struct job *job)
{
    add_series(ask, table, "as found", job->found);
    add_series(ask, table, "before locking", job->before);
    add_series(ask, table, "other way round", job->other_way);
    add_series(ask, table, job->left->warm ? "cold" : "warm", job->other_warmth);
    add_series(ask, table, "as left", job->left);
    struct cell *last = &table->cells[(table->row_count - 1) * table->column_count];
    for (size_t i = 0; i < table->column_count; i++)
        last[i].strong = true;
    add_series(ask, table, "checked since", job->since);
}

struct table *make_certificate(const struct table_ask *ask)
{
    struct job job = job_last(ask->shop);
    struct table *table = table_new(
        ask->arena, "certificate",
        shop_has_limits(ask->shop) ? "What was found and what was left"
                                   : "What was found and what was left, " NO_LIMIT_ON_FILE);
    if (!job.left) {
        table_column(table, COLUMN_TEXT, "series", NULL);
        put_text(table_row(table), "none");
        note_no_closing(table);
        return table;
    }
    certificate_add_columns(ask, table);
    add_rows(ask, table, &job);
    table_note(
        table,
        "The last job of the log in which the nut was set: its rows lie less than %d days "
        "apart (a rule of ours). Checked since: the last check of a nut that stayed. none: not "
        "taken, or the nut has been moved since. U: sure within, either "
        "way (95 of 100).",
        CLOSING_REST_DAYS);
    double left = series_of_pulls(job.left->pulls, job.left->pull_count).mean;
    note_reach(table, ask->shop, left, left);
    table_note(table,
               "A drag inside its window does not prove that the bearings are good or that "
               "the spindle is stiff.");
    note_inputs(table, ask->shop, true);
    return table;
}

/* What a certificate rests on: the lathe, its limits, drum, cord, gauge, and when the next
 * check is due. */

static const char blank[] = "________________";

struct certificate_facts_builder {
    const struct table_ask *ask;
    struct table *table;
};

static void add_fact(const struct certificate_facts_builder *b, const char *what,
                     const char *text)
{
    struct cell *cell = table_row(b->table);
    put_text(cell, what);
    put_text(cell + 1, text && text[0] ? text : "not said");
}

/* ", turned drum, no. 1" */
static const char *behind(const struct certificate_facts_builder *b, const char *name)
{
    return name ? arena_format(b->ask->arena, ", %s", name) : "";
}

static const char *sized(const struct certificate_facts_builder *b, const struct measure *size,
                         const struct measure *tolerance, const char *name)
{
    return arena_format(b->ask->arena, "%s ± %s%s", quantity_text(b->ask->arena, &size->q),
                        quantity_text(b->ask->arena, &tolerance->q), behind(b, name));
}

static void add_limits(const struct certificate_facts_builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct arena *arena = b->ask->arena;
    const struct band *band = shop_own_band(shop);
    if (!band) {
        add_fact(b, "limits", NO_LIMIT_ON_FILE);
        return;
    }
    add_fact(b, "limits from", shop->limits.source);
    char kind[LIMIT_KIND_TEXT];
    shop_limit_kind(shop, kind);
    add_fact(b, "limits for", arena_text(arena, kind));
    add_fact(b, "limits",
             arena_format(arena, "%s to %s for %s", quantity_text(arena, &band->low.q),
                          quantity_text(arena, &band->high.q), band_text(arena, band)));
    if (shop->limits.basis == BASIS_INCREASE)
        add_fact(b, "slack drag, on top", quantity_text(arena, &shop->limits.slack_drag.q));
}

static void add_rig(const struct certificate_facts_builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct arena *arena = b->ask->arena;
    add_fact(b, "drum", sized(b, &shop->drum.diameter, &shop->drum.tolerance, shop->drum.name));
    add_fact(b, "cord", sized(b, &shop->cord.diameter, &shop->cord.tolerance, shop->cord.name));
    add_fact(b, "effective radius", arena_text(arena, radius_words(shop).text));
    add_fact(b, "gauge",
             arena_format(
                 arena, "%s in steps of %s%s", quantity_text(arena, &shop->gauge.capacity.q),
                 quantity_text(arena, &shop->gauge.step.q), behind(b, shop->gauge.name)));
}

static void add_weighing(const struct certificate_facts_builder *b)
{
    const struct weighing *last = shop_last_weighing(b->ask->shop);
    add_fact(b, "gauge checked on", last ? last->date : "never: there is no log of weights");
    if (last)
        add_fact(b, "gauge checked by", last->by[0] ? last->by : blank);
}

static void add_dates(const struct certificate_facts_builder *b)
{
    struct job job = job_last(b->ask->shop);
    char later[DATE_TEXT];
    if (!job.left) {
        add_fact(b, "closing check", "none yet");
        return;
    }
    const struct pull_series *last = job.since ? job.since : job.left;
    enum state state = judge_series(b->ask->shop, last).state;
    bool good = state == STATE_GOOD || state == STATE_NO_LIMIT;
    date_year_later(last->date, later);
    add_fact(b, "closing check", job.left->date);
    add_fact(b, "checked since", job.since ? job.since->date : "no");
    add_fact(b, "next check not after",
             good ? arena_text(b->ask->arena, later) : "none: not good, set again");
}

struct table *make_certificate_facts(const struct table_ask *ask)
{
    const struct lathe *lathe = &ask->shop->lathe;
    struct certificate_facts_builder b = {.ask = ask};
    b.table = table_new(ask->arena, "certificate-facts", "What the certificate rests on");
    table_column(b.table, COLUMN_TEXT, "what", NULL);
    table_column(b.table, COLUMN_TEXT, "as the settings and the logs have it", NULL);
    add_fact(&b, "lathe", lathe->name);
    add_fact(&b, "workshop", lathe->workshop);
    add_fact(&b, "top speed", quantity_text(ask->arena, &lathe->top_speed.q));
    add_limits(&b);
    add_rig(&b);
    add_weighing(&b);
    add_dates(&b);
    table_note(b.table,
               "The next check: a year later at the latest (our rule), sooner where "
               "your manual says so, and after a crash. Settings %s.",
               ask->shop->fingerprint);
    return b.table;
}
